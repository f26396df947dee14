/** Motors alone and together, cooling equipment. */
import type { CoolingRequest as CoolingRead } from "../../../src/questions/motor/cooling-circuit/request.ts";
import type { MotorRequest as MotorRead } from "../../../src/questions/motor/motor-circuit/request.ts";
import type { FeederRequest as FeederRead } from "../../../src/questions/motor/motor-feeder/request.ts";
import type { Supply } from "../../../src/questions/parts/motors.ts";
import { type Fact, fact, type Said } from "./compose.ts";
import type { Draw } from "./draw.ts";
import type { Amount, Pen } from "./pen.ts";
import { drawLength, drawRun, lengthWords, methodWords, runFacts } from "./wiring.ts";
import type { AsJson } from "../as-json.ts";

type CoolingRequest = AsJson<CoolingRead>;
type MotorRequest = AsJson<MotorRead>;
type FeederRequest = AsJson<FeederRead>;

const SINGLE = [0.5, 0.75, 1, 1.5, 2, 3, 5, 7.5, 10];
const THREE = [0.5, 1, 1.5, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 125, 150, 200];
const SIZES = ["14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0"];
const BREAKERS = [15, 20, 30, 40, 50, 60, 70, 80, 90, 100, 125, 150, 200];
const amperes = (value: number) => ({ value, unit: "A" as const });
const horsepower = (value: number) => ({ value, unit: "hp" as const });

const supplyWords = (pen: Pen, supply: Supply): string =>
  supply === "direct current" ? "DC" : pen.phases(supply === "three-phase" ? 3 : 1);

/** Roughly what such a motor draws, for a nameplate that could be true. */
const nearly = (d: Draw, hp: number, volts: number, three: boolean): number => {
  const full = hp * 746 / (volts * (three ? 1.73 : 1) * 0.75);
  return Number((full * (0.85 + 0.15 * d.number())).toFixed(full < 20 ? 1 : 0));
};

export const motor = {
  draw(d: Draw, metric: number): MotorRequest {
    const three = d.chance(0.65);
    const power = d.pick(three ? THREE : SINGLE);
    const volts = d.pick(three ? [208, 230, 230, 460, 460, 480, 575] : [115, 115, 208, 230, 230]);
    const check = d.chance(0.2);
    const nameplate = d.perhaps(0.4, () => amperes(nearly(d, power, volts, three)));
    return {
      power: d.chance(metric / 2) ? { value: d.pick([1.5, 2.2, 4, 5.5, 7.5]), unit: "kW" } : horsepower(power),
      volts: { value: volts, unit: "V" },
      supply: three ? "three-phase" : "single-phase",
      ...(d.chance(0.1) && three && { type: d.pick(["design B energy-efficient", "wound rotor"] as const) }),
      ...(!check && d.chance(0.06) && { device: d.pick(["dual-element fuse", "nontime-delay fuse"] as const) }),
      ...(nameplate && { nameplateCurrent: nameplate }),
      ...(d.chance(0.25) && { serviceFactor: d.pick([1, 1.15, 1.15, 1.25]) }),
      ...(d.chance(0.1) && { temperatureRise: { value: d.pick([40, 50]), unit: "°C" as const } }),
      ...(d.chance(0.08) && { codeLetter: d.pick(["F", "G", "H", "J"]) }),
      ...(check && d.chance(0.7) && { breaker: amperes(d.pick(BREAKERS)) }),
      ...(check && { size: d.pick(SIZES) }),
      ...(d.chance(0.25) && { length: drawLength(d, metric, 400) }),
      ...drawRun(d, metric, { material: 0.3, method: 0.12, insulation: 0.15, conductors: 0.03, place: 0.02 }),
    };
  },

  say(r: MotorRequest, pen: Pen): Said {
    const check = r.size !== undefined;
    const volts = pen.amount(r.volts!);
    const phases = supplyWords(pen, r.supply!);
    const isTogether = pen.d.chance(0.6);
    const type = r.type === undefined
      ? ""
      : r.type === "wound rotor"
      ? pen.one("wound rotor ", "wound-rotor ")
      : pen.one("energy-efficient design B ", "design B energy efficient ");
    const power = pen.amount(r.power!, true);
    const plan = check && [
      [pen.wire(r.size!, r.material), r.insulation, r.method && methodWords(pen, r)].filter(Boolean).join(" "),
      r.breaker && `${pen.one("on", "with")} a ${pen.amount(r.breaker, true)} ${pen.short("breaker", "brkr")}`,
    ].filter(Boolean).join(" ");
    return {
      head: fact(pen.a([power, isTogether && volts, isTogether && phases, `${type}motor`].filter(Boolean).join(" "))),
      rest: [
        isTogether ? undefined : fact(`${volts} ${phases}`, ["Volts", `${volts} ${phases}`]),
        plan ? fact(plan) : undefined,
        r.device && fact(
          r.device === "dual-element fuse"
            ? pen.one("dual-element fuses", "dual element fuses", "time-delay fuses")
            : pen.one("nontime-delay fuses", "non-time-delay fuses"),
        ),
        r.nameplateCurrent && nameplateWords(pen, r.nameplateCurrent),
        r.serviceFactor === undefined ? undefined : fact(
          pen.short(
            pen.one(`service factor ${r.serviceFactor}`, `${r.serviceFactor} service factor`),
            `SF ${r.serviceFactor}`,
            `${r.serviceFactor} SF`,
          ),
          ["Service factor", String(r.serviceFactor)],
        ),
        r.temperatureRise &&
        fact(
          pen.one(
            `${pen.amount(r.temperatureRise)} rise`,
            `temperature rise ${pen.amount(r.temperatureRise)}`,
            `${pen.amount(r.temperatureRise)} temp rise`,
          ),
          [
            "Temperature rise",
            pen.amount(r.temperatureRise),
          ],
        ),
        r.codeLetter === undefined
          ? undefined
          : fact(pen.one(`code letter ${r.codeLetter}`, `code ${r.codeLetter}`), ["Code letter", r.codeLetter]),
        r.length && lengthWords(pen, r.length),
        ...runFacts(pen, r, plan ? ["material", "insulation", "method"] : []),
      ],
      ...(plan ? checkAsk(pen) : r.device
        ? {
          asks: (head: string) => `${pen.one("what wire and fuses for", "wire and fuse size for")} ${head}`,
          asksAfter: pen.one("what wire and fuses?", "wire and fuse size?"),
        }
        : {
          asks: (head: string) =>
            `${
              pen.one(
                "what wire and breaker for",
                "wire and breaker for",
                "what size wire, breaker and overloads for",
                "circuit for",
              )
            } ${head}`,
          asksAfter: pen.one(
            "what wire and breaker?",
            "wire and breaker?",
            "what size wire, breaker and overloads?",
            "what do I need?",
          ),
        }),
      bare: !plan,
    };
  },
};

