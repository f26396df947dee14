/** The feeder's ungrounded conductors: by ampacity, by the dwelling rule, then larger where the drop asks for it. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { wiringOf } from "../../../rules/conditions.ts";
import { ampacityOf, type Duty, type Material, type Wiring } from "../../../rules/conductors.ts";
import { hasDwellingRule } from "../../../rules/dwelling-service.ts";
import { conduitOf, type Drop, dropOf, dropVoltage } from "../../../rules/voltage-drop.ts";
import { serviceTerminals } from "../../../rules/wiring-methods.ts";
import { lengthOf, limitOf, type Lines, linesFor, powerFactorOf } from "../../parts/lines.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Circuit } from "./circuit.ts";
import type { FeederRequest } from "./request.ts";

/** How the conductors run, but for their metal. */
export type Surroundings = Omit<Wiring, "material">;

/** Whether the dwelling rule holds for conductors of this rating. */
export function isByDwellingRule(w: Worksheet, r: FeederRequest, circuit: Circuit): boolean {
  const { rating, phases } = circuit;
  if (!r.wholeDwelling || phases === 3) return false;
  return hasDwellingRule(w, { rating, isFeeder: r.supply !== "service", isNetwork: isNetwork(w, circuit) });
}

/** Two lines and the neutral of a 208Y/120 V network. */
const isNetwork = (w: Worksheet, { volts, phases }: Circuit): boolean =>
  phases === 1 && w.scratch(() => w.holds(volts, "=", w.constant<"V">("network-voltage")));

/** Says that the dwelling rule was left aside where a service might be a dwelling's. */
export function dwellingUntold(w: Worksheet, r: FeederRequest, circuit: Circuit): void {
  if (r.supply !== "service" || r.wholeDwelling !== undefined) return;
  if (!isByDwellingRule(w, { ...r, wholeDwelling: true }, circuit)) return;
  const why = "nothing was said of a house; a dwelling's service may have smaller conductors";
  w.suppose("dwelling rule", "not used", why, "carries the whole house", "dwelling-conductors");
}

/** Insulation, terminations, ambient temperature and company of the conductors. */
export function surroundings(w: Worksheet, r: FeederRequest, circuit: Circuit): Surroundings {
  const { material: _, ...around } = wiringOf(w, { ...r, material: "copper" }, circuit.rating, {
    ...(r.conductors === undefined && { count: countOf(w, r, circuit) }),
    ...(r.supply === "service" && { whenUnmarked: serviceTerminals }),
  });
  return around;
}

/** Current-carrying conductors in one raceway or cable. A neutral that carries only the unbalanced load does not count. */
function countOf(w: Worksheet, r: FeederRequest, circuit: Circuit): Known<"1"> {
  const { phases } = circuit;
  const neutralCounts = r.neutral !== false && (isNetwork(w, circuit) || (phases === 3 && r.nonlinear === true));
  const lines = phases === 3 ? "3" : "2";
  const one = w.given("ungrounded conductors of a set", { n: lines, unit: "1" });
  const ofSet = neutralCounts
    ? w.work(
      "current-carrying conductors of a set",
      "1",
      calc`${one} + 1`,
      "neutral-counting",
      "the neutral carries current too",
    )
    : one;
  if (!r.together || r.sets === undefined) return ofSet;
  const sets = w.given("sets in one raceway", { n: String(r.sets), unit: "1" });
  return w.work("current-carrying conductors together", "1", calc`${sets} × ${ofSet}`, "count-adjustment");
}

/** What the conductors must do: the share of the rating that the dwelling rule asks for, or load and protection. */
export function dutyOf(w: Worksheet, r: FeederRequest, circuit: Circuit): Duty {
  if (!isByDwellingRule(w, r, circuit)) {
    return { design: circuit.design, load: circuit.load, device: circuit.rating };
  }
  const share = w.constant<"%">("dwelling-conductor-share");
  const least = w.work("ampacity needed", "A", calc`${circuit.rating} × ${share}`, "dwelling-conductors");
  return { design: least, load: least };
}

/**
 * Whether the dwelling table may be read as it stands: nothing corrects or adjusts the ampacity here, and the column that
 * holds at the ends is not below the one the table rests on.
 */
function isByDwellingTable(w: Worksheet, r: FeederRequest, circuit: Circuit, wiring: Wiring): boolean {
  if (!isByDwellingRule(w, r, circuit) || w.edition.rule("dwelling-conductors") !== "table") return false;
  if (r.sets !== undefined || r.together) return false;
  return w.scratch(() => {
    const size = w.lookUp<"size">("size", "dwelling-service-conductors", wiring.material, circuit.rating);
    const { correction, adjustment, ampacity } = ampacityOf(w, size, wiring);
    return w.holds(correction, "=", calc`1`) && w.holds(adjustment, "=", calc`1`) &&
      w.holds(ampacity, "≥", dutyOf(w, r, circuit).design);
  });
}

/** The smallest conductors that ampacity, protection and the drop allow, in as few sets as can be pulled. */
export function linesOf(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  around: Surroundings,
  material: Material,
  part = "Conductors",
): Lines {
  const wiring: Wiring = { ...around, material };
  const isNamed = isByDwellingTable(w, r, circuit, wiring);
  // Sets that were not told are counted as they are tried.
  const isCounted = r.together && r.sets === undefined && r.conductors === undefined;
  return linesFor(w, {
    part,
    said: r.sets,
    wiring,
    duty: () => dutyOf(w, r, circuit),
    ...(r.supply === "service" && { least: () => leastServiceConductor(w, material) }),
    ...(isCounted && {
      together: (sets) =>
        w.work("current-carrying conductors together", "1", calc`${sets} × ${around.count}`, "count-adjustment"),
    }),
    ...(isNamed && {
      named: () => w.lookUp<"size">(`${material} conductor`, "dwelling-service-conductors", material, circuit.rating),
    }),
    ...(hasDrop(r) && {
      drop: {
        of: (size, sets) => dropOfSize(w, r, circuit, size, material, sets),
        limit: () => limitOf(w, r),
        clause: "voltage-drop-feeder",
        ...(part === "Conductors" && { part: "Voltage drop" }),
      },
    }),
  });
}

/** The least size that any service conductor may have. */
export const leastServiceConductor = (w: Worksheet, material: Material): Known<"size"> =>
  w.constant<"size">(`least-service-conductor-${material}`);

/** The drop of one size over the run, on the load if told and otherwise on the rating. */
export function dropOfSize(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  size: Known<"size">,
  material: Material,
  sets: Known<"1"> | undefined,
): Drop {
  const powerFactor = powerFactorOf(w, r);
  return dropOf(w, {
    size,
    material,
    conduit: conduitOf(w, r.conduit),
    current: circuit.load,
    length: lengthOf(w, r),
    volts: dropVoltage(w, circuit.volts, r.volts && asQuantity(r.volts)),
    phases: circuit.phases,
    powerFactor,
    ...(sets && { sets }),
  });
}

/** Whether a drop is to be reckoned with at all. */
export const hasDrop = (r: FeederRequest): boolean => r.length !== undefined && !r.ignoreDrop;
