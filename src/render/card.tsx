/** HTML of an outcome: the directory card on the door, steps one tap away. */
import type { Child } from "hono/jsx";
import type { Change } from "../core/outcome.ts";
import { absolute, type Asked, changed, type Declined, type Printer } from "./outcome.ts";
import type { Page, Part, Row } from "./page.ts";
import { text } from "./text.ts";

/** Where the page stands: the address its forms and links lead to, and the origin a shared link starts with. */
export type Place = { action: "/answer" | "/embed"; origin: string; edition: string };
const STAMPS = { "ok": "OK", "not ok": "Not OK", "ok if": "OK if" } as const;

/** @param asked the text as it was sent, and the earlier text it changed, if any. */
export const card = (place: Place, asked: { question: string; after?: string }): Printer<Child> => ({
  answered: (page, changes = []) => <Answer page={page} changes={changes} place={place} />,
  unclear: (back) => <AskedBack {...back} asked={asked} place={place} />,
  notCovered: (declined) => <NotCovered {...declined} />,
  together: (parts) => <>{parts}</>,
});

function Answer({ page, changes, place }: { page: Page; changes: readonly Change[]; place: Place }) {
  const said = new URLSearchParams(page.link.split("?")[1]).get("q") ?? "";
  const change = (words: string) => link(place, { q: words, after: said, edition: page.edition });
  return (
    <article class="card" aria-labelledby="headline">
      <p class="filed">
        <span>{page.title}</span> <span>{page.editionTitle}</span>
      </p>
      {page.verdict && (
        <p class={`stamp ${page.verdict.is.replace(" ", "-")}`}>
          <span>{STAMPS[page.verdict.is]}</span>
        </p>
      )}
      <NotRead words={page.unused} />
      <Headline headline={page.headline} />
      <p class="restated">Read as: {page.restated}</p>
      {changes.length > 0 && <p class="changed">{changed(changes).join(", ")}</p>}
      {page.explanation !== "" && <p class="explanation">{page.explanation}</p>}
      {page.verdict && !page.headline.includes(page.verdict.because) && <p>{page.verdict.because}</p>}
      {page.readAs.length > 0 && <p class="read">Understood: {page.readAs.join("; ")}.</p>}
      {page.setAside.length > 0 && (
        <p class="read">
          Set aside: {page.setAside.map(({ text, because }) => (
            <>
              <q>{text}</q> ({because}){" "}
            </>
          ))}
        </p>
      )}
      <ol class="directory">
        {page.figures.map(({ name, value, step }) => (
          <li>
            <a href={`#${step}`}>
              <span>{name}</span> <b>{value}</b>
            </a>
          </li>
        ))}
      </ol>
      {page.cautions.length > 0 && (
        <section class="mind" aria-labelledby="mind">
          <h3 id="mind">Mind</h3>
          <ul>
            {page.cautions.map(({ text, cite }) => (
              <li>
                {text} <Cite cite={cite} />
              </li>
            ))}
          </ul>
        </section>
      )}
      {page.assumptions.length > 0 && (
        <section class="assumed" aria-labelledby="assumed">
          <h3 id="assumed">Assumed, tap to change</h3>
          <ul>
            {page.assumptions.map(({ name, value, because, change: words }) => (
              <li>
                <p>
                  {name}: <b>{value}</b> <small>{because}</small>
                </p>
                <a class="handle" data-ask href={change(words)}>{words}</a>
              </li>
            ))}
          </ul>
        </section>
      )}
      <section class="steps" aria-labelledby="steps">
        <h3 id="steps">Steps</h3>
        {page.parts.map((part) => <PartSteps part={part} />)}
      </section>
      <section class="next" aria-labelledby="next">
        <h3 id="next">Change it or ask on</h3>
        <FollowUp
          place={place}
          after={said}
          edition={page.edition}
          boxes={[{ label: "Your change", example: page.followUps[0] ?? "2020 code" }]}
        />
        <ul class="chips">
          {page.followUps.map((words) => (
            <li>
              <a class="handle" data-ask href={change(words)}>{words}</a>
            </li>
          ))}
        </ul>
      </section>
      <section class="share" aria-labelledby="share">
        <h3 id="share">Pass it on</h3>
        <details>
          <summary>Text for a chat</summary>
          <pre id="chat" tabindex={0}>{text(place.origin).answered(page)}</pre>
        </details>
        <p class="buttons">
          <button type="button" class="handle" data-copy="chat" hidden>Copy for chat</button>
          <a class="handle" data-share href={absolute(place.origin, page.link)} target={frameTarget(place)}>Link</a>
          <a class="handle" href={`${page.link}&as=markdown`} target={frameTarget(place)}>Markdown</a>
          <a class="handle" href={`${page.link}&as=json`} target={frameTarget(place)}>JSON</a>
        </p>
      </section>
      <p class="notice">{page.notice}</p>
    </article>
  );
}

