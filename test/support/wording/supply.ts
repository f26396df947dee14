/** Transformers, grounding, conversions. */
import type { ConversionRequest as ConversionRead } from "../../../src/questions/supply/conversion/request.ts";
import type { GroundingRequest as GroundingRead } from "../../../src/questions/circuit/grounding/request.ts";
import type { TransformerRequest as TransformerRead } from "../../../src/questions/supply/transformer/request.ts";
import { fact, type Said } from "./compose.ts";
import type { Draw } from "./draw.ts";
import type { Amount, Pen } from "./pen.ts";
import { drawRun, runFacts } from "./wiring.ts";
import type { AsJson } from "../as-json.ts";

type ConversionRequest = AsJson<ConversionRead>;
type GroundingRequest = AsJson<GroundingRead>;
type TransformerRequest = AsJson<TransformerRead>;

const amperes = (value: number) => ({ value, unit: "A" as const });

/** Windings by what is made: primary, secondary between lines, the system where it has a neutral. */
const WINDINGS = [
  { phases: 3, primary: 480, secondary: 208, system: "208Y/120", said: ["208Y/120", "208/120", "120/208"] },
  { phases: 3, primary: 480, secondary: 208, system: "208Y/120", said: ["208Y/120"] },
  { phases: 3, primary: 208, secondary: 480, system: "480Y/277", said: ["480Y/277", "480/277"] },
  { phases: 3, primary: 480, secondary: 240, winding: "delta", said: ["240 V delta", "240 delta"] },
  { phases: 1, primary: 480, secondary: 240, system: "120/240", said: ["120/240", "240/120"] },
  { phases: 1, primary: 240, secondary: 120, winding: "two-wire", said: ["120 V two-wire", "120 V 2-wire"] },
] as const;

export const transformer = {
  draw(d: Draw, metric: number): TransformerRequest {
    const { phases, primary, secondary, said: _, ...system } = d.pick(WINDINGS);
    const sizes = phases === 3 ? [9, 15, 30, 45, 75, 112.5, 150, 225, 300] : [5, 10, 15, 25, 37.5, 50, 75, 100];
    const bySize = d.chance(0.8);
    const check = bySize && d.chance(0.2);
    return {
      ...(bySize ? { power: { value: d.pick(sizes), unit: "kVA" } } : {
        load: d.chance(0.6)
          ? { value: d.pick([8, 12, 20, 28, 40, 60, 90, 130]), unit: "kVA" }
          : amperes(d.pick([40, 60, 100, 150, 200, 300])),
      }),
      ...((phases === 1 || d.chance(0.5)) && { phases }),
      primary: { value: primary, unit: "V" },
      secondary: { value: secondary, unit: "V" },
      ...system,
      ...(d.chance(0.3) && { protection: d.pick(["primary only", "primary and secondary"] as const) }),
      ...(check && { primaryBreaker: amperes(d.pick([20, 30, 40, 50, 60, 70, 80, 100, 125, 150, 200, 250])) }),
      ...(bySize && d.chance(0.12) && { impedance: { value: d.pick([2.5, 3, 4.5, 5, 5.75]), unit: "%" as const } }),
      ...(d.chance(0.15) && { electrode: "water pipe" as const }),
      ...drawRun(d, metric, { material: 0.3, method: 0.1, insulation: 0.1, ambient: 0.03, conductors: 0, place: 0 }),
    };
  },

  say(r: TransformerRequest, pen: Pen): Said {
    const found = WINDINGS.find((each) =>
      each.primary === r.primary!.value && each.secondary === r.secondary!.value &&
      ("system" in each ? each.system === r.system : each.winding === r.winding)
    )!;
    const second = pen.one(found.said[0], ...found.said);
    const first = pen.d.chance(0.4) ? pen.amount(r.primary!) : String(r.primary!.value);
    const volts = pen.one(`${first} to ${second}`, `${first} primary, ${second} secondary`);
    const transformer = pen.short("transformer", "xfmr", "xfmr", "xformer");
    const phases = r.phases && pen.phases(r.phases);
    const load = r.load && pen.one(`${pen.amount(r.load, true)} load`, `load of ${pen.amount(r.load)}`);
    const breaker = r.primaryBreaker && `${pen.amount(r.primaryBreaker, true)} primary breaker`;
    const together = r.power && phases && pen.d.chance(0.5);
    return {
      head: r.power
        ? fact(pen.a([pen.amount(r.power, true), together && phases, transformer].filter(Boolean).join(" ")))
        : fact(pen.a(load!)),
      rest: [
        fact(volts),
        together || !phases ? undefined : fact(phases),
        r.protection && fact(
          r.protection === "primary only"
            ? pen.one("primary protection only", "primary only protection", "protected on the primary only")
            : pen.one("primary and secondary protection", "protected on both primary and secondary"),
        ),
        breaker ? fact(breaker) : undefined,
        r.impedance && fact(
          pen.one(
            `${pen.amount(r.impedance)} impedance`,
            `impedance ${pen.amount(r.impedance)}`,
            `${pen.amount(r.impedance)} Z`,
          ),
        ),
        r.electrode && fact("water pipe electrode"),
        ...runFacts(pen, r),
      ],
      ...(breaker
        ? {
          asks: (head: string) => pen.one(`is this ok for ${head}`, `will this work for ${head}`),
          asksAfter: pen.one("ok?", "is that breaker ok?", "is that ok?"),
        }
        : r.power
        ? r.protection === "primary only"
          ? {
            asks: (head: string) => `${pen.one("what protection for", "what primary breaker and wire for")} ${head}`,
            asksAfter: pen.one("what protection?", "what size primary breaker?"),
          }
          : {
            asks: (head: string) =>
              `${pen.one("what breakers and wire for", "what protection for", "breakers and wire for")} ${head}`,
            asksAfter: pen.one("what breakers and wire?", "what protection?", "breakers and wire each side?"),
          }
        : {
          asks: (head: string) =>
            `${pen.one("what size transformer for", "transformer size for", "what transformer for")} ${head}`.replace(
              /transformer/,
              transformer,
            ),
          asksAfter: pen.one("what size transformer?", "what transformer do I need?"),
        }),
      bare: r.power !== undefined && breaker === undefined,
    };
  },
};

