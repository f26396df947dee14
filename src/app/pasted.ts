/**
 * Text that this service printed, pasted back: worked out anew from its own lines, and told whether it still holds. It is known
 * by the lines it was printed with, or by the link in it.
 */
import { ALL_STEPS, AS_READ, CODE, HEARD, LEFT_OUT, NOT_READ, WORKSHEET } from "../render/labels.ts";
import { NOTICE, type Outcome, SHORT_NOTICE } from "../outcomes.ts";
import type { Engine } from "../engine.ts";
import type { Handed } from "../conversation/thread.ts";
import { printOutcome } from "../render/outcome.ts";
import { brief, unabridged } from "../render/text.ts";

type Pasted = {
  request: string;
  edition: string;
  /** The lines that were printed. */
  printed: readonly string[];
  /** What somebody wrote beneath them. */
  added: string;
};

/** The engine, for which its own printed text is no riddle. */
export function withPasted(engine: Engine): Engine {
  return {
    ...engine,
    ask(asked, options = {}) {
      const pasted = readPasted(asked);
      return pasted ? again(engine, pasted) : engine.ask(asked, options);
    },
  };
}

function again(engine: Engine, { request, edition, printed, added }: Pasted): Outcome {
  const outcome = engine.ask(request, { edition });
  if (outcome.outcome !== "answered") return outcome;
  const explanation = compared(outcome, printed);
  const first = { ...outcome, answer: { ...outcome.answer, explanation } };
  if (added === "" || !outcome.thread) return first;
  // Words beneath the text go on from it.
  const next = engine.ask(added, { edition, after: outcome.thread as Handed });
  if (next.outcome === "answered") {
    return { ...next, answer: { ...next.answer, explanation: `${explanation} Then “${added}” was taken up.` } };
  }
  // Thanks and greetings ask for nothing; a figure that was not understood does.
  if (/\d/.test(added)) return next;
  return { ...first, answer: { ...outcome.answer, explanation: `${explanation} “${added}” was left aside.` } };
}

/** Whether the pasted lines are those that are printed now, and which are not. */
function compared(outcome: Outcome, printed: readonly string[]): string {
  const now = [printOutcome(outcome, unabridged("")), printOutcome(outcome, brief(""))];
  const whole = now.map(squeezed).join("\n");
  const lines = now.join("\n").split("\n").map((line) => line.trim().replace(/^\d+\. /, ""));
  const request = printed.findIndex((line) => line.startsWith(AS_READ));
  // A greeting right above it has no figure in it.
  const differing = printed.filter((line, i) => (i >= request || /\d/.test(line)) && !whole.includes(squeezed(line)));
  if (differing.length === 0) return "Pasted back and worked out anew: unchanged.";
  const told = differing.slice(0, MOST_TOLD).map((line) => {
    const is = /[:.]/.test(line) ? lines.find((each) => nameOf(each) === nameOf(line)) : undefined;
    return is === undefined ? `“${line}” is not in it now` : `“${line}” is now “${is}”`;
  });
  const more = differing.length > MOST_TOLD ? `; and ${differing.length - MOST_TOLD} more lines` : "";
  return `Pasted back and worked out anew: it differs. ${told.join("; ")}${more}.`;
}
const MOST_TOLD = 4;

/** Chats and mails break lines anew: blanks count for nothing, nor do the shapes of quotes. */
const squeezed = (line: string): string => line.replace(/\s+/g, "").replace(/["“”„]/g, '"').replace(/['‘’]/g, "'");
/** What stands before a line's value; a figure is named otherwise than a step. */
const nameOf = (line: string): string => squeezed(line.split(": ")[0]!);

/** A text's lines as they were printed, without what a chat or a mail puts before a quoted line. */
const linesOf = (asked: string): string[] => asked.split("\n").map((line) => line.replace(/^[>|\s]+/, "").trimEnd());

const LINK = new RegExp(`^(?:${ALL_STEPS})?(?:https?://[^\\s/]+)?/(?:answer|embed)\\?(\\S*\\bq=\\S+)$`);

/** Undefined where a text is none of ours. */
export function readPasted(asked: string): Pasted | undefined {
  const lines = linesOf(asked);
  const link = linkIn(lines);
  const [read, code] = [
    lines.findIndex((line) => line.startsWith(AS_READ)),
    lines.findIndex((line) => line.startsWith(CODE)),
  ];
  if (read >= 0 && code > read) {
    // A mail may have broken the line.
    const request = lines.slice(read, code).join(" ").slice(AS_READ.length).trim();
    const edition = /^[\w.-]+/.exec(lines[code]!.slice(CODE.length))?.[0];
    if (request === "" || edition === undefined) return undefined;
    return { request, edition, ...parted(lines, read, link?.at) };
  }
  if (!link) return undefined;
  const rest = lines.filter((_, i) => i !== link.at).filter((line) => line !== "");
  const isOurs = rest.some((line) => line.includes(SHORT_NOTICE) || line.includes(NOTICE));
  if (rest.length > 0 && !isOurs) return undefined;
  return { ...link, printed: rest, added: "" };
}

function linkIn(lines: readonly string[]): { request: string; edition: string; at: number } | undefined {
  for (const [at, line] of lines.entries()) {
    const query = LINK.exec(line)?.[1];
    if (query === undefined) continue;
    const asked = new URLSearchParams(query);
    // A link of a conversation has more before it than one text.
    if (asked.has("after")) return undefined;
    return { request: asked.get("q") ?? "", edition: asked.get("edition") ?? "", at };
  }
  return undefined;
}

/** The printed lines, and what was added beneath. The first of them is the one before the request. */
function parted(lines: readonly string[], read: number, link: number | undefined): Omit<Pasted, "request" | "edition"> {
  const end = link ?? lines.length;
  // A printed line is never blank, and what stands above the first is somebody's own.
  const before = lines.slice(0, read).findLastIndex((line) => line === "");
  const printed = joined(lines.slice(before + 1, end)).filter((line) => line !== "" && !PASSING.test(line))
    .map((line) => line.replace(UNREAD, ""));
  return { printed, added: lines.slice(end + 1).join("\n").trim() };
}

/** Steps that were broken for a phone, whole again and without their numbers, which count what was left out. */
function joined(lines: readonly string[]): string[] {
  const whole: string[] = [];
  let [inSheet, inStep] = [false, false];
  for (const line of lines) {
    inSheet = line === WORKSHEET || (inSheet && line !== "");
    const step = inSheet ? /^\d+\. (.*)/.exec(line)?.[1] : undefined;
    inStep = step !== undefined || (inStep && line !== "" && !/^[¹(]/.test(line));
    if (step === undefined && inStep) whole.push(`${whole.pop()} ${line}`);
    else whole.push(step ?? line);
  }
  return whole;
}

/** Lines that told of one asking, or of how much had room, and say nothing of the answer. */
const PASSING = new RegExp(
  `^(${HEARD}|${LEFT_OUT}|Changed: |Pasted back |It comes from |${WORKSHEET}$|¹ |\\(\\d+ more behind the link\\)$)`,
);
const UNREAD = new RegExp(`^${NOT_READ}(“[^”]*”(, )?)+\\. `);
