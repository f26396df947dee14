/** Grounding and bonding conductors: sized by the supply conductors' area, or by the device ahead of them. */
import type { ConductorSize } from "../core/conductor-size.ts";
import { calc } from "../core/formula.ts";
import { need } from "../core/outcome.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { areaOf, degreesOf, type Material } from "./conductors.ts";
import { largestBreaker } from "./overcurrent.ts";
import { isCable, isLimited, type Method } from "./wiring-methods.ts";

export const ELECTRODES = ["water pipe", "building steel", "rod", "concrete-encased", "ground ring"] as const;
export type Electrode = typeof ELECTRODES[number];

/** Whether the table alone decides: no cap holds for what goes to a water pipe or to a building's steel. */
export const isByTable = (electrode: Electrode): boolean =>
  electrode === "water pipe" || electrode === "building steel";

/** The largest ungrounded supply conductor; several sets in parallel count as one of their total area. */
export type Supply = { size: Known<"size">; material: Material; sets?: Known<"1"> };

/** Equivalent area of the supply conductors of one phase. */
export function supplyArea(w: Worksheet, supply: Supply): Known<"kcmil"> {
  const area = areaOf(w, supply.size, "area of one ungrounded conductor");
  return supply.sets ? w.work("equivalent area of the parallel sets", "kcmil", calc`${supply.sets} × ${area}`) : area;
}

/**
 * The grounding electrode conductor for one electrode type: the table by supply conductor, or the cap that holds where
 * the conductor goes to that electrode alone. `ring` is the size of a ground ring, where it is known.
 */
export function electrodeConductor(
  w: Worksheet,
  supply: Supply,
  of: Material,
  electrode: Electrode,
  ring?: ConductorSize,
): Known<"size"> {
  const area = supplyArea(w, supply);
  const byTable = w.lookUp<"size">(
    "grounding electrode conductor by table",
    `grounding-electrode-conductor-${supply.material}-supply`,
    of,
    area,
  );
  if (isByTable(electrode)) return byTable;
  return smaller(
    w,
    byTable,
    largestTo(w, of, electrode, ring),
    "grounding electrode conductor",
    "electrode-conductor",
    `to the ${electrode} alone it need not be larger`,
  );
}

/**
 * The size beyond which the conductor to one electrode alone need not go, whatever the supply.
 * @throws Unclear for aluminum where that electrode takes copper.
 */
export function largestTo(w: Worksheet, of: Material, electrode: Electrode, ring?: ConductorSize): Known<"size"> {
  if (electrode !== "rod" && of === "aluminum") {
    throw need(
      "material",
      electrode === "ground ring"
        ? "A ground ring lies in earth and takes a copper conductor: aluminum may not end in or near earth. Copper?"
        : "A concrete-encased electrode takes a copper conductor: bare aluminum may not go into concrete. Copper?",
      "copper grounding electrode conductor",
    );
  }
  if (electrode === "ground ring") return ringOf(w, ring);
  return w.constant<"size">(electrode === "rod" ? `electrode-rod-${of}` : "electrode-concrete-copper");
}

/**
 * The conductor of a ground ring: as told, or the least that one may have, which is listed.
 * @throws Unclear for a ring of a smaller conductor, which is none.
 */
function ringOf(w: Worksheet, ring: ConductorSize | undefined): Known<"size"> {
  const least = w.constant<"size">("electrode-ring-least");
  if (ring !== undefined) {
    const told = w.given("conductor of the ground ring", ring);
    if (!isLarger(w, least, told)) return told;
    const words = String(w.size(least));
    const { section } = w.edition.constant("electrode-ring-least");
    const ask = `A ground ring is ${words} or larger (${section}), and ${ring} is smaller: what size is it?`;
    throw need("ring", ask, `${words} ground ring`);
  }
  const why = "its size was not told, and this is the least a ring is made of; a larger one may ask for more";
  w.suppose("ground ring", w.say`${w.size(least)} copper`, why, "2/0 ground ring", "electrode-conductor");
  return least;
}

/** Whether one size has more area than another. */
export const isLarger = (w: Worksheet, a: Known<"size">, b: Known<"size">): boolean =>
  w.scratch(() => w.holds(areaOf(w, a), ">", areaOf(w, b)));

/** The smaller of two sizes by area, shown as a choice. */
export function smaller(
  w: Worksheet,
  a: Known<"size">,
  b: Known<"size">,
  name: string,
  clause: string,
  why: string,
): Known<"size"> {
  const [areaA, areaB] = [areaOf(w, a, `area of ${a.name}`), areaOf(w, b, `area of ${b.name}`)];
  return w.choose(name, [areaA, "≤", areaB], [w.size(a).name, () => a], [`${w.size(b).name}: ${why}`, () => b], clause);
}

