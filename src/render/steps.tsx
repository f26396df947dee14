/** The worksheet of an answer: its steps, part by part, folded. */
import type { Part, Row } from "./page.ts";

/** @param id stands before each step's own, so that several answers have room on one page */
export function Worksheet({ parts, id }: { parts: readonly Part[]; id: string }) {
  return (
    <div class="steps">
      <h3>Worksheet</h3>
      {parts.map((part) => <PartSteps part={part} id={id} />)}
    </div>
  );
}

function PartSteps({ part: { heading, rows }, id }: { part: Part; id: string }) {
  return (
    <details>
      <summary>
        <span>{heading}</span> <span class="count">{rows.length === 1 ? "1 step" : `${rows.length} steps`}</span>
      </summary>
      <ol>{rows.map((row) => <Step row={row} id={id} />)}</ol>
    </details>
  );
}

function Step({ row: { id, kind, name, symbols, numbers, result, cite, note, weak }, id: before }: StepProps) {
  const shown = numbers !== "" && numbers !== result;
  const sign = kind === "worked" ? "=" : "→";
  return (
    <li id={before + id} value={Number(id.slice(1))} tabindex={-1}>
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
type StepProps = { row: Row; id: string };

export const Cite = ({ cite }: { cite: string }) => cite === "" ? null : <cite>{cite}</cite>;
