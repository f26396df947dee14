/** Conductors on both sides, how long the secondary ones may be, and the grounding of the new system. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { markedHigher, wiringOf } from "../../../rules/conditions.ts";
import {
  ampacityOf,
  chooseConductor,
  type Chosen,
  type Duty,
  type Material,
  smallLimit,
  whyNone,
  type Wiring,
} from "../../../rules/conductors.ts";
import { cautionWiring, unfit } from "../../../rules/fitness.ts";
import {
  bondingJumper,
  cautionCableGround,
  type Electrode,
  electrodeConductor,
  equipmentGround,
  type Supply,
} from "../../../rules/grounding.ts";
import { protects } from "../../../rules/overcurrent.ts";
import { fewestSets } from "../../../rules/parallel.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Judgement, underCableGround } from "../../parts/verdict.ts";
import type { Devices } from "./devices.ts";
import type { TransformerRequest } from "./request.ts";
import type { Windings } from "./windings.ts";

export type BothLines = { primary?: Lines; secondary?: Lines };
type Lines = Chosen & {
  sets?: Known<"1">;
  wiring: Wiring;
  duty: Duty;
  /** The equipment ground beside the primary. */
  ground?: Known<"size">;
};

/** Primary conductors: an ordinary circuit, its device and the next-size-up rule included. */
export function primaryLines(
  w: Worksheet,
  r: TransformerRequest,
  windings: Windings,
  { primary }: Devices,
): Lines | undefined {
  if (!primary || !windings.primary) return undefined;
  w.part("Primary conductors");
  const { current, design } = windings.primary;
  kindOfLoad(w, r, windings);
  const needed = linesFor(w, r, primary, { design, load: current, device: primary }, "primary conductor");
  const lines = installed(w, r, "primary", primary, needed);
  w.figure("primary-conductor", lines.size, "primary conductor");
  if (lines.sets) w.figure("primary-parallel-sets", lines.sets, "primary parallel sets");
  const upsizing = { installed: lines.size, needed: needed.sets && !lines.sets ? lines.size : needed.size };
  const ground = equipmentGround(w, primary, "copper", lines.sets ? undefined : lines.size, upsizing);
  w.figure("equipment-grounding-conductor", ground, "equipment ground with the primary conductors");
  cautionCableGround(w, r.method, lines.size, lines.wiring.material, ground);
  return { ...lines, ground };
}

/** Says that the load was not taken to run for hours, where it might. */
function kindOfLoad(w: Worksheet, { continuous, load }: TransformerRequest, { power }: Windings): void {
  if (continuous) return;
  const why = "nothing was said of three hours or more";
  const most = load ? `${load.value} ${load.unit}` : w.say`${power}`;
  w.suppose("kind of load", "not continuous", why, `${most} load running continuously`, "continuous-loads-feeder");
}

/** Secondary conductors: their device may not exceed them, the next-size-up rule does not reach here. */
export function secondaryLines(
  w: Worksheet,
  r: TransformerRequest,
  windings: Windings,
  devices: Devices,
): Lines | undefined {
  if (!windings.secondary) return undefined;
  w.part("Secondary conductors");
  const device = devices.secondary ?? fromPrimary(w, r, windings, devices);
  if (!device) return undefined;
  const needed = linesFor(w, r, device, { design: device, load: device, device }, "secondary conductor");
  const lines = installed(w, r, "secondary", device, needed);
  w.figure("secondary-conductor", lines.size, "secondary conductor");
  if (lines.sets) w.figure("secondary-parallel-sets", lines.sets, "secondary parallel sets");
  return lines;
}

function linesFor(
  w: Worksheet,
  r: TransformerRequest,
  rating: Known<"A">,
  duty: Duty,
  name: string,
): Lines {
  const wiring = wiringOf(w, r, rating);
  const found = fewestSets(
    w,
    undefined,
    (sets) => {
      const least = sets && w.size(w.constant<"size">("parallel-least-size"));
      const each = { ...duty, ...(sets && { sets }), ...(least && { least }) };
      // Past the ampacity table's end more sets may still do.
      return w.ifCovered(() => chooseConductor(w, each, wiring, name));
    },
    undefined,
    () => whyNone(w, wiring),
  );
  return { ...found, wiring, duty };
}

