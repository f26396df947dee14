/** Dwellings, household cooking, dryers. */
import type { CookingRequest } from "../../../src/questions/load/cooking-demand/request.ts";
import type { DryerRequest } from "../../../src/questions/load/dryer-demand/request.ts";
import type { DwellingRequest } from "../../../src/questions/load/dwelling-load/request.ts";
import type { DwellingLoad } from "../../../src/questions/parts/dwelling-request.ts";
import { type Fact, fact, type Said } from "./compose.ts";
import type { Draw } from "./draw.ts";
import type { Amount, Pen } from "./pen.ts";

/** Names of household equipment: the plainest, other names of the trade, short forms. */
const NAMES: Readonly<Record<string, { plain: string; other?: string[]; short?: string[] }>> = {
  range: { plain: "range", other: ["electric range", "stove"] },
  "wall-oven": { plain: "wall oven", other: ["built-in oven"] },
  cooktop: { plain: "cooktop", other: ["cook top", "electric cooktop"] },
  dryer: { plain: "dryer", other: ["clothes dryer", "electric dryer"] },
  "water-heater": {
    plain: "water heater",
    other: ["hot water heater", "electric water heater"],
    short: ["WH", "w/h", "HWH"],
  },
  "tankless-water-heater": { plain: "tankless water heater", other: ["tankless heater", "on-demand water heater"] },
  dishwasher: { plain: "dishwasher", short: ["DW", "d/w"] },
  disposer: { plain: "disposer", other: ["garbage disposal", "disposal", "food waste disposer"] },
  "trash-compactor": { plain: "trash compactor" },
  microwave: { plain: "microwave", other: ["built-in microwave", "microwave oven"] },
  "range-hood": { plain: "range hood" },
  "central-vacuum": { plain: "central vacuum", other: ["central vac"] },
  "well-pump": { plain: "well pump", other: ["submersible well pump"] },
  "sump-pump": { plain: "sump pump" },
  "pool-pump": { plain: "pool pump" },
  "pool-heater": { plain: "electric pool heater", other: ["pool heater"] },
  "hot-tub": { plain: "hot tub", other: ["spa"] },
  sauna: { plain: "sauna", other: ["sauna heater"] },
  "whirlpool-tub": { plain: "whirlpool tub", other: ["jetted tub"] },
  "attic-fan": { plain: "attic fan" },
  "garage-door-opener": { plain: "garage door opener", other: ["door opener"] },
  "instant-hot-water": { plain: "instant hot water dispenser", other: ["hot water dispenser"] },
  furnace: { plain: "electric furnace" },
  "space-heater": { plain: "baseboard heater", other: ["electric baseboard"] },
  "heat-pump": { plain: "heat pump" },
  "supplemental-heat": { plain: "backup heat", other: ["strip heat", "aux heat", "supplemental heat"] },
  "air-conditioner": {
    plain: "air conditioner",
    other: ["central air conditioner", "central AC"],
    short: ["AC", "A/C", "ac"],
  },
  "room-air-conditioner": { plain: "window air conditioner", other: ["room air conditioner"], short: ["window AC"] },
  "air-handler": { plain: "air handler", short: ["AHU"] },
  kiln: { plain: "kiln", other: ["pottery kiln"] },
  "snow-melting": { plain: "snow melting mat", other: ["snow melt mat", "snow-melting system"] },
  "ev-charger": { plain: "EV charger", other: ["car charger", "electric vehicle charger"], short: ["EVSE", "EV"] },
};
/** What no number of is counted: "10 kW backup heat". */
const UNCOUNTED = ["supplemental-heat"];

export const nameOf = (pen: Pen, kind: string): string => {
  const { plain, other = [], short } = NAMES[kind]!;
  const named = pen.one(plain, ...other);
  return short && named === plain ? pen.short(plain, ...short) : named;
};

