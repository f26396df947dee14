/** The run as a tree of points, and the fault current at each of them. */
import { calc } from "../../../core/formula.ts";
import { type Need, need } from "../../../core/outcome.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { MATERIALS } from "../../../rules/conductors.ts";
import { type Impedance, inSeries, ofStretch, sizeOf, times } from "../../../rules/faults.ts";
import { type Conduit, conduitOf } from "../../../rules/voltage-drop.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { FaultRequest, Segment } from "./request.ts";
import type { Loop } from "./source.ts";

/** A place where a fault may be: at the source, or at the end of a stretch. */
type Place = { name: string; path: readonly Stretch[] };
type Stretch = { name: string; one: Impedance };
export type Fault = { loop: Loop; current: Known<"A"> };
export type Point = { name: string; faults: readonly Fault[]; most: Known<"A"> };

export function missingOfRun({ run = [] }: FaultRequest): Need[] {
  return run.flatMap((each, i): Need[] => {
    const which = run.length > 1 ? ` of stretch ${i + 1}${each.to ? ` (to the ${each.to})` : ""}` : "";
    return [
      ...(each.length === undefined
        ? [{ field: `run.${i}.length`, ask: `How long is the run${which}, one way?`, example: "60 ft" }]
        : []),
      ...(each.size === undefined
        ? [{ field: `run.${i}.size`, ask: `Which conductors${which}: size and metal?`, example: "4/0 aluminum" }]
        : []),
    ];
  });
}

/** The places of a run in its order, the source first. R and X of each stretch are worked once, whatever the fault. */
export function placesOf(w: Worksheet, r: FaultRequest, temperature: Known<"°C"> | undefined): Place[] {
  const run = r.run ?? [];
  const conduit = conduitOf(w, r.conduit, run.length > 0);
  const places: Place[] = [{ name: r.power ? "transformer" : "source", path: [] }];
  run.forEach((segment, i) => {
    if (segment.from !== undefined && segment.from === segment.to) {
      throw need(
        `run.${i}.from`,
        `Two wires end at a ${segment.to}: where does the second begin? Give each end a name of its own.`,
        "from the main panel 120 ft of #6 copper to the subpanel",
      );
    }
    const from = segment.from === undefined ? places.at(-1)! : places.findLast(({ name }) => name === segment.from);
    if (!from) {
      throw need(
        `run.${i}.from`,
        `No stretch before it ends at the ${segment.from}: where does stretch ${i + 1} begin?`,
        `from the ${run[0]!.to ?? "panel"}`,
      );
    }
    // Two in a row are a chain; from the third on it may be a tree, in which more flows.
    if (i > 1 && segment.from === undefined) {
      w.caution(
        `The wire to the ${segment.to ?? `end of stretch ${i + 1}`} is taken to go on from the ${from.name}; ` +
          "more flows if it begins nearer to the source: say from where.",
      );
    }
    const name = segment.to ?? (run.length > 1 ? `end of stretch ${i + 1}` : "end of the run");
    const one = stretchOf(w, segment, { name: `to the ${name}`, conduit, temperature });
    places.push({ name, path: [...from.path, { name, one }] });
  });
  return places;
}

type Around = { name: string; conduit: Conduit; temperature: Known<"°C"> | undefined };
function stretchOf(w: Worksheet, segment: Segment, { name, conduit, temperature }: Around): Impedance {
  const material = segment.material ?? w.word(w.assume<"word">("conductor-material")) as typeof MATERIALS[number];
  const size = w.given(`conductor ${name}`, segment.size!, material);
  const length = w.given(`length ${name}`, convert(asQuantity(segment.length!), "ft"), "one way");
  const sets = segment.sets && segment.sets > 1
    ? w.given(`sets ${name}`, { n: String(segment.sets), unit: "1" })
    : undefined;
  return ofStretch(w, {
    name,
    size,
    material,
    conduit,
    length,
    ...(sets && { sets }),
    ...(temperature && { temperature }),
  });
}

/** The fault currents at a place, by each loop, motors added; and the most of them. */
export function faultsAt(w: Worksheet, place: Place, loops: readonly Loop[], motors: Known<"A"> | undefined): Point {
  const { name, path } = place;
  const faults = loops.map((loop): Fault => {
    const kind = loops.length > 1 ? `, ${inWords(loop.fault)}` : "";
    const parts = path.map((stretch) =>
      loop.path ? times(w, stretch.one, loop.path, `to the ${stretch.name}, there and back`) : stretch.one
    );
    const all = inSeries(w, [loop.source, ...parts], ` to the ${name}${kind}`);
    const z = sizeOf(w, all, `Z to the ${name}${kind}`)!;
    const through = w.work(`fault current at the ${name}${kind}`, "A", calc`${loop.volts} ÷ ${z}`);
    const current = motors
      ? w.work(`with the motors' share at the ${name}${kind}`, "A", calc`${through} + ${motors}`)
      : through;
    return { loop, current };
  });
  const currents = faults.map(({ current }) => current);
  const most = currents.length > 1 ? w.work(`most at the ${name}`, "A", calc`max(${currents})`) : currents[0]!;
  return { name, faults, most };
}

export const inWords = (fault: string): string => fault === "three-phase" ? fault : fault.replaceAll("-", " ");