const nameplateWords = (pen: Pen, current: Amount): Fact =>
  fact(
    pen.one(
      `nameplate ${pen.amount(current)}`,
      `FLA ${pen.amount(current)}`,
      `nameplate FLA ${pen.amount(current)}`,
      `${pen.amount(current)} FLA`,
    ),
    ["FLA", pen.amount(current)],
  );

const checkAsk = (pen: Pen): Pick<Said, "asks" | "asksAfter"> => ({
  asks: (head) => pen.one(`is this ok for ${head}`, `will this work for ${head}`, `is this good for ${head}`),
  asksAfter: pen.one("ok?", "is that ok?", "will that pass?", "good?"),
});

export const motorFeeder = {
  draw(d: Draw, metric: number): FeederRequest {
    const three = d.chance(0.85);
    const powers = d.shuffle(three ? THREE.slice(4, 16) : SINGLE.slice(2)).slice(0, d.pick([2, 2, 3, 3, 4]));
    const check = d.chance(0.2);
    return {
      motors: powers.map((power) => ({ count: d.chance(0.7) ? 1 : d.int(2, 4), power: horsepower(power) })),
      volts: { value: three ? d.pick([208, 230, 460, 460, 480]) : 230, unit: "V" },
      supply: three ? "three-phase" : "single-phase",
      ...(d.chance(0.25) && {
        others: [{
          load: d.chance(0.6)
            ? amperes(d.stepped(10, 60, 5))
            : { value: d.pick([5, 7.5, 10, 15]), unit: "kVA" as const },
          ...(d.chance(0.5) && { continuous: true }),
        }],
      }),
      ...(check &&
        { breaker: amperes(d.pick([70, 80, 90, 100, 125, 150, 175, 200, 250])), size: d.pick(SIZES.slice(3)) }),
      ...(d.chance(0.15) && { length: drawLength(d, metric, 300) }),
      ...drawRun(d, metric, { material: 0.3, method: 0.1, insulation: 0.15, conductors: 0, place: 0 }),
    };
  },

  say(r: FeederRequest, pen: Pen): Said {
    const motors = motorList(pen, r.motors!);
    const volts = `${pen.amount(r.volts!)} ${supplyWords(pen, r.supply!)}`;
    const plan = r.size !== undefined && [
      [pen.wire(r.size, r.material), r.insulation, r.method && methodWords(pen, r)].filter(Boolean).join(" "),
      `${pen.one("on", "with")} a ${pen.amount(r.breaker!, true)} feeder breaker`,
    ].join(" ");
    return {
      head: fact(motors),
      rest: [
        fact(volts, ["Volts", volts]),
        ...(r.others ?? []).map(({ load, continuous }) => {
          const words = `${pen.amount(load, true)} ${continuous ? "continuous " : ""}load`;
          return fact(pen.one(`plus ${pen.a(words)}`, `plus ${words}`));
        }),
        plan ? fact(plan) : undefined,
        r.length && lengthWords(pen, r.length),
        ...runFacts(pen, r, plan ? ["material", "insulation", "method"] : []),
      ],
      ...(plan
        ? {
          asks: (head: string) => pen.one(`is this ok as a feeder for ${head}`, `will this feeder do for ${head}`),
          asksAfter: pen.one("is that feeder ok?", "will that feeder pass?", "feeder ok?"),
        }
        : {
          asks: (head: string) =>
            `${
              pen.one(
                "what feeder for",
                "feeder for",
                "what size feeder and breaker for",
                "feeder wire and breaker for",
              )
            } ${head}`,
          asksAfter: pen.one("what feeder?", "what size feeder and breaker?", "feeder and breaker?"),
        }),
    };
  },
};

