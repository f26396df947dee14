/** An answer as sheets of paper: what the layout of a PDF is made from, as plain data, so that it can be handed to a worker. */
import { capital, firstLine, unbroken } from "./glance.ts";
import { LEFT_OUT, NOT_READ } from "./labels.ts";
import { absolute, type Printer, quoted, wasAndIs } from "./outcome.ts";
import type { Page, Row } from "./page.ts";
import { type Sum, sumOf, sumsBeside } from "./sums.ts";

/** A piece of a document in the terms of pdfmake, of which these are the words used here. Sizes are in points. */
export type Content =
  | string
  | (Style & { text: Content | readonly Content[] })
  | (Style & { stack: readonly Content[] })
  | (Style & { ul: readonly Content[] })
  | (Style & { columns: readonly Content[]; columnGap?: number; snakingColumns?: boolean })
  | (Style & { table: Table; layout: "record" | "figures" | "boxed" })
  | Record<never, never>;
type Style = {
  bold?: boolean;
  fontSize?: number;
  style?: string;
  margin?: readonly [number, number, number, number];
  alignment?: "right";
  width?: number | "*" | "auto";
  colSpan?: number;
  noWrap?: boolean;
  link?: string;
};
type Table = {
  widths: readonly (number | "*" | "auto")[];
  body: readonly (readonly Content[])[];
  /** Rows that stand again on top of the next sheet, and those that stay below them: without any, on top. */
  headerRows?: number;
  keepWithHeaderRows?: number;
  dontBreakRows?: boolean;
};

export const SIZES = ["letter", "a4"] as const;
export type Size = typeof SIZES[number];
export type Step = { id: string; number: string; text: readonly Content[] };
/** An answer's sheets: what stands on top, and the steps beneath it, in their parts. */
export type Sheets = {
  top: readonly Content[];
  worksheet: readonly { heading: string; steps: readonly Step[] }[];
  /** The steps that stand beneath the top where it has no room for all: those of a higher rank give way first. */
  sums: readonly (Step & { part: string; rank: number })[];
};
/** A document: what its reader's window and list of files tell of it, and what stands on its sheets. */
export type Paper = {
  title: string;
  subject: string;
  /** What it is called as a file, without its ending. */
  file: string;
  size: Size;
  foot: string;
  /** Each answer on one sheet, without the steps that have no room there. */
  brief: boolean;
  /** One or more; each begins a sheet of its own. */
  sheets: readonly Sheets[];
};

/** An answer's part of the paper; nothing where there is no answer to print. */
type Printed = Sheets & { page?: Page };

/** @param asked the question in the asker's words */
export const sheet = (origin: string, asked: string): Printer<readonly Printed[]> => ({
  answered: (page, changes = []) => [{
    page,
    top: [
      ...notRead(page),
      ...line("Asked: ", asked),
      ...headline(page),
      ...(page.weak === "from memory" ? [said("Rests on values from memory.", true)] : []),
      ...(page.weak === "one source" ? [said("Rests on one published source.", true)] : []),
      ...wasAndIs(changes).map(({ name, was, is }) => said(`Changed: ${name} ${was} → ${is}`)),
      ...(page.explanation === "" ? [] : [said(page.explanation)]),
      ...asRead(page),
      ...assumed(page),
      // Where a record is kept, it is what the sheet is for.
      ...(page.record.length > 0 ? record(page) : figures(page)),
      ...mind(page),
      { text: page.notice, margin: [0, 3, 0, 0] },
      {
        text: absolute(origin, page.link),
        ...(origin !== "" && { link: absolute(origin, page.link) }),
        style: "small",
      },
    ],
    ...(page.record.length > 0 ? NO_STEPS : {
      worksheet: page.parts.map(({ heading, rows }) => ({ heading, steps: rows.map(step) })),
      sums: sumsBeside(page).map(sum),
    }),
  }],
  unclear: ({ needs, choices }) => [{
    top: [
      heading("Not told yet"),
      ...needs.map(({ ask, example }) => said(example === "" ? ask : `${ask} For example: ${example}`)),
      ...choices.map(({ text, question }) => said(text === question ? text : `${text}: ${question}`)),
    ],
    ...NO_STEPS,
  }],
  notCovered: ({ because }) => [{
    top: [heading("Not covered here"), said(capital(because.replace(/\.?$/, ".")))],
    ...NO_STEPS,
  }],
  together: (parts) => parts.flat(),
});

const NO_STEPS = { worksheet: [], sums: [] };

/** What was asked back or declined stands below the first answer; where there is none, there is no paper. */
export function paper(printed: readonly Printed[], size: Size, brief = false): Paper | undefined {
  const pages = printed.flatMap(({ page }) => page ? [page] : []);
  const [first] = pages;
  if (!first) return undefined;
  const others = printed.filter(({ page }) => !page).flatMap(({ top }) => top);
  return {
    title: capital(first.headline),
    subject: [...new Set(pages.map(({ title, editionTitle }) => `${title}, ${editionTitle}`))].join("; "),
    file: `${first.kind}-${first.edition}`,
    size,
    foot: `${first.title}, ${first.editionTitle}`,
    brief,
    sheets: printed.filter(({ page }) => page).map(({ top, worksheet, sums }, i) => ({
      top: i === 0 ? [...top, ...others] : top,
      worksheet,
      sums,
    })),
  };
}

const said = (text: string, bold = false): Content => ({ text, bold, margin: [0, 1, 0, 1] });
const heading = (text: string): Content => ({ text, style: "heading" });
const line = (label: string, text: string): Content[] => text === "" ? [] : [said(label + text)];