/** The first sentence large, what follows it beneath. The dot of `in.` ends no sentence. */
function Headline({ headline }: { headline: string }) {
  const [first, ...rest] = unbroken(headline).split(/(?<=(?<!\bin)\.) (?=[A-Z\d])/);
  return (
    <>
      <h2 id="headline" tabindex={-1}>{first}</h2>
      {rest.length > 0 && <p class="more">{rest.join(" ")}</p>}
    </>
  );
}

/** Keeps a number and its unit on one line. */
const unbroken = (text: string) => text.replace(/(\d) (?=(?:[kM]?VA|AWG|A|V|k?W|hp|ft|kcmil|%)(?!\w))/g, "$1\u00a0");

/** Inside a frame a shared link opens outside of it. */
const frameTarget = ({ action }: Place) => action === "/embed" ? "_blank" : undefined;

const link = ({ action }: Place, query: Record<string, string>) => `${action}?${new URLSearchParams(query)}`;

const Cite = ({ cite }: { cite: string }) => cite === "" ? null : <cite>{cite}</cite>;

/** Words that nothing read stand before the answer they may belong to. */
const NotRead = ({ words }: { words: readonly string[] }) =>
  words.length === 0 ? null : (
    <p class="unused">
      Not read: {words.map((word) => <q>{word}</q>)}
    </p>
  );

function PartSteps({ part: { heading, rows } }: { part: Part }) {
  return (
    <details>
      <summary>
        <span>{heading}</span> <span class="count">{rows.length === 1 ? "1 step" : `${rows.length} steps`}</span>
      </summary>
      <ol>{rows.map((row) => <Step row={row} />)}</ol>
    </details>
  );
}

function Step({ row: { id, kind, name, symbols, numbers, result, cite, note, weak } }: { row: Row }) {
  const shown = numbers !== "" && numbers !== result;
  const sign = kind === "worked" ? "=" : "→";
  return (
    <li id={id} value={Number(id.slice(1))}>
      <span class="name">{name}</span> <Cite cite={cite} />
      {weak && <mark>{weak}</mark>}
      {kind === "worked" && shown && <span class="symbols">{symbols}</span>}
      <span class="numbers">
        {shown && `${numbers} ${sign} `}
        <b>{result}</b>
      </span>
      {note !== "" && <small>{note}</small>}
    </li>
  );
}

type FollowUpProps = { place: Place; after: string; edition: string; boxes: readonly Box[] };
type Box = { label: string; example: string; tap?: string };

/** A form whose boxes together change the question `after`. */
function FollowUp({ place, after, edition, boxes }: FollowUpProps) {
  return (
    <form class="follow-up" action={place.action} data-ask>
      {boxes.map(({ label, example, tap }) => (
        <div>
          <label>
            <span>{label}</span>
            <input name="q" required={boxes.length === 1} maxlength={4000} placeholder={example} autocomplete="off" />
          </label>
          {tap && (
            <p>
              For example <a class="handle slip" data-ask href={tap}>{example}</a>
            </p>
          )}
        </div>
      ))}
      {after !== "" && <input type="hidden" name="after" value={after} />}
      <input type="hidden" name="edition" value={edition} />
      <button type="submit">Work it out</button>
    </form>
  );
}

type AskedBackProps = Asked & { asked: { question: string; after?: string }; place: Place };

/** What we need to know, a box for each. A question about the question itself starts afresh. */
function AskedBack({ needs, choices, unused, asked, place }: AskedBackProps) {
  const said = asked.after === undefined ? asked.question : `${asked.after}, ${asked.question}`;
  const after = needs.some(({ field }) => field === "question") ? "" : said;
  const boxes = needs.map(({ ask, example }) => {
    const query = { q: example, edition: place.edition, ...(after !== "" && { after }) };
    return { label: ask, example, ...(example !== "" && { tap: link(place, query) }) };
  });
  return (
    <article class="card asked-back" aria-labelledby="headline">
      <h2 id="headline" tabindex={-1}>{needs.length === 1 ? "One thing first" : "A few things first"}</h2>
      <FollowUp place={place} after={after} edition={place.edition} boxes={boxes} />
      {choices.length > 0 && (
        <ul class="chips">
          {choices.map(({ text, question }) => (
            <li>
              <a class="handle" data-ask href={link(place, { q: question, edition: place.edition })}>
                {text}: {question}
              </a>
            </li>
          ))}
        </ul>
      )}
      <NotRead words={unused} />
    </article>
  );
}

function NotCovered({ because }: Declined) {
  return (
    <article class="card declined" aria-labelledby="headline">
      <h2 id="headline" tabindex={-1}>Not covered here</h2>
      <p>{because.replace(/\.?$/, ".")}</p>
      <p>Nothing is guessed in its place. Ask it another way, or pick another edition above.</p>
    </article>
  );
}
