/** Branch circuits and feeders. */
import type { CircuitRequest as CircuitRead, SaidLoad } from "../../../src/questions/circuit/branch-circuit/request.ts";
import type { FeederRequest as FeederRead } from "../../../src/questions/circuit/feeder/request.ts";
import { aside, type Fact, fact, type Said } from "./compose.ts";
import type { Draw } from "./draw.ts";
import { equipment } from "./household.ts";
import type { Amount, Pen } from "./pen.ts";
import { cableWords, drawLength, drawRun, lengthWords, methodWords, runFacts } from "./wiring.ts";
import type { AsJson } from "../as-json.ts";

type CircuitRequest = AsJson<CircuitRead>;
type FeederRequest = AsJson<FeederRead>;

const BREAKERS = [15, 20, 20, 25, 30, 30, 35, 40, 45, 50, 60, 70, 80, 100];
const SIZES = ["14", "12", "12", "10", "10", "8", "6", "4", "3", "2", "1", "1/0"];
const amperes = (value: number) => ({ value, unit: "A" as const });
const kilowatts = (value: number) => ({ value, unit: "kW" as const });

/** Appliances with what their nameplates say, and the circuit they are usually put on. */
const APPLIANCES: Readonly<Record<string, { rating: (d: Draw) => SaidLoad["rating"]; breakers: number[] }>> = {
  range: { rating: (d) => kilowatts(d.pick([8, 9.6, 10, 12, 14])), breakers: [40, 50] },
  "wall-oven": { rating: (d) => kilowatts(d.pick([4, 4.8, 6])), breakers: [20, 30, 40] },
  cooktop: { rating: (d) => kilowatts(d.pick([6, 7.2, 8])), breakers: [30, 40] },
  dryer: { rating: (d) => kilowatts(d.pick([4.5, 5, 5.5])), breakers: [25, 30] },
  "water-heater": { rating: (d) => kilowatts(d.pick([3.8, 4.5, 5.5])), breakers: [20, 25, 30] },
  "tankless-water-heater": { rating: (d) => kilowatts(d.pick([9, 11, 13, 18])), breakers: [50, 60, 80] },
  dishwasher: { rating: (d) => amperes(d.pick([9, 10, 12])), breakers: [15, 20] },
  microwave: { rating: (d) => amperes(d.pick([12, 13, 14])), breakers: [15, 20] },
  "hot-tub": { rating: (d) => kilowatts(d.pick([7.5, 9, 11])), breakers: [40, 50, 60] },
  sauna: { rating: (d) => kilowatts(d.pick([6, 8, 9])), breakers: [30, 40, 50] },
  furnace: { rating: (d) => kilowatts(d.pick([10, 15])), breakers: [60, 70, 80] },
  "space-heater": { rating: (d) => kilowatts(d.pick([1, 1.5, 2])), breakers: [15, 20, 30] },
  "ev-charger": { rating: (d) => amperes(d.pick([16, 24, 32, 40, 48])), breakers: [20, 30, 40, 50, 60] },
  kiln: { rating: (d) => kilowatts(d.pick([5, 8, 9.6])), breakers: [30, 40, 50, 60] },
  "snow-melting": { rating: (d) => kilowatts(d.pick([3, 5, 6])), breakers: [20, 30, 40] },
  "pool-heater": { rating: (d) => kilowatts(d.pick([5.5, 11])), breakers: [30, 60] },
};

