/** How pieces and facts are shown to a developer, and compared in tests. */
import type { Facts, Value } from "./facts.ts";
import type { Sense } from "./sense.ts";
import type { ReadText } from "./read.ts";
import type { Winding } from "./sense.ts";

/** `12 kW`, `metal:copper`, `200 ft (from 180)`, `cable 12 2`. */
export function senseInWords(s: Sense): string {
  switch (s.is) {
    case "term":
      return `${s.sort}:${s.id}`;
    case "quantity":
      return `${s.exact ?? s.n} ${s.unit}${s.low === undefined ? "" : ` (from ${s.low})`}${
        s.from ? ` (${s.from})` : ""
      }`;
    case "number":
      return `${s.exact ?? s.n}`;
    case "count":
      return `count ${s.n}`;
    case "size":
      return `size ${s.size}`;
    case "sizes":
      return `sizes ${s.sizes.join(" ")}`;
    case "cable":
      return `cable ${s.size} ${s.wires}`;
    case "winding":
      return `${s.side} ${windingInWords(s.winding)}`;
    case "windings":
      return `${windingInWords(s.primary)} to ${windingInWords(s.secondary)}`;
    default:
      return Object.values(s).join(" ");
  }
}
const windingInWords = ({ n, unit, low, wye, delta, phases }: Winding): string =>
  [`${n}${low === undefined ? "" : `/${low}`} ${unit}`, wye && "wye", delta && "delta", phases && `${phases} ph`]
    .filter(Boolean).join(" ");
const valuesInWords = (list: readonly Value[]): string => list.map(({ sense }) => senseInWords(sense)).join(" + ");

/** One line a fact, `load range: rating 12 kW, volts 240 V`, and one a term or figure without a head, `ft 100 ft`. */
export function factsInWords({ facts, free }: Facts): { facts: string[]; free: string[] } {
  return {
    facts: facts.map(({ family, id, slots }) => {
      const filled = Object.entries(slots).map(([slot, list]) => `${slot} ${valuesInWords(list)}`).sort().join(", ");
      return `${family} ${id ?? "—"}${filled ? `: ${filled}` : ""}`;
    }),
    free: free.map(({ key, value }) => value.sense.is === "term" ? key : `${key} ${senseInWords(value.sense)}`),
  };
}

/** The text with each piece in brackets and its senses beside it. */
export const piecesInWords = ({ asked, tokens, pieces }: ReadText): string =>
  pieces.map(({ is, from, to, senses }) => {
    const words = asked.slice(tokens[from]!.at, tokens[to - 1]!.end).replace(/\s+/g, " ");
    if (is === "fact") return `[${words}: ${senses.map(senseInWords).join(" | ")}]`;
    return is === "unknown" ? `?${words}?` : is === "border" ? "■" : words;
  }).join(" ");