const notRead = ({ unused }: Page): Content[] =>
  unused.length === 0 ? [] : [boxed([{ text: `${NOT_READ}${quoted(unused)}`, bold: true }])];

const boxed = (stack: readonly Content[]): Content => ({
  table: { widths: ["*"], body: [[{ stack, style: "mind" }]] },
  layout: "boxed",
  margin: [0, 4, 0, 4],
});

function headline(page: Page): Content[] {
  const { first, rest, isTold } = firstLine(page);
  const { verdict } = page;
  return [
    ...(verdict ? [stamp(verdict.is.toUpperCase(), isTold ? verdict.because : "")] : []),
    { text: unbroken(first), style: "first" },
    ...(rest === "" ? [] : [{ text: unbroken(rest), style: "rest" }]),
  ];
}

/** A verdict in a frame, told apart by its words and not by a colour. */
const stamp = (is: string, because: string): Content => ({
  columns: [
    {
      table: { widths: ["auto"], body: [[{ text: is, style: "stamp", noWrap: true }]] },
      layout: "boxed",
      width: "auto",
    },
    { text: because, width: "*", margin: [0, 5, 0, 0] },
  ],
  columnGap: 8,
  margin: [0, 4, 0, 0],
});

const asRead = (page: Page): Content[] => [
  heading("As read"),
  said(page.restated),
  {
    columns: [
      { text: `${page.title}, ${page.editionTitle}`, bold: true, width: "*" },
      { text: "Date: ____________________", width: "auto" },
    ],
    margin: [0, 2, 0, 2],
  },
  ...(page.readAs.length > 0 ? [said(`${capital(page.readAs.join("; "))}.`)] : []),
  ...line(LEFT_OUT, page.setAside.map(({ text, because }) => `“${text}” (${because})`).join(", ")),
];

function assumed({ assumptions }: Page): Content[] {
  if (assumptions.length === 0) return [];
  const lines = assumptions.map(({ name, value }): Content => ({
    text: [`${name}: `, { text: value, bold: true }],
    margin: [0, 0, 0, 1],
  }));
  return [heading("Not told, so taken as"), halves(lines.map((each) => [1, each]))];
}

/** Two columns of about the same height, read down the left one first. @param parts with their heights, in rows */
function halves(parts: readonly (readonly [height: number, Content])[]): Content {
  const all = parts.reduce((sum, [height]) => sum + height, 0);
  let [above, cut] = [0, 0];
  while (cut < parts.length && above + parts[cut]![0] / 2 <= all / 2) above += parts[cut++]![0];
  const stack = (from: number, to?: number): Content => ({
    stack: parts.slice(from, to).map(([, part]) => part),
    width: "*",
  });
  return { columns: [stack(0, Math.max(cut, 1)), stack(Math.max(cut, 1))], columnGap: 14 };
}

const figures = ({ figures }: Page): Content[] => [
  heading("Figures"),
  halves(figures.map(({ name, value, cite }) => [1, {
    table: {
      widths: ["*", "auto"],
      body: [[cite === "" ? name : `${name} [${cite}]`, { text: value, bold: true, noWrap: true }]],
    },
    layout: "figures",
  }])),
];

/** What was told is filled in, and the rest is left to fill by hand. */
const record = ({ record }: Page): Content[] => [
  heading("Record"),
  halves(record.map(({ heading, rows, isList }) => {
    const isWanted = rows.some(({ wanted }) => wanted !== "");
    const titles = isList ? [heading, ""] : isWanted ? [heading, "Wanted", "Found", "OK"] : [heading, "Found", "OK"];
    const cells = ({ what, wanted, found, verdict }: typeof rows[number]): Content[] =>
      isList ? [what, { text: wanted, alignment: "right" }] : [what, ...(isWanted ? [wanted] : []), found, verdict];
    const widths = isList ? ["*", "auto"] as const : isWanted ? ["*", 66, 50, 24] as const : ["*", 92, 24] as const;
    const height = rows.reduce((lines, { what }) => lines + Math.ceil(what.length / 28), 1.5);
    return [height, {
      table: {
        widths,
        headerRows: 1,
        keepWithHeaderRows: 1,
        dontBreakRows: true,
        body: [titles.map((text) => ({ text, bold: true })), ...rows.map(cells)],
      },
      layout: "record",
      margin: [0, 0, 0, 6],
    }];
  })),
];

function mind({ cautions }: Page): Content[] {
  if (cautions.length === 0) return [];
  const lines = cautions.map(({ text, cite }) => cite === "" ? text : `${text} [${cite}]`);
  const list = (lines: readonly string[]): Content => ({ ul: lines });
  const half = Math.ceil(lines.length / 2);
  return [boxed([
    { text: "Mind", bold: true },
    lines.length < 6 ? list(lines) : { columns: [list(lines.slice(0, half)), list(lines.slice(half))], columnGap: 14 },
  ])];
}

/** A step as one reads it aloud: its name and section, its sum, and what comes of it. */
function step(row: Row): Step {
  const { kind, numbers, result, note } = row;
  const sum = numbers !== "" && numbers !== result ? `${numbers}\u00a0${kind === "worked" ? "=" : "→"}` : "";
  return read(row, sum, note === "" ? "" : ` (${note})`);
}

const read = ({ id, name, cite, weak, result }: Row, sum: string, note = ""): Step => ({
  id,
  number: id.slice(1),
  text: [
    `${name}${[cite, weak].filter(Boolean).map((mark) => ` [${mark}]`).join("")} ${sum === "" ? "" : `${sum} `}`,
    { text: unbroken(result), bold: true },
    note,
  ],
});

const sum = ({ row, part, rank }: Sum): Sheets["sums"][number] => ({
  ...read(row, sumOf(row)),
  part: part.heading,
  rank,
});
