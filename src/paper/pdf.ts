/** A paper as PDF. No file, clock or network: its fonts are part of what it imports, and equal papers are equal bytes. */
import bold from "@ibm/plex-sans-condensed/fonts/complete/woff/IBMPlexSansCondensed-Bold.woff" with { type: "bytes" };
import regular from "@ibm/plex-sans-condensed/fonts/complete/woff/IBMPlexSansCondensed-Regular.woff" with {
  type: "bytes",
};
import { Buffer } from "node:buffer";
import pdfmake from "pdfmake/js/Printer.js";
import { toSfnt } from "woff2sfnt-sfnt2woff";
import type { Paper, Sheets } from "../render/paper.ts";

/** The part of pdfmake's printer that is used here; it comes without types. */
type PdfkitDocument = AsyncIterable<Uint8Array> & { info: Record<string, unknown>; end(): void };
type Printer = new (
  fonts: Record<string, Record<string, string>>,
  files: { existsSync(name: string): boolean; readFileSync(name: string): Uint8Array },
  addresses: { resolve(url: string): void; resolved(): Promise<void> },
  mayRead: (path: string) => boolean,
) => { createPdfKitDocument(document: Node, options: { tableLayouts: unknown }): Promise<PdfkitDocument> };
const Printer = (pdfmake as unknown as { default: Printer }).default;

// Unpacked once: as they come, a table would be unpacked again for each glyph.
const FONTS: Record<string, Uint8Array> = { regular: toSfnt(Buffer.from(regular)), bold: toSfnt(Buffer.from(bold)) };
const FILES = {
  existsSync: (name: string) => name in FONTS,
  readFileSync: (name: string) => FONTS[name]!,
};
const NO_ADDRESSES = { resolve: () => {}, resolved: () => Promise.resolve() };

const STYLES = {
  first: { fontSize: 14, bold: true, lineHeight: 0.95, margin: [0, 3, 0, 1] },
  rest: { fontSize: 10, margin: [0, 0, 0, 2] },
  heading: { fontSize: 9.2, bold: true, margin: [0, 4, 0, 1] },
  stamp: { fontSize: 12, bold: true },
  mind: { fontSize: 8 },
  small: { fontSize: 8 },
};

type Node = Record<string, unknown>;
type TableNode = { table: { body: unknown[]; widths: unknown[] } };
const isHeading = (row: unknown) => ((row as unknown[])[0] as { colSpan?: number }).colSpan !== undefined;
/** Rules of hair's breadth; what is left to fill has a frame of its own and room for a pen. */
const LAYOUTS = {
  boxed: { hLineWidth: () => 1, vLineWidth: () => 1, paddingTop: () => 2, paddingBottom: () => 3 },
  figures: {
    hLineWidth: (i: number) => i === 0 ? 0 : 0.4,
    vLineWidth: () => 0,
    paddingLeft: () => 0,
    paddingRight: (i: number) => i === 0 ? 6 : 0,
    paddingTop: () => 0.4,
    paddingBottom: () => 0.4,
  },
  record: {
    hLineWidth: (i: number) => i <= 1 ? 0.8 : 0.4,
    vLineWidth: () => 0.4,
    paddingLeft: () => 3,
    paddingRight: () => 3,
    paddingTop: () => 1.5,
    paddingBottom: () => 1.5,
  },
  worksheet: {
    hLineWidth: (i: number) => i === 0 ? 0 : 0.25,
    vLineWidth: () => 0,
    hLineColor: () => "#888",
    paddingLeft: (i: number) => i === 0 ? 0 : 3,
    paddingRight: (i: number, { table }: TableNode) => i === table.widths.length - 1 ? 0 : 3,
    paddingTop: (i: number, { table }: TableNode) => i > 0 && isHeading(table.body[i]) ? 4 : 0.1,
    paddingBottom: () => 0.3,
  },
};

/** Sheets in points, and what is left of them within their margins. */
const SIZES = { letter: [612, 792], a4: [595.28, 841.89] } as const;
const [SIDE, TOP, BOTTOM, GAP] = [36, 30, 34, 14];