/** The primary device as the secondary conductors see it: its current turned by the ratio of the voltages. */
function seenFromSecondary(
  w: Worksheet,
  { primary, secondary }: Windings,
  device: Known<"A">,
  clause: string,
): Known<"A"> {
  return w.work(
    "primary device, as seen from the secondary",
    "A",
    calc`${device} × ${primary!.volts} ÷ ${secondary!.volts}`,
    clause,
  );
}

/**
 * Where only the primary has a device, it protects the secondary conductors too, but only of a two-wire single-phase or
 * a three-wire delta secondary.
 */
function fromPrimary(
  w: Worksheet,
  r: TransformerRequest,
  windings: Windings,
  { primary }: Devices,
): Known<"A"> | undefined {
  const isPlain = !r.system && (windings.phases === 1 ? r.winding === "two-wire" : r.winding === "delta");
  if (isPlain && primary && windings.primary) {
    return seenFromSecondary(w, windings, primary, "transformer-primary-conductors");
  }
  w.caution(
    "The primary device protects the transformer, not the secondary conductors: they need a device of their own, unless the secondary is two-wire single-phase or three-wire delta fed from a delta.",
    "transformer-secondary-conductors",
  );
  return undefined;
}

type Side = "primary" | "secondary";
/** A conductor that was put up: what it carries and whether that will do, perhaps only at better terminations. */
type Put = { chosen: Lines; is: Judgement["is"]; because: string };

/** Holds a conductor that was put up against the device its side has; undefined where none was. */
function putUp(
  w: Worksheet,
  r: TransformerRequest,
  side: Side,
  device: Known<"A">,
  { wiring, duty }: Lines,
): Put | undefined {
  const word = side === "primary" ? r.primarySize : r.secondarySize;
  if (word === undefined) return undefined;
  const size = w.given(`${side} conductor put up for checking`, word);
  const under = (around: Wiring) => {
    const one = ampacityOf(w, size, around);
    const isNext = side === "primary" && protects(w, device, one.ampacity);
    w.choose("ampacity against the device", [one.ampacity, "≥", device], ["covered", () => {}], [
      isNext ? "the device is the next standard size up" : "falls short",
      () => {},
    ], side === "primary" ? "next-size-up" : "transformer-secondary-conductors");
    const limit = smallLimit(w, size, around.material);
    const isLimited = limit !== undefined && w.holds(device, ">", limit);
    const holds = (name: string, most: Known<"A">, current: Known<"A">, clause: string) =>
      w.choose<boolean>(name, [most, "≥", current], ["carried", () => true], ["too much", () => false], clause);
    const byEnds = holds("terminations against the load", one.terminal, duty.design, "terminal-temperature");
    const byWire = holds("conductor here against the load", one.corrected, duty.load, "ampacity");
    const carried = byEnds && byWire;
    const against = unfit(w, r, size);
    const refused = against.find(({ is }) => is === "not ok");
    const does = carried && (isNext || w.holds(one.ampacity, "≥", device)) && !isLimited && !refused;
    const carries = w.say`${size} ${around.material} on the ${side} carries ${one.ampacity}`;
    const short = w.say`${carries}, its device is ${device}`;
    const needs = against.filter(({ is }) => is === "ok if").map(({ because }) => because);
    // On the secondary it is the device that has to be carried.
    const because = refused?.because ??
      (!carried && side === "primary"
        ? w.say`${carries}, and the load takes ${duty.design}`
        : isLimited
        ? w.say`${short}, and this size may have ${limit} at the most`
        : short);
    return { does, because, needs, chosen: { size, ...one, wiring: around, duty } };
  };
  const marked = markedHigher(w, r);
  const better = marked && { ...wiring, terminals: w.constant<"°C">("terminal-temperature-large") };
  const isBetter = better !== undefined && w.scratch(() => !under(wiring).does && under(better).does);
  const { does, because, needs, chosen } = under(isBetter ? better : wiring);
  if (!does) return { chosen, is: "not ok", because };
  const conditions = [...(isBetter ? [marked!.condition] : []), ...needs];
  return conditions.length > 0
    ? { chosen, is: "ok if", because: conditions.join(", and ") }
    : { chosen, is: "ok", because };
}

/** The conductors of a side: those put up where they do, otherwise those that are needed. */
function installed(w: Worksheet, r: TransformerRequest, side: Side, device: Known<"A">, needed: Lines): Lines {
  return w.first([side], () => {
    const put = putUp(w, r, side, device, needed);
    return put && put.is !== "not ok" ? put.chosen : undefined;
  }) ?? needed;
}

