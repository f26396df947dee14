/** HTML of an outcome: the directory card on the door, its worksheet one tap away. */
import type { Child } from "hono/jsx";
import type { Change } from "../outcomes.ts";
import { capital, firstLine, unbroken } from "./glance.ts";
import { absolute, type Asked, type Declined, type Printer, type Was, wasAndIs } from "./outcome.ts";
import type { Page } from "./page.ts";
import { numberBox, type Piece, piecesOf, unitOf } from "./pieces.ts";
import { asking, type Place, target } from "./place.ts";
import { Cite, Worksheet } from "./steps.tsx";
import { text } from "./text.ts";

/** Each verdict as word and sign; the style gives each a shape of its own. */
const STAMPS = { "ok": ["✓", "OK"], "not ok": ["✕", "Not OK"], "ok if": ["△", "OK if"] } as const;

export const card = (place: Place): Printer<Child> => ({
  answered: (page, changes = []) => <Answer page={page} changes={changes} place={place} />,
  unclear: (back) => <AskedBack {...back} place={place} />,
  notCovered: (declined) => <NotCovered {...declined} place={place} />,
  together: (parts) => <>{parts}</>,
});

/** What the weakest of its values means for an answer. */
const RESTS = { "from memory": "values from memory", "one source": "one published source" } as const;

function Answer({ page, changes, place }: { page: Page; changes: readonly Change[]; place: Place }) {
  const { id } = place;
  const { first, rest, isTold } = firstLine(page);
  return (
    <article class="card" aria-labelledby={`${id}headline`}>
      <NotRead words={page.unused} />
      {page.verdict && (
        <p class={`stamp ${page.verdict.is.replace(" ", "-")}`}>
          <b>
            <span aria-hidden="true">{STAMPS[page.verdict.is][0]}</span> {STAMPS[page.verdict.is][1]}
          </b>{" "}
          {isTold && <span>{page.verdict.because}</span>}
        </p>
      )}
      <h2 id={`${id}headline`} class="first" tabindex={-1}>{unbroken(first)}</h2>
      {page.weak && (
        <p class="rests">
          <mark>
            <span>rests on</span> {RESTS[page.weak]}
          </mark>
        </p>
      )}
      <Fold id={id} />
      <div class="body" id={`${id}body`}>
        <PassOn page={page} place={place} />
        {changes.length > 0 && <Changed changes={changes} place={place} />}
        {page.explanation !== "" && <p class="explanation">{page.explanation}</p>}
        {rest !== "" && <p class="more">{unbroken(rest)}</p>}
        <AsRead page={page} place={place} />
        <Assumed page={page} place={place} />
        <ol class="directory">
          {page.figures.map(({ name, value, step, cite }) => (
            <li>
              <a href={`#${id}${step}`}>
                <span>
                  {name} <Cite cite={cite} />
                </span>{" "}
                <b>{value}</b>
              </a>
            </li>
          ))}
        </ol>
        <Record parts={page.record} />
        {page.cautions.length > 0 && (
          <div class="mind">
            <h3>Mind</h3>
            <ul>
              {page.cautions.map(({ text, cite }) => (
                <li>
                  {text} <Cite cite={cite} />
                </li>
              ))}
            </ul>
          </div>
        )}
        <Worksheet page={page} id={id} />
        <p class="notice">{page.notice}</p>
        <p class="printed-link">{absolute(place.origin, page.link)}</p>
        <ul class="chips next" aria-label="Ask on">
          {page.followUps.map((words) => (
            <li>
              <a class="handle slip" data-ask="on" href={asking(place, words, place.after)}>{words}</a>
            </li>
          ))}
        </ul>
      </div>
    </article>
  );
}

/** Shown where a script folds earlier cards to their first line. */
const Fold = ({ id }: { id: string }) => (
  <button type="button" class="fold" data-fold aria-expanded="true" aria-controls={`${id}body`} hidden>
    Fold
  </button>
);

/** What is written down of the job: what was told is filled in, and the rest is left to fill by hand. */
function Record({ parts }: { parts: Page["record"] }) {
  if (parts.length === 0) return null;
  return (
    <div class="record">
      <h3>Record</h3>
      {parts.map((part) => part.isList ? <RecordList {...part} /> : <RecordTable {...part} />)}
    </div>
  );
}