const SERVICE_SIZES = ["4", "2", "1/0", "2/0", "3/0", "4/0", "250 kcmil", "350 kcmil", "500 kcmil", "600 kcmil"];

export const grounding = {
  draw(d: Draw, _metric: number): GroundingRequest {
    const check = d.chance(0.15);
    const ground = check ? { check: true, ground: d.pick(["10", "8", "6", "4", "2"]) } : {};
    const of = d.chance(0.3) ? { groundMaterial: d.pick(["copper", "copper", "aluminum"] as const) } : {};
    const wanted = d.pick(
      [
        "equipment ground",
        "equipment ground",
        "grounding electrode conductor",
        "grounding electrode conductor",
        "main bonding jumper",
        "system bonding jumper",
        "supply-side bonding jumper",
      ] as const,
    );
    if (wanted === "equipment ground") {
      const raised = d.chance(0.25)
        ? {
          ...d.pick(
            [
              { needed: "3", size: "1" },
              { needed: "8", size: "6" },
              { needed: "3/0", size: "250 kcmil" },
              { needed: "10", size: "6" },
              { needed: "250 kcmil", size: "350 kcmil" },
            ] as const,
          ),
          upsizedFor: "voltage drop" as const,
          material: "copper" as const,
        }
        : {};
      const devices = "needed" in raised || d.chance(0.85) ? 1 : d.int(2, 3);
      return {
        find: [wanted],
        devices: Array.from(
          { length: devices },
          () => amperes(d.pick([15, 20, 30, 40, 50, 60, 70, 100, 125, 150, 200, 225, 300, 400])),
        ),
        ...raised,
        ...of,
        ...ground,
      };
    }
    const sets = d.chance(0.2) ? { sets: d.int(2, 4) } : {};
    const size = d.pick("sets" in sets ? SERVICE_SIZES.slice(3) : SERVICE_SIZES);
    return {
      find: [wanted],
      size,
      material: d.pick(["copper", "copper", "aluminum"] as const),
      ...sets,
      ...(wanted === "supply-side bonding jumper" && "sets" in sets && d.chance(0.5) && {
        jumpers: "one for each raceway" as const,
      }),
      ...(wanted === "grounding electrode conductor" && d.chance(0.6) &&
        { electrode: d.pick(["water pipe", "building steel", "rod", "concrete-encased", "ground ring"] as const) }),
      ...of,
      ...ground,
    };
  },

  say(r: GroundingRequest, pen: Pen): Said {
    const wanted = r.find![0]!;
    const name = {
      "equipment ground": pen.short(
        pen.one("equipment ground", "equipment grounding conductor", "ground wire", "equipment ground wire"),
        "EGC",
        "egc",
      ),
      "grounding electrode conductor": pen.short("grounding electrode conductor", "GEC", "gec"),
      "main bonding jumper": pen.short("main bonding jumper", "MBJ"),
      "system bonding jumper": pen.short("system bonding jumper", "SBJ"),
      "supply-side bonding jumper": pen.short("supply-side bonding jumper", "SSBJ"),
    }[wanted];
    const of = r.groundMaterial === undefined ? name : `${pen.material(r.groundMaterial)} ${name}`;
    const conductors = wanted === "system bonding jumper" || wanted === "supply-side bonding jumper"
      ? pen.one("transformer secondary conductors", "secondary conductors")
      : pen.one("service conductors", "service entrance conductors");
    const wire = r.size === undefined ? undefined : pen.wire(r.size, r.material);
    const head = wanted === "equipment ground"
      ? devicesWords(pen, r.devices!)
      : r.sets === undefined
      ? `${wire} ${conductors}`
      : `${pen.one(`${r.sets} sets of`, `${r.sets} parallel sets of`)} ${wire} ${conductors}`;
    const ground = r.ground &&
      pen.a(`${pen.size(r.ground)} ${r.groundMaterial ? `${pen.material(r.groundMaterial)} ` : ""}${name}`);
    return {
      head: fact(head),
      rest: [
        r.electrode && fact(
          {
            "water pipe": pen.one("to the water pipe", "water pipe electrode", "to a metal water pipe"),
            "building steel": pen.one("to building steel", "building steel electrode"),
            rod: pen.one("ground rods only", "to ground rods only", "goes to the ground rods only"),
            "concrete-encased": pen.one("to a concrete-encased electrode", "Ufer", "to the Ufer"),
            "ground ring": pen.one("to a ground ring", "ground ring electrode"),
          }[r.electrode],
        ),
        r.jumpers &&
        fact(pen.one("one jumper in each raceway", "a jumper in each raceway", "one jumper for each raceway")),
        r.needed === undefined ? undefined : fact(
          pen.one(
            `conductors raised from ${pen.size(r.needed)} to ${pen.size(r.size!)} ${
              pen.material(r.material!)
            } for voltage drop`,
            `wire upsized from ${pen.size(r.needed)} to ${pen.size(r.size!)} ${
              pen.material(r.material!)
            } for voltage drop`,
          ),
        ),
      ],
      ...(ground
        ? {
          asks: (words: string) => pen.one(`is ${ground} big enough for ${words}`, `is ${ground} ok for ${words}`),
          asksAfter: pen.one(`is ${ground} big enough?`, `is ${ground} ok?`),
        }
        : {
          asks: (words: string) => `${pen.one("what size", "size of the", "what size")} ${of} for ${words}`,
          asksAfter: pen.one(`what size ${of}?`, `${of} size?`, `how big does the ${of} have to be?`),
        }),
    };
  },
};

