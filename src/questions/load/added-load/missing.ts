/** What is not known yet, asked for only where it moves the answer, and by how much it may. */
import { calc } from "../../../core/formula.ts";
import type { Need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { CATALOGUE, type LoadGroup, type LoadKind } from "../../../loads/catalogue.ts";
import type { SaidLoad } from "../../../rules/loads.ts";
import type { AddedRequest } from "./request.ts";

/** A large load that a dwelling may have, which kinds are it, and the usual size of one. */
type Usual = { name: string; is: (kind: LoadKind) => boolean; size: string; load: Omit<SaidLoad, "rating" | "count"> };
const ofGroups = (...groups: LoadGroup[]) => (kind: LoadKind): boolean => groups.includes(CATALOGUE[kind].group);
const USUAL: readonly Usual[] = [
  { name: "range", is: ofGroups("cooking"), size: "range-rating", load: { kind: "range" } },
  { name: "dryer", is: ofGroups("dryer"), size: "dryer-rating", load: { kind: "dryer" } },
  {
    name: "water heater",
    is: (kind) => kind.includes("water-heater"),
    size: "usual-water-heater",
    load: { kind: "water-heater" },
  },
  {
    name: "electric heat",
    is: ofGroups("furnace", "space heating", "continuous heating", "heat pump", "supplemental heat"),
    size: "usual-heating",
    load: { kind: "furnace" },
  },
  {
    name: "air conditioning",
    is: ofGroups("cooling", "heat pump"),
    size: "usual-cooling",
    load: { kind: "air-conditioner" },
  },
];

/** The large loads of which nothing was told, neither what they are nor that there are none. */
export function notTold({ loads = [], added = [], without = [], nothingElse }: AddedRequest): Usual[] {
  if (nothingElse) return [];
  const told = [...loads.map(({ kind }) => kind), ...added.map(({ kind }) => kind), ...without];
  return USUAL.filter(({ is }) => !told.some(is));
}

/** What a request lacks; nothing where it can be worked. */
export function missing(w: Worksheet, request: AddedRequest): Need[] {
  const { service, demand, ownSource, calculated, areas, loads, nothingElse, isDwelling } = request;
  const needs: Need[] = [];
  if (!service) {
    needs.push({ field: "service", ask: "What is the service or its main breaker rated?", example: "100 A service" });
  }
  if (calculated || (demand && !ownSource)) return needs;
  if (isDwelling === false) {
    needs.push({
      field: "demand",
      ask: ownSource
        ? "With solar or peak shaving on the service its record does not count. What does a load calculation of it come to?"
        : "What was its highest demand in the last 12 months? It is on the bills; or a 30-day recording of the heaviest line.",
      example: ownSource ? "calculated load 90 A" : "peak demand 40 kW",
    });
    return needs;
  }
  const inTiers = (load: Known<"VA">) =>
    w.work("amperes", "A", calc`${load} × ${w.constant("optional-remainder")} ÷ ${w.assume<"V">("supply-voltage")}`);
  if (!areas?.length) {
    needs.push(w.scratch(() => {
      const step = w.assume<"ft2">("usual-floor-area");
      const each = inTiers(w.work("lighting", "VA", calc`${step} × ${w.constant("dwelling-unit-load")}`));
      return {
        field: "areas",
        ask: w.say`What is the floor area, from outside dimensions? Each ${step} is about ${each}.`,
        example: "1500 sq ft",
      };
    }));
  }
  if (!loads && !nothingElse) {
    needs.push(w.scratch(() => {
      const items = notTold(request).map(({ name, size }) => {
        const rated = w.assume<"VA" | "A">(size);
        const power = rated.kind === "A"
          ? w.work("power", "VA", calc`${rated} × ${w.assume<"V">("supply-voltage")}`)
          : rated as Known<"VA">;
        return w.say`${name} (${inTiers(power)})`;
      });
      return {
        field: "loads",
        ask: `What of this is electric, and what do the nameplates say? By usual sizes: ${items.join(", ")}. ` +
          "Or the highest demand of the last 12 months.",
        example: "12 kW range, 5 kW dryer, gas heat, no AC; or: everything is gas",
      };
    }));
  }
  return needs;
}
