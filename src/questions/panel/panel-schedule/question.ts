/** A panel's circuits on their legs and positions, what the legs carry, what the neutral carries, and the directory. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { ledBy } from "../../parts/verdict.ts";
import { question } from "../../question.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import { balance, isEveryWayTried, type Landing, type Piece, positions } from "./arrange.ts";
import { type Circuit, input, type Leg, LEGS, type ScheduleRequest, type System, SYSTEMS } from "./request.ts";
import { takes } from "./takes.ts";
import { fitsSides, landingsAt, packed, roomOf } from "./within.ts";
import { write } from "./write.ts";

export default question({
  id: "panel-schedule",
  title: "Panel schedule and balance of the legs",
  about:
    "Where each circuit of a panel lands so that the legs balance, what the neutral carries, what the directory says.",
  input,
  figures: {
    "leg-a-load": "load of leg A",
    "leg-b-load": "load of leg B",
    "leg-c-load": "load of leg C",
    imbalance: "largest leg less the smallest",
    "neutral-current": "current of the neutral",
    "spaces-used": "spaces used",
  },
  examples: [
    "balance the legs of a 120/240 V panel: two-pole 4500 VA water heater, 1800 VA kitchen, 1500 VA bath, 1200 VA lighting",
    "208Y/120 V panel schedule, 24 spaces: three-pole 9 kVA heater, 1800 VA, 1600 VA, 1400 VA, 1200 VA",
    "neutral current of a 208Y/120 V panel with 5 A on phase A and 8 A on phase B",
  ],
  minds: ["leg"],
  manner: { traits: ["lists", "one supply", "outlets"], asked: "goal:panel-schedule" },
  takes,
  write,
  answer(r, w) {
    if (r.breakers && r.circuits) {
      throw need(
        "breakers",
        "Some breakers are told by their poles alone and some circuits with their loads: what does each of the others carry?",
        "single-pole 1200 VA lighting",
      );
    }
    if (r.currents) return ofCurrents(w, r);
    if (r.breakers) return ofBreakers(w, r.breakers, r.spaces);
    if (!r.circuits) {
      throw need(
        "circuits",
        "Which circuits are in the panel: what does each carry, and which have two or three poles?",
        "two-pole 4500 VA water heater, 1800 VA kitchen, 1500 VA bath",
      );
    }
    const circuits = r.circuits.flatMap(each);
    const system = systemOf(w, r, circuits.some(({ poles, leg }) => poles === 3 || leg === "C"));
    const legs = legsOf(system);
    const isOnNoLeg = circuits.some(({ poles, leg }) => poles > legs.length || leg && !legs.includes(leg));
    if (isOnNoLeg) throw noThirdLeg(system);
    w.part("Circuits");
    const toNeutral = w.given("volts from a line to the neutral", { n: String(SYSTEMS[system]), unit: "V" });
    const loads = circuits.map((circuit, i) => loadOf(w, circuit, nameOf(circuit, i), toNeutral, system));
    const pieces = circuits.map(({ poles, leg }, i) => ({ poles, leg, load: Number(plainOf(w, loads[i]!)) }));
    const { landings, places } = laidOut(pieces, legs, r.spaces);
    const sums = legLoads(w, landings, loads, legs);
    imbalanceOf(w, sums);
    const neutral = neutralOf(w, circuits, landings, loads, toNeutral, legs);
    const used = spacesUsed(w, circuits);
    const verdict = r.spaces === undefined ? undefined : fits(w, used, r.spaces, places.flat());
    directory(w, circuits, landings, places, loads);
    const words = legs.map((leg, i) => w.say`${leg} ${sums[i]!}`).join(", ");
    const apart = w.figures.imbalance!;
    const sentence = w.say`${words}: ${
      String(Math.round(Number(apart.value)))
    } VA apart; ${used} spaces; neutral ${neutral}.${whereOf(circuits, places)}`;
    w.caution(
      "Every circuit stands in the directory by its clear, specific purpose, spares as spares.",
      "panel-directory",
    );
    if (circuits.some(({ poles }) => poles === 1)) {
      w.caution(
        "Two circuits that share a neutral stand on different legs and open together; on one leg their currents add.",
      );
    }
    if (!isEveryWayTried(pieces, legs)) {
      w.caution("Of so many circuits not every arrangement was tried: the legs may come a little nearer together yet.");
    }
    w.suggest("20 spaces");
    return ledBy(verdict, sentence);
  },
});

const noThirdLeg = (system: System) =>
  need("system", `A ${system} V panel has no third leg. Is it 208Y/120 V?`, "208Y/120 V");

/** Where each lands: as the legs balance best, and within the panel's spaces where that is possible. */
function laidOut(
  pieces: readonly Piece[],
  legs: readonly Leg[],
  spaces: number | undefined,
): { landings: Landing[]; places: number[][] } {
  const landings = balance(pieces, legs, spaces === undefined ? undefined : roomOf(spaces, legs));
  const places = positions(landings, legs);
  if (spaces === undefined || places.flat().every((place) => place <= spaces)) return { landings, places };
  // What is landed already stays where it is.
  const close = pieces.some(({ leg }) => leg) ? undefined : packed(pieces, legs, spaces);
  return close ? { landings: landingsAt(close, legs), places: close } : { landings, places };
}

