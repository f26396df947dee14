/** Receptacles and multioutlet assemblies, with their demand; the least that offices and banks have by their floor. */
import { calc } from "../../../core/formula.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { sumOf } from "../../../rules/loads.ts";
import { nameplate } from "../../../rules/nameplate.ts";
import { OFFICES } from "../../../rules/occupancies.ts";
import { throughTiers } from "../../../rules/tiers.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Line } from "./lines.ts";
import type { OccupancyRequest } from "./request.ts";

/** What receptacles come to. `connected` is before their demand; none where none were told and no rule counts any. */
export function receptacleLine(
  w: Worksheet,
  r: OccupancyRequest,
  onNeutral: boolean,
): { line: Line; connected: Known<"VA"> } | undefined {
  w.part("Receptacles");
  const parts = [
    counted(w, r),
    perArea(w, r),
    r.receptacleLoad && nameplate(w, "receptacles as told", r.receptacleLoad),
    ...strips(w, r),
  ]
    .filter((part) => part !== undefined);
  const connected = sumOf(w, "receptacles connected", parts);
  const told = connected && throughTiers(w, connected, "receptacle-demand", "receptacle-demand");
  const least = officeLeast(w, r);
  const name = "receptacles";
  const demand = told && least
    ? w.work(
      name,
      "VA",
      calc`max(${told}, ${least})`,
      "office-receptacles",
      "the larger of what is counted and the floor's",
    )
    : told ?? least;
  if (!demand) return undefined;
  if (!told) {
    w.suppose(
      "receptacles",
      w.say`${demand} by the floor area`,
      "their number was not told, and an office or bank has no less",
      "80 receptacles",
      "office-receptacles",
    );
  }
  return {
    line: { name, demand, design: demand, ...(onNeutral && { neutral: demand, neutralDesign: demand }) },
    connected: connected ?? demand,
  };
}

function counted(w: Worksheet, { receptacles }: OccupancyRequest): Known<"VA"> | undefined {
  if (!receptacles) return undefined;
  const count = w.given("receptacles, by their yokes", { n: String(receptacles), unit: "1" });
  return w.work(
    "receptacles connected, counted",
    "VA",
    calc`${count} × ${w.constant<"VA">("receptacle-load")}`,
    "receptacle-outlets",
  );
}

/** An allowance for each square foot, where their number is not known. */
function perArea(w: Worksheet, { receptaclesPerArea, areas = [] }: OccupancyRequest): Known<"VA"> | undefined {
  if (!receptaclesPerArea || areas.length === 0) return undefined;
  const unit = w.given("receptacles told for each square foot", asQuantity(receptaclesPerArea));
  const floors = areas.map(({ area }) => w.given("floor area", convert(asQuantity(area), "ft2")));
  return w.work("receptacles as told, by the floor", "VA", calc`sum(${floors}) × ${unit}`);
}

/** Multioutlet assemblies: by their length or a part of one, or as told. */
function strips(w: Worksheet, r: OccupancyRequest): Known<"VA">[] {
  const told = r.multioutletLoad ? [nameplate(w, "multioutlet assemblies as told", r.multioutletLoad)] : [];
  if (!r.multioutlet) return told;
  const run = w.given("length of the multioutlet assembly", convert(asQuantity(r.multioutlet), "ft"));
  if (r.multioutletTogether === undefined) {
    w.suppose(
      "outlets of the multioutlet assembly",
      "not used together",
      "nothing was said of appliances that run at one time there",
      "outlets used together",
      "multioutlet-assemblies",
    );
  }
  const each = w.constant<"ft">(r.multioutletTogether ? "multioutlet-length-together" : "multioutlet-length");
  const load = w.constant<"VA">("multioutlet-load");
  const name = "multioutlet assembly";
  return [...told, w.work(name, "VA", calc`roundUp(${run} ÷ ${each}) × ${load}`, "multioutlet-assemblies")];
}

/** By the floor of offices and banks, which no demand reduces. */
function officeLeast(w: Worksheet, { areas = [] }: OccupancyRequest): Known<"VA"> | undefined {
  const floors = areas.filter(({ occupancy }) => OFFICES.includes(occupancy)).map(({ area }) => {
    const floor = w.given("floor area of the office", asQuantity(area));
    const id = area.unit === "m2" ? "office-receptacle-unit-load-metric" : "office-receptacle-unit-load";
    return w.work("receptacles by the floor", "VA", calc`${floor} × ${w.constant(id)}`, "office-receptacles");
  });
  return sumOf(w, "receptacles by the floor of all offices", floors);
}
