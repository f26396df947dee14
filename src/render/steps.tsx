/** The worksheet of an answer: its steps, part by part, folded. */
import type { Page, Part, Row } from "./page.ts";
import { printedSteps } from "./sums.ts";

/** @param id stands before each step's own, so that several answers have room on one page */
export function Worksheet({ page, id }: { page: Page; id: string }) {
  const printed = printedSteps(page);
  const all = page.parts.reduce((sum, { rows }) => sum + rows.length, 0);
  return (
    <div class="steps">
      <h3>Worksheet</h3>
      {page.parts.map((part) => <PartSteps part={part} printed={printed} id={id} />)}
      {printed.size < all && (
        <p class="left">
          Folded parts are printed with their main sums. Every step is behind the link, in the PDF, and here once
          unfolded.
        </p>
      )}
    </div>
  );
}

type PartProps = { part: Part; printed: ReadonlySet<Row["id"]>; id: string };
function PartSteps({ part: { heading, rows }, printed, id }: PartProps) {
  return (
    <details>
      <summary>
        <span>{heading}</span> <span class="count">{rows.length === 1 ? "1 step" : `${rows.length} steps`}</span>
      </summary>
      <ol>{rows.map((row) => <Step row={row} isPrinted={printed.has(row.id)} id={id} />)}</ol>
    </details>
  );
}

function Step(
  { isPrinted, row: { id, kind, name, symbols, numbers, result, cite, note, weak }, id: before }: StepProps,
) {
  const shown = numbers !== "" && numbers !== result;
  const sign = kind === "worked" ? "=" : "→";
  return (
    <li id={before + id} class={isPrinted ? "sum" : undefined} value={Number(id.slice(1))} tabindex={-1}>
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
type StepProps = { row: Row; isPrinted: boolean; id: string };

export const Cite = ({ cite }: { cite: string }) => cite === "" ? null : <cite>{cite}</cite>;
