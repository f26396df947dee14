/** Conductors: what they carry here, and the smallest that will do. */
import { ConductorSize } from "../core/conductor-size.ts";
import { calc } from "../core/formula.ts";
import { NotCovered } from "../core/outcome.ts";
import { exact } from "../core/quantity.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { protects, showProtection } from "./overcurrent.ts";
import { isCable, largestMade, type Method } from "./wiring-methods.ts";

export const MATERIALS = ["copper", "aluminum"] as const;
export type Material = typeof MATERIALS[number];

/** Where and how conductors run: all that decides what they carry. */
export type Wiring = {
  material: Material;
  /** Temperature rating of the insulation: correction and adjustment start from its column. */
  insulation: Known<"°C">;
  /** Lowest rating of the terminations, or of a cable type that is limited by its own rule. */
  terminals: Known<"°C">;
  ambient: Known<"°C">;
  /** Current-carrying conductors in the raceway or cable. */
  count: Known<"1">;
  method?: Method;
  /** Touching or inside thermal insulation. */
  inInsulation?: boolean;
};
export type Ampacity = {
  table: Known<"A">;
  correction: Known<"1">;
  adjustment: Known<"%">;
  corrected: Known<"A">;
  terminal: Known<"A">;
  /** The lower of the two: what the conductor may carry here. */
  ampacity: Known<"A">;
};

const TABLE = "conductor-ampacity";
/** Least sizes a branch circuit, feeder or service is wired with; the smaller rows serve cords and controls. */
export const NOT_FOR_POWER = ["18", "16"].map(ConductorSize.of);
/** The column of the ampacity table for a metal at a temperature. */
export const column = (w: Worksheet, material: Material, degrees: Known<"°C">) =>
  `${material} ${degreesOf(w, degrees)} °C`;
/** A temperature rating as the tables' columns write it. */
export const degreesOf = (w: Worksheet, degrees: Known<"°C">): string => {
  const value = w.value(degrees);
  return "word" in value ? value.word : exact(value.n).toFraction();
};

/** The sizes of a table, small to large. */
export const sizesIn = (w: Worksheet, table: string): ConductorSize[] =>
  w.edition.table(table).data.rows.map(([size]) => ConductorSize.of(String(size)));

/** Power conductor sizes of the ampacity table, small to large, that have a value for the material. */
export function sizes(w: Worksheet, material: Material): ConductorSize[] {
  return sizesIn(w, TABLE).filter((size) => !NOT_FOR_POWER.includes(size) && w.has(TABLE, `${material} 75 °C`, size));
}

/** The terminations' column, which service-entrance cable in thermal insulation may not use in its small sizes. */
function columnAllowed(w: Worksheet, { terminals, method, inInsulation }: Wiring, size: ConductorSize): Known<"°C"> {
  if (method !== "SE cable" || !inInsulation) return terminals;
  if (isAbove(w, size, w.constant<"size">("cable-se-insulation-largest"))) return terminals;
  const limit = w.constant<"°C">("cable-se-insulation-temperature");
  return w.work("column allowed in thermal insulation", "°C", calc`min(${terminals}, ${limit})`, "cable-se");
}

/** Whether a size has more area than another. */
const isAbove = (w: Worksheet, size: ConductorSize, most: Known<"size">): boolean =>
  w.scratch(() => w.holds(w.lookUp("area", "conductor-properties", "area", size), ">", areaOf(w, most)));

/** The column that holds at the ends: the one allowed there, and never one above the conductor's own insulation. */
function columnAtEnds(w: Worksheet, wiring: Wiring, size: ConductorSize): Known<"°C"> {
  const { insulation } = wiring;
  const terminals = columnAllowed(w, wiring, size);
  if (w.holds(terminals, "≤", insulation)) return terminals;
  return w.choose(
    "terminations against the conductor's own rating",
    [terminals, ">", insulation],
    ["the conductor's is lower, and holds at its ends too", () => insulation],
    ["the terminations' holds", () => terminals],
    "terminal-temperature",
  );
}

/** Power conductor sizes, small to large, that this wiring may have: a cable ends where it is made no larger. */
export function sizesMade(w: Worksheet, { material, method }: Made & Pick<Wiring, "material">): ConductorSize[] {
  const all = sizes(w, material);
  const largest = w.scratch(() => {
    const found = largestMade(w, method);
    return found && w.size(found.size);
  });
  return largest === undefined ? all : all.slice(0, all.indexOf(largest) + 1);
}

const INSTEAD = "conductors in conduit, or another cable";
/** How conductors are made up, as a request says it. */
type Made = { method?: Method | undefined };

