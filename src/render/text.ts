/** Chat text: the answer first, then steps short enough for a phone. */
import type { Change } from "../core/outcome.ts";
import { absolute, type Asked, changed, type Declined, type Printer, quoted } from "./outcome.ts";
import type { Page, Row } from "./page.ts";

/** The longest message that is still read on a phone; the link leads to the rest. */
const LONGEST = 2900;
const LONGEST_BRIEF = 390;
const MARK = { "from memory": " (from memory)", "one source": "¹" } as const;

/** The whole answer as chat text: as many of its steps as fit, those that matter most first. */
export const text = (origin: string): Printer => ({
  answered(page, changes = []) {
    const { lines, left } = fitting(linesOf(page), LONGEST - message(page, changes, [], 0, origin).length);
    return message(page, changes, lines, left, origin);
  },
  unclear: askedBack,
  notCovered: declined,
  together,
});

/** The answer and what it rests on, in one short message. */
export const brief = (origin: string): Printer => ({
  answered(page) {
    const assumed = page.assumptions.map(({ name, value }) => `${name} ${value}`).join(", ");
    const optional = [
      `Read as: ${page.restated.replace(/[?.]$/, "")}.`,
      ...page.cautions.slice(0, 1).map(({ text }) => text),
      ...(assumed === "" ? [] : [`Assumed: ${assumed}.`]),
      absolute(origin, page.link),
    ];
    const must = `${page.edition} code. ${page.notice}`;
    // What does not fit is left out whole: half a caution is worse than none.
    const first = `${notRead(page)}${page.headline}`;
    return optional.reduce(
      (so, line) => so.length + line.length + 1 <= LONGEST_BRIEF ? `${so}\n${line}` : so,
      `${leading(first, LONGEST_BRIEF - must.length)}\n${must}`,
    ) + "\n";
  },
  unclear: askedBack,
  notCovered: declined,
  together,
});

function message(
  page: Page,
  changes: readonly Change[],
  steps: readonly string[],
  left: number,
  origin: string,
): string {
  const blocks = [
    [
      `${notRead(page)}${page.headline}`,
      verdictOf(page),
      `Read as: ${page.restated.replace(/[?.]$/, "")}.`,
      changes.length ? `Changed: ${changed(changes).join(", ")}.` : "",
      `${page.title}, ${page.editionTitle}.`,
    ],
    [page.explanation],
    [
      ...steps.map((line, i) => `${i + 1}. ${line}`),
      steps.some((line) => line.endsWith(MARK["one source"])) ? "¹ checked in one published source only" : "",
      left > 0 ? `(${left} smaller steps: see the link)` : "",
    ],
    list("Assumed (to change it, reply with the words in quotes):", [
      ...page.assumptions.map(({ name, value, change }) => `${name}: ${value} (“${change}”)`),
    ]),
    list("Mind:", page.cautions.map(({ text, cite }) => text + bracketed(cite))),
    [
      page.readAs.length ? `Understood: ${page.readAs.join("; ")}.` : "",
      page.setAside.length
        ? `Set aside: ${page.setAside.map(({ text, because }) => `“${text}” (${because})`).join(", ")}.`
        : "",
    ],
    [page.notice, `All steps: ${absolute(origin, page.link)}`],
  ];
  return blocks.map((block) => block.filter((line) => line !== "").join("\n")).filter((block) => block !== "")
    .join("\n\n") + "\n";
}

/** Words that nothing read stand before the answer they may belong to. */
const notRead = ({ unused }: Page): string => unused.length ? `Not read: ${quoted(unused)}. ` : "";
const verdictOf = ({ verdict, headline }: Page): string =>
  verdict === undefined || headline.includes(verdict.because) ? "" : verdict.because;
const list = (title: string, lines: string[]) => lines.length ? [title, ...lines.map((line) => `- ${line}`)] : [];
const bracketed = (cite: string) => cite === "" ? "" : ` [${cite}]`;

/** As many of the headline's statements as have room, and at least the first. */
function leading(headline: string, room: number): string {
  const [first = "", ...rest] = headline.split(/(?<=[.;:]) /);
  return rest.reduce(
    (so, next) =>
      so.endsWith("…") || so.length + next.length + 3 > room ? `${so.replace(/ …$/, "")} …` : `${so} ${next}`,
    first,
  );
}

type Line = { text: string; rank: number };

/** The lines worth telling, each with its rank: 0 must stay, higher ones go first when the message is too long. */
function linesOf(page: Page): Line[] {
  return page.parts.flatMap((part) => {
    const rows = part.rows.filter((row) => row.depth === 0 || tells(row));
    return (part.aside ? rows.slice(-1) : rows).map((row, _, { length }) => ({
      text: line(row),
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

/** As many lines as have room, in their own order. */
function fitting(lines: readonly Line[], room: number): { lines: string[]; left: number } {
  const numbering = "99. \n".length;
  const kept = new Set<Line>();
  for (const each of lines.toSorted((a, b) => a.rank - b.rank)) {
    room -= each.text.length + numbering;
    if (room < 0 && each.rank > 0) break;
    kept.add(each);
  }
  return { lines: lines.filter((each) => kept.has(each)).map(({ text }) => text), left: lines.length - kept.size };
}

function line(row: Row): string {
  const sum = row.numbers === "" || row.numbers === row.result ? "" : `${withoutUnit(row)} ${joint(row)} `;
  return `${row.name}: ${sum}${row.result}${bracketed(row.cite)}${row.weak ? MARK[row.weak] : ""}`;
}
const joint = ({ kind }: Row) => kind === "worked" ? "=" : "→";

/** A sum in one unit says the unit once, behind the result. */
function withoutUnit({ numbers, result }: Row): string {
  const unit = /^[−\d.,]+ (\D+)$/.exec(result)?.[1];
  if (unit === undefined || /[×÷%√]/.test(numbers)) return numbers;
  // Whole words only: amperes are not the A of AWG.
  return numbers.split(` ${unit}`).reduce((so, next) => /^\w/.test(next) ? `${so} ${unit}${next}` : so + next);
}

const together = (parts: readonly string[]): string => parts.join("\n");

function askedBack({ needs, choices, unused }: Asked): string {
  return [
    ...needs.map(({ ask, example }) => example === "" ? ask : `${ask}\nFor example: ${example}`),
    ...choices.map(({ text, question }) => `- ${text}: ${question}`),
    ...(unused.length ? [`Not read: ${quoted(unused)}.`] : []),
  ].join("\n") + "\n";
}

function declined({ because }: Declined): string {
  return `Not covered here: ${because.replace(/\.$/, "")}.\n`;
}
