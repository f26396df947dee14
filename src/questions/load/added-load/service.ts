/** The service as it stands: its rating and supply, what is on it, and which methods may be used for that. */
import { calc } from "../../../core/formula.ts";
import { need, NotCovered } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { CATALOGUE } from "../../../loads/catalogue.ts";
import { inPlural } from "../../../loads/names.ts";
import { generalLighting } from "../../../rules/dwelling/area.ts";
import { hasExistingMethod } from "../../../rules/dwelling/existing.ts";
import { lockOut, runTogether, systemOf } from "../../../rules/dwelling/system.ts";
import { isSinglePhaseCharger, leastCharger } from "../../../rules/ev-charging.ts";
import { type Load, loadName, type System, workLoads } from "../../../rules/loads.ts";
import { measuredLoad } from "../../../rules/measured-demand.ts";
import { nameplate, type Rating } from "../../../rules/nameplate.ts";
import { apparentPower, askLineToLine, isLineToNeutral, type Phases } from "../../../rules/power.ts";
import { unevenPairs } from "../../../rules/three-phase.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import { METHOD_NAMES, type Service } from "./methods.ts";
import type { AddedLoad, AddedRequest, Method } from "./request.ts";

/** A supply's voltage between the lines, and the system of a single-phase one. */
export type Supply = { volts: Known<"V">; phases: Phases; system?: System };

export function supplyOf(w: Worksheet, { supply, volts, system }: AddedRequest): Supply {
  if (supply !== "three-phase") {
    const of = systemOf(w, system);
    return { volts: of.lineToLine, phases: 1, system: of };
  }
  w.part("Supply");
  if (!volts) throw need("volts", "What is the voltage between the lines of the three-phase supply?", "208 V");
  if (isLineToNeutral(plain(volts))) throw need(...askLineToLine(plain(volts)));
  return { volts: w.given("voltage between the lines", asQuantity(volts)), phases: 3 };
}

/** Everything but what is to be added. `added` is looked at for how its heating runs with what is there. */
export function serviceOf(
  w: Worksheet,
  request: AddedRequest,
  { volts, phases, system }: Supply,
  workAdded: () => readonly Load[],
): { service: Service; added: readonly Load[] } {
  const rating = w.given("rating of the service", asQuantity(request.service!));
  const known = { ...measuredOf(w, request, volts, phases), ...calculatedOf(w, request, volts, phases) };
  // A sum of the user's own, or a record, holds all there is: beside it an area alone is no house to be worked out as well.
  const isWhole = known.measured !== undefined || known.calculated !== undefined;
  const isListed = request.loads !== undefined || request.nothingElse === true && request.calculated === undefined;
  const floors = request.areas?.length && phases === 1 && (isListed || !isWhole)
    ? generalLighting(w, request)
    : undefined;
  w.part("What is on it");
  const loads = floors && system ? workLoads(w, request.loads ?? [], system) : [];
  w.part("What is to be added");
  const added = workAdded();
  const all = [...loads, ...added];
  const house = floors && {
    lighting: floors,
    loads,
    lockedOut: lockOut(w, request.compressorLockedOut, all),
    together: runTogether(w, request.compressorLockedOut, all),
  };
  const service = {
    rating,
    volts,
    phases,
    ...known,
    ...(house && { house }),
    isManaged: request.setpoint !== undefined,
  };
  return { service: { ...service, methods: methodsOf(w, request, service) }, added };
}

function measuredOf(w: Worksheet, request: AddedRequest, volts: Known<"V">, phases: Phases) {
  const { demand, powerFactor, recorded, ownSource } = request;
  if (!demand || ownSource) return {};
  w.part("Recorded demand");
  if (recorded) w.given("record", recorded === "one year" ? "highest demand of a year" : "a 30-day recording");
  else {
    w.suppose("record", "highest demand of a year", "nothing was said of its length", "30-day recording");
  }
  const measured = measuredLoad(
    w,
    {
      demand: asQuantity(demand),
      ...(powerFactor && { powerFactor: asQuantity(powerFactor) }),
    },
    volts,
    phases,
  );
  return { measured };
}

function calculatedOf(w: Worksheet, { calculated }: AddedRequest, volts: Known<"V">, phases: Phases) {
  if (!calculated) return {};
  w.part("Load as told");
  const name = "existing load, as calculated by you";
  if (calculated.unit === "A") {
    return { calculated: apparentPower(w, w.given(name, { n: asQuantity(calculated).n, unit: "A" }), volts, phases) };
  }
  return { calculated: nameplate(w, name, calculated as Rating) };
}

