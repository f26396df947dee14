/** Prints any of the three ways a question can end, in any of the forms. Pure: no clock, no network. */
import type { Change, Need, Option, Outcome, Span } from "../core/outcome.ts";
import { layOut, type Page } from "./page.ts";

/** What we ask back, what the text could mean, and what of it was not used. */
export type Asked = { needs: readonly Need[]; choices: readonly Option[]; unused: readonly string[] };
/** Why a question is not answered here. */
export type Declined = { because: string };

/** One form of printing: chat text, markdown, HTML. */
export type Printer<Out = string> = {
  /** @param changes figures that are others than in the answer before */
  answered(page: Page, changes?: readonly Change[]): Out;
  unclear(asked: Asked): Out;
  notCovered(declined: Declined): Out;
  /** Several answers to one text, one under the other. */
  together(parts: readonly Out[]): Out;
};

export function printOutcome<Out>(outcome: Outcome, printer: Printer<Out>): Out {
  const one = printOne(outcome, printer);
  const { more = [] } = outcome;
  return more.length === 0 ? one : printer.together([one, ...more.map((each) => printOutcome(each, printer))]);
}

function printOne<Out>(outcome: Outcome, printer: Printer<Out>): Out {
  switch (outcome.outcome) {
    case "answered":
      return printer.answered(layOut(outcome.answer), outcome.changes);
    case "unclear":
      return printer.unclear({ needs: outcome.needs, choices: outcome.choices ?? [], unused: words(outcome.unused) });
    case "not covered":
      return printer.notCovered({ because: outcome.because });
  }
}

/** `breaker 30 → 40 A`: what is another than before. */
export const changed = (changes: readonly Change[]): string[] =>
  changes.map(({ name, was, is, unit }) => {
    const shown = (value: number | string) =>
      typeof value === "number" ? value.toLocaleString("en-US", { maximumFractionDigits: 2 }) : value;
    return `${name} ${shown(was)} → ${shown(is)}${unit === "" ? "" : ` ${unit}`}`;
  });

/** Stretches of the asked text as words to show back. */
export const words = (spans: readonly Span[]): string[] =>
  spans.map(({ text }) => text.trim()).filter((text) => text !== "");

/** Words quoted and listed: “on the”, “side”. */
export const quoted = (texts: readonly string[]): string => texts.map((text) => `“${text}”`).join(", ");

/** The answer's link as it can be pasted anywhere: `origin` is where this service is reached, `""` when unknown. */
export const absolute = (origin: string, link: string): string => origin + link;
