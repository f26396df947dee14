/** What is on the service, with whatever is added to it, by each method that is permitted here. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Lighting } from "../../../rules/dwelling/area.ts";
import { existingMethod, isClimate } from "../../../rules/dwelling/existing.ts";
import { optionalMethod } from "../../../rules/dwelling/optional.ts";
import { standardMethod } from "../../../rules/dwelling/standard.ts";
import { leastCharger } from "../../../rules/ev-charging.ts";
import type { Load } from "../../../rules/loads.ts";
import { apparentPower, lineCurrent, type Phases } from "../../../rules/power.ts";
import { wholeAmperes } from "../../../rules/overcurrent.ts";
import type { Method } from "./request.ts";

/** A dwelling as it stands. */
type House = {
  lighting: Lighting;
  loads: readonly Load[];
  lockedOut: boolean;
  together: boolean;
};
/** A service as it stands, and what is known of its load. */
export type Service = {
  rating: Known<"A">;
  volts: Known<"V">;
  phases: Phases;
  house?: House;
  /** Existing load by record, its share included. */
  measured?: Known<"VA">;
  /** Existing load by the user's own calculation. */
  calculated?: Known<"VA">;
  /** Methods that may be used here, in the order they are shown. */
  methods: readonly Method[];
  /** Whether a charger counts at what it is set to, which no least load goes above. */
  isManaged: boolean;
};
/** What goes through the tiers of a method, what counts outside them, and the names of the tiers' values. */
type Tiers = { tiered: Known<"VA">; outside: readonly Known<"VA">[]; first: string; remainder: string };
type Total = { method: Method; load: Known<"VA">; tiers?: Tiers };
export type Found = Total & { current: Known<"A">; all: readonly Total[] };

export const METHOD_NAMES: Readonly<Record<Method, string>> = {
  "existing dwelling": "existing-dwelling method",
  optional: "optional method",
  standard: "standard method",
  "measured demand": "measured-demand method",
  "as calculated": "load as you calculated it",
};

/** The load with what is added, by every permitted method; the smallest decides. */
export function loadWith(w: Worksheet, service: Service, added: readonly Load[], suffix: string): Found {
  const by = (method: Method) => byMethod(w, service, method, added, suffix);
  // One whose tables end before these loads is left to the others.
  const covered = service.methods.flatMap((method) => w.ifCovered(() => by(method)) ?? []);
  const all = covered.length > 0 ? covered : service.methods.map(by);
  w.part(`Load${suffix}`);
  const least = all.slice(1).reduce((one, other) =>
    w.choose(
      "the smaller permitted method decides",
      [one.load, "≤", other.load],
      [`the ${METHOD_NAMES[one.method]}`, () => one],
      [`the ${METHOD_NAMES[other.method]}`, () => other],
    ), all[0]!);
  return { ...least, current: currentOf(w, service, least.load), all };
}

export const currentOf = (w: Worksheet, { volts, phases }: Service, load: Known<"VA">): Known<"A"> =>
  lineCurrent(w, load, volts, phases, "line current");

/** The part of the worksheet that a method is worked in. */
export const partOf = (method: Method, suffix: string): string => {
  const name = METHOD_NAMES[method];
  return `${name[0]!.toUpperCase()}${name.slice(1)}${suffix}`;
};

/** The load by one method. */
function byMethod(w: Worksheet, service: Service, method: Method, added: readonly Load[], suffix: string): Total {
  const part = partOf(method, suffix);
  const { house } = service;
  const loads = [...(house?.loads ?? []), ...added];
  switch (method) {
    case "existing dwelling": {
      const how = { lockedOut: house!.lockedOut, addsClimate: added.some(isClimate) };
      const { total, tiered, inFull } = existingMethod(w, house!.lighting, loads, how, part);
      const tiers = { tiered, outside: inFull, first: "existing-first-tier", remainder: "existing-remainder" };
      return { method, load: total, tiers };
    }
    case "optional": {
      const { total, tiered, outside } = optionalMethod(w, house!.lighting, loads, house!, part);
      const tiers = { tiered, outside, first: "optional-first-tier", remainder: "optional-remainder" };
      return { method, load: total, tiers };
    }
    case "standard":
      return { method, load: standardMethod(w, house!.lighting, loads, house!.lockedOut, part).total };
    default: {
      w.part(part);
      const existing = method === "measured demand" ? service.measured! : service.calculated!;
      if (added.length === 0) return { method, load: existing };
      const parts = added.map((load) => inFull(w, load, service.isManaged));
      const clause = method === "measured demand" ? "measured-demand" : undefined;
      return {
        method,
        load: w.work("existing load and what is added", "VA", calc`sum(${[existing, ...parts]})`, clause),
      };
    }
  }
}

/** A new load on top of a known one: in full, a charger at no less than the edition's least unless its setting counts. */
function inFull(w: Worksheet, load: Load, isManaged: boolean): Known<"VA"> {
  const least = load.group !== "ev" || isManaged ? undefined : leastCharger(w);
  if (!least) return load.all;
  return w.work(`${load.name} as counted`, "VA", calc`${load.count} × max(${load.each}, ${least})`, "ev-load");
}

/**
 * A new load that draws more than the whole service is rated, and its current: no demand on it makes the main carry that. A
 * charger runs for hours, and takes the factor for that.
 */
export function tooLarge(
  w: Worksheet,
  { rating, volts, phases }: Service,
  added: readonly Load[],
): { load: Load; alone: Known<"A"> } | undefined {
  const currentOf = (load: Load) => {
    const name = `current of the ${load.name} alone`;
    const draws = lineCurrent(w, load.each, volts, phases, name);
    if (load.group !== "ev") return draws;
    return w.work(`${name}, continuous`, "A", calc`${draws} × ${w.constant("ev-circuit-factor")}`, "ev-circuit");
  };
  const load = added.find((each) => w.scratch(() => !w.holds(wholeAmperes(w, currentOf(each)), "≤", rating)));
  return load && { load, alone: currentOf(load) };
}

/** Whether a load current, and each new load alone, is within a rating, a fraction of an ampere below a half dropped; shown. */
export function fits(w: Worksheet, service: Service, current: Known<"A">, added: readonly Load[]): boolean {
  const within = (name: string, of: Known<"A">, yes: string) =>
    w.choose(name, [wholeAmperes(w, of), "≤", service.rating], [yes, () => true], ["no, it is too much", () => false]);
  const fit = within("within the rating", current, "yes, it fits");
  const large = tooLarge(w, service, added);
  return large ? within(`the ${large.load.name} alone within the rating`, large.alone, "yes") && fit : fit;
}

/** What the service's rating comes to in volt-amperes. */
export const capacity = (w: Worksheet, { rating, volts, phases }: Service): Known<"VA"> =>
  apparentPower(w, rating, volts, phases);