/** "a 12 kW range", "range 12 kW", "(2) 48 A EV chargers". */
export function equipment(pen: Pen, kind: string, count: number, rating: Amount | undefined): Fact {
  const name = nameOf(pen, kind);
  if (!rating) return fact(pen.several(count, name));
  if (count > 1) {
    return fact(pen.several(count, name, rating), [pen.several(count, name), `${pen.amount(rating)} each`]);
  }
  const line = [name, pen.amount(rating)] as const;
  if (pen.nameFirst) return fact(line.join(" "), line);
  const words = `${pen.amount(rating, true)} ${name}`;
  return fact(UNCOUNTED.includes(kind) ? words : pen.a(words), line);
}

/** What each piece of household equipment is rated for. */
const RATINGS: Readonly<Record<string, (d: Draw) => Amount>> = {
  range: (d) => kW(d.pick([8, 8.75, 9, 10, 11, 12, 12, 13, 14, 15, 16])),
  "wall-oven": (d) => kW(d.pick([3.6, 4, 4.8, 5, 6, 7.5])),
  cooktop: (d) => kW(d.pick([4, 5, 6, 7.2, 8])),
  dryer: (d) => kW(d.pick([4, 4.5, 5, 5.4, 5.5, 6])),
  "water-heater": (d) => kW(d.pick([3.8, 4.5, 4.5, 5.5])),
  "tankless-water-heater": (d) => kW(d.pick([18, 24, 27])),
  dishwasher: (d) => d.chance(0.5) ? kW(d.pick([1.2, 1.4, 1.5])) : A(d.pick([9, 10, 12])),
  disposer: (d) => d.chance(0.6) ? hp(d.pick([0.5, 0.75])) : A(d.pick([6, 7, 8])),
  "trash-compactor": (d) => A(d.pick([8, 9, 10])),
  microwave: (d) => d.chance(0.5) ? kW(d.pick([1.2, 1.5, 1.6])) : A(d.pick([12, 13, 14])),
  "range-hood": (d) => A(d.pick([2, 3, 4])),
  "central-vacuum": (d) => A(d.pick([12, 14, 15])),
  "well-pump": (d) => hp(d.pick([0.5, 0.75, 1, 1.5, 2])),
  "sump-pump": (d) => hp(d.pick([0.5, 0.75])),
  "pool-pump": (d) => hp(d.pick([0.75, 1, 1.5, 2])),
  "pool-heater": (d) => kW(d.pick([5.5, 11])),
  "hot-tub": (d) => A(d.pick([40, 48, 50])),
  sauna: (d) => kW(d.pick([6, 8, 9])),
  "whirlpool-tub": (d) => A(d.pick([10, 12])),
  "attic-fan": (d) => A(d.pick([3, 4, 5])),
  "garage-door-opener": (d) => A(d.pick([5, 6])),
  "instant-hot-water": (d) => ({ value: d.pick([750, 1300]), unit: "W" }),
  furnace: (d) => kW(d.pick([10, 15, 20])),
  "heat-pump": (d) => A(d.pick([18, 24, 28, 32])),
  "supplemental-heat": (d) => kW(d.pick([5, 8, 10, 15])),
  "air-conditioner": (d) => A(d.pick([16, 18, 20.5, 24, 28, 30])),
  "ev-charger": (d) => A(d.pick([32, 40, 48])),
  "space-heater": (d) => kW(d.pick([1, 1.5, 2])),
};
const kW = (value: number): Amount => ({ value, unit: "kW" });
const A = (value: number): Amount => ({ value, unit: "A" });
const hp = (value: number): Amount => ({ value, unit: "hp" });
type Rating = NonNullable<DwellingLoad["rating"]>;

const load = (d: Draw, kind: string, count = 1): DwellingLoad =>
  ({ kind, count, rating: RATINGS[kind]!(d) as Rating }) as DwellingLoad;
const onGas = (kind: "range" | "dryer" | "water-heater" | "furnace"): DwellingLoad => ({ kind, count: 1, fuel: "gas" });

const KITCHEN = ["dishwasher", "disposer", "trash-compactor", "microwave", "range-hood", "instant-hot-water"];
const AROUND = [
  ..."central-vacuum well-pump sump-pump pool-pump pool-heater hot-tub sauna whirlpool-tub attic-fan".split(" "),
  ..."garage-door-opener ev-charger ev-charger hot-tub tankless-water-heater".split(" "),
];

