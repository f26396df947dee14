/** The whole page around a card: one question box, the edition, the answer. */
import type { Child } from "hono/jsx";
import { printNumber } from "../core/print.ts";
import type { Place } from "./card.tsx";

export type Choice = { id: string; title: string };
export type DocumentProps = {
  place: Place;
  title: string;
  question: string;
  editions: readonly Choice[];
  children?: Child;
};

const NAME = "Deadfront";

export function document({ place, title, question, editions, children }: DocumentProps): string {
  const home = place.action === "/embed" ? "/embed" : "/";
  const page = (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="color-scheme" content="light dark" />
        <meta name="description" content="Electrical calculations by the code, every step shown." />
        <title>{title === "" ? NAME : `${title} · ${NAME}`}</title>
        <link rel="icon" href="/favicon.svg" type="image/svg+xml" />
        <link rel="stylesheet" href="/page.css" />
        <script src="/page.js" type="module"></script>
      </head>
      <body class={place.action === "/embed" ? "embedded" : undefined}>
        <header class="plate">
          <a href={home}>
            <h1>{NAME}</h1>
          </a>
          {question === "" && <p>Ask a sizing question. Get the number, and every step behind it.</p>}
        </header>
        <main>
          <form class="ask" action={place.action} data-ask>
            <label for="question">Your question</label>
            <textarea id="question" name="q" rows={2} maxlength={4000} required>{question}</textarea>
            <div>
              <label for="edition">Code</label>
              <select id="edition" name="edition">
                {editions.map(({ id, title }) => (
                  <option value={id} selected={id === place.edition}>{/^\d+$/.test(id) ? id : title}</option>
                ))}
              </select>
              <button type="submit">Work it out</button>
            </div>
          </form>
          <div id="outcome">{children}</div>
          <p id="announce" class="said" role="status"></p>
        </main>
        <footer>
          <a href={home}>What can be asked</a> <a href={`${home}#editions`}>Editions and how well checked</a>{" "}
          <a href="/openapi.json">For programs</a>
        </footer>
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

/** What can be asked, with questions that can be tapped, and how well each edition's values are checked. */
export function Start({ place, questions, editions }: StartProps) {
  return (
    <div class="card">
      <section aria-labelledby="start">
        <h2 id="start">Questions to try</h2>
        <ul>
          {questions.map(({ title, about, examples }) => (
            <li>
              <h3>{title}</h3>
              <p>{about}</p>
              {examples.slice(0, 1).map((example) => (
                <a
                  class="handle slip"
                  data-ask
                  href={`${place.action}?${new URLSearchParams({ q: example, edition: place.edition })}`}
                >
                  {example}
                </a>
              ))}
            </li>
          ))}
        </ul>
      </section>
      <section aria-labelledby="editions">
        <h2 id="editions">Editions, and how well their values are checked</h2>
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
      </section>
    </div>
  );
}

/** A call that went wrong, told to a person. */
export const Trouble = ({ title, detail }: { title: string; detail: string }) => (
  <section class="card declined" aria-labelledby="headline">
    <h2 id="headline">{title}</h2>
    <p>{detail}</p>
    <p>
      <a class="handle" href="/">Ask a question</a>
    </p>
  </section>
);
