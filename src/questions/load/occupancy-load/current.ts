/** From volt-amperes to the current of the heaviest line and of the neutral, by how the supply's wires lie. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { reducedNeutral } from "../../../rules/neutral.ts";
import { lineCurrent } from "../../../rules/power.ts";
import type { Voltages } from "../../../rules/systems.ts";
import { type Single, unevenPairs, unevenToNeutral } from "../../../rules/three-phase.ts";
import { type Line, total } from "./lines.ts";
import type { Item } from "./loads.ts";
import type { OccupancyRequest } from "./request.ts";

/** Of which sum the current is: with continuous loads as they are, or with the addition for them. */
type Of = "demand" | "design";
export type Current = {
  current: Known<"A">;
  /** Single-phase equipment that does not balance, and between which lines it was taken to be. */
  uneven?: string | undefined;
};

/**
 * The current of the line that is most loaded, of all lines together. On a high-leg delta single-phase loads are all on the two
 * lines beside the neutral; on other three-phase supplies they are spread over the pairs of lines.
 */
export function currentOf(
  w: Worksheet,
  load: Known<"VA">,
  lines: readonly Line[],
  of: Of,
  system: Voltages,
  name: string,
): Current {
  const { shape, lineToLine, lineToNeutral } = system;
  const beyond = beyondShare(w, lines, of, system);
  const finish = (even: (name: string) => Known<"A">) => {
    if (!beyond) return even(name);
    return w.work(name, "A", calc`${even(`${name}, evenly`)} + ${beyond} ÷ ${lineToNeutral!}`, "calculation-voltages");
  };
  if (shape === "high leg") return { current: finish((name) => besideNeutral(w, load, lines, of, lineToLine, name)) };
  const neutral = shape === "two lines of a wye" ? total(w, SHARES.neutral, lines, NEUTRAL[of]) : undefined;
  if (neutral) {
    // Line-to-line and line-to-neutral currents are not in phase: their plain sum is a little above the true one.
    return {
      current: finish((name) =>
        w.work(
          name,
          "A",
          calc`(${load} − ${neutral}) ÷ ${lineToLine} + ${neutral} ÷ (2 × ${lineToNeutral!})`,
          "calculation-voltages",
        )
      ),
    };
  }
  const pairs = system.phases === 3 ? pairsOf(w, lines, of) : undefined;
  if (!pairs) return { current: finish((name) => lineCurrent(w, load, lineToLine, system.phases, name)) };
  const uneven = unevenPairs(w, pairs, "VA")!;
  const current = finish((name) => {
    const rest = w.work("of the load, balanced", "VA", calc`${load} − ${uneven.load}`);
    const balanced = lineCurrent(w, rest, lineToLine, 3, `${name}, balanced part`);
    return w.work(
      name,
      "A",
      calc`${balanced} + ${uneven.most} ÷ ${lineToLine}`,
      "calculation-voltages",
      "the most loaded line; a little above the true sum",
    );
  });
  return { current, uneven: uneven.words };
}

const SHARES = { neutral: "of it between the lines and the neutral", three: "of it on all three lines" };
const NEUTRAL = { demand: "neutral", design: "neutralDesign" } as const;
const THREE = { demand: "three", design: "threeDesign" } as const;

/** The two lines beside the neutral of a high-leg delta, which carry all that is single-phase. */
function besideNeutral(
  w: Worksheet,
  load: Known<"VA">,
  lines: readonly Line[],
  of: Of,
  lineToLine: Known<"V">,
  name: string,
): Known<"A"> {
  const three = total(w, SHARES.three, lines, THREE[of]);
  if (!three) return w.work(name, "A", calc`${load} ÷ ${lineToLine}`, "calculation-voltages");
  const part = lineCurrent(w, three, lineToLine, 3, `${name}, three-phase part`);
  return w.work(
    name,
    "A",
    calc`${part} + (${load} − ${three}) ÷ ${lineToLine}`,
    "calculation-voltages",
    "the two lines beside the neutral; a little above the true sum",
  );
}

/** Equipment between two lines, the addition for the largest motor with its motor; undefined where it balances. */
function pairsOf(w: Worksheet, lines: readonly Line[], of: Of): Single[] | undefined {
  const singles = singlesOf(lines, "line to line", of);
  if (w.scratch(() => unevenPairs(w, singles(), "VA")) === undefined) return undefined;
  const addition = lines.find(({ motor }) => motor?.wires === "line to line");
  return singles().flatMap((single, i, all): Single[] => {
    const isLargest = addition && all.findIndex(({ item }) => item === addition.motor) === i;
    if (!isLargest) return [single];
    const { name, count, each } = single;
    const more = w.work(`${name}, with the addition for the largest motor`, "VA", calc`${each} + ${addition[of]}`);
    return [...(count > 1 ? [{ name, count: count - 1, each }] : []), { name, count: 1, each: more }];
  });
}

/** Equipment to the neutral, as far as one line has more of it than an even share. */
function beyondShare(w: Worksheet, lines: readonly Line[], of: Of, system: Voltages): Known<"VA"> | undefined {
  if (!system.lineToNeutral) return undefined;
  const singles = singlesOf(lines, "line to neutral", of);
  const worked = () => {
    const all = total(w, SHARES.neutral, lines, NEUTRAL[of]);
    return all && unevenToNeutral(w, singles(), all, system.shape === "wye" ? 3 : 2);
  };
  return w.scratch(worked) && worked();
}

const singlesOf = (lines: readonly Line[], wires: Item["wires"], of: Of) => () =>
  lines.flatMap(({ pieces = [] }) => pieces).filter(({ item }) => item.wires === wires).map((piece) => ({
    item: piece.item,
    name: piece.item.name,
    count: piece.item.said.count,
    each: piece[of](),
  }));

type Neutral = { load: Known<"VA">; current: Known<"A"> };

/** The neutral, where the supply has one and something stands between it and the lines. */
export function neutralOf(
  w: Worksheet,
  r: OccupancyRequest,
  lines: readonly Line[],
  system: Voltages,
): Neutral | undefined {
  if (!system.lineToNeutral) return undefined;
  w.part("Neutral");
  const load = total(w, "neutral load", lines, "neutral");
  if (!load) return undefined;
  const beyond = beyondShare(w, lines, "demand", system);
  const name = beyond ? "neutral current, of an even share" : "neutral current";
  const even = system.shape === "wye"
    ? lineCurrent(w, load, system.lineToLine, 3, name)
    : w.work(name, "A", calc`${load} ÷ (2 × ${system.lineToNeutral})`, "neutral");
  const current = beyond
    ? w.work("neutral current", "A", calc`${even} + ${beyond} ÷ ${system.lineToNeutral}`, "neutral")
    : even;
  if (system.shape === "two lines of a wye") {
    w.caution(
      "Two lines and the neutral of a wye: the neutral carries about as much as the lines and may not be reduced.",
      "neutral",
    );
    return { load, current };
  }
  if (system.shape !== "wye") return { load, current: reducedNeutral(w, current) };
  if (r.linear) {
    w.given("loads between lines and neutral", "linear");
    return { load, current: reducedNeutral(w, current) };
  }
  const isLarge = w.scratch(() => w.holds(current, ">", w.constant<"A">("neutral-large-threshold")));
  if (isLarge) {
    w.suppose(
      "loads between lines and neutral",
      "nonlinear",
      "lamps and office machines mostly are; then a neutral of a wye may not be reduced",
      "linear loads",
      "neutral",
    );
  }
  return { load, current };
}
