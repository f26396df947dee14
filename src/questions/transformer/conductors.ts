/** Conductors on both sides, how long the secondary ones may be, and the grounding of the new system. */
import { calc } from "../../core/formula.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { wiringOf } from "../../rules/conditions.ts";
import { ampacityOf, chooseConductor, type Chosen, type Material, type Wiring } from "../../rules/conductors.ts";
import { bondingJumper, electrodeConductor, equipmentGround, type Supply } from "../../rules/grounding.ts";
import { protects } from "../../rules/overcurrent.ts";
import { fewestSets } from "../../rules/parallel.ts";
import { asQuantity } from "../question.ts";
import type { Judgement } from "../verdict.ts";
import type { Devices } from "./devices.ts";
import type { TransformerRequest } from "./request.ts";
import type { Windings } from "./windings.ts";

export type BothLines = { primary?: Lines; secondary?: Lines };
export type Lines = Chosen & { sets?: Known<"1">; wiring: Wiring };

/** Primary conductors: an ordinary circuit, its device and the next-size-up rule included. */
export function primaryLines(
  w: Worksheet,
  r: TransformerRequest,
  windings: Windings,
  { primary }: Devices,
): Lines | undefined {
  if (!primary || !windings.primary) return undefined;
  w.part("Primary conductors");
  const { current } = windings.primary;
  const lines = linesFor(w, r, primary, { design: current, load: current, device: primary }, "primary conductor");
  w.figure("primary-conductor", lines.size, "primary conductor");
  if (lines.sets) w.figure("primary-parallel-sets", lines.sets, "primary parallel sets");
  const ground = equipmentGround(w, primary, "copper", lines.size);
  w.figure("equipment-grounding-conductor", ground, "equipment ground with the primary conductors");
  return lines;
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
  const lines = linesFor(w, r, device, { design: device, load: device, device }, "secondary conductor");
  w.figure("secondary-conductor", lines.size, "secondary conductor");
  if (lines.sets) w.figure("secondary-parallel-sets", lines.sets, "secondary parallel sets");
  return lines;
}

function linesFor(
  w: Worksheet,
  r: TransformerRequest,
  rating: Known<"A">,
  duty: Parameters<typeof chooseConductor>[1],
  name: string,
): Lines {
  const wiring = wiringOf(w, r, rating);
  const found = fewestSets(w, undefined, (sets) => {
    const least = sets && w.word(w.constant<"word">("parallel-least-size"));
    const each = { ...duty, ...(sets && { sets }), ...(least && { least }) };
    // Past the ampacity table's end more sets may still do.
    return w.ifCovered(() => chooseConductor(w, each, wiring, name));
  });
  return { ...found, wiring };
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

/** Judges conductors that were put up, each against the device its side has. */
export function judgeSizes(w: Worksheet, r: TransformerRequest, devices: Devices, lines: BothLines): Judgement[] {
  const put = [["primary", r.primarySize], ["secondary", r.secondarySize]] as const;
  return put.flatMap(([side, word]): Judgement[] => {
    const [device, found] = [devices[side], lines[side]];
    if (word === undefined || !device || !found) return [];
    w.part(`Check of the ${side} conductor`);
    const size = w.given(`${side} conductor put up for checking`, word);
    const { ampacity } = ampacityOf(w, size, found.wiring);
    const what = w.say`${size} ${found.wiring.material} on the ${side}`;
    const because = w.say`${what} carries ${ampacity}, its device is ${device}`;
    const enough = side === "primary" ? protects(w, device, ampacity) : w.holds(device, "≤", ampacity);
    w.choose("ampacity against the device", [ampacity, "≥", device], ["covered", () => {}], [
      enough ? "the device is the next standard size up" : "falls short",
      () => {},
    ], side === "primary" ? "next-size-up" : "transformer-secondary-conductors");
    return [{ what, is: enough ? "ok" : "not ok", because }];
  });
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
  const electrode = r.electrode ?? "water pipe";
  if (r.electrode) w.given("electrode", r.electrode);
  else w.assume("electrode");
  w.figure(
    "system-bonding-jumper",
    bondingJumper(w, supply, "copper", "system bonding jumper", "system-bonding-jumper"),
    "system bonding jumper, copper",
  );
  w.figure(
    "grounding-electrode-conductor",
    electrodeConductor(w, supply, "copper", electrode),
    "grounding electrode conductor, copper",
  );
  w.caution(
    "Bond the new neutral once: at the transformer or at the first disconnect, not at both.",
    "transformer-grounding",
  );
}