export const dwelling = {
  draw(d: Draw, metric: number): DwellingRequest {
    const cooking = d.chance(0.15)
      ? [onGas("range")]
      : d.chance(0.3)
      ? [load(d, "cooktop"), load(d, "wall-oven", d.chance(0.3) ? 2 : 1)]
      : [load(d, "range")];
    const heat = d.pick([
      () => [load(d, "air-conditioner", d.chance(0.2) ? 2 : 1), onGas("furnace")],
      () => [load(d, "air-conditioner")],
      () => [load(d, "heat-pump"), load(d, "supplemental-heat")],
      () => [load(d, "heat-pump")],
      () => [load(d, "space-heater", d.int(3, 8))],
      () => [load(d, "furnace"), load(d, "air-conditioner")],
      () => [],
    ])();
    const around = d.shuffle([...new Set(AROUND)]).slice(0, d.int(0, 2)).map((kind) =>
      load(d, kind, kind === "ev-charger" && d.chance(0.2) ? 2 : 1)
    );
    const isHeatPump = heat.some(({ kind }) => kind === "supplemental-heat");
    const isSquareMetres = d.chance(metric);
    const garage = d.chance(0.15);
    return {
      ...(d.chance(0.12) && { method: d.pick(["standard", "optional"] as const) }),
      ...(d.chance(0.06) && { system: "120/208" as const }),
      areas: [
        isSquareMetres
          ? { area: { value: d.stepped(90, 420, 5), unit: "m2" }, space: "living" }
          : { area: { value: d.stepped(900, 4800, 50), unit: "ft2" }, space: "living" },
        ...(garage && !isSquareMetres
          ? [{
            area: { value: d.stepped(300, 700, 50), unit: "ft2" as const },
            space: d.pick(["attached garage", "detached garage", "open porch", "unfinished"] as const),
          }]
          : []),
      ],
      ...(d.chance(0.1) && { smallApplianceCircuits: d.int(2, 4) }),
      ...(d.chance(0.1) && { laundryCircuits: d.int(1, 2) }),
      loads: [
        ...cooking,
        ...(d.chance(0.8) ? [d.chance(0.15) ? onGas("dryer") : load(d, "dryer")] : []),
        ...(d.chance(0.8) ? [d.chance(0.2) ? onGas("water-heater") : load(d, "water-heater")] : []),
        ...d.shuffle(KITCHEN).slice(0, d.int(0, 3)).map((kind) => load(d, kind)),
        ...heat,
        ...around,
      ],
      ...(isHeatPump && d.chance(0.4) && { compressorLockedOut: true }),
      ...(d.chance(0.25) && { service: { value: d.pick([100, 125, 150, 200, 200, 225, 320, 400]), unit: "A" } }),
      ...(d.chance(0.2) && { material: d.pick(["copper", "aluminum"] as const) }),
      ...(d.chance(0.06) && { electrode: d.pick(["water pipe", "concrete-encased"] as const) }),
    };
  },

  say(r: DwellingRequest, pen: Pen): Said {
    const [living, ...others] = r.areas ?? [];
    const area = pen.amount(living!.area, true);
    const home = pen.one("house", "home", "single family house", "one-family dwelling", "residence");
    const service = r.service && pen.amount(r.service, true);
    const enough = service && pen.one(
      `is a ${service} service enough`,
      `will a ${service} service carry it`,
      `is ${service} service big enough`,
      `can I get by with a ${service} service`,
    );
    return {
      head: fact(
        pen.terse && pen.d.chance(0.5) ? pen.amount(living!.area) : pen.a(`${area} ${home}`),
        ["Floor area", pen.amount(living!.area)],
      ),
      rest: [
        ...others.map(({ area, space }) => spaceOf(pen, area, space)),
        ...loadsOf(pen, r.loads ?? []),
        r.smallApplianceCircuits === undefined
          ? undefined
          : fact(`${pen.number(r.smallApplianceCircuits)} small appliance circuits`),
        r.laundryCircuits === undefined
          ? undefined
          : fact(`${pen.number(r.laundryCircuits)} laundry circuit${r.laundryCircuits === 1 ? "" : "s"}`),
        r.compressorLockedOut
          ? fact(
            pen.one(
              "compressor locked out when the backup heat runs",
              "heat pump compressor locked out while the backup heat is on",
            ),
          )
          : undefined,
        r.method && fact(pen.one(`${r.method} method`, `by the ${r.method} method`, `use the ${r.method} method`)),
        r.system && fact(pen.one("120/208 V service", "120/208 V single phase", "fed with 120/208 V")),
        r.material &&
        fact(pen.one(`${pen.material(r.material)} service conductors`, `${pen.material(r.material)} conductors`)),
        r.electrode &&
        fact(
          r.electrode === "water pipe" ? "water pipe electrode" : pen.one("concrete-encased electrode", "Ufer ground"),
        ),
      ],
      asks: enough ? (head) => `${enough} for ${head}` : (head) =>
        `${
          pen.one(
            "what size service for",
            "what service do I need for",
            "what service does it take for",
            "service size for",
          )
        } ${head}`,
      asksAfter: enough ? `${enough}?` : pen.one(
        "what size service?",
        "what service do I need?",
        "how big a service?",
        "what service does that take?",
        "service size?",
      ),
      bare: enough === undefined,
    };
  },
};

