/** The raceway that a set of insulated conductors fits in. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import type { Insulation } from "./conditions.ts";
import type { Material } from "./conductors.ts";
import type { Conduit } from "./voltage-drop.ts";

/** Conductors of one size in a raceway. */
type Filling = { count: number; size: Known<"size">; what: string };

/** The tube usually meant by the metal or plastic that was named. */
export const TUBES: Record<Conduit, { table: string; name: string }> = {
  PVC: { table: "raceway-pvc-40", name: "PVC schedule 40" },
  steel: { table: "raceway-emt", name: "EMT" },
  aluminum: { table: "raceway-rmc", name: "rigid conduit" },
};

/** The group of the dimension table that an insulation belongs to; what is commonly sold for the metal where none is told. */
export function groupOf(insulation: Insulation | undefined, material: Material): string {
  if (insulation === undefined) return material === "aluminum" ? "XHHW" : "THHN";
  if (insulation.startsWith("THHN") || insulation.startsWith("THWN")) return "THHN";
  if (insulation.startsWith("XHHW")) return "XHHW";
  return insulation.startsWith("R") || insulation.startsWith("USE") ? "RHW" : "THW";
}

/**
 * The smallest trade size for these conductors at the fill allowed for more than two.
 * @throws NotCovered where none is large enough or a size has no printed dimensions.
 */
export function racewayFor(
  w: Worksheet,
  conduit: Conduit,
  filling: readonly Filling[],
  insulation: Insulation | undefined,
  material: Material,
): Known<"word"> {
  const group = groupOf(insulation, material);
  const areas = filling.map(({ count, size, what }) => {
    const number = w.given(`${what} in the raceway`, { n: String(count), unit: "1" });
    const each = w.lookUp<"in2">(
      `area of one, ${group} insulation`,
      "insulated-conductor-dimensions",
      `${group} area`,
      size,
    );
    return w.work(`area of the ${what}`, "in2", calc`${number} × ${each}`);
  });
  const total = w.work("conductors together", "in2", calc`sum(${areas})`, "raceway-fill");
  return w.atLeast<"word">(`${TUBES[conduit].name} trade size`, TUBES[conduit].table, "over two conductors", total);
}
