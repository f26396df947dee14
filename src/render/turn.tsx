/** One turn of a conversation: what was asked, in the asker's words, and the card that answers it. */
import type { Child } from "hono/jsx";
import type { Outcome } from "../outcomes.ts";
import { card } from "./card.tsx";
import { printOne } from "./outcome.ts";
import { stretches } from "./pieces.ts";
import { asking, type Place } from "./place.ts";

type Turn = { question: string; outcome: Outcome };

/**
 * The turn in full.
 * @param place its `after` ends with this turn's own question
 */
export function TurnInFull({ question, outcome, place }: Turn & { place: Place }) {
  const all = [outcome, ...(outcome.more ?? [])];
  return (
    <section class="turn" {...kept(outcome, place)}>
      <AskedText question={question} outcome={outcome} place={place} />
      {all.map((each, i) => printOne<Child>(each, card(i === 0 ? place : { ...place, id: `${place.id}${i}-` })))}
    </section>
  );
}

/** What the page's script keeps of a turn: the texts that lead to it, and the thread that goes on from it. */
const kept = (outcome: Outcome, { after, edition }: Place) => ({
  "data-after": JSON.stringify(after),
  "data-edition": edition,
  "data-thread": JSON.stringify(outcome.thread ?? null),
});

/** An earlier turn, folded to its first line, which leads to its whole answer. */
export function TurnInShort({ question, outcome, place }: Turn & { place: Place }) {
  const line = outcome.outcome === "answered"
    ? outcome.answer.headline
    : outcome.outcome === "unclear"
    ? outcome.needs.map(({ ask }) => ask).join(" ")
    : outcome.because;
  return (
    <section class="turn short" {...kept(outcome, place)}>
      <AskedText question={question} outcome={outcome} place={place} />
      <p class="card folded">
        <a class="first" href={asking(place, question, place.after.slice(0, -1))}>{line}</a>
      </p>
    </section>
  );
}

/** The asker's own words; those that nothing read are marked. */
function AskedText({ question, outcome, place }: Turn & { place: Place }) {
  const account = outcome.outcome === "answered" ? outcome.answer.account : undefined;
  const unread = outcome.outcome === "unclear" && outcome.unused.length > 0
    ? { taken: [], setAside: [], unread: outcome.unused }
    : undefined;
  const long = question.length > 400;
  return (
    <div
      class="asked"
      role={long ? "region" : undefined}
      aria-label={long ? "Asked" : undefined}
      tabindex={long ? 0 : undefined}
    >
      {stretches(question, account ?? unread).map(({ text, at, is, why }) => {
        switch (is) {
          case "plain":
            return text;
          case "taken":
            return <span id={`${place.id}w${at}`} tabindex={-1}>{text}</span>;
          case "set aside":
            return <span class="set-aside" title={why}>{text}</span>;
          case "unread":
            return <mark class="unread" title={why}>{text}</mark>;
        }
      })}
    </div>
  );
}
