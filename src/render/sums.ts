/** The steps worth telling where all of them have no room: the sums that lead to the figures, those that matter most first. */
import type { StepId } from "../core/worked.ts";
import type { Page, Part, Row } from "./page.ts";

/** A step worth telling, the part it stands in, and its rank: a higher one gives way first. */
export type Sum = { row: Row; part: Part; rank: number };

/** In their own order. */
export function sumsOf({ parts }: Page): Sum[] {
  return parts.flatMap((part) => {
    const rows = part.rows.filter((row) => row.depth === 0 || tells(row));
    return (part.aside ? rows.slice(-1) : rows).map((row, _, { length }) => ({
      row,
      part,
      rank: row.kind !== "chosen" ? row.depth : length === 1 ? DECISION : CHOICE,
    }));
  });
}

/** A choice that is a part of its own explains as much as a formula one away from its figure; one on the way, less. */
const DECISION = 1;
const CHOICE = 5;

/** Given and assumed values, and those looked up on the way, stand in the formulas that use them. */
const tells = (row: Row): boolean =>
  row.kind === "chosen" || (row.kind === "worked" && row.numbers !== row.result && !/^1 × /.test(row.numbers));

/**
 * The sums of a sheet whose figures name their sections: what was looked up stands there already. Who checks a load follows it
 * from line to line, so a load stays where a current or a count of the same depth gives way.
 */
export const sumsBeside = (page: Page): Sum[] =>
  sumsOf(page).filter(({ row }) => tells(row))
    .map((sum) => ({ ...sum, rank: sum.rank - (/ VA$/.test(sum.row.result) ? 1.5 : 0) }));

/** A sum as it is read aloud, in one unit said once, behind the result. */
export function sumOf({ kind, numbers, result }: Row): string {
  if (numbers === "" || numbers === result) return "";
  return `${withoutUnit(numbers, result)} ${kind === "worked" ? "=" : "→"}`;
}

function withoutUnit(numbers: string, result: string): string {
  const unit = /^[−\d.,]+ (\D+)$/.exec(result)?.[1];
  if (unit === undefined || /[×÷%√]/.test(numbers)) return numbers;
  // Whole words only: amperes are not the A of AWG.
  return numbers.split(` ${unit}`).reduce((so, next) => /^\w/.test(next) ? `${so} ${unit}${next}` : so + next);
}

/**
 * The steps that a browser prints of a worksheet that is folded: all where they have room on the answer's one sheet, else as many
 * sums as have. A browser lays out by itself, so their room is estimated, for the smaller of both sizes of paper in each
 * direction and for a wide letter.
 */
export function printedSteps(page: Page): ReadonlySet<StepId> {
  const room = ROOM - topOf(page);
  const all = page.parts.flatMap((part) => part.rows.map((row) => ({ row, part, rank: 0 })));
  const fits = (sums: readonly Sum[]) => {
    const headings = new Set(sums.map(({ part }) => part)).size;
    return sums.reduce((tall, { row }) => tall + STEP * rowsOf(spoken(row), IN_COLUMN), HEADING * headings) / 2 <= room;
  };
  if (fits(all)) return new Set(all.map(({ row }) => row.id));
  let kept: Sum[] = [];
  for (const sum of sumsBeside(page).toSorted((a, b) => a.rank - b.rank)) {
    if (fits([...kept, sum])) kept = [...kept, sum];
  }
  return new Set(kept.map(({ row }) => row.id));
}
/** In points, as measured of paper by page.css: what a sheet has room for, and what a line takes of it. */
const [ROOM, LINE, FIGURE, STEP, HEADING] = [800, 11.5, 12.5, 9.6, 12];
/** Letters that a line holds: the largest one, a full one, half of one, a step in its column. */
const [FIRST, FULL, HALF, IN_COLUMN] = [62, 98, 46, 56];
const rowsOf = (text: string, letters: number): number => Math.ceil(text.length / letters);
const spoken = ({ name, numbers, result, cite, weak }: Row): string =>
  [name, cite, weak ?? "", numbers === result ? "" : numbers, result].join("  ");

/** What stands above the steps. */
function topOf(page: Page): number {
  const { headline, restated, readAs, setAside, assumptions, figures, cautions, notice, link, asked, explanation } =
    page;
  const aside = setAside.map(({ text, because }) => `${text} (${because})`).join(", ");
  const full = [asked, restated, readAs.join("; "), aside, explanation, notice, link, ...page.unused];
  const boxed = cautions.map(({ text, cite }) => `${text} ${cite}`);
  const halves = [
    assumptions.reduce((rows, { name, value }) => rows + rowsOf(`${name}: ${value}`, HALF), 0) * LINE,
    figures.reduce((rows, { name, cite, value }) => rows + rowsOf(`${name} ${cite} ${value}`, HALF), 0) * FIGURE,
  ];
  return 18 * rowsOf(headline, FIRST) + 6 * LINE +
    LINE * [...full, ...boxed].reduce((rows, text) => rows + rowsOf(text, FULL), 0) +
    halves.reduce((tall, half) => tall + LINE + half / 2, 0);
}