/** Why no size of a cable carries enough, and what to do; undefined for wiring that does not end so early. */
export function cableEnds(w: Worksheet, { method }: Made): string | undefined {
  const made = madeUpTo(w, method);
  return made && `${made}, and this takes more: ${INSTEAD}`;
}

/**
 * Why no size of this wiring may lie where it does, and what to do; undefined where one may. Where the air is about as hot
 * as the conductor may get, the correction table leaves it nothing.
 */
export function tooHot(w: Worksheet, { insulation, ambient, method }: Heated): string | undefined {
  const isUsable = (degrees: Known<"°C">) => w.has("ambient-correction", `${degreesOf(w, degrees)} °C`, ambient);
  if (isUsable(insulation)) return undefined;
  return w.scratch(() => {
    const what = isCable(method)
      ? w.say`${method}, made for ${insulation}, has`
      : w.say`conductors for ${insulation} have`;
    const others = isUsable(w.assume("conductor-insulation"))
      ? "take THWN-2 or another of a higher rating in conduit"
      : "keep the run out of the heat";
    const { section } = w.edition.table("ambient-correction");
    return w.say`${what} no ampacity left where it is ${ambient} (${section}): ${others}`;
  });
}

/** Why no size will do: the heat, or a cable's end; undefined where neither is the reason. */
export const whyNone = (w: Worksheet, wiring: Heated): string | undefined => tooHot(w, wiring) ?? cableEnds(w, wiring);

/** What decides whether a conductor may lie where it is hot. */
type Heated = Pick<Wiring, "insulation" | "ambient" | "method">;

/** What stands against a cable of this size: it is not made. Undefined where it is, and for wiring that is no such cable. */
export function notMade(w: Worksheet, size: Known<"size">, { method }: Made): string | undefined {
  const isPast = w.scratch(() => {
    const found = largestMade(w, method);
    return found !== undefined && isAbove(w, w.size(size), found.size);
  });
  const made = isPast ? madeUpTo(w, method) : undefined;
  return made && `${made}, and this takes ${w.size(size)}: ${INSTEAD}`;
}

/** A cable's largest size in words, its section with it. */
function madeUpTo(w: Worksheet, method: Method | undefined): string | undefined {
  const found = w.scratch(() => {
    const largest = largestMade(w, method);
    return largest && { size: w.size(largest.size), section: largest.section };
  });
  return found && `${method} is made up to ${found.size} (${found.section})`;
}

/** What one conductor of a size carries here, every factor shown. */
export function ampacityOf(w: Worksheet, size: Known<"size">, wiring: Wiring): Ampacity {
  const insulation = degreesOf(w, wiring.insulation);
  const table = w.lookUp<"A">(
    `ampacity, ${insulation} °C insulation`,
    TABLE,
    column(w, wiring.material, wiring.insulation),
    size,
  );
  const hot = tooHot(w, wiring);
  if (hot) throw new NotCovered(hot, w.edition.id);
  const correction = w.lookUp<"1">("ambient correction", "ambient-correction", `${insulation} °C`, wiring.ambient);
  const adjustment = w.lookUp<"%">(
    "adjustment for the number of conductors",
    "conductor-count-adjustment",
    "adjustment",
    wiring.count,
  );
  const corrected = w.work(
    "corrected and adjusted ampacity",
    "A",
    calc`${table} × ${correction} × ${adjustment}`,
    "ampacity",
  );
  const atEnds = columnAtEnds(w, wiring, w.size(size));
  const terminal = w.lookUp<"A">(
    `ampacity at ${degreesOf(w, atEnds)} °C terminations`,
    TABLE,
    column(w, wiring.material, atEnds),
    size,
  );
  const ampacity = w.work("ampacity here", "A", calc`min(${corrected}, ${terminal})`, "terminal-temperature");
  return { table, correction, adjustment, corrected, terminal, ampacity };
}

/** What a conductor must do. */
export type Duty = {
  /** 125 % of the continuous and 100 % of the other load: held against the terminations' column. */
  design: Known<"A">;
  /** The load itself: held against the corrected and adjusted ampacity. */
  load: Known<"A">;
  /** The overcurrent device; absent where another rule protects (motors, taps, cooling units). */
  device?: Known<"A">;
  /** Sets in parallel; each carries its share. */
  sets?: Known<"1">;
  /** Whether the next standard size up is allowed; it is not for several receptacles on one branch circuit. */
  nextSizeUp?: boolean;
  /** Sizes the search may not go below. */
  least?: ConductorSize;
  /** Whether the limits on devices for small conductors hold (not for motors and cooling equipment). */
  smallLimits?: boolean;
};
export type Chosen = Ampacity & { size: Known<"size"> };