export async function pdfOf(paper: Paper): Promise<Uint8Array<ArrayBuffer>> {
  const { title, subject, size, foot, sheets } = paper;
  const content: Node[] = [];
  for (const each of sheets) content.push(await laidOut(each, paper, content.length > 0));
  const document = await printed({
    content,
    pageSize: size.toUpperCase(),
    language: "en-US",
    displayTitle: true,
    // Its time is part of the file's id, and so the same for all.
    info: { title, subject, creator: "Deadfront", creationDate: new Date(0) },
    footer: (page: number, pages: number) => ({
      columns: [
        { text: `Deadfront: ${foot}`, width: "*" },
        { text: `${page} of ${pages}`, width: "auto" },
      ],
      margin: [SIDE, 10, SIDE, 0],
      fontSize: 8,
    }),
  });
  // Nobody knows here when it was made, and no date is better than a wrong one: what is not listed is not written.
  Object.defineProperty(document.info, "CreationDate", { enumerable: false });
  document.end();
  const chunks = [];
  for await (const chunk of document) chunks.push(Uint8Array.from(chunk));
  return new Uint8Array(await new Blob(chunks).arrayBuffer());
}

const printed = (document: Node): Promise<PdfkitDocument> =>
  new Printer({ Plex: { normal: "regular", bold: "bold" } }, FILES, NO_ADDRESSES, () => false).createPdfKitDocument({
    pageMargins: [SIDE, TOP, SIDE, BOTTOM],
    defaultStyle: { font: "Plex", fontSize: 8.4, lineHeight: 0.92 },
    styles: STYLES,
    ...document,
  }, { tableLayouts: LAYOUTS });

/** A line of steps: the heading of a part, or a step of it. */
type Line = { id: string; cells: readonly [Node, Node | string]; isHeading: boolean };
const line = (id: string, number: string, text: readonly unknown[]): Line => ({
  id,
  cells: [{ text: number, alignment: "right" }, { text }],
  isHeading: false,
});
const linesOf = ({ worksheet }: Sheets): Line[] =>
  worksheet.flatMap(({ heading, steps }, i): Line[] => [
    // The steps of a small answer have no heading; an empty line would have no place to be measured.
    ...(heading === ""
      ? []
      : [{ id: `part${i}`, cells: [{ text: heading, bold: true, colSpan: 2 }, ""] as const, isHeading: true }]),
    ...steps.map(({ id, number, text }) => line(id, number, text)),
  ]);

/** A sum as it stands behind another of its part, and as the first of it, led by the part's heading. */
type Sum = { part: string; rank: number; plain: Line; led: Line };
const sumsOf = ({ sums }: Sheets): Sum[] =>
  sums.map(({ id, number, text, part, rank }) => ({
    part,
    rank,
    plain: line(`plain ${id}`, number, text),
    led: line(`led ${id}`, number, part === "" ? text : [{ text: `${part}: `, bold: true }, ...text]),
  }));

/** Sizes of the steps in points: those of the whole worksheet stand closer. */
const [WHOLE, SUMS] = [{ fontSize: 6.8, lineHeight: 0.86 }, { fontSize: 8, lineHeight: 0.88 }];

/**
 * An answer's sheets. Beneath what stands on top are all steps in two columns, if they have room; if not, as many of its sums as
 * have, and all steps on sheets of their own. Columns that flow by themselves lose their place in pdfmake where a row breaks, so
 * the lines are measured first, on a sheet that has no end, and then cut into columns.
 */
