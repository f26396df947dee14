/** A generator behind a transfer switch or interlock: what it must carry, what has to stay off, and its conductors. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { byAmpacity, type Material } from "../../../rules/conductors.ts";
import { equipmentGround } from "../../../rules/grounding.ts";
import type { Load } from "../../../rules/loads.ts";
import { lineCurrent } from "../../../rules/power.ts";
import { lineByAmpacity } from "../../../rules/supply-conductors.ts";
import { byRating } from "../../../rules/wiring-methods.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { ledBy } from "../../parts/verdict.ts";
import { question } from "../../question.ts";
import { apparent, type Capacity, capacityOf, type Supply, supplyOf, throughInlet } from "./capacity.ts";
import { type Carried, carriedOf } from "./load.ts";
import { input, type StandbyRequest } from "./request.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "standby-load",
  title: "Generator behind a transfer switch",
  about:
    "What a generator behind a transfer switch or interlock must carry, what has to stay off, and its output conductors.",
  input,
  figures: {
    "calculated-load": "load to carry",
    "calculated-current": "current of that load",
    "generator-capacity": "what the generator carries",
    "generator-current": "current of the generator",
    "spare-load": "spare",
    "load-kept-on": "load with some kept off",
    "conductor-ampacity": "least ampacity of its conductors",
    conductor: "output conductor",
    "parallel-sets": "parallel sets",
    "equipment-grounding-conductor": "equipment grounding conductor",
  },
  examples: [
    "22 kW generator with an automatic transfer switch, 2400 sq ft, 12 kW range, 5 kW dryer, 4.5 kW water heater, AC 24 A, is it enough?",
    "7500 W portable generator on an interlock, well pump 1 hp, refrigerator 700 W, microwave 1200 W, ok?",
    "what size wire from a 20 kW generator to the transfer switch?",
  ],
  manner: {},
  takes,
  minds: ["building"],
  write,
  answer(r, w) {
    const supply = supplyOf(w, r);
    const generator = capacityOf(w, r, supply);
    if (r.find === "conductors") {
      if (!generator) throw need("generator", "What does the generator's nameplate say?", "22 kW generator");
      return { headline: w.say`${generator.words}: ${conductors(w, r, generator)}.`.replace(/^a /, "A ") };
    }
    const carried = carriedOf(w, r, supply);
    if (!carried && (generator ?? r.inlet)) return alone(w, r, throughInlet(w, r, supply, generator)!, generator);
    if (!carried) {
      throw need(
        "load",
        "What must it carry: the whole dwelling (floor area and appliances), the loads that run together, or a load that was calculated?",
        "2400 sq ft, 12 kW range, 5 kW dryer; or: calculated load 90 A",
      );
    }
    const capacity = throughInlet(w, r, supply, generator);
    const load = managedLoad(w, r, supply, carried);
    w.figure("calculated-load", load, "load to carry");
    const current = lineCurrent(w, load, supply.volts, supply.phases, "current of that load");
    w.figure("calculated-current", current);
    const isByHand = transferOf(w, r) === "manual";
    const told = capacity ? judge(w, r, carried, load, capacity, isByHand) : sized(w, carried, load, current, isByHand);
    const wires = generator && !isPluggedIn(r, isByHand) ? ` Its conductors: ${conductors(w, r, generator)}.` : "";
    cautions(w, r, isByHand, carried);
    return { ...told, headline: `${told.headline}${wires}` };
  },
});

/** A portable one is plugged in: its conductors are a cord. */
const isPluggedIn = ({ inlet, breaker }: StandbyRequest, isByHand: boolean): boolean =>
  inlet !== undefined || (isByHand && breaker === undefined);

/** Nothing told of the load: what may run at one time. */
function alone(w: Worksheet, r: StandbyRequest, capacity: Capacity, generator: Capacity | undefined): Told {
  w.figure("generator-capacity", capacity.power, "what the generator carries");
  w.figure("generator-current", capacity.current, "current of the generator");
  const isByHand = transferOf(w, r) === "manual";
  const wires = generator && !isPluggedIn(r, isByHand) ? ` Its conductors: ${conductors(w, r, generator)}.` : "";
  cautions(w, r, isByHand, undefined);
  w.suggest("refrigerator 700 W, well pump 1 hp", "calculated load 60 A");
  const rest = isByHand
    ? "What is run together is added up, and a quarter of the largest motor."
    : "By itself it must carry all that is transferred, or what load management lets on.";
  return {
    headline: w.say`${capacity.words} carries ${capacity.power} at one time, ${capacity.current}. ${rest}${wires}`
      .replace(/^a/, "A"),
  };
}