export const branch = {
  draw(d: Draw, metric: number): CircuitRequest {
    const what = d.pick(["appliance", "appliance", "appliance", "load", "load", "lighting", "welder", "receptacles"]);
    const run = drawRun(d, metric, { conductors: 0.04 });
    const check = d.chance(0.3);
    const hasLength = d.chance(0.3);
    const plan = (breakers: readonly number[]): Partial<CircuitRequest> =>
      check
        ? {
          check: true,
          // Without a breaker a size over a length could be put up for its drop alone.
          ...((hasLength || d.chance(0.7)) && { breaker: amperes(d.pick(breakers)) }),
          size: d.pick(SIZES),
        }
        : d.chance(0.08)
        ? { breaker: amperes(d.pick(breakers)) }
        : {};
    const length = hasLength ? { length: drawLength(d, metric, 250) } : {};
    // With a plan put up, a limit of the drop would make it a question of the drop alone.
    const limit = "length" in length && !check && d.chance(0.3)
      ? { limit: { value: d.pick([2, 3, 5]), unit: "%" as const } }
      : {};
    switch (what) {
      case "appliance": {
        const kind = d.pick(Object.keys(APPLIANCES));
        const { rating, breakers } = APPLIANCES[kind]!;
        const count = kind === "space-heater" ? d.int(1, 4) : 1;
        return withCable(d, {
          loads: [
            {
              kind,
              count,
              rating: rating(d),
              ...(kind === "water-heater" && d.chance(0.4) && { gallons: d.pick([40, 50, 80]) }),
            } as SaidLoad,
          ],
          ...(kind === "ev-charger" && !check && d.chance(0.2) && { receptacle: amperes(50) }),
          ...(d.chance(0.35) && { volts: { value: usualVolts(kind), unit: "V" } }),
          ...length,
          ...limit,
          ...plan(breakers),
          ...run,
        });
      }
      case "load": {
        const power = d.chance(0.4);
        const isThree = d.chance(0.3);
        const volts = isThree ? d.pick([208, 240, 480]) : d.pick([120, 120, 240, 240, 208, 277]);
        const continuous = d.perhaps(0.5, () => d.chance(0.8));
        return {
          loads: [{
            kind: "load",
            count: 1,
            rating: power ? kilowatts(d.pick([1.5, 2, 3, 4.5, 6, 7.5, 10, 15])) : amperes(d.int(8, 60)),
            ...(continuous !== undefined && { continuous }),
          }],
          volts: { value: volts, unit: "V" },
          ...(isThree
            ? { phases: 3 }
            : d.chance(0.5) && volts >= 208 && volts !== 277 || power && volts === 208
            ? { phases: 1 }
            : {}),
          ...length,
          ...limit,
          ...plan(BREAKERS),
          ...run,
        };
      }
      case "lighting":
        return {
          loads: [{
            kind: "lighting",
            count: 1,
            rating: d.chance(0.5) ? amperes(d.int(8, 18)) : kilowatts(d.pick([1, 1.5, 2, 2.5, 3])),
          }],
          volts: { value: d.pick([120, 277]), unit: "V" },
          ...length,
          ...limit,
          ...plan([15, 20, 30]),
          ...run,
        };
      case "welder":
        return {
          loads: [{
            kind: "welder",
            count: 1,
            rating: amperes(d.pick([30, 40, 46, 50, 60])),
            dutyCycle: d.pick([20, 30, 40, 50, 60]),
          }],
          ...(d.chance(0.6) && { volts: { value: 240, unit: "V" } }),
          ...run,
        };
      default:
        return {
          loads: [{ kind: "receptacles", count: d.int(4, 12) }],
          ...(d.chance(0.5) && { volts: { value: 120, unit: "V" } }),
          ...run,
        };
    }
  },

  say(r: CircuitRequest, pen: Pen): Said {
    const [load] = r.loads!;
    const { plan, said } = planOf(pen, r);
    // Over a length the wire alone could be asked for the drop's sake: the breaker is asked with it.
    const ask = r.length
      ? {
        asks: (head: string) =>
          `${
            pen.one("what wire and breaker for", "wire and breaker for", "breaker and wire size for", "circuit for")
          } ${head}`,
        asksAfter: pen.one("what wire and breaker?", "wire and breaker?", "what size wire and breaker do I need?"),
      }
      : {
        asks: (head: string) =>
          `${
            pen.one(
              "what wire and breaker for",
              "wire and breaker for",
              "what size wire for",
              "what do I run for",
              "circuit for",
            )
          } ${head}`,
        asksAfter: pen.one(
          "what wire and breaker?",
          "wire and breaker?",
          "what size wire?",
          "what size wire and breaker do I need?",
          "what do I run?",
        ),
      };
    return {
      head: loadWords(pen, load!),
      rest: [
        ...(r.volts ? [fact(supplyWords(pen, r.volts.value, r.phases))] : []),
        plan,
        load!.gallons === undefined
          ? undefined
          : fact(`${pen.number(load!.gallons)} ${pen.short(pen.one("gallon tank", "gallons"), "gal", "gal tank")}`),
        r.receptacle && fact(
          pen.one(`on a ${pen.amount(r.receptacle, true)} receptacle`, `${pen.amount(r.receptacle, true)} receptacle`),
        ),
        r.breaker && !r.check ? fact(breakerWords(pen, r.breaker)) : undefined,
        r.length && lengthWords(pen, r.length),
        r.limit && fact(dropLimitWords(pen, r.limit)),
        ...runFacts(pen, r, said),
      ],
      ...(r.check ? checkAsk(pen) : ask),
      bare: !r.check && r.length === undefined && load!.kind !== "load" && load!.kind !== "receptacles",
    };
  },
};

const usualVolts = (kind: string): number => kind === "dishwasher" || kind === "microwave" ? 120 : 240;

/** A plan of NM, UF or MC cable names its wires. */
function withCable(d: Draw, r: CircuitRequest): CircuitRequest {
  const isCable = r.method === "NM cable" || r.method === "UF cable" || r.method === "MC cable";
  if (!r.check || !isCable || r.size === undefined || r.size.includes("/") || r.material === "aluminum") return r;
  const { conductors: _, ...rest } = r;
  return { ...rest, wires: d.pick([2, 2, 3]) };
}