function motorList(pen: Pen, motors: NonNullable<FeederRequest["motors"]>): string {
  const and = pen.short("and", "&", "and", "+");
  const isSingle = motors.every(({ count }) => count === 1);
  if (isSingle && pen.uses("carriedUnit")) {
    const values = motors.map(({ power }) => String(power!.value));
    return `${values.slice(0, -1).join(", ")} and ${pen.amount({ value: values.at(-1)!, unit: "hp" })} motors`;
  }
  const last = motors.length - 1;
  // "a 20 hp and a 10 hp motor": the noun once, at the end, or with each.
  const once = isSingle && pen.d.chance(0.5);
  const all = motors.map(({ count, power }, i) =>
    once && i < last ? pen.a(pen.amount(power!, true)) : pen.several(count, "motor", power!)
  );
  return `${all.slice(0, -1).join(", ")} ${and} ${all.at(-1)}`;
}

export const cooling = {
  draw(d: Draw, metric: number): CoolingRequest {
    const run = drawRun(d, metric, {
      material: 0.25,
      method: 0.2,
      insulation: 0.12,
      ambient: 0.04,
      conductors: 0,
      place: 0,
    });
    const length = d.chance(0.15) ? { length: { value: d.stepped(20, 200, 5), unit: "ft" as const } } : {};
    const three = d.chance(0.15);
    const volts = d.chance(0.4)
      ? three
        ? { volts: { value: d.pick([208, 480]), unit: "V" as const }, phases: 3 as const }
        : { volts: { value: d.pick([208, 240]), unit: "V" as const }, ...(d.chance(0.5) && { phases: 1 as const }) }
      : {};
    if (d.chance(0.15)) {
      return {
        unitCurrent: amperes(d.stepped(5, 15, 0.5)),
        room: d.pick(["alone", "shared"] as const),
        ...(d.chance(0.6) && { breakers: [amperes(d.pick([15, 20]))] }),
        volts: { value: d.pick([120, 120, 240]), unit: "V" },
      };
    }
    const check = d.chance(0.3);
    if (d.chance(0.65)) {
      const least = d.stepped(9, 48, 0.1);
      const most = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80].filter((each) => each >= least + 2).slice(0, 4);
      return {
        minimumCircuitAmpacity: amperes(d.chance(0.5) ? Math.round(least) : least),
        ...(d.chance(0.85) && { maximumProtection: amperes(d.pick(most)) }),
        ...(check && d.chance(0.8) && { breakers: [amperes(d.pick([20, 25, 30, 35, 40, 50, 60]))] }),
        ...(check && d.chance(0.3) && { disconnect: amperes(d.pick([30, 60])) }),
        ...(check && d.chance(0.5) && { size: d.pick(["14", "12", "10", "8", "6"]) }),
        ...volts,
        ...length,
        ...run,
      };
    }
    return {
      ...(d.chance(0.15) && {
        heat: { value: d.pick([5, 7.5, 10]), unit: "kW" as const },
        ...(d.chance(0.5) && { interlocked: true }),
      }),
      compressors: [{ count: d.chance(0.8) ? 1 : 2, ratedLoad: amperes(d.stepped(8, 32, 0.1)) }],
      fans: [{ count: d.chance(0.85) ? 1 : 2, current: amperes(d.stepped(0.6, 4, 0.1)) }],
      ...(check && { breakers: [amperes(d.pick([20, 25, 30, 40, 50]))] }),
      ...volts,
      ...length,
      ...run,
    };
  },

  say(r: CoolingRequest, pen: Pen): Said {
    if (r.room) return roomWords(pen, r);
    const unit = pen.short(
      pen.one("air conditioner", "heat pump", "condensing unit", "AC condenser"),
      "AC",
      "A/C",
      "AC unit",
    );
    const breaker = r.breakers?.[0];
    const check = breaker ?? r.size ?? r.disconnect;
    const plan = [
      r.size && [pen.wire(r.size, r.material), r.insulation, r.method && methodWords(pen, r)].filter(Boolean).join(" "),
      breaker && `${pen.one("on", "with")} a ${pen.amount(breaker, true)} breaker`,
    ].filter(Boolean).join(" ");
    return {
      head: fact(pen.a(unit)),
      rest: [
        ...nameplateFacts(pen, r),
        r.volts && fact([pen.amount(r.volts), r.phases && pen.phases(r.phases)].filter(Boolean).join(" ")),
        // Heat on a circuit of its own would be another question.
        r.heat && fact(
          pen.one(
            `${pen.amount(r.heat, true)} electric heat on the same circuit`,
            `packaged unit with ${pen.amount(r.heat, true)} heat strips on the same circuit`,
          ),
        ),
        r.interlocked
          ? fact(
            pen.one(
              "heat and compressor never run together",
              "heat and compressor interlocked so they never run together",
            ),
          )
          : undefined,
        plan ? fact(plan) : undefined,
        r.disconnect && fact(
          pen.one(
            `${pen.amount(r.disconnect, true)} disconnect`,
            `with a ${pen.amount(r.disconnect, true)} disconnect`,
          ),
        ),
        r.length && lengthWords(pen, r.length),
        ...runFacts(pen, r, r.size ? ["material", "insulation", "method"] : []),
      ],
      ...(check ? checkAsk(pen) : {
        asks: (head: string) =>
          `${
            pen.one("what wire and breaker for", "wire and breaker for", "what size wire for", "circuit for")
          } ${head}`,
        asksAfter: pen.one("what wire and breaker?", "wire and breaker?", "what size wire?", "what wire do I need?"),
      }),
      bare: !check,
    };
  },
};

