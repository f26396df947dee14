import type { Cue, Phrase, Reading } from "../../text/phrases.ts";
export const cues: readonly Cue[] = [];
export const phrases: readonly Phrase[] = [];
export const settle = (_: Reading): void => {};
