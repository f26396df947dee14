import type { Cue, Phrase } from "../../text/phrases.ts";

export const cues: readonly Cue[] = [];
export const phrases: readonly Phrase[] = [];