function loadWords(pen: Pen, { kind, count, rating, continuous, dutyCycle }: SaidLoad): Fact {
  switch (kind) {
    case "load": {
      const hours = continuous === undefined
        ? ""
        : continuous
        ? "continuous "
        : pen.one("noncontinuous ", "non-continuous ");
      return fact(pen.a(`${pen.amount(rating!, true)} ${hours}load`), [
        pen.one("Load", "load"),
        `${pen.amount(rating!)}${hours && `, ${hours.trim()}`}`,
      ]);
    }
    case "lighting":
      return fact(
        pen.one(
          `${pen.amount(rating!)} of lighting`,
          `${pen.amount(rating!)} of lights`,
          `${pen.amount(rating!, true)} lighting load`,
        ),
        [
          "Lighting",
          pen.amount(rating!),
        ],
      );
    case "welder":
      return fact(
        `${pen.a(`${pen.amount(rating!, true)} ${pen.one("welder", "arc welder")}`)}, ${
          pen.amount({ value: dutyCycle!, unit: "%" })
        } duty cycle`,
      );
    case "receptacles":
      return fact(`${pen.number(count)} ${pen.one("receptacles", "outlets", "duplex receptacles")}`);
    default:
      return equipment(pen, kind, count, rating);
  }
}

const supplyWords = (pen: Pen, volts: number | string, phases?: 1 | 3): string =>
  `${pen.volts(volts)}${phases ? ` ${pen.phases(phases)}` : ""}`;

const breakerWords = (pen: Pen, breaker: Amount): string =>
  pen.one(
    `${pen.amount(breaker, true)} ${pen.short("breaker", "brkr", "bkr")}`,
    `on a ${pen.amount(breaker, true)} breaker`,
  );

const dropLimitWords = (pen: Pen, limit: Amount): string =>
  pen.one(
    `max ${pen.amount(limit)} voltage drop`,
    `no more than ${pen.amount(limit)} voltage drop`,
    `keep the ${pen.short("voltage drop", "VD")} under ${pen.amount(limit)}`,
    `${pen.amount(limit)} ${pen.short("voltage drop", "VD", "v drop")}`,
  );

const checkAsk = (pen: Pen): Pick<Said, "asks" | "asksAfter"> => ({
  asks: (head) =>
    pen.one(`is this ok for ${head}`, `is this good for ${head}`, `will this work for ${head}`, `is it ok: ${head}`),
  asksAfter: pen.one("ok?", "is that ok?", "will that pass?", "good?", "am I good?"),
});

/** The size and the breaker put up, in one breath; `said` is what of the wiring has been told with them. */
function planOf(pen: Pen, r: CircuitRequest): { plan?: Fact; said: ("material" | "method" | "insulation")[] } {
  if (!r.check || r.size === undefined) return { said: [] };
  const breaker = r.breaker &&
    pen.one(
      `on a ${pen.amount(r.breaker, true)} breaker`,
      `with a ${pen.amount(r.breaker, true)} breaker`,
      `on ${pen.a(`${pen.amount(r.breaker, true)} breaker`)}`,
    );
  const wire = r.wires !== undefined
    ? cableWords(pen, r.size, r.wires, r)
    : [pen.wire(r.size, r.material), r.insulation, r.method && methodWords(pen, r)].filter(Boolean).join(" ");
  return {
    plan: fact([wire, breaker].filter(Boolean).join(" ")),
    said: r.wires === undefined ? ["material", "method", "insulation"] : ["method", "insulation"],
  };
}

