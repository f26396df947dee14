/** One dwelling by both methods: its load, line current and neutral, and which method decides. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import type { Load, System } from "../loads.ts";
import type { Lighting } from "./area.ts";
import { type InSeason, legsOf, lineCurrent, networkCurrent } from "./legs.ts";
import { type Neutral, neutralLoad } from "./neutral.ts";
import { type Counted, type Optional, optionalMethod } from "./optional.ts";
import { countedAs, type Season, type Standard, standardMethod } from "./standard.ts";
import { lockOut, runTogether } from "./system.ts";

export type Method = "standard" | "optional";
export type Loads = Readonly<Record<Method, Known<"VA">>>;
/** Works the line current by a method out. */
export type CurrentBy = Readonly<Record<Method, () => Known<"A">>>;

type Dwelling = {
  lighting: Lighting;
  loads: readonly Load[];
  system: System;
  /** Two lines and the neutral of a 208Y/120 V network. */
  network: boolean;
  compressorLockedOut: boolean | undefined;
};
type WorkedDwelling = {
  standard: Standard;
  optional: Optional;
  method: Method;
  load: Known<"VA">;
  neutral: Neutral;
  current: Known<"A">;
};

/** @param decide names the method that decides, by loads or by what the lines then carry */
export function workDwelling(
  w: Worksheet,
  { lighting, loads, system, network, compressorLockedOut }: Dwelling,
  decide: (loads: Loads, currentBy: CurrentBy) => Method,
): WorkedDwelling {
  const lockedOut = lockOut(w, compressorLockedOut, loads);
  const standard = standardMethod(w, lighting, loads, lockedOut);
  const optional = optionalMethod(w, lighting, loads, {
    lockedOut,
    together: runTogether(w, compressorLockedOut, loads),
  });
  const legs = legsOf(w, standard.lighting, loads, (load) => countedAs(standard, load));
  const addition = standard.lines.motor?.demand;
  const currentBy: CurrentBy = {
    standard: once(() =>
      network
        ? networkCurrent(w, standard.total, standard, legs, system)
        : lineCurrent(w, inSeasons(w, standard, standard.seasons), legs, loads, addition, system)
    ),
    optional: once(() =>
      network
        ? networkCurrent(w, optional.total, undefined, legs, system)
        : lineCurrent(w, inSeasons(w, optional, standard.seasons), legs, loads, null, system)
    ),
  };
  const both: Loads = { standard: standard.total, optional: optional.total };
  const method = decide(both, currentBy);
  const neutral = neutralLoad(w, standard, legs, system, network);
  return { standard, optional, method, load: both[method], neutral, current: currentBy[method]() };
}

/** Heating and cooling seasons of a method, the one that decides first: its load is the method's. */
function inSeasons(
  w: Worksheet,
  { total, seasons: counted }: Pick<Optional, "total" | "seasons">,
  seasons: readonly Season[],
): InSeason[] {
  const of = ({ name }: Counted): Season | undefined => seasons.find((each) => each.name === name);
  w.part("Line current");
  const [one, other] = counted;
  if (!one || !other) return [{ season: one && of(one), load: total }];
  const isFirst = w.holds(one.demand, ">", other.demand);
  const [more, less] = isFirst ? [one, other] : [other, one];
  return [
    { season: of(more), load: total },
    {
      season: of(less),
      load: w.work(`load in the ${less.name} season`, "VA", calc`${total} − ${more.demand} + ${less.demand}`),
    },
  ];
}

/** Works a thing out the first time it is asked for, and keeps it. */
function once<T>(work: () => T): () => T {
  let kept: { value: T } | undefined;
  return () => (kept ??= { value: work() }).value;
}