function spaceOf(pen: Pen, area: Amount, space: string): Fact {
  const name = space === "unfinished" ? "unfinished basement" : space;
  const words = pen.one(`plus ${pen.a(`${pen.amount(area, true)} ${name}`)}`, `${pen.amount(area)} ${name}`);
  return fact(words, [name, pen.amount(area)]);
}

function loadsOf(pen: Pen, loads: readonly DwellingLoad[]): Fact[] {
  const inKilowatts = loads.filter(({ rating, count }) => rating?.unit === "kW" && count === 1);
  const carries = inKilowatts.length > 2 && pen.uses("carriedUnit");
  const carried = carries
    ? [
      fact(
        `${inKilowatts.map(({ kind, rating }) => `${nameOf(pen, kind)} ${rating!.value}`).join(", ")} (${
          pen.one("all in kW", "all kW")
        })`,
      ),
    ]
    : [];
  const rest = loads.filter((each) => !carries || !inKilowatts.includes(each));
  return [
    ...carried,
    ...rest.map(({ kind, count, rating, fuel }) =>
      fuel === "gas"
        ? fact(`gas ${kind === "water-heater" ? "water heater" : kind}`)
        : equipment(pen, kind, count, rating)
    ),
  ];
}

export const cooking = {
  draw(d: Draw, _metric: number): CookingRequest {
    const use = d.pick([undefined, undefined, "feeder", "branch circuit"] as const);
    if (use === "branch circuit") {
      const isRange = d.chance(0.4);
      return {
        use,
        appliances: isRange ? [{ kind: "range", count: 1, rating: rated(d, "range") }] : [
          { kind: "cooktop", count: 1, rating: rated(d, "cooktop") },
          ...(d.chance(0.8) ? [{ kind: "wall-oven" as const, count: d.int(1, 2), rating: rated(d, "wall-oven") }] : []),
        ],
        ...(d.chance(0.15) && { volts: { value: d.pick([208, 240]), unit: "V" } }),
      };
    }
    const kinds = d.pick(
      [
        ["range"],
        ["range"],
        ["range", "range"],
        ["range", "range", "range"],
        ["cooktop", "wall-oven"],
        [
          "range",
          "wall-oven",
        ],
        ["wall-oven"],
        ["cooktop"],
      ] as const,
    );
    const most = kinds.length === 1 ? 60 : 8;
    return {
      ...(use && { use }),
      appliances: kinds.map((kind) => ({
        kind,
        count: d.chance(0.4) ? 1 : d.int(2, most),
        // A range whose nameplate is not told is counted by the table's own column.
        ...(kind !== "range" || kinds.length > 1 || d.chance(0.85) ? { rating: rated(d, kind) } : {}),
      })),
      ...(d.chance(0.15) && { supply: d.pick(["single-phase", "three-phase"] as const) }),
      ...(d.chance(0.08) && { method: d.pick(["column C", "note 3"] as const) }),
    };
  },

  say({ appliances = [], supply, use, method, volts }: CookingRequest, pen: Pen): Said {
    const head = fact(listed(pen, appliances.map(({ kind, count, rating }) => ({ kind, count, rating }))));
    const goal = use === "branch circuit"
      ? pen.one("branch circuit load", "branch-circuit demand", "load on the branch circuit")
      : use === "feeder"
      ? pen.one("demand on the feeder", "feeder demand load", "demand load on the service", "service demand")
      : pen.one("demand", "demand load", "cooking demand", "demand load by the table");
    return {
      head,
      rest: [
        supply && fact(supplyWords(pen, supply)),
        method &&
        fact(method === "column C" ? pen.one("by column C", "use column C") : pen.one("by note 3", "use note 3")),
        volts && fact(pen.amount(volts)),
      ],
      asks: (words) =>
        `${pen.one("", "what is the ", "figure the ", "what's the ")}${goal} ${pen.one("for", "of")} ${words}`,
      asksAfter: `${pen.one("what is the ", "what's the ", "")}${goal}?`,
    };
  },
};
const rated = (d: Draw, kind: string) => RATINGS[kind]!(d) as { value: number; unit: "kW" };