async function laidOut(sheets: Sheets, { size, brief }: Paper, isNext: boolean): Promise<Node> {
  const { top } = sheets;
  const [width, height] = SIZES[size];
  const column = (width - 2 * SIDE - GAP) / 2;
  const table = (lines: readonly Line[], style: Node): Node =>
    lines.length === 0 ? { text: "", width: column } : {
      table: { widths: [13, "*"], body: lines.map(({ cells }) => cells), dontBreakRows: true },
      layout: "worksheet",
      ...style,
      width: column,
    };
  const columns = (page: readonly Line[][], style: Node, more: Node = {}): Node => ({
    columns: page.map((lines) => table(lines, style)),
    columnGap: GAP,
    ...more,
  });
  const stack = (...content: unknown[]): Node => ({ stack: content, ...(isNext && { pageBreak: "before" }) });
  const [all, sums] = [linesOf(sheets), sumsOf(sheets)];
  const either = sums.flatMap(({ plain, led }) => [plain, led]);
  if (all.length === 0) return stack(...top);

  const tops = new Map<string, number>();
  await printed({
    // A layout keeps its marks on what it was given.
    content: structuredClone([
      ...top,
      head("Worksheet"),
      { columns: [table(all.map(marked), WHOLE)] },
      { text: " ", id: "end" },
      { columns: [table(either.map(marked), SUMS)] },
      { text: " ", id: "sum end" },
    ]),
    pageSize: { width, height: 1e6 },
    pageBreakBefore({ id, startPosition }: { id?: string; startPosition: { top: number } }) {
      if (id) tops.set(id, startPosition.top);
      return false;
    },
  });
  const heights = (lines: readonly Line[], end: string) => {
    const topOf = (line: Line | undefined) => tops.get(line?.id ?? end)!;
    return new Map(lines.map((line, i) => [line, topOf(lines[i + 1]) - topOf(line)]));
  };
  const [tall, sumTall] = [heights(all, "end"), heights(either, "sum end")];
  const first = height - BOTTOM - tops.get(all[0]!.id)! - SLACK;
  const whole = height - TOP - BOTTOM - SLACK;

  const [once, ...more] = first < LEAST ? [] : inColumns(all, tall, () => first);
  if (once && more.length === 0) return stack(...top, head("Worksheet"), columns(once, WHOLE));

  const kept = first < LEAST ? [] : fitting(sums, sumTall, first);
  const steps = all.filter(({ isHeading }) => !isHeading).length;
  const left = `${kept.flat().length} of ${steps} steps; all are ${brief ? "behind the link" : "on the next sheets"}`;
  const pages = inColumns(all, tall, (page) => page === 0 ? whole - HEAD : whole);
  return stack(
    ...top,
    ...(kept.length === 0 ? [] : [head("Sums", left), columns(kept, SUMS)]),
    ...(brief ? [] : [
      { ...head("Worksheet"), pageBreak: "before" },
      ...pages.map((page, i) => columns(page, WHOLE, i > 0 ? { pageBreak: "before" } : {})),
    ]),
  );
}
const head = (text: string, aside = ""): Node => ({
  text: [text, { text: aside === "" ? "" : `   ${aside}`, bold: false, fontSize: 8 }],
  style: "heading",
});
const marked = (line: Line): Line => ({ ...line, cells: [{ ...line.cells[0], id: line.id }, line.cells[1]] });
/** What is left free below a column, what makes a rest of a sheet worth beginning on, and the heading's own height. */
const [SLACK, LEAST, HEAD] = [6, 60, 22];

/** As many sums as have room in two columns, the lowest ranks first. */
function fitting(sums: readonly Sum[], tall: ReadonlyMap<Line, number>, room: number): Line[][] {
  const kept = new Set<Sum>();
  let columns: Line[][] = [];
  for (const sum of sums.toSorted((a, b) => a.rank - b.rank)) {
    kept.add(sum);
    const now = sums.filter((each) => kept.has(each));
    const lines = now.map(({ part, plain, led }, i) => now[i - 1]?.part === part ? plain : led);
    const [first, ...more] = inColumns(lines, tall, () => room);
    if (more.length > 0) kept.delete(sum);
    else columns = first!;
  }
  return columns;
}

/** Lines cut into pages of two columns; those of the last page about the same height. No heading ends a column. */
function inColumns(
  lines: readonly Line[],
  tall: ReadonlyMap<Line, number>,
  roomOf: (page: number) => number,
): Line[][][] {
  const tallOf = (i: number) => tall.get(lines[i]!)!;
  const pages: Line[][][] = [];
  /** Where a column that begins with line `from` ends. */
  const cut = (from: number, room: number): number => {
    let to = from;
    for (let used = 0; to < lines.length && (to === from || used + tallOf(to) <= room); to++) used += tallOf(to);
    while (to < lines.length && to - 1 > from && lines[to - 1]!.isHeading) to--;
    return to;
  };
  for (let from = 0; from < lines.length;) {
    let room = roomOf(pages.length);
    let [middle, end] = [cut(from, room), 0];
    end = cut(middle, room);
    if (end === lines.length) {
      // The least height that still has room for all.
      room = lines.slice(from).reduce((sum, line) => sum + tall.get(line)!, 0) / 2;
      while (cut(cut(from, room), room) < lines.length) room++;
      middle = cut(from, room);
    }
    pages.push([lines.slice(from, middle), lines.slice(middle, end)]);
    from = end;
  }
  return pages;
}
