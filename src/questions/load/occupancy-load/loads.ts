/** The equipment of a request, worked to volt-amperes, with the wires it stands between. */
import { calc } from "../../../core/formula.ts";
import { need, Unclear } from "../../../core/outcome.ts";
import { exact } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { equipment, type EquipmentGroup } from "../../../loads/equipment.ts";
import { inPlural } from "../../../loads/names.ts";
import { isSinglePhaseCharger, leastCharger } from "../../../rules/ev-charging.ts";
import { hasMotor, motorTableCurrent } from "../../../rules/motor-current.ts";
import { nameplate, type Rating } from "../../../rules/nameplate.ts";
import { apparentPower } from "../../../rules/power.ts";
import type { Voltages } from "../../../rules/systems.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import type { OccupancyLoad } from "./request.ts";

type Wires = "line to neutral" | "line to line" | "three-phase";
export type Item = {
  said: OccupancyLoad;
  name: string;
  group: EquipmentGroup;
  count: Known<"1">;
  each: Known<"VA">;
  all: Known<"VA">;
  wires: Wires;
  motor: boolean;
  continuous: boolean;
};

/** A nameplate's 115, 125 and 265 V are the system's 120 and 277 V. */
const isNear = (volts: number, nominal: number): boolean => Math.abs(volts - nominal) <= nominal / 10;

const nameOf = ({ kind, name }: OccupancyLoad): string => name ?? equipment(kind).name;

/**
 * Works the equipment to volt-amperes. What burns fuel adds nothing and is shown as given.
 * @throws Unclear naming all equipment whose nameplate is missing, or the supply where amperes or horsepower need it
 */
export function workItems(w: Worksheet, said: readonly OccupancyLoad[], system: Voltages | undefined): Item[] {
  const missing = said.filter((load) => load.fuel !== "gas" && !load.rating && load.kind !== "sign");
  if (missing.length > 0) {
    throw new Unclear(missing.map((load) => ({
      field: `loads.${load.kind}.rating`,
      ask: `What does the ${nameOf(load)}'s nameplate say (kW, VA, A or hp)?`,
      example: `${nameOf(load)} ${equipment(load.kind).motor ? "12 A" : "5 kW"}`,
    })));
  }
  const taken: Taken = { three: [], byPower: [], single: [] };
  const items = said.flatMap((load): Item[] => {
    if (load.fuel === "gas" && !load.rating) {
      w.given(nameOf(load), "gas", "adds no electric load of its own; name its fan or controls if it has any");
      return [];
    }
    return [workItem(w, load, system, taken)];
  });
  listTaken(w, taken, system);
  return items;
}

/** Equipment of which no phases were said, by what it was taken as where that makes a difference. */
type Taken = { three: string[]; byPower: string[]; single: string[] };

function listTaken(w: Worksheet, { three, byPower, single }: Taken, system: Voltages | undefined): void {
  const unique = (names: readonly string[]) => [...new Set(names)].join(", ");
  if (three.length > 0) {
    w.suppose(
      "three-phase equipment",
      unique(three),
      system?.shape === "high leg"
        ? "no phases were said; motors of a three-phase supply usually are"
        : "no phases were said; of the same amperes three phases are the larger load",
      `single-phase ${three[0]}`,
      "calculation-voltages",
    );
  }
  if (byPower.length > 0) {
    w.suppose(
      "equipment on three lines",
      unique(byPower),
      "no phases were said; single-phase it would load two of the lines more",
      `single-phase ${byPower[0]}`,
      "calculation-voltages",
    );
  }
  if (single.length > 0) {
    w.suppose(
      "single-phase equipment",
      unique(single),
      "no phases were said; this loads two lines more",
      `three-phase ${single[0]}`,
      "calculation-voltages",
    );
  }
}

function workItem(w: Worksheet, said: OccupancyLoad, system: Voltages | undefined, taken: Taken): Item {
  const { group, motor: isMachine = false, continuous = false } = equipment(said.kind);
  const name = nameOf(said);
  const motor = isMachine || said.rating?.unit === "hp";
  const wires = wiresOf(w, said, system, motor);
  const told = ratingOf(w, said, name, system, wires);
  const least = group === "ev" ? leastCharger(w) : undefined;
  const each = least ? w.work(`${name} as counted`, "VA", calc`max(${told}, ${least})`, "ev-load") : told;
  if (said.phases === undefined && system?.phases === 3 && wires !== "line to neutral") {
    const isByCurrent = said.rating?.unit === "A" || said.rating?.unit === "hp";
    const isCharger = group === "ev";
    if (wires === "three-phase") (isByCurrent || system.shape === "high leg" ? taken.three : taken.byPower).push(name);
    else if (wires === "line to line" && (system.shape === "high leg" || isCharger)) taken.single.push(name);
  }
  const n = String(said.count);
  const count = w.given(said.count === 1 ? `one ${name}` : `number of ${inPlural(name)}`, { n, unit: "1" });
  const all = said.count === 1 ? each : w.work(`${inPlural(name)} together`, "VA", calc`${count} × ${each}`);
  return { said, name, group, count, each, all, wires, motor, continuous: said.continuous ?? continuous };
}

