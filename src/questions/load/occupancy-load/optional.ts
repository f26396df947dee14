/** Optional methods: a restaurant by all that is connected, a school by what is connected over its floor. */
import { calc } from "../../../core/formula.ts";
import { convert } from "../../../core/quantity.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { OccupancyRequest } from "./request.ts";
import type { Standard } from "./standard.ts";

/** What an optional method gives, and all that is connected, of which it is a share. */
export type Optional = { load: Known<"VA">; everything: Known<"VA"> };

/** The optional demand, where the occupancy has a method of its own and what was told fits it. */
export function optionalMethod(w: Worksheet, r: OccupancyRequest, standard: Standard): Optional | undefined {
  const uses = new Set((r.areas ?? []).map(({ occupancy }) => occupancy));
  if (r.connected) uses.add(r.connected.use);
  if (uses.size !== 1) return undefined;
  w.part("Optional method");
  if (uses.has("restaurant")) return restaurant(w, r, standard);
  // The rule is for schools that are heated or cooled by electricity.
  if (uses.has("school") && (r.connected ?? standard.connected.heating ?? standard.connected.cooling)) {
    return school(w, r, standard);
  }
  return undefined;
}

function restaurant(w: Worksheet, r: OccupancyRequest, { connected }: Standard): Optional {
  const seasons = [connected.heating, connected.cooling].filter((each) => each !== undefined);
  const everything = w.work(
    "all that is connected",
    "VA",
    calc`sum(${[...connected.always, ...seasons]})`,
    "optional-restaurant",
    "heating and cooling both",
  );
  const table = `restaurant-demand-${isAllElectric(w, r) ? "all-electric" : "not-all-electric"}`;
  const look = (column: string) => w.lookUp(column, table, column, everything) as Known<"kVA" | "%">;
  const [base, above, share] = [look("base"), look("above"), look("share of what is above")];
  const load = w.work(
    "optional method load",
    "VA",
    calc`${base} + (${everything} − ${above}) × ${share}`,
    "optional-restaurant",
  );
  return { load, everything };
}

function isAllElectric(w: Worksheet, { allElectric, loads = [] }: OccupancyRequest): boolean {
  if (allElectric !== undefined) {
    w.given("fuel", allElectric ? "all electric" : "not all electric");
    return allElectric;
  }
  if (loads.some(({ fuel }) => fuel === "gas")) {
    w.given("fuel", "not all electric", "gas equipment was told");
    return false;
  }
  w.suppose(
    "restaurant",
    "not all electric",
    "nothing was said of its fuel, and this is the larger demand",
    "all electric",
    "optional-restaurant",
  );
  return false;
}

/** By bands of the connected load over the floor area, the larger of heating and cooling in it. */
function school(w: Worksheet, r: OccupancyRequest, { connected }: Standard): Optional {
  const seasons = [connected.heating, connected.cooling].filter((each) => each !== undefined);
  const climate = seasons.length > 0
    ? [w.work("heating or cooling, the larger", "VA", calc`max(${seasons})`, "optional-school")]
    : [];
  const everything = w.work(
    "all that is connected",
    "VA",
    calc`sum(${[...connected.always, ...climate]})`,
    "optional-school",
  );
  if (!r.areas) {
    throw need(
      "areas",
      "What is the floor area of the school? Its demand goes by the load for each square foot.",
      "50,000 sq ft school",
    );
  }
  const floors = r.areas.map(({ area }) => w.given("floor area of the school", convert(asQuantity(area), "ft2")));
  const floor = w.work("whole floor area", "ft2", calc`sum(${floors})`);
  const density = w.work("connected load over the floor", "VA/ft2", calc`${everything} ÷ ${floor}`, "optional-school");
  const { rows } = w.edition.table("school-demand").data;
  const parts: Known<"VA">[] = [];
  let below: Known<"VA/ft2"> | undefined;
  for (const row of rows) {
    const key = String(row[0]);
    const upTo = row[0] === null ? undefined : w.lookUp<"VA/ft2">("band up to", "school-demand", "up to", key);
    const share = w.lookUp<"%">("at", "school-demand", "demand", key);
    const top = upTo && w.holds(density, ">", upTo) ? upTo : density;
    parts.push(
      w.work(
        "band",
        "VA",
        below ? calc`(${top} − ${below}) × ${floor} × ${share}` : calc`${top} × ${floor} × ${share}`,
        "optional-school",
      ),
    );
    below = upTo;
    if (!upTo || w.holds(density, "≤", upTo)) break;
  }
  return { load: w.work("optional method load", "VA", calc`sum(${parts})`, "optional-school"), everything };
}
