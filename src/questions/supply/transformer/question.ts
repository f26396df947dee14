/** A transformer: its size from a load, currents, protection, conductors on both sides and grounding. */
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { wiringOf } from "../../../rules/conditions.ts";
import { question } from "../../question.ts";
import { ledBy, refusedByHeat, verdictOf } from "../../parts/verdict.ts";
import {
  type BothLines,
  cautionLines,
  grounding,
  judgeSizes,
  primaryLines,
  secondaryLength,
  secondaryLines,
} from "./conductors.ts";
import { type Devices, devicesOf, isCovered, judgeDevices } from "./devices.ts";
import { input, type TransformerRequest } from "./request.ts";
import { takes } from "./takes.ts";
import { type Windings, windingsOf } from "./windings.ts";
import { write } from "./write.ts";

export default question({
  id: "transformer",
  title: "Transformer",
  about: "Size, currents, protection, conductors and grounding of a transformer.",
  input,
  figures: {
    "primary-current": "rated primary current",
    "secondary-current": "rated secondary current",
    "primary-protection": "largest primary device",
    "secondary-protection": "largest secondary device",
    "transformer-size": "transformer",
    "primary-conductor": "primary conductor",
    "primary-parallel-sets": "primary parallel sets",
    "secondary-conductor": "secondary conductor",
    "secondary-parallel-sets": "secondary parallel sets",
    "equipment-grounding-conductor": "equipment ground with the primary conductors",
    "system-bonding-jumper": "system bonding jumper",
    "grounding-electrode-conductor": "grounding electrode conductor",
  },
  examples: [
    "45 kVA transformer 480 to 208Y/120, what on each side?",
    "25 kVA single phase 480 to 240 V two-wire, primary protection only",
    "full-load current of a 150 kVA single-phase transformer at 240 V",
    "what transformer for 60 kVA of load, 480 to 208Y/120?",
  ],
  manner: { words: ["transformer:transformer"] },
  takes,
  write,
  answer(r, w) {
    const windings = windingsOf(w, r);
    const { primary, secondary } = windings;
    if (primary) w.figure("primary-current", primary.current, "rated primary current");
    if (secondary) w.figure("secondary-current", secondary.current, "rated secondary current");
    if (!isCovered(w, windings)) return currentsOnly(w, windings);
    const devices = devicesOf(w, r, windings);
    const { primaryLimit, secondaryLimit } = devices;
    if (primaryLimit) w.figure("primary-protection", primaryLimit.device, "largest primary device");
    if (secondaryLimit) w.figure("secondary-protection", secondaryLimit.device, "largest secondary device");
    const judged = judgeDevices(w, r, windings, devices);
    const hot = refused(w, r, devices);
    if (hot) return hot;
    const isRefused = judged.some(({ is }) => is === "not ok");
    const lines = isRefused ? {} : linesOf(w, r, windings, devices);
    if (lines.secondary) judged.push(...secondaryLength(w, r, windings, devices, lines.secondary));
    judged.push(...judgeSizes(w, r, devices, lines));
    if (r.system && lines.secondary) grounding(w, r, lines.secondary);
    cautionLines(w, r, lines);
    if (secondaryLimit) {
      w.caution(
        w.say`Several secondary devices may stand for one where they are grouped, at most ${
          w.constant<"1">("transformer-secondary-devices-most")
        }, and add up to no more than it.`,
        "transformer-protection",
      );
    }
    suggest(w, r, windings);
    return ledBy(verdictOf(judged), sentence(w, r, windings, devices, lines));
  },
});

/** The answer where conductors were put up that have no ampacity left where they lie. */
function refused(w: Worksheet, r: TransformerRequest, { primary, secondary }: Devices): Told | undefined {
  const rating = primary ?? secondary;
  const isPlan = r.primarySize !== undefined || r.secondarySize !== undefined;
  return isPlan && rating !== undefined ? refusedByHeat(w, () => wiringOf(w, r, rating)) : undefined;
}

function linesOf(w: Worksheet, r: TransformerRequest, windings: Windings, devices: Devices): BothLines {
  const primary = primaryLines(w, r, windings, devices);
  const secondary = secondaryLines(w, r, windings, devices);
  return { ...(primary && { primary }), ...(secondary && { secondary }) };
}

const named = (w: Worksheet, r: TransformerRequest, { power, phases, primary, secondary }: Windings): string => {
  const to = r.system ?? (secondary ? w.say`${secondary.volts}` : undefined);
  const volts = [primary && w.say`${primary.volts}`, to].filter((each) => each !== undefined).join(" to ");
  return w.say`${power} ${phases === 3 ? "three-phase" : "single-phase"} ${volts}`;
};

function currents(w: Worksheet, { primary, secondary }: Windings): string {
  return [primary && w.say`${primary.current} primary`, secondary && w.say`${secondary.current} secondary`]
    .filter((each) => each !== undefined).join(", ");
}

function sentence(w: Worksheet, r: TransformerRequest, windings: Windings, devices: Devices, lines: BothLines): string {
  const side = (name: "primary" | "secondary", limit: Known<"A"> | undefined, device: Known<"A"> | undefined) => {
    if (!limit) return undefined;
    const line = lines[name];
    const wire = line && device
      ? w.say`; ${line.sets ? w.say`${line.sets} sets of ` : ""}${line.size} ${line.wiring.material} on ${device}`
      : "";
    return w.say`${name === "primary" ? "Primary" : "Secondary"} device at most ${limit}${wire}`;
  };
  const sides = [
    side("primary", devices.primaryLimit?.device, devices.primary),
    side("secondary", devices.secondaryLimit?.device, devices.secondary),
  ].filter((each) => each !== undefined);
  return `${named(w, r, windings)}: ${[currents(w, windings), ...sides].join(". ")}.`;
}

/** Above the table's voltage only the currents are told. */
function currentsOnly(w: Worksheet, windings: Windings): Told {
  const most = w.constant<"V">("transformer-protection-voltage-most");
  w.caution(
    w.say`Devices of a transformer with a winding above ${most} follow another table, which is not held here.`,
    "transformer-protection",
  );
  return {
    headline: w.say`${windings.power}: ${currents(w, windings)}. Protection above ${most} is not covered here.`,
  };
}

function suggest(w: Worksheet, r: TransformerRequest, { primary, secondary }: Windings): void {
  if (!primary) w.suggest("480 V primary");
  if (!secondary) w.suggest("208Y/120 secondary");
  if (primary && secondary && !r.protection) w.suggest("primary protection only");
  if (r.material !== "aluminum") w.suggest("use aluminum");
  if (secondary && !r.length) w.suggest("secondary conductors 20 ft");
}
