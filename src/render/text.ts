/** Chat text: the answer first, the request and the figures, then as many steps as a phone shows at a glance. */
import { ALL_STEPS, AS_READ, CODE, FIGURES, HEARD, LEFT_OUT, NOT_READ, WORKSHEET } from "./labels.ts";
import { type Change, SHORT_NOTICE } from "../outcomes.ts";
import { thoughts } from "./glance.ts";
import { absolute, type Asked, changed, type Declined, type Printer, quoted } from "./outcome.ts";
import type { Page, Row } from "./page.ts";
import { sumOf, sumsOf } from "./sums.ts";

/** The longest message that is still read on a phone; the link leads to the rest. */
const LONGEST = 2900;
const LONGEST_BRIEF = 399;
/** Room for steps: a chat on a phone breaks longer lines itself, and more of them are scrolled past. */
const [COLUMNS, MOST_LINES] = [40, 30];
const MARK = { "from memory": " (from memory)", "one source": "¹" } as const;
const FROM_MEMORY = "Rests on values from memory.";

/** The whole answer as chat text: as many of its steps as fit, those that matter most first. */
export const text = (origin: string): Printer => ({
  answered(page, changes = []) {
    const room = LONGEST - message(page, changes, [], origin).length;
    return message(page, changes, worksheet(linesOf(page), room), origin);
  },
  unclear: askedBack,
  notCovered: declined,
  together,
});

/** The same with every step that a shorter one may tell, a line each: what a printed text is held against. */
export const unabridged = (origin: string): Printer => ({
  ...text(origin),
  answered: (page, changes = []) =>
    message(page, changes, linesOf(page).map((each, i) => `${i + 1}. ${each.text}`), origin),
});

/** The answer with its sizes, what was assumed for it and its marks, in one short message. */
export const brief = (origin: string): Printer => ({
  answered(page) {
    const weak = page.weak === "from memory" ? `${FROM_MEMORY} ` : "";
    const must = `${page.edition} code. ${weak}${SHORT_NOTICE}`;
    const room = LONGEST_BRIEF - must.length - 3;
    const assumed = page.assumptions.map(({ name, value }) => `${name}: ${value}`);
    const first = leading(`${notRead(page)}${page.headline}`, room - Math.min(LEAST_ASSUMED, listed(assumed).length));
    const so = [first, listed(assumed, room - first.length), must].filter((line) => line !== "").join("\n");
    const link = absolute(origin, page.link);
    return `${so.length + link.length + 2 <= LONGEST_BRIEF ? `${so}\n${link}` : so}\n`;
  },
  unclear: askedBack,
  notCovered: declined,
  together,
});

/** Characters that what was assumed may always have in a brief text. */
const LEAST_ASSUMED = 90;

/** As many of the assumptions as have room, and how many more there are. */
function listed(assumed: readonly string[], room = Infinity): string {
  const line = (count: number) => {
    const more = assumed.length - count;
    return `Taken as: ${assumed.slice(0, count).join("; ")}${more > 0 ? `; and ${more} more` : ""}.`;
  };
  for (let count = assumed.length; count > 0; count--) {
    if (line(count).length <= room) return line(count);
  }
  return "";
}

function message(page: Page, changes: readonly Change[], steps: readonly string[], origin: string): string {
  const blocks = [
    [
      `${notRead(page)}${page.headline}`,
      verdictOf(page),
      `${AS_READ}${page.restated}`,
      `${CODE}${page.edition} (${page.title}, ${page.editionTitle})`,
      page.weak === "from memory" ? FROM_MEMORY : "",
      changes.length ? `Changed: ${changed(changes).join(", ")}.` : "",
      page.explanation,
    ],
    list(FIGURES, page.figures.map(({ name, value }) => `${name}: ${value}`)),
    list(
      "Not told, so taken as (“words” that change it):",
      page.assumptions.map(({ name, value, change }) => `${name}: ${value} (“${change}”)`),
    ),
    recordOf(page),
    steps,
    list("Mind", page.cautions.map(({ text, cite }) => text + bracketed(cite))),
    [
      page.readAs.length ? `${HEARD}${page.readAs.join("; ")}.` : "",
      page.setAside.length
        ? `${LEFT_OUT}${page.setAside.map(({ text, because }) => `“${text}” (${because})`).join(", ")}.`
        : "",
    ],
    [page.notice, `${ALL_STEPS}${absolute(origin, page.link)}`],
  ];
  return blocks.map((block) => block.filter((line) => line !== "").join("\n")).filter((block) => block !== "")
    .join("\n\n") + "\n";
}