function transferOf(w: Worksheet, { transfer }: StandbyRequest): "automatic" | "manual" {
  w.part("Transfer");
  if (transfer) {
    w.given("transfer", transfer, undefined, transfer === "automatic" ? "standby-automatic" : "standby-manual");
    return transfer;
  }
  w.suppose(
    "transfer",
    "automatic",
    "nothing was told of it; by itself it takes all there is, by hand only what is chosen",
    "manual transfer switch",
    "standby-automatic",
  );
  return "automatic";
}

/** With load management no more than it lets on. */
function managedLoad(w: Worksheet, { setting }: StandbyRequest, supply: Supply, { load }: Carried): Known<"VA"> {
  if (!setting) return load;
  w.part("Load management");
  const most = apparent(w, "setting of the load management", setting, supply);
  return w.work("let on at one time", "VA", calc`min(${most}, ${load})`, "standby-automatic");
}

/** No generator told: the least that carries it. */
function sized(w: Worksheet, { by }: Carried, load: Known<"VA">, current: Known<"A">, isByHand: boolean): Told {
  const power = w.work("kilovolt-amperes", "kVA", calc`1 × ${load}`);
  const less = isByHand
    ? "By hand it may be smaller: as much as is run at one time."
    : "With load management it may be smaller: as much as that lets on at one time.";
  w.suggest("load management set to 60 A", isByHand ? "automatic transfer switch" : "interlock");
  return { headline: w.say`A generator of at least ${power}: ${load}, ${current}, ${by}. ${less}` };
}

function judge(
  w: Worksheet,
  r: StandbyRequest,
  carried: Carried,
  load: Known<"VA">,
  { power, words }: Capacity,
  isByHand: boolean,
): Told {
  w.part("Is it enough");
  w.figure("generator-capacity", power, "what the generator carries");
  const clause = isByHand ? "standby-manual" : "standby-automatic";
  const of = r.setting ? "as much as its load management lets on" : carried.by;
  const numbers = w.say`${words} carries ${power}, and ${load} are to be carried (${of})`;
  const isEnough = w.choose<boolean>(
    "does it carry that",
    [power, "≥", load],
    ["yes", () => true],
    ["no", () => false],
    clause,
  );
  if (isEnough) {
    w.figure("spare-load", w.work("spare", "VA", calc`${power} − ${load}`));
    return ledBy({ is: "ok", because: numbers });
  }
  const tooMuch = isByHand ? tooMuchAlone(w, carried, power) : [];
  const apart = listed(tooMuch.map(({ name }) => name));
  // Of a dwelling the lamps are left, of one figure nobody knows what is in it.
  if (tooMuch.length > 0 && tooMuch.length === carried.loads.length && !r.areas?.length) {
    const none = tooMuch.length === 1 ? `the ${apart} is too much even alone` : "each of them is too much even alone";
    return ledBy({ is: "not ok", because: `${none}: ${numbers}` });
  }
  const off = keptOff(w, carried, power);
  const names = off && listed(off.loads.map(({ name }) => name));
  const rest = off ? w.say`the rest is ${off.load}` : undefined;
  if (isByHand) {
    const never = apart && `, the ${apart} never (too much even alone)`;
    const verdict: Reasoned = {
      is: "ok if",
      because: w.say`no more than ${power} runs at one time${never}: ${numbers}`,
    };
    return ledBy(verdict, names ? w.say`Without the ${names} ${rest!}.` : "");
  }
  if (r.managed && names) {
    return ledBy({ is: "ok if", because: w.say`its load management keeps the ${names} off (${rest!}): ${numbers}` });
  }
  return ledBy(
    { is: "not ok", because: numbers },
    names ? w.say`With load management that keeps the ${names} off it is enough: ${rest!}.` : w.say`It takes ${load}.`,
  );
}

