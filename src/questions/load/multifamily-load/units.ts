/** The dwelling units of a request, each type worked once: what one unit has. */
import { Unclear } from "../../../core/outcome.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { generalLighting } from "../../../rules/dwelling/area.ts";
import type { Units } from "../../../rules/dwelling/several.ts";
import { type System, workLoads } from "../../../rules/loads.ts";
import type { UnitRequest } from "./request.ts";

/** How a type is called where there are several: by its floor area. */
const nameOf = ({ areas }: UnitRequest, i: number, all: readonly UnitRequest[]): string => {
  if (all.length === 1) return "";
  const [first] = areas ?? [];
  const sizes = all.map((each) => each.areas?.[0]?.area.value);
  const isOwn = first && sizes.filter((size) => size === first.area.value).length === 1;
  return isOwn ? `unit of ${first.area.value} ${first.area.unit === "ft2" ? "sq ft" : "m²"}` : `unit of type ${i + 1}`;
};

export function unitsOf(w: Worksheet, units: readonly UnitRequest[], system: System): Units[] {
  if (units.some(({ areas }) => !areas?.length)) {
    throw new Unclear([{
      field: "areas",
      ask: units.length === 1
        ? "What is the floor area of each unit, from outside dimensions?"
        : "What is the floor area of each type of unit?",
      example: "each unit 900 sq ft",
    }]);
  }
  return units.map((unit, i) => {
    const name = nameOf(unit, i, units);
    return w.under(name === "" ? "One unit" : `One ${name}`, () => {
      w.part("Units");
      const count = w.given(name === "" ? "dwelling units" : `number of ${name.replace("unit", "units")}`, {
        n: String(unit.count),
        unit: "1",
      });
      const lighting = generalLighting(w, unit);
      w.part("Loads");
      return { name, count, lighting, loads: workLoads(w, unit.loads ?? [], system) };
    });
  });
}