/** What is where: nothing to find, nothing to tick. */
function RecordList({ heading, rows }: Page["record"][number]) {
  return (
    <table>
      <thead>
        <tr>
          <th scope="colgroup" colspan={2}>{heading}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ what, wanted }) => (
          <tr>
            <th scope="row">{what}</th>
            <td class="amount">{wanted}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Where nothing is wanted but an entry, what is entered has the room. */
function RecordTable({ heading, rows }: Page["record"][number]) {
  const isWanted = rows.some(({ wanted }) => wanted !== "");
  const span = isWanted ? undefined : 2;
  return (
    <table>
      <colgroup>
        <col class="what" />
        <col />
        <col />
        <col class="ok" />
      </colgroup>
      <thead>
        <tr>
          <th scope="col" colspan={span}>{heading}</th>
          {isWanted && <th scope="col">Wanted</th>}
          <th scope="col">Found</th>
          <th scope="col">OK</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ what, wanted, found, verdict }) => (
          <tr>
            <th scope="row" colspan={span}>{what}</th>
            {isWanted && <td>{wanted}</td>}
            <td>{found}</td>
            <td>{verdict}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function PassOn({ page, place }: { page: Page; place: Place }) {
  const { id } = place;
  return (
    <div class="pass-on">
      <button type="button" class="handle" data-copy={`${id}chat`} hidden>Copy text</button>
      <a class="handle" data-share href={absolute(place.origin, page.link)} target={target(place)}>Share</a>
      <details class="forms chip">
        <summary>More</summary>
        <textarea id={`${id}chat`} class="chat" readonly rows={8} aria-label="Text for a chat">
          {text(place.origin).answered(page)}
        </textarea>
        <p class="buttons">
          <a class="handle" href={`${page.link}&as=text&brief`} target={target(place)}>Short text</a>
          <a class="handle" href={`${page.link}&as=pdf`} target={target(place)}>PDF</a>
          <a class="handle" href={`${page.link}&as=pdf&brief`} target={target(place)}>PDF, one sheet</a>
          <a class="handle" href={`${page.link}&as=markdown`} target={target(place)}>Markdown</a>
          <a class="handle" href={`${page.link}&as=json`} target={target(place)}>JSON</a>
        </p>
      </details>
    </div>
  );
}

function Changed({ changes, place }: { changes: readonly Change[]; place: Place }) {
  const before = place.after.slice(0, -1);
  const lines = wasAndIs(changes);
  return (
    <div class="changed">
      <ul aria-label="Changed">{lines.slice(0, MOST_SHOWN).map((line) => <WasAndIs {...line} />)}</ul>
      {lines.length > MOST_SHOWN && (
        <details>
          <summary>{`${lines.length - MOST_SHOWN} more changed`}</summary>
          <ul>{lines.slice(MOST_SHOWN).map((line) => <WasAndIs {...line} />)}</ul>
        </details>
      )}
      {before.length > 0 && (
        <a class="handle slip" data-undo href={asking(place, before.at(-1)!, before.slice(0, -1))}>Take it back</a>
      )}
    </div>
  );
}

/** Changed figures that stand open; one more is no reason to fold. */
const MOST_SHOWN = 3;
const WasAndIs = ({ name, was, is }: Was) => (
  <li>
    {name} {unbroken(was)} → <b>{unbroken(is)}</b>
  </li>
);

function AsRead({ page, place }: { page: Page; place: Place }) {
  const said = page.readAs.length > 0 ? `${capital(page.readAs.join("; "))}.` : "";
  return (
    <div class="as-read">
      <h3>As read</h3>
      <ul class="chips">
        {piecesOf(page.restated, page.account).map((piece) => <PieceChip piece={piece} place={place} />)}
      </ul>
      <p class="restated">{page.restated}</p>
      <p class="filed">
        <span>{page.title}</span> <span>{page.editionTitle}</span> <span class="date">Date: ____________</span>
      </p>
      {said !== "" && <p class="read">{said}</p>}
      {page.setAside.length > 0 && (
        <p class="read">
          Left out of the sums: {page.setAside.map(({ text, because }) => (
            <>
              <q>{text}</q> ({because}){" "}
            </>
          ))}
        </p>
      )}
    </div>
  );
}

function PieceChip({ piece: { text, words, from }, place }: { piece: Piece; place: Place }) {
  // “ok?” is nothing to change.
  if (!/\d|\p{L}{3}/u.test(text)) return <li class="piece">{text}</li>;
  return (
    <li>
      <details class="chip">
        <summary>{text}</summary>
        {from.length > 0 && (
          <p>
            From {from.map(({ at, text }) => (
              <>
                <a class="leads" href={`#${place.id}w${at}`}>“{text.trim()}”</a>
                {" "}
              </>
            ))}
          </p>
        )}
        <form class="change" action={place.action} data-ask="edit">
          <label>
            <span>Change it to</span>
            <input name="q" value={text} maxlength={400} autocomplete="off" />
          </label>
          <input type="hidden" name="words" value={words} />
          <input type="hidden" name="edition" value={place.edition} />
          <button type="submit">Set</button>
        </form>
      </details>
    </li>
  );
}

function Assumed({ page, place }: { page: Page; place: Place }) {
  if (page.assumptions.length === 0) return null;
  return (
    <div class="assumed">
      <h3>Not told, so taken as</h3>
      <ul class="chips">
        {page.assumptions.map(({ name, value, because, change }) => (
          <li>
            <details class="chip">
              <summary>
                <span>
                  {name}: <b>{value}</b>
                </span>
              </summary>
              <p>{capital(because)}.</p>
              <p>
                <a class="handle slip" data-ask="change" href={asking(place, change, place.after)}>{change}</a>
              </p>
              <AssumptionBox name={name} change={change} place={place} />
            </details>
          </li>
        ))}
      </ul>
    </div>
  );
}

/** Another value: a number with its unit where the words that change it have one, else words. */
function AssumptionBox({ name, change, place }: { name: string; change: string; place: Place }) {
  const box = numberBox(change);
  return (
    <form class="change" action={place.action} data-ask="change">
      <label>
        {box
          ? <span class={["", name].includes(box.before) ? "unseen" : undefined}>{box.before || name}</span>
          : <span>Or in your words</span>}
        {box
          ? <input name="q" inputmode="decimal" size={7} required maxlength={20} autocomplete="off" />
          : <input name="q" required maxlength={400} placeholder={change} autocomplete="off" />}
        {box && <span class="unit">{box.after}</span>}
      </label>
      {box && <input type="hidden" name="words" value={box.words} />}
      <Onward place={place} />
      <button type="submit">Set</button>
    </form>
  );
}

/** What a form goes on from. */
const Onward = ({ place: { after, edition } }: { place: Place }) => (
  <>
    {after.map((text) => <input type="hidden" name="after" value={text} />)}
    <input type="hidden" name="edition" value={edition} />
  </>
);

/** Words that nothing read stand before the answer they may belong to. */
const NotRead = ({ words }: { words: readonly string[] }) =>
  words.length === 0 ? null : (
    <p class="unused">
      Not read: {words.map((word) => <q>{word}</q>)}
    </p>
  );

/** What we need to know, a box for each. A question about the question itself starts afresh. */
function AskedBack({ needs, choices, unused, restated, place }: Asked & { place: Place }) {
  const afresh = needs.every(({ field }) => field === "question");
  const on = afresh ? { ...place, after: [] } : place;
  return (
    <article class="card asked-back" aria-labelledby={`${place.id}headline`}>
      <NotRead words={unused} />
      <h2 id={`${place.id}headline`} class="first" tabindex={-1}>
        {needs.length === 1 ? needs[0]!.ask : "A few things first"}
      </h2>
      <Fold id={place.id} />
      <div class="body" id={`${place.id}body`}>
        {restated !== "" && <p class="restated">{restated}</p>}
        {choices.length > 0 && (
          <ul class="chips">
            {choices.map(({ text, question }) => (
              <li>
                <a class="handle slip" data-ask="afresh" href={asking(place, question)}>
                  {text === question ? text : `${text}: ${question}`}
                </a>
              </li>
            ))}
          </ul>
        )}
        <form class="missing" action={place.action} data-ask={afresh ? "afresh" : "on"}>
          {needs.map(({ ask, example }) => <MissingBox ask={ask} example={example} alone={needs.length === 1} />)}
          <Onward place={on} />
          <button type="submit">Work it out</button>
        </form>
        {needs.length === 1 && needs[0]!.example !== "" && (
          <p>
            For example{" "}
            <a
              class="handle slip"
              data-ask={afresh ? "afresh" : "on"}
              href={asking(place, needs[0]!.example, on.after)}
            >
              {needs[0]!.example}
            </a>
          </p>
        )}
      </div>
    </article>
  );
}

function MissingBox({ ask, example, alone }: { ask: string; example: string; alone: boolean }) {
  const unit = unitOf(example);
  return (
    <div>
      <label>
        <span class={alone ? "unseen" : undefined}>{ask}</span>
        <span class="with-unit">
          <input
            name="q"
            required={alone}
            maxlength={4000}
            placeholder={example}
            inputmode={unit === "" ? undefined : "decimal"}
            autocomplete="off"
          />
          {unit !== "" && <span class="unit">{unit}</span>}
        </span>
      </label>
      <input type="hidden" name="unit" value={unit} />
    </div>
  );
}

function NotCovered({ because, place }: Declined & { place: Place }) {
  return (
    <article class="card declined" aria-labelledby={`${place.id}headline`}>
      <h2 id={`${place.id}headline`} class="first" tabindex={-1}>Not covered here</h2>
      <Fold id={place.id} />
      <div class="body" id={`${place.id}body`}>
        <p>{capital(because.replace(/\.?$/, "."))}</p>
        <p>Nothing is guessed in its place. Ask it another way, or take another edition.</p>
      </div>
    </article>
  );
}