/**
 * The smallest conductor that carries the duty here: terminations, correction and adjustment, protection and the
 * small-conductor limits all met.
 * @throws NotCovered when no listed size does, or none that its cable is made in.
 */
export function chooseConductor(w: Worksheet, duty: Duty, wiring: Wiring, name = "conductor"): Chosen {
  const all = sizesMade(w, wiring);
  const from = duty.least === undefined ? 0 : all.indexOf(duty.least);
  const found = w.first(from < 0 ? [] : all.slice(from), (size) => {
    // Blank cells end a column early; a size without a value is no candidate.
    const columns = w.scratch(() =>
      [wiring.insulation, columnAtEnds(w, wiring, size)].map((degrees) => column(w, wiring.material, degrees))
    );
    if (!columns.every((each) => w.has(TABLE, each, size))) return undefined;
    const chosen = w.lookUp<"size">(name, TABLE, "size", size, "the smallest that meets every test below");
    const one = ampacityOf(w, chosen, wiring);
    return meets(w, one, duty, chosen, wiring.material) ? { size: chosen, ...one } : undefined;
  });
  if (!found) {
    const because = whyNone(w, wiring) ?? "no single listed conductor carries this: use parallel sets";
    throw new NotCovered(because, w.edition.id);
  }
  showTests(w, found, duty, wiring.material);
  return found;
}

const together = (one: Known<"A">, sets?: Known<"1">) => sets ? calc`${one} × ${sets}` : one;

/** Whether a conductor meets every test of its duty; nothing is recorded. */
export function meets(w: Worksheet, one: Ampacity, duty: Duty, size: Known<"size">, material: Material): boolean {
  if (!w.holds(together(one.terminal, duty.sets), "≥", duty.design)) return false;
  if (!w.holds(together(one.corrected, duty.sets), "≥", duty.load)) return false;
  const { device } = duty;
  if (!device) return true;
  return w.scratch(() => {
    const all = duty.sets ? w.work("together", "A", calc`${one.ampacity} × ${duty.sets}`) : one.ampacity;
    if (duty.nextSizeUp === false ? !w.holds(device, "≤", all) : !protects(w, device, all)) return false;
    const limit = duty.smallLimits === false ? undefined : smallLimit(w, size, material);
    return limit === undefined || w.holds(device, "≤", limit);
  });
}

/** The most a device may be on a small conductor, or undefined for the sizes that have no such limit. */
export const smallLimit = (w: Worksheet, size: Known<"size">, material: Material): Known<"A"> | undefined =>
  w.has("small-conductor-limits", material, size)
    ? w.lookUp<"A">("largest device on this size", "small-conductor-limits", material, size)
    : undefined;

/** Shows the tests that a conductor passed. */
export function showTests(w: Worksheet, one: Chosen, duty: Duty, material: Material): void {
  const nothing = () => {};
  const no: [string, () => void] = ["falls short", nothing];
  w.choose(
    "terminations carry the design current",
    [together(one.terminal, duty.sets), "≥", duty.design],
    ["enough", nothing],
    no,
    "terminal-temperature",
  );
  w.choose(
    "the conductor carries the load here",
    [together(one.corrected, duty.sets), "≥", duty.load],
    ["enough", nothing],
    no,
    "ampacity",
  );
  if (!duty.device) return;
  const all = duty.sets ? w.work("ampacity of all sets", "A", calc`${one.ampacity} × ${duty.sets}`) : one.ampacity;
  showProtection(w, duty.device, all);
  const limit = duty.smallLimits === false ? undefined : smallLimit(w, one.size, material);
  if (limit) {
    w.choose(
      "small-conductor limit",
      [duty.device, "≤", limit],
      ["kept", nothing],
      ["exceeded", nothing],
      "small-conductors",
    );
  }
}

/** The smallest size whose ampacity in a column of the table reaches a current, nothing else counting. */
export function byAmpacity(
  w: Worksheet,
  name: string,
  current: Known<"A">,
  degrees: Known<"°C">,
  material: Material,
): Known<"size"> {
  const listed = sizes(w, material).map(({ name }) => name);
  return w.atLeast<"size">(name, TABLE, column(w, material, degrees), current, (size) => listed.includes(size));
}

/** Circular-mil area of a size. */
export const areaOf = (w: Worksheet, size: Known<"size">, name = "circular-mil area"): Known<"kcmil"> =>
  w.lookUp<"kcmil">(name, "conductor-properties", "area", size);