/** Which wires it stands between: as its voltage and phases say, or what is usual and on the safe side. */
function wiresOf(w: Worksheet, said: OccupancyLoad, system: Voltages | undefined, isMotor: boolean): Wires {
  if (said.phases === 3) return "three-phase";
  const neutral = system?.lineToNeutral && w.measure(system.lineToNeutral).n.valueOf();
  const volts = said.volts && plain(said.volts);
  if (volts !== undefined && neutral !== undefined && isNear(volts, neutral)) return "line to neutral";
  if (said.phases !== undefined || system?.phases !== 3) {
    return volts === undefined && isOnLightingVoltage(w, said, system) ? "line to neutral" : "line to line";
  }
  if (volts === undefined && isOnLightingVoltage(w, said, system)) return "line to neutral";
  if (system.shape === "high leg" && !isMotor) return "line to line";
  if (equipment(said.kind).group === "ev" && isSinglePhaseCharger(w, said, system.lineToLine)) return "line to line";
  return isSingleMotor(w, said, system) ? "line to line" : "three-phase";
}

/** Whether it usually stands on the lighting voltage, and the supply has that one. */
function isOnLightingVoltage(w: Worksheet, { kind, phases }: OccupancyLoad, system: Voltages | undefined): boolean {
  if (!equipment(kind).toNeutral || phases !== undefined || !system?.lineToNeutral) return false;
  return w.scratch(() => w.holds(system.lineToNeutral!, "≤", w.constant<"V">("branch-circuit-voltage")));
}

/** A motor that only the single-phase table lists is one. */
function isSingleMotor(w: Worksheet, { rating }: OccupancyLoad, { lineToLine }: Voltages): boolean {
  if (rating?.unit !== "hp") return false;
  return w.scratch(() => {
    const power = w.given("power", { n: exact(rating.value).toFraction(), unit: "hp" });
    return !hasMotor(w, power, lineToLine, 3) && hasMotor(w, power, lineToLine, 1);
  });
}

function ratingOf(
  w: Worksheet,
  said: OccupancyLoad,
  name: string,
  system: Voltages | undefined,
  wires: Wires,
): Known<"VA"> {
  const { rating } = said;
  const told = () =>
    rating!.unit === "A" || rating!.unit === "hp"
      ? inAmperes(w, said, name, system, wires)
      : nameplate(w, name, rating as Rating);
  if (said.kind !== "sign") return told();
  const least = w.constant<"VA">("sign-load");
  return rating ? w.work("sign as counted", "VA", calc`max(${told()}, ${least})`, "signs") : least;
}

/** Amperes at the system's own voltage, horsepower by the table current. */
function inAmperes(
  w: Worksheet,
  said: OccupancyLoad,
  name: string,
  system: Voltages | undefined,
  wires: Wires,
): Known<"VA"> {
  const rating = said.rating!;
  const volts = voltsOf(w, said, name, system, wires);
  const phases = wires === "three-phase" ? 3 : 1;
  if (rating.unit === "A") {
    const amperes = w.given(name, { n: exact(rating.value).toFraction(), unit: "A" });
    return apparentPower(w, amperes, volts, phases);
  }
  const power = w.given(`${name}, horsepower`, { n: exact(rating.value).toFraction(), unit: "hp" });
  return apparentPower(w, motorTableCurrent(w, power, volts, phases), volts, phases);
}

/** The system's nominal voltage that a nameplate's stands for; another one is a transformer's, and taken as told. */
function voltsOf(
  w: Worksheet,
  said: OccupancyLoad,
  name: string,
  system: Voltages | undefined,
  wires: Wires,
): Known<"V"> {
  if (system) {
    const own = wires === "line to neutral" ? system.lineToNeutral! : system.lineToLine;
    const told = said.volts && plain(said.volts);
    if (told === undefined || isNear(told, w.measure(own).n.valueOf())) return own;
  }
  if (said.volts) return w.given(`${name}, voltage`, asQuantity(said.volts));
  throw need(
    "system",
    `What is the supply? The ${name} is told in ${said.rating!.unit}, which needs its voltage and phases.`,
    "208Y/120 V three-phase",
  );
}