/** So many circuits alike are so many circuits, by their numbers. */
const each = (circuit: Circuit): Circuit[] =>
  Array.from({ length: circuit.count }, (_, i) => ({
    ...circuit,
    count: 1,
    ...(circuit.name && circuit.count > 1 && { name: `${circuit.name} ${i + 1}` }),
  }));
const nameOf = ({ name }: Circuit, i: number): string => name ?? `circuit ${i + 1}`;
const legsOf = (system: System): readonly Leg[] => system === "120/240" ? LEGS.slice(0, 2) : LEGS;
/** A step's number, for the search of an arrangement alone. */
const plainOf = (w: Worksheet, load: Known<"VA">): number => plain({ value: (w.value(load) as { n: string }).n });

function systemOf(w: Worksheet, { system }: ScheduleRequest, isThreePhase: boolean): System {
  w.part("Supply");
  if (system) return system;
  const usual = isThreePhase ? "208Y/120" : "120/240";
  w.suppose("supply", `${usual} V`, "usual where nothing was said of it", isThreePhase ? "480Y/277 V" : "208Y/120 V");
  return usual;
}

/** Volt-amperes of a circuit: told, or its amperes at the volts between its lines. */
function loadOf(
  w: Worksheet,
  { load, poles }: Circuit,
  name: string,
  toNeutral: Known<"V">,
  system: System,
): Known<"VA"> {
  if (load.unit !== "A") {
    const unit = load.unit === "W" ? "VA" : load.unit === "kW" ? "kVA" : load.unit;
    const told = w.given(name, { n: asQuantity(load).n, unit });
    return unit === "VA" ? told as Known<"VA"> : w.work(name, "VA", calc`1 × ${told}`);
  }
  const current = w.given(name, { n: asQuantity(load).n, unit: "A" });
  const times = w.given(`lines of ${name}`, { n: String(poles), unit: "1" });
  // Between two lines of a wye lie √3 times the volts to the neutral, and three lines carry three times one of them.
  const isOfWye = poles === 2 && system !== "120/240";
  return isOfWye
    ? w.work(name, "VA", calc`${current} × ${toNeutral} × sqrt(${w.given("three phases", { n: "3", unit: "1" })})`)
    : w.work(name, "VA", calc`${current} × ${toNeutral} × ${times}`);
}