export const feeder = {
  draw(d: Draw, metric: number): FeederRequest {
    const run = drawRun(d, metric, { material: 0.5, conductors: 0.03 });
    if (d.chance(0.2)) {
      return {
        supply: "service",
        wholeDwelling: true,
        breaker: amperes(d.pick([100, 125, 150, 200, 200, 225, 320, 400])),
        ...(d.chance(0.15) && { electrode: d.pick(["water pipe", "concrete-encased"] as const) }),
        ...(run.material && { material: run.material }),
        ...(d.chance(0.2) && { length: drawLength(d, metric, 150) }),
      };
    }
    const three = d.chance(0.2);
    const rating = amperes(d.pick([50, 60, 60, 70, 90, 100, 100, 125, 150, 200, 225, 400]));
    const isSeparate = d.chance(0.5);
    const load = d.perhaps(
      0.35,
      () =>
        d.chance(0.7)
          ? amperes(d.stepped(20, Math.max(25, rating.value), 5))
          : kilowatts(d.pick([6, 9, 10, 12, 15, 18])),
    );
    const check = d.chance(0.2);
    return {
      ...(d.chance(0.8) && { where: isSeparate ? "separate structure" as const : "same building" as const }),
      ...(check || d.chance(0.4) ? { breaker: rating } : { panel: rating }),
      ...(load && { load }),
      ...(load && d.chance(0.3) && { continuous: amperes(d.stepped(10, 40, 5)) }),
      ...(three
        ? { volts: { value: d.pick([208, 480]), unit: "V" as const }, phases: 3 as const }
        : d.chance(0.4)
        ? { volts: { value: 240, unit: "V" as const }, ...(d.chance(0.4) && { phases: 1 as const }) }
        : {}),
      ...(d.chance(0.1) && { neutralLoad: amperes(d.stepped(20, 60, 10)) }),
      ...(d.chance(0.06) && { neutral: false }),
      ...(rating.value >= 225 && !check && d.chance(0.3) && { sets: 2 }),
      ...(check &&
        { check: true, sizes: [d.pick(["8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0", "250 kcmil"])] }),
      ...(d.chance(0.6) && { length: drawLength(d, metric, 350) }),
      ...(d.chance(0.1) && { dropLimit: { value: d.pick([2, 3, 5]), unit: "%" as const } }),
      ...run,
    };
  },

  say(r: FeederRequest, pen: Pen): Said {
    if (r.supply === "service") return serviceWords(pen, r);
    const place = r.where === "separate structure"
      ? pen.one(
        "in a detached garage",
        "in the detached garage",
        "in a separate building",
        "in a barn",
        "out in the detached shop",
      )
      : r.where === "same building"
      ? pen.one("in the same building", "in the same house")
      : "";
    const panel = pen.one("subpanel", "sub panel", "sub");
    const head = [r.panel && pen.amount(r.panel, true), panel, place].filter(Boolean).join(" ");
    const size = r.sizes?.[0];
    const plan = size &&
      [pen.wire(size, r.material), r.insulation, r.method && methodWords(pen, r)].filter(Boolean).join(" ");
    return {
      head: fact(pen.a(head)),
      rest: [
        r.breaker && fact(
          pen.one(
            `${pen.amount(r.breaker, true)} feeder breaker`,
            `fed from a ${pen.amount(r.breaker, true)} breaker`,
            `${pen.amount(r.breaker, true)} ${pen.short("breaker", "brkr")}`,
          ),
          ["Feeder breaker", pen.amount(r.breaker)],
        ),
        plan ? fact(plan) : undefined,
        r.load && r.continuous
          ? fact(
            `${pen.amount(r.load, true)} noncontinuous load plus ${pen.amount(r.continuous, true)} continuous load`,
          )
          : r.load &&
            fact(
              pen.one(
                `${pen.amount(r.load, true)} load`,
                `load of ${pen.amount(r.load)}`,
                `load is ${pen.amount(r.load)}`,
              ),
              [
                "Load",
                pen.amount(r.load),
              ],
            ),
        r.volts && fact(supplyWords(pen, r.volts.value, r.phases)),
        r.neutral === false ? fact(pen.one("no neutral needed", "no neutral", "without a neutral")) : undefined,
        r.sets === undefined ? undefined : fact(pen.one("2 parallel sets", "two sets in parallel", "2 sets")),
        r.neutralLoad &&
        fact(pen.one(`neutral load ${pen.amount(r.neutralLoad)}`, `${pen.amount(r.neutralLoad, true)} neutral load`)),
        r.length && lengthWords(pen, r.length),
        r.dropLimit && fact(dropLimitWords(pen, r.dropLimit)),
        ...runFacts(pen, r, plan ? ["material", "insulation", "method"] : []),
      ],
      ...(r.check ? checkAsk(pen) : {
        asks: (words: string) =>
          `${
            pen.one(
              "what size feeder for",
              "what wire for",
              "what do I need to feed",
              "feeder for",
              "wire size to feed",
            )
          } ${words}`,
        asksAfter: pen.one("what size feeder?", "what wire?", "what size wire do I need?", "feeder size?"),
      }),
      bare: !r.check && r.length !== undefined,
    };
  },
};

function serviceWords(pen: Pen, { breaker, material, electrode, length }: FeederRequest): Said {
  const rating = pen.amount(breaker!, true);
  const home = pen.one("a one-family dwelling", "a single family house", "a house", "one house");
  return {
    head: fact(`${pen.a(`${rating} service`)} for ${home}`),
    rest: [
      material && aside(pen.material(material)),
      electrode &&
      fact(electrode === "water pipe" ? "water pipe electrode" : pen.one("concrete-encased electrode", "Ufer ground")),
      length && lengthWords(pen, length),
    ],
    asks: (head) =>
      `${
        pen.one(
          "what size service conductors for",
          "service conductors for",
          "service entrance conductors for",
          "what wire for",
        )
      } ${head}`,
    asksAfter: pen.one(
      "what size service conductors?",
      "service conductor size?",
      "what size are the service entrance conductors?",
    ),
  };
}
