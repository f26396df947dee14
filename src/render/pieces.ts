/** A restated request in pieces that can be changed one by one, each with the asked words it came from. */
import type { Account, Span } from "../core/worked.ts";

/** Where a form's words take what is typed into its box. */
export const GAP = "…";

export type Piece = {
  text: string;
  /** The whole restated request with `GAP` in place of this piece. */
  words: string;
  /** The asked words it was read from, as far as they can be told. */
  from: readonly Span[];
};

/** @param restated pieces parted by commas, semicolons and colons, as every kind writes them */
export function piecesOf(restated: string, { taken }: Pick<Account, "taken"> = { taken: [] }): Piece[] {
  // A comma inside a number parts nothing: none is followed by a blank.
  const parts = restated.split(/([;,:] )/);
  const texts = parts.flatMap((text, i) => i % 2 === 0 && text.trim() !== "" ? [{ text, i }] : []);
  const told = taken.filter(({ text }) => signs(text).length > 0);
  const shares = (span: Span, text: string) => {
    const known = new Set(signs(text));
    const own = signs(span.text);
    return own.filter((sign) => known.has(sign)).length / own.length;
  };
  return texts.map(({ text, i }) => ({
    text,
    words: parts.map((part, at) => at === i ? GAP : part).join(""),
    from: told.filter((span) => {
      const own = shares(span, text);
      return own > 0.4 && texts.every((other) => shares(span, other.text) <= own);
    }),
  }));
}

/** Numbers and words of a text, in the singular, to compare by. */
const signs = (text: string): string[] =>
  (text.toLowerCase().match(/\d[\d.,/-]*|\p{L}{2,}/gu) ?? []).map((sign) => sign.replace(/[.,-]$|s$/, ""));

/** A stretch of the asked text: plain, or with what became of it. */
type Stretch = { text: string; at: number; is: "plain" | "taken" | "set aside" | "unread"; why: string };

/** The asked text in stretches; one plain stretch where the account is of another text. */
export function stretches(asked: string, account: Account | undefined): Stretch[] {
  const marks = account === undefined ? [] : [
    ...account.taken.map(({ at, text, as }) => ({ at, text, is: "taken" as const, why: as })),
    ...account.setAside.map(({ at, text, because }) => ({ at, text, is: "set aside" as const, why: because })),
    ...account.unread.map(({ at, text }) => ({ at, text, is: "unread" as const, why: "not read" })),
  ].sort((a, b) => a.at - b.at);
  const plain = (text: string, at: number): Stretch[] => text === "" ? [] : [{ text, at, is: "plain", why: "" }];
  const found: Stretch[] = [];
  let end = 0;
  for (const mark of marks) {
    if (asked.slice(mark.at, mark.at + mark.text.length) !== mark.text) return plain(asked, 0);
    if (mark.at < end || mark.text === "") continue;
    found.push(...plain(asked.slice(end, mark.at), end), mark);
    end = mark.at + mark.text.length;
  }
  return [...found, ...plain(asked.slice(end), end)];
}

/** A phrase with one number in it as a box: what stands before and after, and the phrase with `GAP` for the number. */
export function numberBox(phrase: string): { before: string; after: string; words: string } | undefined {
  const [, before, number, after] = /^([^\d]*?)(\d+(?:\.\d+)?)([^\d]*)$/.exec(phrase) ?? [];
  if (number === undefined) return undefined;
  return { before: before!.trim(), after: after!.trim(), words: `${before}${GAP}${after}` };
}

/** The unit that a bare number typed into a box stands for, by the box's example: `12 A` → `A`. */
export const unitOf = (example: string): string =>
  /^(?=.{1,30}$)(?:[a-z]+ )*\d[\d.,]* ?(VA|kVA|AWG|A|V|k?W|hp|ft|m|in|kcmil|%|°[CF]|kA|sq ft)(?![\w/])/.exec(example)
    ?.[1] ?? "";
