/** The equipment of a request, worked to volt-amperes, with the wires it stands between. */
import { calc } from "../../../core/formula.ts";
import { need, Unclear } from "../../../core/outcome.ts";
import { exact } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { equipment, type EquipmentGroup } from "../../../loads/equipment.ts";
import { hasMotor, motorTableCurrent } from "../../../rules/motor-current.ts";
import { nameplate, type Rating } from "../../../rules/nameplate.ts";
import { apparentPower } from "../../../rules/power.ts";
import type { Voltages } from "../../../rules/systems.ts";
import { asQuantity, plain } from "../../question.ts";
import type { OccupancyLoad } from "./request.ts";

export type Wires = "line to neutral" | "line to line" | "three-phase";
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
  const threePhase: string[] = [];
  const items = said.flatMap((load): Item[] => {
    if (load.fuel === "gas" && !load.rating) {
      w.given(nameOf(load), "gas", "adds no electric load of its own; name its fan or controls if it has any");
      return [];
    }
    return [workItem(w, load, system, threePhase)];
  });
  if (threePhase.length > 0) {
    w.suppose(
      "three-phase equipment",
      [...new Set(threePhase)].join(", "),
      "no phases were said; of the same amperes three phases are the larger load",
      `single-phase ${threePhase[0]}`,
      "calculation-voltages",
    );
  }
  return items;
}

function workItem(w: Worksheet, said: OccupancyLoad, system: Voltages | undefined, assumed: string[]): Item {
  const { group, motor = false, continuous = false } = equipment(said.kind);
  const name = nameOf(said);
  const { each, wires } = ratingOf(w, said, name, system, assumed);
  const n = String(said.count);
  const count = w.given(said.count === 1 ? `one ${name}` : `number of ${name}s`, { n, unit: "1" });
  const all = said.count === 1 ? each : w.work(`${name}s together`, "VA", calc`${count} × ${each}`);
  const isMotor = motor || said.rating?.unit === "hp";
  return { said, name, group, count, each, all, wires, motor: isMotor, continuous: said.continuous ?? continuous };
}

/** Which wires it stands between: as its voltage and phases say, or what is usual. */
function wiresOf(said: OccupancyLoad, system: Voltages | undefined, neutralVolts: number | undefined): Wires {
  if (said.phases === 3) return "three-phase";
  const volts = said.volts && plain(said.volts);
  if (volts !== undefined) {
    if (neutralVolts !== undefined && isNear(volts, neutralVolts)) return "line to neutral";
    return said.phases === undefined && system?.phases === 3 && !isNear(volts, LOWEST) ? "three-phase" : "line to line";
  }
  if (equipment(said.kind).toNeutral && said.phases === undefined && neutralVolts === LOWEST) return "line to neutral";
  return said.phases === undefined && system?.phases === 3 ? "three-phase" : "line to line";
}
/** The lighting voltage that plug-in equipment is made for. */
const LOWEST = 120;

function ratingOf(
  w: Worksheet,
  said: OccupancyLoad,
  name: string,
  system: Voltages | undefined,
  assumed: string[],
): { each: Known<"VA">; wires: Wires } {
  const { rating } = said;
  const neutralVolts = system?.lineToNeutral && w.measure(system.lineToNeutral).n.valueOf();
  const wires = wiresOf(said, system, neutralVolts);
  if (said.kind === "sign") {
    const least = w.constant<"VA">("sign-load");
    if (!rating) return { each: least, wires };
    const told = w.scratch(() => rating.unit) === "A" || rating.unit === "hp"
      ? inAmperes(w, said, name, system, wires)
      : nameplate(w, name, rating as Rating);
    return { each: w.work("sign as counted", "VA", calc`max(${told}, ${least})`, "signs"), wires };
  }
  if (rating!.unit !== "A" && rating!.unit !== "hp") {
    return { each: nameplate(w, name, rating as Rating), wires };
  }
  if (said.phases === undefined && said.volts === undefined && wires === "three-phase") assumed.push(name);
  return { each: inAmperes(w, said, name, system, wires), wires };
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
  // A motor that only the single-phase table lists is one.
  const isSingle = phases === 3 && said.phases === undefined && !hasMotor(w, power, volts, 3) &&
    hasMotor(w, power, volts, 1);
  const supply = isSingle || phases === 1 ? 1 : 3;
  return apparentPower(w, motorTableCurrent(w, power, volts, supply), volts, supply);
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