const FIGURES: Record<Leg, string> = { A: "leg-a-load", B: "leg-b-load", C: "leg-c-load" };
function legLoads(
  w: Worksheet,
  landings: readonly Landing[],
  loads: readonly Known<"VA">[],
  legs: readonly Leg[],
): Known<"VA">[] {
  w.part("Legs");
  const each = landings.map((landing, i) => {
    if (landing.length === 1) return loads[i]!;
    const poles = w.given("poles", { n: String(landing.length), unit: "1" });
    return w.work(`share of ${loads[i]!.name} on each leg`, "VA", calc`${loads[i]!} ÷ ${poles}`);
  });
  return legs.map((leg) => {
    const shares = each.filter((_, i) => landings[i]!.includes(leg));
    const nothing = w.given("nothing", { n: "0", unit: "VA" });
    const sum = w.work(`load of leg ${leg}`, "VA", calc`sum(${shares.length > 0 ? shares : [nothing]})`);
    w.figure(FIGURES[leg], sum, `load of leg ${leg}`);
    return sum;
  });
}

function imbalanceOf(w: Worksheet, sums: readonly Known<"VA">[]): void {
  w.figure("imbalance", w.work("imbalance", "VA", calc`max(${sums}) − min(${sums})`), "largest leg less the smallest");
}

/** Only what lies between a line and the neutral comes back on it. */
function neutralOf(
  w: Worksheet,
  circuits: readonly Circuit[],
  landings: readonly Landing[],
  loads: readonly Known<"VA">[],
  toNeutral: Known<"V">,
  legs: readonly Leg[],
): Known<"A"> {
  w.part("Neutral");
  const currents = legs.map((leg) => {
    const own = loads.filter((_, i) => circuits[i]!.poles === 1 && landings[i]![0] === leg);
    const all = own.length > 0 ? own : [w.given("nothing", { n: "0", unit: "VA" })];
    return w.work(`line-to-neutral current of leg ${leg}`, "A", calc`sum(${all}) ÷ ${toNeutral}`);
  });
  return inNeutral(w, currents);
}

/** On one phase the difference of the legs; on three the sum of their vectors, a third of a turn apart. */
function inNeutral(w: Worksheet, [a, b, c]: readonly Known<"A">[]): Known<"A"> {
  const current = c === undefined ? w.work("current of the neutral", "A", calc`abs(${a!} − ${b!})`) : w.work(
    "current of the neutral",
    "A",
    calc`sqrt(${a!} × ${a!} + ${b!} × ${b!} + ${c} × ${c} − ${a!} × ${b!} − ${b!} × ${c} − ${c} × ${a!})`,
  );
  w.figure("neutral-current", current, "current of the neutral");
  return current;
}

function spacesUsed(w: Worksheet, circuits: readonly Circuit[]): Known<"1"> {
  w.part("Spaces");
  const poles = circuits.map(({ poles }, i) =>
    w.given(`poles of ${nameOf(circuits[i]!, i)}`, { n: String(poles), unit: "1" })
  );
  const used = w.work("spaces used", "1", calc`sum(${poles})`, "panel-poles");
  w.figure("spaces-used", used, "spaces used");
  return used;
}

/** Whether there are spaces enough, and whether those of several poles find theirs below each other. */
function fits(w: Worksheet, used: Known<"1">, spaces: number, places: readonly number[]): Reasoned {
  const there = w.given("spaces of the panel", { n: String(spaces), unit: "1" });
  const is = w.choose("room", [used, "≤", there], ["enough", () => true], ["too few", () => false], "panel-poles");
  const areAllInside = places.every((place) => place <= spaces);
  if (!is) return { is: "not ok", because: w.say`${used} spaces are needed and the panel has ${there}` };
  if (areAllInside) return { is: "ok", because: w.say`${used} of ${there} spaces are used` };
  return {
    is: "not ok",
    because: w
      .say`${used} of ${there} spaces would do by number, but not on their legs and sides: circuits of several \
poles take spaces below each other on one side, and each leg has its share of the rows`,
  };
}