/** `range, 2 dryers and air conditioner` */
function listed(names: readonly string[]): string {
  const counted = [...new Set(names)].map((name) => {
    const n = names.filter((each) => each === name).length;
    return n === 1 ? name : `${n} ${name}s`;
  });
  return counted.length < 2 ? counted.join("") : `${counted.slice(0, -1).join(", ")} and ${counted.at(-1)}`;
}

/** What the generator does not carry with nothing else running. */
function tooMuchAlone(w: Worksheet, { loads, alone }: Carried, power: Known<"VA">): readonly Load[] {
  const isTooMuch = (one: Load) =>
    w.first([alone], (work) => w.under(`The ${one.name} alone`, () => w.holds(work(one), ">", power) || undefined));
  return loads.filter(isTooMuch);
}

/** The fewest appliances that have to stay off, one alone as small as will do. */
function keptOff(
  w: Worksheet,
  { loads, without }: Carried,
  power: Known<"VA">,
): { loads: readonly Load[]; load: Known<"VA"> } | undefined {
  // Of two alike their names decide, so that the order told does not.
  const byName = (a: Load, b: Load) => a.name < b.name ? -1 : Number(a.name > b.name);
  const rising = loads.toSorted((a, b) =>
    w.holds(a.all, "<", b.all) ? -1 : w.holds(a.all, ">", b.all) ? 1 : byName(a, b)
  );
  const falling = rising.toReversed();
  const candidates = [...rising.map((one) => [one]), ...falling.slice(1).map((_, i) => falling.slice(0, i + 2))];
  return w.first(candidates, (some) =>
    w.under(`With the ${listed(some.map(({ name }) => name))} kept off`, () => {
      const load = without(some);
      if (w.holds(load, ">", power)) return undefined;
      w.figure("load-kept-on", load, "load with some kept off");
      return { loads: some, load };
    }));
}

/** From the generator to its first device: more than its nameplate's current. */
function conductors(w: Worksheet, r: StandbyRequest, { current }: Capacity): string {
  w.part("Output conductors");
  w.figure("generator-current", current, "current of the generator");
  const factor = w.constant<"%">("generator-conductor-factor");
  const needed = w.work("least ampacity of its conductors", "A", calc`${current} × ${factor}`, "generators");
  w.figure("conductor-ampacity", needed);
  const material: Material = r.material ?? (w.word(w.assume("conductor-material")) as Material);
  const column = r.terminals ? w.given("terminations", asQuantity(r.terminals)) : byRating(w, needed);
  const breaker = r.breaker && w.given("breaker of the generator", asQuantity(r.breaker));
  const line = breaker
    ? lineByAmpacity(w, { rating: breaker, current: needed }, column, material)
    : { size: byAmpacity(w, `${material} output conductor`, needed, column, material) };
  w.figure("conductor", line.size, `output conductor, ${material}`);
  if (line.sets) w.figure("parallel-sets", line.sets);
  const ground = breaker && equipmentGround(w, breaker, "copper");
  if (ground) w.figure("equipment-grounding-conductor", ground, "copper equipment grounding conductor");
  else {
    w.caution("Its ground goes by the breaker at the generator: tell its rating.", "equipment-grounding");
  }
  const less = w.constant<"%">("generator-conductor-factor-protected");
  w.caution(w.say`${less} of the nameplate where the generator's own design keeps it from overload.`, "generators");
  const sets = line.sets ? w.say`${line.sets} sets of ` : "";
  const grounded = ground ? w.say`, ground ${ground} copper` : "";
  return w.say`${sets}${line.size} ${material} (${needed}, ${factor} of ${current})${grounded}`;
}

function cautions(w: Worksheet, r: StandbyRequest, isByHand: boolean, carried: Carried | undefined): void {
  if (r.load || r.supply === "three-phase") {
    w.caution(
      "Reckoned as optional standby: an emergency or legally required system (700, 701) has rules of its own, none of them checked.",
      isByHand ? "standby-manual" : "standby-automatic",
    );
  }
  if (carried?.loads.some(({ motor }) => motor)) {
    w.caution(
      "A motor starts at several times what it runs at: hold its locked-rotor current against the maker's data.",
    );
  }
  w.caution("Altitude, heat and natural gas take off a generator's power: the rating on site counts.");
  w.caution("Never two sources at once: transfer equipment, never a cord into a receptacle.", "standby-transfer");
  if (isByHand) w.caution("A backfed breaker is fastened to its panel.", "backfed-fastened");
}
