/** Grounding and bonding conductors: to the electrode, across the supply, and with the circuits. */
import { need } from "../../../core/outcome.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { areaOf, type Material } from "../../../rules/conductors.ts";
import { question } from "../../question.ts";
import { ledBy } from "../../parts/verdict.ts";
import { equipmentGroundOf } from "./equipment.ts";
import { type GroundingConductor, type GroundingRequest, input } from "./request.ts";
import { electrodeConductorOf, isJumper, jumperOf, supplyOf } from "./supply.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

const FIGURES: Record<GroundingConductor, string> = {
  "grounding electrode conductor": "grounding-electrode-conductor",
  "main bonding jumper": "main-bonding-jumper",
  "system bonding jumper": "system-bonding-jumper",
  "supply-side bonding jumper": "supply-side-bonding-jumper",
  "equipment ground": "equipment-grounding-conductor",
};

export default question({
  id: "grounding",
  title: "Grounding and bonding",
  about: "Electrode conductor, bonding jumpers and equipment ground, with parallel sets and conductors made larger.",
  input,
  figures: Object.fromEntries(Object.entries(FIGURES).map(([name, id]) => [id, name])),
  examples: [
    "copper grounding electrode conductor for 4/0 aluminum service conductors, water pipe",
    "main bonding jumper for 4 sets of 500 kcmil copper",
    "equipment ground for a 300 A breaker, conductors raised from 250 to 350 kcmil copper for voltage drop",
    "ground wire size on a 60 A breaker",
  ],
  manner: { traits: ["no volts"], words: ["conductor:grounding-electrode-conductor"] },
  takes,
  write,
  answer(r, w) {
    if (r.earthReturn) return earthIsNoPath(w);
    const of = r.groundMaterial ?? w.word(w.assume<"word">("grounding-conductor-material")) as Material;
    const wanted = wantedOf(r);
    const found = wanted.map((each) => ({ name: each, ...conductor(w, r, of, each) }));
    for (const { name, size, words } of found) w.figure(FIGURES[name], size, words);
    const verdict = checkPlan(w, r, found.map(({ size }) => size));
    suggest(w, r, of, wanted);
    return ledBy(verdict, `${found.map(({ size, words }) => w.say`${words}: ${size}`).join("; ")}.`);
  },
});

/** What was asked for, or what follows from what was told. */
function wantedOf(r: GroundingRequest): GroundingConductor[] {
  if (r.find?.length) return r.find;
  if (r.devices || r.needed) return ["equipment ground"];
  if (r.electrode) return ["grounding electrode conductor"];
  if (r.service || r.size) return ["grounding electrode conductor", "main bonding jumper"];
  throw need(
    "find",
    "Which conductor: to the grounding electrode, a bonding jumper, or the equipment ground of a circuit? And what is the breaker, or the size of the supply conductors?",
    "ground wire size on a 60 A breaker",
  );
}

function conductor(
  w: Worksheet,
  r: GroundingRequest,
  of: Material,
  each: GroundingConductor,
): { size: Known<"size">; words: string } {
  if (each === "equipment ground") return { size: equipmentGroundOf(w, r, of), words: `${of} equipment ground` };
  if (isJumper(each)) {
    const supply = supplyOf(w, r);
    const inEach = each === "supply-side bonding jumper" && supply.sets && r.jumpers === "one for each raceway";
    return { size: jumperOf(w, r, supply, of, each), words: `${of} ${each}${inEach ? ", in each raceway" : ""}` };
  }
  const { size, electrode, isLargest } = electrodeConductorOf(w, r, of);
  const whatever = isLargest ? ", enough for any service" : "";
  return { size, words: `${of} conductor to the ${NAMES[electrode]}${whatever}` };
}
const NAMES = {
  "water pipe": "water pipe",
  "building steel": "building steel",
  rod: "ground rods",
  "concrete-encased": "concrete-encased electrode",
  "ground ring": "ground ring",
};

/** A ground that was put up is held against the largest that was found. */
function checkPlan(w: Worksheet, { ground }: GroundingRequest, found: readonly Known<"size">[]): Reasoned | undefined {
  const wanted = found[0];
  if (ground === undefined || !wanted) return undefined;
  w.part("Check");
  const plan = w.given("ground put up for checking", ground);
  return w.choose<Reasoned>(
    "large enough",
    [areaOf(w, plan), "≥", areaOf(w, wanted)],
    ["yes", () => ({ is: "ok", because: w.say`${plan} is not smaller than ${wanted}` })],
    ["no", () => ({ is: "not ok", because: w.say`${plan} is smaller than ${wanted}` })],
  );
}

/** Rods and earth never take the place of an equipment ground. */
function earthIsNoPath(w: Worksheet): Told {
  w.part("Fault path");
  const path = w.given(
    "earth as the path of fault current",
    "not allowed",
    "soil lets too little current through to trip a breaker",
    "earth-not-a-fault-path",
  );
  w.caution("Until there is an equipment ground, a fault can leave metal parts live without tripping anything.");
  w.suggest("equipment ground for a 60 A breaker", "does a 25 ohm ground rod trip a 20 A breaker?");
  const because = `earth is no path for fault current (${w.cite("earth-not-a-fault-path").section})`;
  return {
    headline: w
      .say`Not OK: as a fault path, earth or a ground rod is ${path}. A breaker will not trip through soil: run an equipment ground with the circuit.`,
    verdict: { is: "not ok", because },
  };
}

function suggest(w: Worksheet, r: GroundingRequest, of: Material, wanted: readonly GroundingConductor[]): void {
  // A jumper above its table's end asks for the supply in its own metal first: no single tap away.
  if (!r.sets) w.suggest(of === "copper" ? "aluminum ground" : "copper ground");
  if (wanted.includes("grounding electrode conductor") && r.electrode !== "rod") w.suggest("to ground rods only");
  if (wanted.includes("equipment ground") && !r.needed) w.suggest("raised from 3 AWG to 1 AWG for voltage drop");
}