/** Judges conductors that were put up, each against the device its side has. */
export function judgeSizes(w: Worksheet, r: TransformerRequest, devices: Devices, lines: BothLines): Judgement[] {
  return (["primary", "secondary"] as const).flatMap((side): Judgement[] => {
    const [device, found] = [devices[side], lines[side]];
    if (!device || !found) return [];
    w.part(`Check of the ${side} conductor`);
    const put = putUp(w, r, side, device, { ...found, wiring: wiringOf(w, r, device) });
    if (!put) return [];
    const { size, wiring } = put.chosen;
    const judged = { what: w.say`${size} on the ${side}`, is: put.is, because: put.because };
    return [judged, ...(found.ground ? underCableGround(w, r.method, size, wiring.material, found.ground) : [])];
  });
}

/** What goes with the method and metal of the conductors, once for both sides. */
export function cautionLines(w: Worksheet, r: TransformerRequest, { primary, secondary }: BothLines): void {
  const lines = secondary ?? primary;
  if (!lines) return;
  cautionWiring(w, r, lines.size, lines.wiring.material, r.primarySize !== undefined || r.secondarySize !== undefined);
}

/** How far the secondary conductors may go before they meet their device, and whether they may go as far as was said. */
export function secondaryLength(
  w: Worksheet,
  r: TransformerRequest,
  windings: Windings,
  devices: Devices,
  lines: Lines,
): Judgement[] {
  if (!devices.secondary) return [];
  const rule = "transformer-secondary-conductors";
  if (!r.length) {
    const [short, long] = [w.constant<"ft">("secondary-short-length"), w.constant<"ft">("secondary-long-length")];
    w.caution(
      w.say`Secondary conductors go at most ${short} to their device, or ${long} where a single device ends them and they are protected from damage; outdoors they may go further.`,
      rule,
    );
    return [];
  }
  w.part("Length of the secondary conductors");
  const length = w.given("length to the secondary device", asQuantity(r.length));
  const [short, long] = [w.constant<"ft">("secondary-short-length"), w.constant<"ft">("secondary-long-length")];
  const what = w.say`${length} of secondary conductors`;
  const [shortRule, longRule, none] = ["short rule", "long rule", "too long"] as const;
  const which = w.choose<string>("length", [length, "≤", short], [shortRule, () => shortRule], [
    "longer than the short rule",
    () => w.choose<string>("length", [length, "≤", long], [longRule, () => longRule], [none, () => none], rule),
  ], rule);
  if (which === none) {
    return [{
      what,
      is: "ok if",
      because: w.say`the ${length} run outdoors, or the secondary device moves to within ${long} of the transformer`,
    }];
  }
  if (!windings.primary || !devices.primary) return [];
  const seen = seenFromSecondary(w, windings, devices.primary, rule);
  const share = which === shortRule
    ? w.constant<"%">("secondary-short-share")
    : w.constant<"1">("secondary-long-share");
  const least = w.work("least ampacity by the length", "A", calc`${seen} × ${share}`, rule);
  const all = lines.sets
    ? w.work("ampacity of all sets", "A", calc`${lines.ampacity} × ${lines.sets}`)
    : lines.ampacity;
  return w.choose<Judgement[]>(
    "ampacity against the length rule",
    [all, "≥", least],
    ["enough", () => []],
    [
      "falls short",
      () => [{
        what,
        is: "not ok",
        because: w
          .say`over ${length} the secondary conductors need ${least}: take larger ones or a smaller primary device`,
      }],
    ],
    rule,
  );
}

/** Grounding of the new system, where its neutral is grounded. */
export function grounding(w: Worksheet, r: TransformerRequest, lines: Lines): void {
  w.part("Grounding of the new system");
  const supply: Supply = {
    size: lines.size,
    material: lines.wiring.material as Material,
    ...(lines.sets && { sets: lines.sets }),
  };
  const electrode = r.electrode ? w.given("electrode", r.electrode) : w.assume<"word">("electrode");
  w.figure(
    "system-bonding-jumper",
    bondingJumper(w, supply, "copper", "system bonding jumper", "system-bonding-jumper"),
    "system bonding jumper, copper",
  );
  w.figure(
    "grounding-electrode-conductor",
    electrodeConductor(w, supply, "copper", w.word(electrode) as Electrode),
    "grounding electrode conductor, copper",
  );
  w.caution(
    "Bond the new neutral once: at the transformer or at the first disconnect, not at both.",
    "transformer-grounding",
  );
}
