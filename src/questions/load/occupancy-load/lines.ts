/** The lines of a calculation: what each comes to, what the supply is sized for, and where it stands between the wires. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { sumOf } from "../../../rules/loads.ts";
import type { Item } from "./loads.ts";

/** One line. Its parts between the wires are of its demand, and grow with it into what the supply is sized for. */
export type Line = {
  name: string;
  /** With continuous loads as they are. */
  demand: Known<"VA">;
  /** With the addition for continuous loads: what conductors and devices are for. */
  design: Known<"VA">;
  /** Between the lines and the neutral. */
  neutral?: Known<"VA"> | undefined;
  /** The same, with the addition. */
  neutralDesign?: Known<"VA"> | undefined;
  /** On all three lines alike. */
  three?: Known<"VA"> | undefined;
  /** The same, with the addition. */
  threeDesign?: Known<"VA"> | undefined;
  /** Single-phase equipment, piece by piece. */
  pieces?: readonly Piece[];
  /** The motor that the line is the addition of. */
  motor?: Item | undefined;
};
/** Pieces of equipment that are alike, as their line counts one: as it is, and with the addition. */
export type Piece = {
  item: Item;
  demand: () => Known<"VA">;
  design: () => Known<"VA">;
};

const all = (items: readonly Item[]) => items.map((item) => item.all);
export const between = (items: readonly Item[], wires: Item["wires"]): Item[] =>
  items.filter((item) => item.wires === wires);

/** Continuous loads as conductors and devices have to carry them. */
export const continuousLoad = (w: Worksheet, load: Known<"VA">, name: string): Known<"VA"> =>
  w.work(name, "VA", calc`${load} × ${w.constant<"%">("continuous-load-factor")}`, "continuous-loads-feeder");

/** Loads that count in full. */
export function plainLine(w: Worksheet, name: string, items: readonly Item[]): Line | undefined {
  const demand = sumOf(w, name, all(items));
  if (!demand) return undefined;
  return {
    name,
    demand,
    design: demand,
    ...parts(w, name, items, (load) => load),
  };
}

/** Loads that run for hours. */
export function continuousLine(w: Worksheet, name: string, items: readonly Item[]): Line | undefined {
  const demand = sumOf(w, name, all(items));
  if (!demand) return undefined;
  const more = (load: Known<"VA">, what: string) => continuousLoad(w, load, `${what}, continuous`);
  return { name, demand, design: more(demand, name), ...parts(w, name, items, more) };
}

function parts(
  w: Worksheet,
  name: string,
  items: readonly Item[],
  more: (load: Known<"VA">, name: string) => Known<"VA">,
): Pick<Line, "neutral" | "neutralDesign" | "three" | "threeDesign" | "pieces"> {
  const neutral = sumOf(w, `${name}, line to neutral`, all(between(items, "line to neutral")));
  const three = sumOf(w, `${name}, three-phase`, all(between(items, "three-phase")));
  return {
    ...(neutral && { neutral, neutralDesign: more(neutral, `${name}, line to neutral`) }),
    ...(three && { three, threeDesign: more(three, `${name}, three-phase`) }),
    pieces: piecesOf(items, (item) => item.each, (item) => more(item.each, `one ${item.name}`)),
  };
}

/** The single-phase items of a line. */
const piecesOf = (
  items: readonly Item[],
  demand: (item: Item) => Known<"VA">,
  design: (item: Item) => Known<"VA">,
): Piece[] =>
  items.filter(({ wires }) => wires !== "three-phase").map((item) => ({
    item,
    demand: () => demand(item),
    design: () => design(item),
  }));

/** A demand factor over all loads of a line, which its parts take as well. */
export function reducedLine(
  w: Worksheet,
  name: string,
  items: readonly Item[],
  demand: Known<"VA">,
  connected: Known<"VA">,
): Line {
  const part = (load: Known<"VA"> | undefined, what: string) =>
    load && w.work(`${name}, ${what}`, "VA", calc`${load} × ${demand} ÷ ${connected}`);
  const neutral = part(
    sumOf(w, `${name} connected, line to neutral`, all(between(items, "line to neutral"))),
    "line to neutral",
  );
  const three = part(
    sumOf(w, `${name} connected, three-phase`, all(between(items, "three-phase"))),
    "three-phase",
  );
  const one = (item: Item) => part(item.each, `one ${item.name}`)!;
  return {
    name,
    demand,
    design: demand,
    ...(neutral && { neutral, neutralDesign: neutral }),
    ...(three && { three, threeDesign: three }),
    pieces: piecesOf(items, one, one),
  };
}

/** A part of all lines together. */
export function total(
  w: Worksheet,
  name: string,
  lines: readonly Line[],
  of: "demand" | "design" | "neutral" | "neutralDesign" | "three" | "threeDesign",
): Known<"VA"> | undefined {
  const steps = lines.flatMap((line) => line[of] ? [line[of]] : []);
  return steps.length === 0 ? undefined : w.work(name, "VA", calc`sum(${steps})`);
}
