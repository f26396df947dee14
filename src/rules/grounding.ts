/** Grounding and bonding conductors: sized by the supply conductors' area, or by the device ahead of them. */
import { calc } from "../core/formula.ts";
import { need } from "../core/outcome.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { areaOf, type Material } from "./conductors.ts";

export const ELECTRODES = ["water pipe", "rod", "concrete-encased", "ground ring"] as const;
export type Electrode = typeof ELECTRODES[number];

/** The largest ungrounded supply conductor; several sets in parallel count as one of their total area. */
export type Supply = { size: Known<"word">; material: Material; sets?: Known<"1"> };

/** Equivalent area of the supply conductors of one phase. */
export function supplyArea(w: Worksheet, supply: Supply): Known<"kcmil"> {
  const area = areaOf(w, supply.size, "area of one ungrounded conductor");
  return supply.sets ? w.work("equivalent area of the parallel sets", "kcmil", calc`${supply.sets} × ${area}`) : area;
}

/**
 * The grounding electrode conductor for one electrode type: the table by supply conductor, or the cap that holds where
 * the conductor goes to that electrode alone.
 */
export function electrodeConductor(w: Worksheet, supply: Supply, of: Material, electrode: Electrode): Known<"word"> {
  const area = supplyArea(w, supply);
  const byTable = w.lookUp<"word">(
    "grounding electrode conductor by table",
    `grounding-electrode-conductor-${supply.material}-supply`,
    of,
    area,
  );
  if (electrode === "water pipe") return byTable;
  if (electrode === "ground ring") return w.constant<"word">("electrode-ring-least");
  if (electrode === "concrete-encased" && of === "aluminum") {
    throw need(
      "material",
      "A concrete-encased electrode takes a copper conductor: bare aluminum may not go into concrete. Copper?",
      "copper grounding electrode conductor",
    );
  }
  const cap = w.constant<"word">(electrode === "rod" ? `electrode-rod-${of}` : "electrode-concrete-copper");
  return smaller(
    w,
    byTable,
    cap,
    "grounding electrode conductor",
    "electrode-conductor",
    `to the ${electrode} alone it need not be larger`,
  );
}

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
export type Upsizing = { installed: Known<"word">; needed: Known<"word"> };

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
  if (upsizing && w.word(upsizing.installed) !== w.word(upsizing.needed)) {
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
