/** The standard method for an occupancy that is no dwelling, line by line. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { EquipmentGroup } from "../../../loads/equipment.ts";
import { kitchenLine, kitchenOf } from "./kitchen.ts";
import { lightingLines } from "./lighting.ts";
import { between, continuousLine, type Line, plainLine, total } from "./lines.ts";
import type { Voltages } from "../../../rules/systems.ts";
import type { Item } from "./loads.ts";
import { receptacleLine } from "./receptacles.ts";
import type { OccupancyRequest } from "./request.ts";

export type Standard = {
  lines: Line[];
  /** Continuous loads as they are. */
  total: Known<"VA">;
  /** With the addition for them: what the supply is sized for. */
  design: Known<"VA">;
  /** Everything connected, for optional methods: what does not depend on the season, then heating and cooling. */
  connected: { always: Known<"VA">[]; heating: Known<"VA"> | undefined; cooling: Known<"VA"> | undefined };
  hasReceptacles: boolean;
  /** The season that was left out, where it stands on other wires than the one that counts and so may load a line more. */
  leftOut?: Season | undefined;
};
export type Season = "heating" | "cooling";

const of = (items: readonly Item[], ...groups: EquipmentGroup[]) => items.filter(({ group }) => groups.includes(group));
const all = (items: readonly Item[]) => items.map((item) => item.all);

/** @param season the one to count, otherwise the larger */
export function standardMethod(
  w: Worksheet,
  r: OccupancyRequest,
  told: readonly Item[],
  system: Voltages | undefined,
  season?: Season,
): Standard | undefined {
  const items = r.part === undefined ? told : [];
  const lighting = r.part === "receptacles" ? { lines: [], connected: [] } : lightingLines(w, r);
  const receptacles = r.part === "lighting" ? undefined : receptacleLine(w, r, isLightingVoltage(w, system));
  const kitchen = kitchenOf(items);
  const kitchenPart = kitchenLine(w, kitchen);
  w.part("Equipment");
  const seasonal = of(items, "heating", "heat pump", "supplemental heat", "cooling");
  const climate = climateOf(w, items, season);
  const rest = items.filter((item) => !kitchen.includes(item) && !seasonal.includes(item));
  const motors = items.filter((item) => item.motor && !climate.dropped.includes(item));
  const lines = [
    ...lighting.lines,
    ...(receptacles ? [receptacles.line] : []),
    ...(kitchenPart ? [kitchenPart] : []),
    ...climate.lines,
    ...named(w, rest),
    ...addition(w, motors),
  ];
  if (lines.length === 0) return undefined;
  w.part("Standard method");
  return {
    lines,
    total: total(w, "standard method load", lines, "demand")!,
    design: total(w, "load with continuous loads raised", lines, "design")!,
    connected: {
      always: [
        ...lighting.connected,
        ...(receptacles ? [receptacles.connected] : []),
        ...all(items.filter((item) => !seasonal.includes(item))),
      ],
      heating: climate.heating,
      cooling: climate.cooling,
    },
    hasReceptacles: receptacles !== undefined,
    leftOut: climate.leftOut,
  };
}

/** Everything else: each sort of load a line, what runs for hours raised. */
function named(w: Worksheet, items: readonly Item[]): Line[] {
  const sorts: [string, Item[]][] = [
    ["motors", of(items, "motor")],
    ["EV charging", of(items, "ev")],
    ["signs", of(items, "sign")],
    ["welders", of(items, "welder")],
    ["other loads", of(items, "other", "water heating")],
  ];
  return sorts.flatMap(([name, some]) => {
    const steady = some.filter((item) => item.continuous);
    const others = some.filter((item) => !item.continuous);
    return [
      plainLine(w, name, others),
      continuousLine(w, others.length > 0 ? `${name} that run for hours` : name, steady),
    ]
      .filter((line) => line !== undefined);
  });
}

type Climate = {
  lines: Line[];
  /** Motors left out with their season, where the edition ignores them. */
  dropped: Item[];
  heating: Known<"VA"> | undefined;
  cooling: Known<"VA"> | undefined;
  leftOut?: Season | undefined;
};

/** Heating or cooling, whichever is larger: they do not run together. A heat pump is part of both, with its strips in winter. */
function climateOf(w: Worksheet, items: readonly Item[], season: Season | undefined): Climate {
  const heats = of(items, "heating", "heat pump", "supplemental heat");
  const cools = of(items, "cooling", "heat pump");
  const heating = plainLine(w, "heating", heats);
  const cooling = plainLine(w, "cooling", cools);
  const sums = { heating: heating?.demand, cooling: cooling?.demand };
  if (!heating || !cooling) {
    const only = heating ?? cooling;
    return { lines: only ? [only] : [], dropped: [], ...sums };
  }
  // Alike, the cooling is kept: its motor then runs, and the addition for the largest motor stays.
  const isHeating = season ? season === "heating" : w.choose(
    "heating or cooling, the larger",
    [heating.demand, ">", cooling.demand],
    ["heating; the cooling does not run with it", () => true],
    ["cooling; the heating does not run with it", () => false],
    "noncoincident",
  );
  const [more, less] = isHeating ? [heating, cooling] : [cooling, heating];
  const omitted = (isHeating ? cools : heats).filter((item) => !(isHeating ? heats : cools).includes(item));
  const dropped = w.edition.rule("omitted-motor") === "ignored" ? omitted : [];
  // The neutral carries the season that loads it more.
  const neutrals = [more.neutral, less.neutral].filter((each) => each !== undefined);
  const neutral = neutrals.length === 2
    ? w.work("heating or cooling on the neutral", "VA", calc`max(${neutrals})`, "neutral")
    : neutrals[0];
  const areAlike = new Set([...heats, ...cools].map(({ wires }) => wires)).size === 1;
  const leftOut = areAlike ? undefined : isHeating ? "cooling" : "heating";
  return { lines: [{ ...more, neutral }], dropped, ...sums, leftOut };
}

/** The addition for the largest motor, on the lines it stands between. */
function addition(w: Worksheet, motors: readonly Item[]): Line[] {
  if (motors.length === 0) return [];
  const share = w.constant<"%">("largest-motor-addition");
  const of = (some: readonly Item[], where: string) => {
    if (some.length === 0) return undefined;
    const largest = w.work(`largest motor${where}`, "VA", calc`max(${some.map(({ each }) => each)})`, "motors");
    return w.work(`addition for the largest motor${where}`, "VA", calc`${largest} × ${share}`, "motors");
  };
  const demand = of(motors, "")!;
  const neutral = of(between(motors, "line to neutral"), ", line to neutral");
  // Of tied motors one on two lines counts: it loads them more.
  const most = motors.filter(({ each }) => motors.every((other) => w.holds(each, "≥", other.each)));
  const motor = most.find(({ wires }) => wires === "line to line") ?? most.find(({ wires }) => wires !== "three-phase");
  return [{
    name: "largest motor",
    demand,
    design: demand,
    ...(neutral && { neutral, neutralDesign: neutral }),
    ...(motor ? { motor } : { three: demand, threeDesign: demand }),
  }];
}

/** Whether what is plugged in stands between the lines and the neutral: above the lighting voltage a transformer feeds it. */
function isLightingVoltage(w: Worksheet, system: Voltages | undefined): boolean {
  if (!system?.lineToNeutral) return false;
  return w.scratch(() => w.holds(system.lineToNeutral!, "≤", w.constant<"V">("branch-circuit-voltage")));
}