/** One line a circuit, in the order of the positions: what the card at the door says. */
function directory(
  w: Worksheet,
  circuits: readonly Circuit[],
  landings: readonly Landing[],
  places: readonly (readonly number[])[],
  loads: readonly Known<"VA">[],
): void {
  w.part("Directory");
  const order = circuits.map((_, i) => i).sort((a, b) => places[a]![0]! - places[b]![0]!);
  for (const i of order) {
    w.list(`${places[i]!.join("+")} (${landings[i]!.join("-")}): ${nameOf(circuits[i]!, i)}`, loads[i]!);
  }
}

/** Breakers by their poles alone: how many spaces they take. */
function ofBreakers(
  w: Worksheet,
  breakers: NonNullable<ScheduleRequest["breakers"]>,
  spaces: number | undefined,
): Told {
  w.part("Spaces");
  const taken = breakers.map(({ poles, count }) => {
    const each = w.given(`poles of each ${POLE_NAMES[poles]} breaker`, { n: String(poles), unit: "1" });
    const of = w.given(`${POLE_NAMES[poles]} breakers`, { n: String(count), unit: "1" });
    return w.work(`spaces of the ${POLE_NAMES[poles]} breakers`, "1", calc`${of} × ${each}`, "panel-poles");
  });
  const used = w.work("spaces used", "1", calc`sum(${taken})`);
  w.figure("spaces-used", used, "spaces used");
  const verdict = spaces === undefined ? undefined : fits(w, used, spaces, placesOf(breakers, spaces));
  w.caution("Two circuits in one space only where the panel's label takes such breakers.");
  w.suggest(`${spaces ?? 20} spaces`);
  return verdict ? ledBy(verdict) : { headline: w.say`${used} spaces.` };
}
/** A place beyond the last space stands for breakers that find none. */
const placesOf = (breakers: NonNullable<ScheduleRequest["breakers"]>, spaces: number): number[] =>
  fitsSides(breakers.flatMap(({ poles, count }) => Array.from({ length: count }, () => poles)), spaces)
    ? []
    : [spaces + 1];
const POLE_NAMES = { 1: "single-pole", 2: "two-pole", 3: "three-pole" } as const;

const MOST_TOLD = 8;
const whereOf = (circuits: readonly Circuit[], places: readonly (readonly number[])[]): string =>
  circuits.length > MOST_TOLD
    ? ""
    : ` Positions: ${circuits.map((circuit, i) => `${places[i]!.join("+")} ${nameOf(circuit, i)}`).join(", ")}.`;

/** Currents told leg by leg. */
function ofCurrents(w: Worksheet, { system: told, currents = [] }: ScheduleRequest): Told {
  const system = systemOf(
    w,
    { ...(told && { system: told }) } as ScheduleRequest,
    currents.some(({ leg }) => leg === "C"),
  );
  if (currents.some(({ leg }) => !legsOf(system).includes(leg))) throw noThirdLeg(system);
  w.part("Neutral");
  const sums = legsOf(system).map((leg) => {
    const own = currents.filter((each) => each.leg === leg).map(({ current }, i) =>
      w.given(`load ${i + 1} of leg ${leg}`, { n: asQuantity(current).n, unit: "A" })
    );
    return w.work(
      `current of leg ${leg}`,
      "A",
      calc`sum(${own.length > 0 ? own : [w.given("nothing", { n: "0", unit: "A" })]})`,
    );
  });
  const neutral = inNeutral(w, sums);
  const isOneLeg = currents.length > 1 && new Set(currents.map(({ leg }) => leg)).size === 1;
  const why = isOneLeg ? "on one leg they add, and nothing protects the neutral from it" : undefined;
  if (isOneLeg) {
    w.caution("A shared neutral wants its circuits on different legs, opened together: move one of them.");
  }
  w.caution("Nonlinear loads (drivers, computers) bring back more: their third harmonics add on the neutral.");
  w.suggest("on phase C 6 A");
  return { headline: w.say`Neutral ${neutral}${why ? `: ${why}` : ""}.` };
}
