/** Markdown: every step, for notes, tickets and printing. */
import { absolute, type Asked, changed, type Declined, type Printer, quoted } from "./outcome.ts";
import type { Page, Row } from "./page.ts";

export const markdown = (origin: string): Printer => ({
  answered(page, changes = []) {
    return blocks([
      page.unused.length ? `**Not read: ${plain(quoted(page.unused))}**` : "",
      `# ${plain(page.headline)}`,
      `As read: ${plain(page.restated)}`,
      changes.length ? `Changed: ${plain(changed(changes).join(", "))}` : "",
      plain(page.explanation),
      page.verdict ? `**${page.verdict.is.toUpperCase()}**: ${plain(page.verdict.because)}` : "",
      `${plain(page.title)}, ${plain(page.editionTitle)}`,
      page.asked === "" ? "" : page.asked.split("\n").map((line) => `> ${plain(line)}`).join("\n"),
      table(page),
      ...recordOf(page),
      list(
        "Not told, so taken as",
        page.assumptions.map((a) => `${a.name}: ${a.value}, ${a.because}. To change it say “${a.change}”.`),
      ),
      list("Mind", page.cautions.map(({ text, cite }) => cite === "" ? text : `${text} (${cite})`)),
      list("Taken otherwise than written", page.readAs),
      list("Left out of the sums", page.setAside.map(({ text, because }) => `“${text}”: ${because}`)),
      ...page.parts.map(({ heading, rows }) => `## ${plain(heading)}\n\n${rows.map(step).join("\n")}`),
      plain(page.notice),
      `[This answer, recomputed](${absolute(origin, page.link).replace(/[()]/g, encodeURIComponent)})`,
    ]);
  },
  together: (parts) => parts.join("\n"),
  unclear: ({ needs, choices, unused }: Asked) =>
    blocks([
      ...needs.map(({ ask, example }) => plain(ask) + (example === "" ? "" : `\n\n> ${plain(example)}`)),
      choices.map(({ text, question }) => `- ${plain(text)}: ${plain(question)}`).join("\n"),
      unused.length ? `Not read: ${plain(quoted(unused))}` : "",
    ]),
  notCovered: ({ because }: Declined) => blocks([`Not covered here: ${plain(because)}`]),
});

const blocks = (parts: readonly string[]) => parts.filter((part) => part !== "").join("\n\n") + "\n";

/** Text in which nothing is read as markup, whoever wrote it. */
const plain = (text: string) => text.replace(/[\\`*_[\]<>#|~]/g, (sign) => `\\${sign}`);

const list = (title: string, lines: readonly string[]) =>
  lines.length ? `## ${title}\n\n${lines.map((line) => `- ${plain(line)}`).join("\n")}` : "";

const table = ({ figures }: Page) =>
  ["| figure | value | step |", "| --- | --- | --- |"]
    .concat(figures.map(({ name, value, step }) => `| ${plain(name)} | ${plain(value)} | ${step} |`)).join("\n");

/** A record to be kept: what was told is filled in, and the rest is left to fill by hand. */
const recordOf = ({ record }: Page): string[] =>
  record.every(({ isList }) => isList) ? record.map(listOf) : [
    ["| check | wanted | found | ok |", "| --- | --- | --- | --- |"].concat(record.flatMap(({ heading, rows }) => [
      `| **${plain(heading)}** | | | |`,
      ...rows.map(({ what, wanted, found, verdict }) =>
        `| ${plain(what)} | ${plain(wanted)} | ${found === "" ? BLANK : plain(found)} | ${verdict || BLANK} |`
      ),
    ])).join("\n"),
  ];
const listOf = ({ heading, rows }: Page["record"][number]): string =>
  [
    `| ${plain(heading)} | |`,
    "| --- | --- |",
    ...rows.map(({ what, wanted }) => `| ${plain(what)} | ${plain(wanted)} |`),
  ]
    .join("\n");
const BLANK = "\\_\\_\\_\\_";
function step({ id, kind, name, symbols, numbers, result, cite, note, weak }: Row): string {
  const sums = [...new Set(kind === "worked" ? [symbols, numbers] : [numbers])].filter((each) =>
    each && each !== result
  );
  const marks = [cite, note, weak ?? ""].filter((each) => each !== "").join("; ");
  const said = [`${plain(name)}:`, ...sums.flatMap((each) => [plain(each), kind === "worked" ? "=" : "→"])].join(" ");
  return `- ${id} ${said} **${plain(result)}**${marks === "" ? "" : ` (${plain(marks)})`}`;
}