/** The record's lines as far as a phone shows them at a glance: what is wanted, and what was found. */
function recordOf({ record }: Page): string[] {
  const lines = record.flatMap(({ rows }) => rows).map(({ what, wanted, found, verdict }) =>
    [`${what}: ${wanted === "" ? "____" : wanted}`, found && `found ${found}`, verdict].filter(Boolean).join(", ")
  );
  const left = lines.length - MOST_RECORDED;
  const title = record.every(({ isList }) => isList) ? record[0]?.heading ?? "Record" : "Record";
  return [...list(title, lines.slice(0, MOST_RECORDED)), ...(left > 0 ? [`(${left} more behind the link)`] : [])];
}
const MOST_RECORDED = 15;

/** Words that nothing read stand before the answer they may belong to. */
const notRead = ({ unused }: Page): string => unused.length ? `${NOT_READ}${quoted(unused)}. ` : "";
const verdictOf = ({ verdict, headline }: Page): string =>
  verdict === undefined || headline.includes(verdict.because) ? "" : verdict.because;
const list = (title: string, lines: string[]) => lines.length ? [title, ...lines.map((line) => `- ${line}`)] : [];
const bracketed = (cite: string) => cite === "" ? "" : ` [${cite}]`;

/**
 * As much of the headline as has room, parted where a thought ends; at least the first thought. The sizes have room whatever
 * stands before them.
 */
function leading(headline: string, room: number): string {
  if (headline.length <= room) return headline;
  const ends = thoughts(headline);
  const upTo = (most: number) => ends.findLast(({ end }) => end <= most)?.end ?? ends[0]?.end ?? headline.length;
  const cut = upTo(room - 2);
  const size = headline.search(SIZE);
  const ahead = ends.filter(({ end }) => end <= size);
  const start = (ahead.findLast(({ mark }) => mark === ".") ?? ahead.at(-1))?.end;
  if (size < cut || start === undefined) return `${headline.slice(0, cut)} …`;
  const sized = ends.find(({ end }) => end > size)?.end ?? headline.length;
  const before = headline.slice(0, Math.min(start, upTo(room - (sized - start) - 5)));
  return `${before} … ${leading(headline.slice(start).trim(), room - before.length - 3)}`;
}
const SIZE = /\d(?:\/0)? (?:AWG|kcmil)/;

type Line = { text: string; rank: number; marked: boolean };

const linesOf = (page: Page): Line[] =>
  sumsOf(page).map(({ row, rank }) => ({ text: line(row), marked: row.weak === "one source", rank }));

/** As many steps as have room, numbered in their own order and broken for a phone. @param room in characters */
function worksheet(lines: readonly Line[], room: number): string[] {
  const kept = new Set<Line>();
  const print = () => {
    const steps = lines.filter((each) => kept.has(each));
    const left = lines.length - steps.length;
    return [
      WORKSHEET,
      ...steps.flatMap(({ text }, i) => broken(`${i + 1}. ${text}`)),
      ...(steps.some(({ marked }) => marked) ? ["¹ in one published source only"] : []),
      ...(left > 0 ? [`(${left} more behind the link)`] : []),
    ];
  };
  for (const each of lines.toSorted((a, b) => a.rank - b.rank)) {
    kept.add(each);
    const printed = print();
    if (printed.length <= MOST_LINES && printed.join("\n").length + 2 <= room) continue;
    kept.delete(each);
    break;
  }
  return kept.size === 0 ? [] : print();
}

/** Lines of no more columns than a phone shows, the later ones set in. */
function broken(text: string): string[] {
  const lines: string[] = [];
  let line = "";
  for (const word of text.split(" ")) {
    if (line !== "" && line.length + 1 + word.length > COLUMNS) {
      lines.push(line);
      line = `   ${word}`;
    } else line = line === "" ? word : `${line} ${word}`;
  }
  return [...lines, line];
}

function line(row: Row): string {
  const sum = [row.name + ":", sumOf(row), row.result].filter((each) => each !== "").join(" ");
  return `${sum}${bracketed(row.cite)}${row.weak ? MARK[row.weak] : ""}`;
}

const together = (parts: readonly string[]): string => parts.join("\n");

function askedBack({ needs, choices, unused, restated }: Asked): string {
  return [
    ...(restated === "" ? [] : [`${AS_READ}${restated}`]),
    ...needs.map(({ ask, example }) => example === "" ? ask : `${ask}\nFor example: ${example}`),
    ...choices.map(({ text, question }) => text === question ? `- ${text}` : `- ${text}: ${question}`),
    ...(unused.length ? [`${NOT_READ}${quoted(unused)}.`] : []),
  ].join("\n") + "\n";
}

function declined({ because }: Declined): string {
  return `Not covered here: ${because.replace(/\.$/, "")}.\n`;
}
