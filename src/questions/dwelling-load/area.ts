/** General lighting and receptacles of a dwelling: floor area, small-appliance and laundry circuits. */
import { calc } from "../../core/formula.ts";
import { need } from "../../core/outcome.ts";
import { convert } from "../../core/quantity.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { asQuantity } from "../question.ts";
import type { DwellingRequest } from "./request.ts";

/** Steps shared by both methods. */
export type Lighting = {
  area: Known<"ft2">;
  lighting: Known<"VA">;
  smallAppliance: Known<"VA">;
  laundry?: Known<"VA">;
  parts: Known<"VA">[];
};

/** Which rule of the edition says whether a space's floor area counts. */
const RULE_OF_SPACE = {
  "attached garage": "floor-area-attached-garage",
  "detached garage": "floor-area-detached-garage",
  "open porch": "floor-area-open-porch",
} as const;

function countedArea(w: Worksheet, { areas }: DwellingRequest): Known<"ft2"> {
  if (!areas?.length) {
    throw need("areas", "What is the floor area, from outside dimensions?", "2400 sq ft");
  }
  const counted = areas.flatMap(({ area, space }) => {
    const value = convert(asQuantity(area), "ft2");
    const said = area.unit === "ft2" ? "" : `${area.value} m²`;
    const counts = space === "living" || space === "unfinished, adaptable" ||
      (space !== "unfinished" && w.edition.rule(RULE_OF_SPACE[space]) === "counted");
    const note = [said, space === "living" ? "" : counts ? "counted under this edition" : "left out under this edition"]
      .filter((n) => n !== "").join("; ");
    const known = w.given(
      space === "living" ? "floor area" : `floor area, ${space}`,
      value,
      note === "" ? undefined : note,
      "floor-area",
    );
    return counts ? [known] : [];
  });
  if (counted.length === 0) {
    throw need(
      "areas",
      "None of that floor area counts. What is the living area?",
      "2400 sq ft plus a 400 sq ft garage",
    );
  }
  return counted.length === 1
    ? counted[0]!
    : w.work("floor area that counts", "ft2", calc`sum(${counted})`, "floor-area");
}

/** Lighting by area, and the circuits that are counted with it. */
export function generalLighting(w: Worksheet, request: DwellingRequest): Lighting {
  w.part("General lighting and receptacles");
  const area = countedArea(w, request);
  const unit = w.constant<"VA/ft2">("dwelling-unit-load");
  const lighting = w.work("general lighting", "VA", calc`${area} × ${unit}`, "lighting-by-area");
  const circuits = (said: number | undefined) =>
    said === undefined ? undefined : { n: String(said), unit: "1" as const };
  const said = w.take(
    "small-appliance circuits",
    circuits(request.smallApplianceCircuits),
    "small-appliance-circuits",
  );
  const least = w.constant<"1">("small-appliance-circuits-minimum");
  const tooFew = w.holds(said, "<", least);
  if (tooFew && request.smallApplianceCircuits !== undefined) {
    throw need(
      "smallApplianceCircuits",
      w.say`A dwelling needs at least ${least} small-appliance circuits here. How many are there?`,
      "three small-appliance circuits",
    );
  }
  // A locality may ask for more than is assumed elsewhere.
  const count = tooFew ? least : said;
  const smallAppliance = w.work(
    "small-appliance circuits, load",
    "VA",
    calc`${count} × ${w.constant("small-appliance-circuit-load")}`,
    "small-appliance-laundry",
  );
  const laundryCircuits = w.take("laundry circuits", circuits(request.laundryCircuits), "laundry-circuits");
  const laundry = request.laundryCircuits === 0 ? undefined : w.work(
    "laundry circuit, load",
    "VA",
    calc`${laundryCircuits} × ${w.constant("laundry-circuit-load")}`,
    "small-appliance-laundry",
  );
  return {
    area,
    lighting,
    smallAppliance,
    ...(laundry && { laundry }),
    parts: [lighting, smallAppliance, ...(laundry ? [laundry] : [])],
  };
}

/** How many 15 A or 20 A circuits the general lighting load needs at the least. */
export function lightingCircuits(w: Worksheet, area: Known<"ft2">): void {
  w.part("Lighting circuits");
  const unit = w.constant<"VA/ft2">("dwelling-branch-circuit-unit-load");
  const volts = w.constant<"V">("branch-circuit-voltage");
  const current = w.work("general lighting current", "A", calc`${area} × ${unit} ÷ ${volts}`, "lighting-by-area");
  for (
    const [id, figure] of [["lighting-circuit-small", "lighting-circuits-15"], [
      "lighting-circuit-large",
      "lighting-circuits-20",
    ]] as const
  ) {
    const rating = w.constant<"A">(id);
    const circuits = w.work(
      w.say`least number of ${rating} circuits`,
      "1",
      calc`roundUp(${current} ÷ ${rating})`,
      "lighting-by-area",
    );
    w.figure(figure, circuits);
  }
}