/** Methods that may be used here; the one that was asked for alone where it may. */
function methodsOf(w: Worksheet, request: AddedRequest, known: Omit<Service, "methods">): Method[] {
  const least = w.constant<"A">("optional-least-conductors");
  const permitted: Method[] = [
    ...(known.measured ? ["measured demand" as const] : []),
    ...(known.calculated ? ["as calculated" as const] : []),
    ...(known.house && hasExistingMethod(w) ? ["existing dwelling" as const] : []),
    ...(known.house && w.holds(known.rating, "≥", least) ? ["optional" as const] : []),
    ...(known.house ? ["standard" as const] : []),
  ];
  const { method } = request;
  if (method === undefined) return permitted;
  if (permitted.includes(method)) return [method];
  throw new NotCovered(
    `the ${METHOD_NAMES[method]} cannot be used here: ${
      method === "optional" && known.house
        ? w.say`it asks for conductors of ${least} or more`
        : method === "measured demand"
        ? "no recorded demand was told, or the service has a source of its own"
        : method === "existing dwelling" && known.house
        ? "the table that this edition puts in its place was not seen in print"
        : "what it starts from was not told"
    }`,
    w.edition.id,
  );
}

/** Loads to be added, worked to volt-amperes; a charger at what it is set to, where that was told. */
export function workAdded(
  w: Worksheet,
  said: readonly AddedLoad[],
  { volts, phases, system }: Supply,
  setpoint?: AddedRequest["setpoint"],
): Load[] {
  const set = said.map((load) =>
    setpoint && CATALOGUE[load.kind].group === "ev" ? { ...load, rating: setpoint } : load
  );
  if (phases !== 3) return workLoads(w, set, system!);
  const byPower = set.filter(({ phases, rating, kind }) =>
    phases === undefined && rating !== undefined && rating.unit !== "A" && CATALOGUE[kind].group !== "ev"
  ).map((load) => load.kind === "other" && load.name === undefined ? "load" : loadName(load));
  if (byPower.length > 0) {
    w.suppose(
      "added on three lines",
      [...new Set(byPower)].join(", "),
      "no phases were said; single-phase it would load two of the lines more",
      `single-phase ${byPower[0]}`,
    );
  }
  return onMostLoadedLine(w, set.map((load) => onThreePhases(w, load, volts, setpoint !== undefined)));
}

type OnLines = Load & { isSingle: boolean };

/** On three phases untold amperes are taken to flow in all three lines, and a charger's power in two: the heavier cases. */
function onThreePhases(w: Worksheet, said: AddedLoad, volts: Known<"V">, isManaged: boolean): OnLines {
  const { rating } = said;
  const name = loadName(said);
  if (!rating || rating.unit === "hp") {
    throw need(`added.${said.kind}.rating`, `What does the ${name}'s nameplate say, in A or kVA?`, `${name} 24 A`);
  }
  const appliance = CATALOGUE[said.kind];
  const isCharger = said.phases === undefined && appliance.group === "ev" && isSinglePhaseCharger(w, said, volts);
  if (isCharger) {
    w.suppose(
      "phases of the charger",
      "single-phase",
      "none were said; on two lines it loads them more",
      `three-phase ${name}`,
    );
  }
  const isSingle = said.phases === 1 || isCharger;
  const told = rating.unit === "A"
    ? apparentPower(w, w.given(name, { n: asQuantity(rating).n, unit: "A" }), volts, isSingle ? 1 : 3)
    : nameplate(w, name, rating as Rating);
  const least = isSingle && appliance.group === "ev" && !isManaged ? leastCharger(w) : undefined;
  const each = least ? w.work(`${name} as counted`, "VA", calc`max(${told}, ${least})`, "ev-load") : told;
  const count = w.given(said.count === 1 ? `one ${name}` : `number of ${inPlural(name)}`, {
    n: String(said.count),
    unit: "1",
  });
  const all = said.count === 1 ? each : w.work(`${inPlural(name)} together`, "VA", calc`${count} × ${each}`);
  return {
    said,
    name,
    appliance,
    group: appliance.group,
    count,
    each,
    all,
    lineToNeutral: false,
    motor: false,
    isSingle,
  };
}

/**
 * Single-phase loads that do not balance count as the three-phase load that loads a line as much as they load the one that they
 * load most: everything else here is on three lines.
 */
function onMostLoadedLine(w: Worksheet, loads: readonly OnLines[]): Load[] {
  const singles = loads.filter(({ isSingle }) => isSingle).map(({ said, name, each }) => ({
    name,
    count: said.count,
    each,
  }));
  if (w.scratch(() => unevenPairs(w, singles, "VA")) === undefined) return [...loads];
  const uneven = unevenPairs(w, singles, "VA")!;
  w.suppose(
    "single-phase loads on the lines",
    uneven.words,
    "spread over the three lines as evenly as they can be; the most loaded line counts",
    `three-phase ${singles[0]!.name}`,
  );
  const root = w.work("three-phase factor", "1", calc`sqrt(${w.given("phases", { n: "3", unit: "1" })})`);
  const share = w.work("on all three lines for each of them", "1", calc`${root} × ${uneven.most} ÷ ${uneven.load}`);
  const whole = (load: Known<"VA">, name: string) =>
    w.work(`${name}, as much on all three lines`, "VA", calc`${load} × ${share}`);
  return loads.map((load) => {
    if (!load.isSingle) return load;
    const each = whole(load.each, load.said.count === 1 ? load.name : `one ${load.name}`);
    return { ...load, each, all: load.said.count === 1 ? each : whole(load.all, load.name) };
  });
}