function nameplateFacts(pen: Pen, r: CoolingRequest): Fact[] {
  const { minimumCircuitAmpacity: least, maximumProtection: most, compressors = [], fans = [] } = r;
  const leastName = pen.short(pen.one("MCA", "minimum circuit ampacity", "min circuit ampacity"), "MCA", "mca");
  const mostName = pen.short(
    pen.one("max breaker", "maximum overcurrent protection", "max fuse or breaker", "MOCP"),
    "MOCP",
    "MOP",
    "max brkr",
  );
  const amount = (of: Amount) => pen.d.chance(0.25) && pen.terse ? String(of.value) : pen.amount(of);
  return [
    ...(least ? [labelled(pen, leastName, amount(least))] : []),
    ...(most ? [labelled(pen, mostName, amount(most))] : []),
    ...compressors.map(({ count, ratedLoad }) => counted(pen, count, "compressor", "RLA", ratedLoad!)),
    ...fans.map(({ count, current }) =>
      counted(pen, count, pen.one("condenser fan", "fan", "outdoor fan"), "FLA", current!)
    ),
  ];
}

const labelled = (pen: Pen, label: string, value: string): Fact =>
  fact(pen.one(`${label} ${value}`, `${label} of ${value}`, `${label}: ${value}`), [label, value]);

function counted(pen: Pen, count: number, what: string, label: string, current: Amount): Fact {
  const value = pen.amount(current);
  if (count > 1) return fact(`${pen.one("two", "2")} ${what}s at ${value} ${label} each`);
  const words = pen.terse
    ? pen.nameFirst ? `${what} ${label} ${value}` : `${value} ${label} ${what}`
    : pen.one(`${what} ${label} ${value}`, `${what} ${value} ${label}`);
  return fact(words, [`${what} ${label}`, value]);
}

function roomWords(pen: Pen, { unitCurrent, room, breakers, volts }: CoolingRequest): Said {
  const breaker = breakers?.[0];
  const circuit = breaker ? `${pen.amount(breaker, true)} circuit` : "circuit";
  const where = room === "alone"
    ? pen.one(`alone on ${pen.a(circuit)}`, `on ${pen.a(circuit)} of its own`, `on ${pen.a(`dedicated ${circuit}`)}`)
    : pen.one(`on ${pen.a(circuit)} with other outlets`, `sharing ${pen.a(circuit)} with other receptacles`);
  return {
    head: fact(
      pen.a(
        `${pen.amount(unitCurrent!, true)} ${pen.one("window air conditioner", "window AC", "room air conditioner")}`,
      ),
    ),
    rest: [volts && fact(pen.amount(volts)), fact(where)],
    ...(breaker
      ? {
        asks: (head: string) => pen.one(`is this ok: ${head}`, `can I have ${head}`),
        asksAfter: pen.one("ok?", "is that ok?"),
      }
      : {
        asks: (head: string) => `${pen.one("what circuit for", "wire and breaker for")} ${head}`,
        asksAfter: pen.one("what circuit?", "wire and breaker?"),
      }),
  };
}
