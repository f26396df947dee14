/** Voltage drop in its three turns: the drop of a run, the smallest conductor for a limit, the longest run within it. */
import { type Need, Unclear } from "../../../core/outcome.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { conduitOf } from "../../../rules/voltage-drop.ts";
import type { Material } from "../../../rules/conductors.ts";
import { celsiusOf } from "../../../rules/ambient.ts";
import { question } from "../../question.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import { circuitOf, missingFacts } from "./circuit.ts";
import { limitOf } from "./limit.ts";
import { type DropRequest, input } from "./request.ts";
import { type Setting, stretchesOf, type Wiring } from "./run.ts";
import { answerConductor, answerDrop, answerLongestRun } from "./turns.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

type Turn = NonNullable<DropRequest["find"]>;

export default question({
  id: "voltage-drop",
  title: "Voltage drop",
  about: "The drop along a run, the smallest conductor for a limit, or how far a conductor may go.",
  input,
  figures: {
    "voltage-drop-volts": "voltage drop in volts",
    "voltage-drop": "voltage drop in percent",
    "load-voltage": "voltage at the load",
    conductor: "smallest conductor",
    "conductor-copper": "smallest conductor in copper",
    "conductor-aluminum": "smallest conductor in aluminum",
    "parallel-sets": "conductors in parallel",
    "longest-run": "longest run, one way",
    "voltage-drop-exact": "drop by exact phasors",
    "voltage-drop-rule-of-thumb": "drop by the rule of thumb",
    "voltage-drop-by-table": "drop by the tables, beside the one by the constant K",
    "longest-run-by-table": "longest run by the tables, beside the one by the constant K",
    "voltage-drop-line-to-neutral": "drop line to neutral",
    "starting-voltage-drop-volts": "drop while starting",
    "starting-voltage-drop": "drop while starting in percent",
  },
  examples: [
    "voltage drop of 16 A at 240 V over 180 ft of 10 AWG copper",
    "smallest copper wire for 30 A at 240 V single phase, 350 ft, 3 % drop",
    "how far can 12 AWG copper go at 120 V and 12 A?",
    "9 lights of 100 W at 80 ft intervals starting at 300 ft, 120 V, 8 AWG copper",
  ],
  manner: { traits: ["one load", "one wire"], asked: "goal:drop", words: ["label:drop", "goal:drop"] },
  takes,
  write,
  answer(request, w) {
    const turn = turnOf(request);
    askForTheRest(request, turn);
    const setting = settingOf(request, w);
    return ({ drop: answerDrop, conductor: answerConductor, "longest run": answerLongestRun })[turn](w, setting);
  },
});

/** What is asked for, by what was said and by what is missing. */
function turnOf(r: DropRequest): Turn {
  if (r.find === "longest run" || r.find === "conductor") return r.find;
  const hasSize = r.size !== undefined || (r.segments?.every((each) => each.size !== undefined) ?? false);
  const hasLength = r.length !== undefined || r.segments !== undefined || r.along !== undefined ||
    r.points !== undefined;
  if (hasSize || r.impedance) return hasLength || r.find === "drop" ? "drop" : "longest run";
  return "conductor";
}

function askForTheRest(r: DropRequest, turn: Turn): void {
  const needs: Need[] = missingFacts(r);
  const spread = r.along !== undefined || r.points !== undefined;
  if (turn !== "longest run" && !spread && !r.segments && !r.length) {
    needs.push({ field: "length", ask: "How long is the run, one way?", example: "150 ft" });
  }
  const needsSize = turn === "longest run" && !r.impedance ||
    turn === "drop" && !r.impedance && !r.segments?.every((each) => each.size !== undefined);
  if (needsSize && r.size === undefined) {
    needs.push({
      field: "size",
      ask: "What size is the conductor, and is it copper or aluminum?",
      example: "10 AWG copper",
    });
  }
  if (r.along?.first && r.length && r.count !== undefined && !reachesEnd(r)) {
    needs.push({
      field: "length",
      ask: "The loads along the run do not end where the run does: where are the first and the last?",
      example: "9 lights at 80 ft intervals starting at 300 ft",
    });
  }
  if (r.along && !r.along.first && r.length) {
    needs.push({
      field: "along",
      ask: "How far from the source is the first of them, and how far apart are they?",
      example: "starting at 150 ft, 60 ft apart",
    });
  }
  if (needs.length > 0) throw new Unclear(needs);
}

/** Whether the last of the spaced loads stands at the end of the run, to within one spacing. */
function reachesEnd({ along, length, count }: DropRequest): boolean {
  const feet = (q: { value: number | string; unit: string } | undefined) => q ? plain(q) : 0;
  const last = feet(along!.first) + feet(along!.spacing) * (count! - 1);
  return Math.abs(last - feet(length)) <= feet(along!.spacing);
}

/** The metal told or assumed; none is assumed where every stretch names its own or an impedance stands for the conductor. */
function materialOf(w: Worksheet, r: DropRequest): Material {
  if (r.material) return r.material;
  const isNamed = r.segments?.every(({ material }) => material !== undefined);
  const isStated = r.impedance !== undefined && r.size === undefined;
  if (isNamed || isStated) return r.segments?.[0]?.material ?? "copper";
  return w.word(w.assume<"word">("conductor-material")) as Material;
}

function settingOf(r: DropRequest, w: Worksheet): Setting {
  const circuit = circuitOf(w, r);
  const load = stretchesOf(w, r, circuit);
  w.part("Wiring");
  const stated = r.impedance && w.given("effective impedance, as stated", asQuantity(r.impedance));
  const constant = stated ? undefined : r.constant && w.given("constant K", asQuantity(r.constant));
  const directCurrent = r.table === "direct current";
  const wiring: Wiring = {
    material: materialOf(w, r),
    conduit: conduitOf(w, r.conduit, !stated && !directCurrent && !circuit.directCurrent),
    directCurrent,
    ...(r.temperature && { temperature: celsiusOf(w, "conductor temperature", r.temperature) }),
    ...(r.sets !== undefined && r.sets > 1 && { sets: w.given("parallel sets", { n: String(r.sets), unit: "1" }) }),
  };
  return {
    r,
    circuit,
    load,
    wiring,
    limit: limitOf(w, r, circuit.volts),
    ...(stated && { stated }),
    ...(constant && { constant }),
  };
}
