/** What a topic comes to: the sentence for the headline, and what was judged of what was put up. */
import type { Judgement } from "../../parts/verdict.ts";

export type Finding = { readonly says: string; readonly judged: readonly Judgement[] };

/** A judgement of one thing. */
export const judge = (what: string, is: Judgement["is"], because: string): Judgement => ({ what, is, because });

/** A sentence with a capital and a full stop. */
export const sentence = (text: string): string =>
  `${text[0]!.toUpperCase()}${text.slice(1)}${/[.!?]$/.test(text) ? "" : "."}`;