function devicesWords(pen: Pen, devices: readonly Amount[]): string {
  if (devices.length === 1) {
    return pen.a(`${pen.amount(devices[0]!, true)} ${pen.one("breaker", "circuit", "breaker")}`);
  }
  const values = devices.map(({ value }) => String(value));
  return `circuits on ${values.slice(0, -1).join(", ")} and ${
    pen.amount({ value: values.at(-1)!, unit: "A" }, true)
  } breakers sharing one ground`;
}

export const conversion = {
  draw(d: Draw, metric: number): ConversionRequest {
    if (d.chance(0.25)) return drawMeasure(d);
    if (d.chance(0.08)) return drawDirect(d);
    const { volts, circuit } = d.pick(
      [
        { volts: 120, circuit: "single-phase" },
        { volts: 240, circuit: "single-phase" },
        { volts: 208, circuit: "three-phase" },
        { volts: 480, circuit: "three-phase" },
        { volts: 400, circuit: "three-phase" },
        { volts: 208, circuit: "single-phase" },
      ] as const,
    );
    const supply = {
      volts: { value: volts, unit: "V" as const },
      ...((volts > 240 || volts === 208 || d.chance(0.5)) && { circuit }),
    };
    const powerFactor = d.pick([0.8, 0.85, 0.9, 0.95]);
    return d.pick([
      (): ConversionRequest => ({
        power: { value: d.pick([5, 10, 15, 25, 30, 45, 75, 112.5]), unit: "kVA" },
        ...supply,
        to: "A",
      }),
      (): ConversionRequest => ({
        power: { value: d.pick([1.5, 4.5, 7.2, 9.6, 12, 18, 24, 36]), unit: "kW" },
        ...supply,
        to: "A",
        ...(d.chance(0.4) && { powerFactor }),
      }),
      (): ConversionRequest => ({
        power: { value: d.pick([1200, 1500, 1800, 5500, 7200]), unit: d.pick(["W", "VA"] as const) },
        ...supply,
        to: "A",
      }),
      (): ConversionRequest => ({
        current: amperes(d.pick([16, 20, 40, 60, 80, 100, 200, 400])),
        ...supply,
        to: "kVA",
      }),
      (): ConversionRequest => ({
        current: amperes(d.pick([16, 20, 40, 60, 80, 100, 200, 400])),
        ...supply,
        to: "kW",
        ...(d.chance(0.4) && { powerFactor }),
      }),
      (): ConversionRequest => ({ power: { value: d.pick([25, 50, 75, 100]), unit: "kVA" }, powerFactor, to: "kW" }),
      (): ConversionRequest => ({ power: { value: d.pick([20, 40, 60, 90]), unit: "kW" }, powerFactor, to: "kVA" }),
      (): ConversionRequest =>
        d.chance(metric + 0.4)
          ? { power: { value: d.pick([1.5, 4, 7.5, 11, 15, 22]), unit: "kW" }, to: "hp" }
          : { power: { value: d.pick([1, 5, 7.5, 10, 20, 50]), unit: "hp" }, to: "kW" },
      (): ConversionRequest => ({
        power: { value: d.pick([5, 10, 15, 25, 50]), unit: "hp" },
        volts: { value: 460, unit: "V" },
        circuit: "three-phase",
        efficiency: { value: d.pick([88, 90, 92]), unit: "%" },
        powerFactor,
        to: "A",
      }),
    ])();
  },

  say(r: ConversionRequest, pen: Pen): Said {
    const from = r.size !== undefined ? pen.size(r.size) : pen.amount(r.measure ?? r.current ?? r.power!);
    const into = UNIT_WORDS[r.to!]!;
    const to = pen.one(into[0]!, ...into);
    const phases = r.circuit === "three-phase"
      ? pen.phases(3)
      : r.circuit === "single-phase"
      ? pen.phases(1)
      : r.circuit === "direct current"
      ? "DC"
      : undefined;
    const at = [r.volts && pen.amount(r.volts), phases].filter(Boolean).join(" ");
    return {
      head: fact(
        at && pen.d.chance(0.6) ? `${from} ${pen.one("at", "at", "@")} ${at}` : [from, at].filter(Boolean).join(", "),
      ),
      rest: [
        r.efficiency &&
        fact(
          pen.one(
            `efficiency ${pen.amount(r.efficiency)}`,
            `${pen.amount(r.efficiency)} efficiency`,
            `${pen.amount(r.efficiency)} efficient`,
          ),
        ),
        r.powerFactor === undefined ? undefined : fact(`${pen.one("power factor", "pf", "PF")} ${r.powerFactor}`),
      ],
      asks: (head) => pen.one(`how many ${to} is ${head}`, `what is ${head} in ${to}`, `convert ${head} to ${to}`),
      asksAfter: pen.one(`how many ${to}?`, `in ${to}?`, `what's that in ${to}?`),
    };
  },
};