const supplyWords = (pen: Pen, supply: "single-phase" | "three-phase"): string =>
  pen.one(
    `on a ${pen.phases(supply === "three-phase" ? 3 : 1)} service`,
    `${pen.phases(supply === "three-phase" ? 3 : 1)} service`,
  );

type Piece = { kind: string; count: number; rating?: Amount | undefined };

/** Pieces as one list; ratings of single ones of a kind may share their unit: "8, 10 and 12 kW ranges". */
function listed(pen: Pen, pieces: readonly Piece[]): string {
  const [first] = pieces;
  const isAlike = pieces.length > 1 &&
    pieces.every(({ kind, count, rating }) => kind === first!.kind && count === 1 && rating?.unit === "kW");
  if (isAlike && pen.uses("carriedUnit")) {
    const values = pieces.map(({ rating }) => String(rating!.value));
    const all = `${values.slice(0, -1).join(", ")} and ${pen.amount({ value: values.at(-1)!, unit: "kW" })}`;
    const names = nameOf(pen, first!.kind);
    return pen.d.chance(0.5) ? `${values.length} ${names}s, ${all}` : `${all} ${names}s`;
  }
  const all = pieces.map(({ kind, count, rating }) => equipment(pen, kind, count, rating).words);
  return all.length === 1
    ? all[0]!
    : `${all.slice(0, -1).join(", ")} ${pen.short("and", "and", "&", "+")} ${all.at(-1)}`;
}

export const dryers = {
  draw(d: Draw, _metric: number): DryerRequest {
    const entries = d.chance(0.8) ? 1 : 2;
    return {
      dryers: Array.from({ length: entries }, () => ({
        count: entries === 1 ? d.int(1, 45) : d.int(2, 12),
        ...(d.chance(0.9) || entries > 1 ? { rating: RATINGS.dryer!(d) as { value: number; unit: "kW" } } : {}),
      })),
      ...(d.chance(0.25) && { supply: d.pick(["single-phase", "three-phase"] as const) }),
    };
  },

  say({ dryers = [], supply }: DryerRequest, pen: Pen): Said {
    const goal = pen.one("demand", "demand load", "dryer demand", "feeder demand", "service demand load");
    return {
      head: fact(listed(pen, dryers.map((each) => ({ kind: "dryer", ...each })))),
      rest: [supply && fact(supplyWords(pen, supply))],
      asks: (words) =>
        `${pen.one("", "what is the ", "figure the ", "what's the ")}${goal} ${pen.one("for", "of")} ${words}`,
      asksAfter: `${pen.one("what is the ", "what's the ", "")}${goal}?`,
    };
  },
};
