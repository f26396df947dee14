/** General lighting and receptacles of a dwelling: floor area, small-appliance and laundry circuits. */
import { calc } from "../../core/formula.ts";
import { need } from "../../core/outcome.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { exact } from "../../core/quantity.ts";

/** Floor areas of a dwelling and the circuits that are counted with them, as a request tells them. */
type Floors = {
  areas?: readonly { area: { value: number | string; unit: "ft2" | "m2" }; space: Space }[] | undefined;
  smallApplianceCircuits?: number | undefined;
  laundryCircuits?: number | undefined;
};

/** Floor area that counts, in the units it was told in: the book prints a unit load for either. */
type Areas = { ft2?: Known<"ft2">; m2?: Known<"m2"> };
/** Steps shared by both methods. */
export type Lighting = {
  areas: Areas;
  lighting: Known<"VA">;
  smallAppliance: Known<"VA">;
  laundry?: Known<"VA">;
  parts: Known<"VA">[];
};

/** Where floor area lies decides by edition whether it counts. */
export const SPACES = [
  "living",
  "attached garage",
  "detached garage",
  "open porch",
  "unfinished",
  "unfinished, adaptable",
] as const;
export type Space = typeof SPACES[number];

/** Which rule of the edition says whether a space's floor area counts. */
const RULE_OF_SPACE = {
  "attached garage": "floor-area-attached-garage",
  "detached garage": "floor-area-detached-garage",
  "open porch": "floor-area-open-porch",
} as const;

function countedArea(w: Worksheet, { areas }: Floors): Areas {
  if (!areas?.length) {
    throw need("areas", "What is the floor area, from outside dimensions?", "2400 sq ft");
  }
  const counted = areas.flatMap(({ area, space }) => {
    const counts = space === "living" || space === "unfinished, adaptable" ||
      (space !== "unfinished" && w.edition.rule(RULE_OF_SPACE[space]) === "counted");
    const known = w.given(
      space === "living" ? "floor area" : `floor area, ${space}`,
      { n: exact(area.value).toFraction(), unit: area.unit },
      space === "living" ? undefined : counts ? "counted under this edition" : "left out under this edition",
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
  const together = <U extends "ft2" | "m2">(unit: U): Known<U> | undefined => {
    const of = counted.filter((each): each is Known<U> => each.kind === unit);
    return of.length <= 1 ? of[0] : w.work("floor area that counts", unit, calc`sum(${of})`, "floor-area");
  };
  const [ft2, m2] = [together("ft2"), together("m2")];
  return { ...(ft2 && { ft2 }), ...(m2 && { m2 }) };
}

/** A load by floor area: each unit of area with the unit load that is printed for it. */
function loadByArea(w: Worksheet, { ft2, m2 }: Areas, unitLoad: string, name: string): Known<"VA"> {
  const of = (area: Known<"ft2" | "m2"> | undefined, id: string) =>
    area ? [w.work(name, "VA", calc`${area} × ${w.constant(id)}`, "lighting-by-area")] : [];
  const parts = [...of(ft2, unitLoad), ...of(m2, `${unitLoad}-metric`)];
  return parts.length === 1 ? parts[0]! : w.work(`${name}, all areas`, "VA", calc`sum(${parts})`, "lighting-by-area");
}

/** Lighting by area, and the circuits that are counted with it. */
export function generalLighting(w: Worksheet, request: Floors): Lighting {
  w.part("General lighting and receptacles");
  const areas = countedArea(w, request);
  const lighting = loadByArea(w, areas, "dwelling-unit-load", "general lighting");
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
    areas,
    lighting,
    smallAppliance,
    ...(laundry && { laundry }),
    parts: [lighting, smallAppliance, ...(laundry ? [laundry] : [])],
  };
}

/** How many 15 A or 20 A circuits the general lighting load needs at the least. */
export function lightingCircuits(w: Worksheet, areas: Areas): void {
  w.part("Lighting circuits");
  const load = loadByArea(w, areas, "dwelling-branch-circuit-unit-load", "general lighting for branch circuits");
  const volts = w.constant<"V">("branch-circuit-voltage");
  const current = w.work("general lighting current", "A", calc`${load} ÷ ${volts}`, "lighting-by-area");
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