const UNIT_WORDS: Readonly<Record<string, readonly string[]>> = {
  A: ["amps", "amps", "amperes"],
  kVA: ["kVA", "KVA"],
  kW: ["kW", "kilowatts"],
  hp: ["hp", "horsepower"],
  "°C": ["°C", "Celsius", "degrees C"],
  "°F": ["°F", "Fahrenheit", "degrees F"],
  ft: ["feet", "ft"],
  m: ["meters", "metres"],
  mm2: ["mm²", "mm2", "square millimeters"],
  AWG: ["AWG"],
};

function drawDirect(d: Draw): ConversionRequest {
  const direct = { volts: { value: d.pick([12, 24, 48]), unit: "V" }, circuit: "direct current" } as const;
  return d.chance(0.5)
    ? { power: { value: d.pick([100, 240, 480, 1200]), unit: "W" }, ...direct, to: "A" }
    : { current: amperes(d.pick([10, 20, 40, 60])), ...direct, to: "kW" };
}

function drawMeasure(d: Draw): ConversionRequest {
  return d.pick([
    (): ConversionRequest => ({ measure: { value: d.pick([20, 30, 40, 60, 75, 90]), unit: "°C" }, to: "°F" }),
    (): ConversionRequest => ({ measure: { value: d.pick([32, 86, 104, 140, 167]), unit: "°F" }, to: "°C" }),
    (): ConversionRequest => ({ measure: { value: d.stepped(10, 500, 10), unit: "ft" }, to: "m" }),
    (): ConversionRequest => ({ measure: { value: d.stepped(5, 150, 5), unit: "m" }, to: "ft" }),
    (): ConversionRequest => ({
      measure: { value: d.pick([4, 6, 10, 16, 25, 35, 50, 70, 95]), unit: "mm2" },
      to: "AWG",
    }),
    (): ConversionRequest => ({ size: d.pick(["12", "10", "8", "4", "2", "1/0", "4/0", "250 kcmil"]), to: "mm2" }),
  ])();
}
