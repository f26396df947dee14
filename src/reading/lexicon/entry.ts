/** What an entry of the lexicon is: how people write one term of the trade. */
export type Entry = {
  /** Full spellings, in the singular; plurals, hyphens and joined forms are derived, and a slip of one letter is mended. */
  readonly says?: readonly string[];
  /** Short forms, exact: never mended; digits may be glued on (`28mca`). */
  readonly short?: readonly string[];
  /** Another term that these words bring with them, as `sort:id`: a fridge circuit brings nothing, romex brings a cable. */
  readonly implies?: string | readonly string[];
};
export type Lexicon = Readonly<Record<string, Entry>>;

/** Every one of some words before every one of the next: `trips` and `opens` before `on a short` and `on a fault`. */
export const each = (...parts: readonly (readonly string[])[]): string[] =>
  parts.reduce<string[]>((said, words) => said.flatMap((front) => words.map((word) => `${front} ${word}`.trim())), [
    "",
  ]);
