/** Prints any of the three ways a question can end, in any of the forms. Pure: no clock, no network. */
import type { Need, Outcome, Span } from "../core/outcome.ts";
import { layOut, type Page } from "./page.ts";

/** What we ask back, and what of the text was not used. */
export type Asked = { needs: readonly Need[]; unused: readonly string[] };
/** Why a question is not answered here. */
export type Declined = { because: string };

/** One form of printing: chat text, markdown, HTML. */
export type Printer<Out = string> = {
  answered(page: Page): Out;
  unclear(asked: Asked): Out;
  notCovered(declined: Declined): Out;
};

export function printOutcome<Out>(outcome: Outcome, printer: Printer<Out>): Out {
  switch (outcome.outcome) {
    case "answered":
      return printer.answered(layOut(outcome.answer));
    case "unclear":
      return printer.unclear({ needs: outcome.needs, unused: words(outcome.unused) });
    case "not covered":
      return printer.notCovered({ because: outcome.because });
  }
}

/** Stretches of the asked text as words to show back. */
export const words = (spans: readonly Span[]): string[] =>
  spans.map(({ text }) => text.trim()).filter((text) => text !== "");

/** Words quoted and listed: “on the”, “side”. */
export const quoted = (texts: readonly string[]): string => texts.map((text) => `“${text}”`).join(", ");

/** The answer's link as it can be pasted anywhere: `origin` is where this service is reached, `""` when unknown. */
export const absolute = (origin: string, link: string): string => origin + link;
