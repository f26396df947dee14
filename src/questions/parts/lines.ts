/**
 * A run of conductors: how a request tells it, and the smallest conductors that carry what they must and keep the drop, in as
 * few sets as can be pulled.
 */
import * as z from "zod";
import { calc } from "../../core/formula.ts";
import { convert, exact } from "../../core/quantity.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import {
  ampacityOf,
  chooseConductor,
  type Chosen,
  type Duty,
  type Material,
  whyNone,
  type Wiring,
} from "../../rules/conductors.ts";
import { fewestSets, isTooLarge } from "../../rules/parallel.ts";
import { sizeForDrop } from "../../rules/size-for-drop.ts";
import { CONDUITS, type Drop } from "../../rules/voltage-drop.ts";
import { asQuantity, quantity } from "./quantities.ts";
import { wiring } from "./wiring.ts";

/** Fields of a request on where conductors lie and how far they go. */
export const run = {
  ...wiring,
  conduit: z.enum(CONDUITS).optional(),
  /** One way. */
  length: quantity(["ft", "m"], { ft: 50_000, m: 15_000 }).optional(),
  powerFactor: z.number().min(0.05, "a power factor lies between 0.05 and 1").max(1, "a power factor is at most 1")
    .optional(),
};
/** Sets of conductors in parallel. */
export const sets = z.int().min(1).max(20).optional();
/** The drop that is allowed. */
export const dropLimit = quantity(["%"], { "%": 50 }).optional();
type Said = z.output<z.ZodObject<typeof run>> & { dropLimit?: z.output<typeof dropLimit> };

/** The told length as a step. */
export const lengthOf = (w: Worksheet, { length }: Said, note?: string): Known<"ft"> =>
  w.given("length, one way", convert(asQuantity(length!), "ft"), note);

/** The told power factor as a step, otherwise the one that is assumed. */
export const powerFactorOf = (w: Worksheet, { powerFactor }: Said, assumed = "power-factor"): Known<"1"> =>
  w.take(
    "power factor",
    powerFactor === undefined ? undefined : { n: exact(powerFactor).toFraction(), unit: "1" },
    assumed,
  );

/** The drop that is allowed: what was told, otherwise what the code's notes advise. */
export const limitOf = (w: Worksheet, { dropLimit }: Said): Known<"%"> =>
  w.take("voltage drop limit", dropLimit && asQuantity(dropLimit), "voltage-drop-limit");

export type Lines = {
  size: Known<"size">;
  /** What ampacity and protection alone ask for. */
  needed: Known<"size">;
  material: Material;
  /** Of all sets together. */
  ampacity: Known<"A">;
  sets?: Known<"1">;
  drop?: Drop;
  /** Current-carrying conductors together, where the search for sets put more of them in one raceway. */
  count?: Known<"1">;
};

/** A size as people say it, with its sets where there are several. */
export const wireOf = (w: Worksheet, { size, sets }: Pick<Lines, "size" | "sets">): string =>
  `${sets ? w.say`${sets} sets of ` : ""}${w.size(size)}`;

/** What the conductors must do, and how. */
type Wanted = {
  part: string;
  /** A number of sets that was told. */
  said: number | undefined;
  wiring: Wiring;
  duty: () => Duty;
  /** Below this size no search for one set begins. */
  least?: (() => Known<"size">) | undefined;
  /** Current-carrying conductors together with so many sets, where that is more than of one. */
  together?: ((sets: Known<"1">) => Known<"1">) | undefined;
  /** A size that a table names outright for one set, which is then taken however large. */
  named?: ((wiring: Wiring) => Known<"size">) | undefined;
  /** The drop of a size, and what it may be; nothing is upsized where there is no limit. */
  drop?: {
    of: (size: Known<"size">, sets: Known<"1"> | undefined) => Drop;
    limit: (() => Known<"%">) | undefined;
    clause: "voltage-drop-branch" | "voltage-drop-feeder";
    part?: string | undefined;
  } | undefined;
};

/** @throws NotCovered where no number of sets will do */
export function linesFor(w: Worksheet, wanted: Wanted): Lines {
  const { part, said, named, drop } = wanted;
  const attempt = (sets: Known<"1"> | undefined): Lines | undefined => {
    w.part(part);
    const count = sets && wanted.together?.(sets);
    const wiring: Wiring = { ...wanted.wiring, ...(count && { count }) };
    const { material } = wiring;
    const needed = named && !sets
      ? stated(w, named(wiring), wiring)
      : byDuty(w, wanted.duty(), wiring, { sets, least: wanted.least });
    if (!needed) return undefined;
    if (drop?.part) w.part(drop.part);
    const found = !drop
      ? { size: needed.size }
      : !drop.limit
      ? { size: needed.size, drop: drop.of(needed.size, sets) }
      : sizeForDrop(w, { wiring, needed: needed.size, limit: drop.limit(), clause: drop.clause }, (size) =>
        drop.of(size, sets));
    if (!found) return undefined;
    const { ampacity } = found.size === needed.size ? needed : ampacityOf(w, found.size, wiring);
    return {
      ...found,
      needed: needed.size,
      material,
      ampacity: sets ? w.work("ampacity of all sets", "A", calc`${ampacity} × ${sets}`) : ampacity,
      ...(sets && { sets }),
      ...(count && { count }),
    };
  };
  const isNamed = ({ size, needed, sets }: Lines) => named !== undefined && !sets && w.size(size) === w.size(needed);
  const canBePulled = (found: Lines) => isNamed(found) || !isTooLarge(w, found.size);
  return fewestSets(w, said, attempt, canBePulled, () => whyNone(w, wanted.wiring));
}

const stated = (w: Worksheet, size: Known<"size">, wiring: Wiring) => ({
  size,
  ampacity: ampacityOf(w, size, wiring).ampacity,
});

/** The smallest that does the duty in so many sets; undefined past the ampacity table's end, where more sets may still do. */
function byDuty(
  w: Worksheet,
  duty: Duty,
  wiring: Wiring,
  { sets, least, name = `${wiring.material} conductor` }: {
    sets?: Known<"1"> | undefined;
    least?: Wanted["least"];
    name?: string;
  },
): Chosen | undefined {
  const from = sets ? w.constant<"size">("parallel-least-size") : least?.();
  const each = { ...duty, ...(sets && { sets }), ...(from && { least: w.size(from) }) };
  return w.ifCovered(() => chooseConductor(w, each, wiring, name));
}