/**
 * Main, system or supply-side bonding jumper: the table by supply conductor, and above its end a share of the area.
 * @throws NotCovered when no listed size has that area.
 */
export function bondingJumper(w: Worksheet, supply: Supply, of: Material, name: string, clause: string): Known<"size"> {
  const table = `bonding-jumper-${supply.material}-supply`;
  const area = supplyArea(w, supply);
  if (w.has(table, of, area)) return w.lookUp<"size">(name, table, of, area);
  const share = w.constant<"%">("jumper-share-above-table");
  const least = w.work("least area above the table", "kcmil", calc`${area} × ${share}`, clause);
  return w.atLeast<"size">(name, "conductor-properties", "area", least);
}

/** Ungrounded conductors made larger than they had to be: the equipment ground grows in the same proportion. */
type Upsizing = { installed: Known<"size">; needed: Known<"size"> };

/**
 * Wire-type equipment grounding conductor by the device ahead, grown with upsized ungrounded conductors, never larger
 * than the ungrounded conductors themselves.
 */
export function equipmentGround(
  w: Worksheet,
  device: Known<"A">,
  of: Material,
  phase?: Known<"size">,
  upsizing?: Upsizing,
): Known<"size"> {
  const name = "equipment grounding conductor";
  const byTable = w.lookUp<"size">(`${name} by device`, "equipment-grounding-conductor", of, device);
  let size = byTable;
  // A conductor smaller than the base (the next-size-up rule may allow one) never makes the ground smaller.
  if (upsizing && isLarger(w, upsizing.installed, upsizing.needed)) {
    const installed = areaOf(w, upsizing.installed, "area installed");
    const needed = areaOf(w, upsizing.needed, "area needed");
    const base = areaOf(w, byTable, "area of the ground by device");
    const ratio = w.work("upsizing ratio", "1", calc`${installed} ÷ ${needed}`, "equipment-grounding-upsized");
    const least = w.work("least area of the ground", "kcmil", calc`${base} × ${ratio}`, "equipment-grounding-upsized");
    // Beyond the circuit conductors themselves no search is needed, and the table may end.
    const cap = phase && areaOf(w, phase, "area of the circuit conductor");
    if (phase && cap && w.holds(least, ">", cap)) {
      return w.choose(
        name,
        [least, ">", cap],
        [
          `${w.size(phase).name}: it need not be larger than the circuit conductors`,
          () => phase,
        ],
        ["", () => phase],
        "equipment-grounding",
      );
    }
    size = w.atLeast<"size">(`${name}, upsized in proportion`, "conductor-properties", "area", least);
  }
  return phase
    ? smaller(w, size, phase, name, "equipment-grounding", "it need not be larger than the circuit conductors")
    : size;
}

/**
 * The ground that a cable of this size is usually made with: the one for the largest breaker its conductors may have, by
 * the cable's own column. Common practice, no source: the printed legend decides.
 */
export function groundInCable(
  w: Worksheet,
  size: Known<"size">,
  material: Material,
  method: Method,
): Known<"size"> | undefined {
  return w.ifCovered(() => {
    const column = w.constant<"°C">(isLimited(method) ? "terminal-temperature-small" : "terminal-temperature-large");
    const ampacity = w.lookUp<"A">(
      "ampacity of the cable",
      "conductor-ampacity",
      `${material} ${degreesOf(w, column)} °C`,
      size,
    );
    return w.lookUp<"size">(
      "ground such a cable is usually made with",
      "equipment-grounding-conductor",
      material,
      largestBreaker(w, ampacity),
      "common practice, no source",
    );
  });
}

/** Cautions where a cable's own ground would not do. */
export function cautionCableGround(
  w: Worksheet,
  method: Method | undefined,
  size: Known<"size">,
  material: Material,
  ground: Known<"size">,
): void {
  const raised = cableGroundTooSmall(w, method, size, material, ground);
  if (raised) w.caution(`This cable only where ${raised}; otherwise conduit.`, "equipment-grounding-upsized");
}

/**
 * What stands against a cable whose conductors were made larger: its own ground would have to grow with them and is not
 * made so. Undefined where it is large enough, and for conductors that are no cable.
 */
export function cableGroundTooSmall(
  w: Worksheet,
  method: Method | undefined,
  size: Known<"size">,
  material: Material,
  ground: Known<"size">,
): string | undefined {
  if (!isCable(method)) return undefined;
  return w.scratch(() => {
    const own = groundInCable(w, size, material, method);
    if (!own || !isLarger(w, ground, own)) return undefined;
    return `its ground is ${w.size(ground)} at least (${w.size(size)} cable is usually made with ${w.size(own)})`;
  });
}
