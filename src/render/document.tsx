/** The whole page: the conversation, and the box at the thumb that goes on with it. */
import type { Child } from "hono/jsx";
import { printNumber } from "../core/print.ts";
import { LONGEST_QUESTION } from "../outcomes.ts";
import { asking, type Place, target } from "./place.ts";

type Choice = { id: string; title: string };
/** What the page's script is made of: asked for at once, not one after the other over one bar of signal. */
const SCRIPTS = ["asking", "elements", "frame", "pass-on", "talk", "thread"];

type DocumentProps = {
  place: Place;
  title: string;
  /** What a preview of the link tells beneath its title. */
  description?: string;
  /** What stands in the box. */
  question?: string;
  /** An example in an empty box. */
  example?: string;
  editions: readonly Choice[];
  children?: Child;
};

const NAME = "Deadfront";
const ABOUT = "Load, breaker, wire, ground: worked out by the code, every step shown.";

export function document(
  { place, title, description = ABOUT, question = "", example, editions, children }: DocumentProps,
): string {
  const home = place.action === "/embed" ? "/embed" : "/";
  const shown = title === "" ? NAME : `${title} · ${NAME}`;
  const asked = place.after.length > 0;
  const page = (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1, interactive-widget=resizes-content" />
        <meta name="color-scheme" content="light dark" />
        <meta name="description" content={description} />
        <meta property="og:title" content={title === "" ? NAME : title} />
        <meta property="og:description" content={description} />
        <meta property="og:site_name" content={NAME} />
        <meta property="og:type" content="website" />
        <title>{shown}</title>
        <link rel="icon" href="/favicon.svg" type="image/svg+xml" />
        <link rel="stylesheet" href="/page.css" />
        {SCRIPTS.map((name) => <link rel="modulepreload" href={`/${name}.js`} />)}
        <script src="/page.js" type="module"></script>
      </head>
      <body class={place.action === "/embed" ? "embedded" : undefined}>
        <header class="plate">
          <a href={home}>
            <h1>{NAME}</h1>
          </a>
          <a class="new" href={home} data-new hidden={!asked}>New question</a>
        </header>
        <main>
          <div id="thread">{children}</div>
          <p id="announce" class="unseen" role="status"></p>
        </main>
        {asked && (
          <footer>
            <a href={`${home}#kinds`} target={target(place)}>What it works out</a>{" "}
            <a href={`${home}#editions`} target={target(place)}>Editions and how well checked</a>
          </footer>
        )}
        <form class="ask" action={place.action} data-ask="on" aria-label="Question">
          <p id="goes-on" class="goes-on" hidden></p>
          <label for="question" class="unseen">{asked ? "Change it or ask on" : "Your question"}</label>
          <textarea
            id="question"
            name="q"
            rows={1}
            maxlength={LONGEST_QUESTION}
            required
            placeholder={asked ? "Change it or ask on" : example}
          >
            {question}
          </textarea>
          <div>
            <label for="edition">Code</label>
            <select id="edition" name="edition" aria-label="Code">
              {editions.map(({ id, title }) => (
                <option value={id} selected={id === place.edition}>{/^\d+$/.test(id) ? id : title}</option>
              ))}
            </select>
            <button type="button" class="handle slip" data-again hidden>Work it out by this code</button>
            <button type="submit" class="send">Work it out</button>
          </div>
          {place.after.map((text) => <input type="hidden" name="after" value={text} />)}
        </form>
      </body>
    </html>
  );
  return `<!DOCTYPE html>${page}`;
}

const GRADES: Record<string, string> = { "two sources": "in two sources", "one source": "in one source" };

type StartProps = {
  place: Place;
  questions: readonly { title: string; about: string; examples: readonly string[] }[];
  editions: readonly (Choice & { verified: Readonly<Record<string, number>> })[];
};

/** An empty page: what it is for, and one tap away what can be asked and how well each edition is checked. */
export function Start({ place, questions, editions }: StartProps) {
  const example = questions[0]?.examples[0];
  return (
    <section class="card start" aria-labelledby="start">
      <h2 id="start">Say the job as you would text it.</h2>
      {example && (
        <p>
          <a class="handle slip" data-ask="on" href={asking(place, example)}>{example}</a>
        </p>
      )}
      <details id="kinds">
        <summary>What it works out</summary>
        <ul>
          {questions.map(({ title, about, examples }) => (
            <li>
              <h3>{title}</h3>
              <p>{about}</p>
              {examples.slice(0, 1).map((example) => (
                <a class="handle slip" data-ask="on" href={asking(place, example)}>{example}</a>
              ))}
            </li>
          ))}
        </ul>
      </details>
      <details id="editions">
        <summary>Editions, and how well their values are checked</summary>
        <ul>
          {editions.map(({ title, verified }) => (
            <li>
              <h3>{title}</h3>
              <p>
                {Object.entries(verified).filter(([, count]) => count > 0)
                  .map(([grade, count]) => `${printNumber(String(count))} ${GRADES[grade] ?? grade}`).join(", ")}
              </p>
            </li>
          ))}
        </ul>
        <p>A step that used a value with less than two sources says so.</p>
      </details>
      <p>
        <a class="programs" href="/openapi.json" target={target(place)}>For programs</a>
      </p>
    </section>
  );
}

/** A call that went wrong, told to a person. */
export const Trouble = ({ title, detail, home }: { title: string; detail: string; home: string }) => (
  <section class="card declined" aria-labelledby="headline">
    <h2 id="headline">{title}</h2>
    <p>{detail}</p>
    <p>
      <a class="handle" href={home}>Ask a question</a>
    </p>
  </section>
);
