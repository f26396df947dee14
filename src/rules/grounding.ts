/** Grounding and bonding conductors: sized by the supply conductors' area, or by the device ahead of them. */
import { calc } from "../core/formula.ts";
import { need } from "../core/outcome.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { sizeInWords } from "../core/print.ts";
import { areaOf, degreesOf, type Material } from "./conductors.ts";
import { largestBreaker } from "./overcurrent.ts";
import { isCable, isLimited, type Method } from "./wiring-methods.ts";

export const ELECTRODES = ["water pipe", "building steel", "rod", "concrete-encased", "ground ring"] as const;
export type Electrode = typeof ELECTRODES[number];

/** Whether the table alone decides: no cap holds for what goes to a water pipe or to a building's steel. */
export const isByTable = (electrode: Electrode): boolean =>
  electrode === "water pipe" || electrode === "building steel";

/** The largest ungrounded supply conductor; several sets in parallel count as one of their total area. */
export type Supply = { size: Known<"word">; material: Material; sets?: Known<"1"> };

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
  ring?: string,
): Known<"word"> {
  const area = supplyArea(w, supply);
  const byTable = w.lookUp<"word">(
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
export function largestTo(w: Worksheet, of: Material, electrode: Electrode, ring?: string): Known<"word"> {
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
  return w.constant<"word">(electrode === "rod" ? `electrode-rod-${of}` : "electrode-concrete-copper");
}

/**
 * The conductor of a ground ring: as told, or the least that one may have, which is listed.
 * @throws Unclear for a ring of a smaller conductor, which is none.
 */
function ringOf(w: Worksheet, ring: string | undefined): Known<"word"> {
  const least = w.constant<"word">("electrode-ring-least");
  if (ring !== undefined) {
    const told = w.given("conductor of the ground ring", ring);
    if (!isLarger(w, least, told)) return told;
    const words = sizeInWords(w.word(least));
    const { section } = w.edition.constant("electrode-ring-least");
    const ask = `A ground ring is ${words} or larger (${section}), and ${
      sizeInWords(ring)
    } is smaller: what size is it?`;
    throw need("ring", ask, `${words} ground ring`);
  }
  const why = "its size was not told, and this is the least a ring is made of; a larger one may ask for more";
  w.suppose("ground ring", w.say`${sizeInWords(w.word(least))} copper`, why, "2/0 ground ring", "electrode-conductor");
  return least;
}

/** Whether one size has more area than another. */
export const isLarger = (w: Worksheet, a: Known<"word">, b: Known<"word">): boolean =>
  w.scratch(() => w.holds(areaOf(w, a), ">", areaOf(w, b)));

/** The smaller of two sizes by area, shown as a choice. */
export function smaller(
  w: Worksheet,
  a: Known<"word">,
  b: Known<"word">,
  name: string,
  clause: string,
  why: string,
): Known<"word"> {
  const [areaA, areaB] = [areaOf(w, a, `area of ${a.name}`), areaOf(w, b, `area of ${b.name}`)];
  return w.choose(name, [areaA, "≤", areaB], [w.word(a), () => a], [`${w.word(b)}: ${why}`, () => b], clause);
}

/**
 * Main, system or supply-side bonding jumper: the table by supply conductor, and above its end a share of the area.
 * @throws NotCovered when no listed size has that area.
 */
export function bondingJumper(w: Worksheet, supply: Supply, of: Material, name: string, clause: string): Known<"word"> {
  const table = `bonding-jumper-${supply.material}-supply`;
  const area = supplyArea(w, supply);
  if (w.has(table, of, area)) return w.lookUp<"word">(name, table, of, area);
  const share = w.constant<"%">("jumper-share-above-table");
  const least = w.work("least area above the table", "kcmil", calc`${area} × ${share}`, clause);
  return w.atLeast<"word">(name, "conductor-properties", "area", least);
}

/** Ungrounded conductors made larger than they had to be: the equipment ground grows in the same proportion. */
type Upsizing = { installed: Known<"word">; needed: Known<"word"> };

/**
 * Wire-type equipment grounding conductor by the device ahead, grown with upsized ungrounded conductors, never larger
 * than the ungrounded conductors themselves.
 */
export function equipmentGround(
  w: Worksheet,
  device: Known<"A">,
  of: Material,
  phase?: Known<"word">,
  upsizing?: Upsizing,
): Known<"word"> {
  const name = "equipment grounding conductor";
  const byTable = w.lookUp<"word">(`${name} by device`, "equipment-grounding-conductor", of, device);
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
          `${w.word(phase)}: it need not be larger than the circuit conductors`,
          () => phase,
        ],
        ["", () => phase],
        "equipment-grounding",
      );
    }
    size = w.atLeast<"word">(`${name}, upsized in proportion`, "conductor-properties", "area", least);
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
  size: Known<"word">,
  material: Material,
  method: Method,
): Known<"word"> | undefined {
  return w.ifCovered(() => {
    const column = w.constant<"°C">(isLimited(method) ? "terminal-temperature-small" : "terminal-temperature-large");
    const ampacity = w.lookUp<"A">(
      "ampacity of the cable",
      "conductor-ampacity",
      `${material} ${degreesOf(w, column)} °C`,
      size,
    );
    return w.lookUp<"word">(
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
  size: Known<"word">,
  material: Material,
  ground: Known<"word">,
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
  size: Known<"word">,
  material: Material,
  ground: Known<"word">,
): string | undefined {
  if (!isCable(method)) return undefined;
  return w.scratch(() => {
    const own = groundInCable(w, size, material, method);
    if (!own || !isLarger(w, ground, own)) return undefined;
    return `its ground is ${sizeInWords(w.word(ground))} at least (${
      sizeInWords(w.word(size))
    } cable is usually made with ${sizeInWords(w.word(own))})`;
  });
}
