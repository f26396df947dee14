/** Prints any of the three ways a question can end, in any of the forms. Pure: no clock, no network. */
import type { Need } from "../core/outcome.ts";
import type { Change, Option, Outcome } from "../outcomes.ts";
import type { Span } from "../core/worked.ts";
import { printBriefly } from "../core/print.ts";
import { layOut, type Page } from "./page.ts";

/** What we ask back, what the text could mean, and what of it was not used. */
export type Asked = {
  needs: readonly Need[];
  choices: readonly Option[];
  unused: readonly string[];
  /** The request in plain words, as far as it was understood; `""` where nothing is told of it. */
  restated: string;
};
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

/** Prints an outcome without what else the same text asked. */
export function printOne<Out>(outcome: Outcome, printer: Printer<Out>): Out {
  switch (outcome.outcome) {
    case "answered":
      return printer.answered(layOut(outcome.answer), outcome.changes);
    case "unclear":
      return printer.unclear({
        needs: outcome.needs,
        choices: outcome.choices ?? [],
        unused: words(outcome.unused),
        restated: outcome.restated ?? "",
      });
    case "not covered":
      return printer.notCovered({ because: outcome.because });
  }
}

/** What is another than before, as it is shown: the sizes and ratings first. */
export type Was = { name: string; was: string; is: string };
export const wasAndIs = (changes: readonly Change[]): Was[] => {
  const shown = (value: number | string, unit: string) =>
    typeof value === "number"
      ? `${value.toLocaleString("en-US", { maximumFractionDigits: 2 })}${unit === "" || unit === "1" ? "" : ` ${unit}`}`
      : printBriefly({ word: value });
  return changes.toSorted((a, b) => Number(isChoice(b)) - Number(isChoice(a))).map(({ name, was, is, unit }) => ({
    name,
    // Both are in one unit, which stands behind the second.
    was: shown(was, typeof is === "number" ? "" : unit),
    is: shown(is, unit),
  }));
};
const isChoice = ({ figure, is }: Change): boolean => typeof is === "string" || /rating|protection/.test(figure);

/** `breaker 30 A → 40 A`, one each. */
export const changed = (changes: readonly Change[]): string[] =>
  wasAndIs(changes).map(({ name, was, is }) => `${name} ${was} → ${is}`);

/** Stretches of the asked text as words to show back. */
const words = (spans: readonly Span[]): string[] => spans.map(({ text }) => text.trim()).filter((text) => text !== "");

/** Words quoted and listed: “on the”, “side”. */
export const quoted = (texts: readonly string[]): string => texts.map((text) => `“${text}”`).join(", ");

/** The answer's link as it can be pasted anywhere: `origin` is where this service is reached, `""` when unknown. */
export const absolute = (origin: string, link: string): string => origin + link;
