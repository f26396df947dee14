/** One circuit for one load: breaker, conductor, equipment ground, cable and drop in one answer. */
import { NotCovered } from "../../../core/outcome.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { ampacityOf } from "../../../rules/conductors.ts";
import { equipmentGround, isLarger } from "../../../rules/grounding.ts";
import { ledBy } from "../../parts/verdict.ts";
import { FAULT_FIGURES, tellAvailable } from "../../parts/available-fault.ts";
import { inRaceway, RACEWAY_FIGURES } from "../../parts/raceway.ts";
import { question } from "../../question.ts";
import { breakerOf, breakerOfConductor } from "./breaker.ts";
import { cableOf, checkWires, wiresOf } from "./cable.ts";
import { caution, checkCableGround, checkMethod } from "./cautions.ts";
import { decide, type Findings } from "./check.ts";
import { type Circuit, conductorOf, type Wire } from "./conductor.ts";
import { type Dropped, dropped } from "./drop.ts";
import { loadOf } from "./load.ts";
import { mostReceptacles } from "./outlets.ts";
import { type CircuitRequest, input } from "./request.ts";
import { isLineToNeutral } from "../../../rules/power.ts";
import { type Supply, supplyOf } from "./supply.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "branch-circuit",
  title: "Branch circuit",
  about: "Breaker, wire, ground and voltage drop of one circuit, or a check of the ones you have in mind.",
  input,
  figures: {
    "demand-load": "load by the cooking table",
    "load-current": "load current",
    "design-current": "design current",
    "breaker-rating": "breaker",
    conductor: "conductor",
    "equipment-grounding-conductor": "equipment grounding conductor",
    "voltage-drop": "voltage drop",
    "voltage-drop-volts": "voltage drop in volts",
    ampacity: "ampacity of the conductor here",
    "most-receptacles": "receptacles at most",
    cable: "cable",
    ...RACEWAY_FIGURES,
    ...FAULT_FIGURES,
  },
  examples: [
    "breaker and wire for a 48 A EV charger, copper THHN in EMT, 75 °C terminals",
    "4.5 kW water heater on 10/2 NM with a 30 A breaker, ok?",
    "wire for a 12 kW range",
    "20 A continuous load at 277 V, 180 ft",
  ],
  manner: {
    traits: ["one load", "one circuit", "outlets", "gauges"],
    asked: "circuit:circuit",
    words: ["circuit:circuit"],
  },
  takes,
  write,
  answer(said, w) {
    const r = breakerOfConductor(w, said);
    const findings: Findings = { problems: [], conditions: [] };
    w.part("Load");
    const supply = supplyOf(w, r);
    const load = loadOf(w, r, supply);
    w.figure("load-current", load.current, "load current");
    w.figure("design-current", load.design, "design current");
    w.part("Breaker");
    const device = breakerOf(w, r, load, findings);
    w.figure("breaker-rating", device, "breaker");
    const most = supply.volts && mostReceptacles(w, r, device, supply.volts);
    w.part("Conductor");
    const circuit: Circuit = { supply, load, device };
    // What is counted is no plan put up for checking.
    const answer = most
      ? {
        headline: w.say`At most ${most} receptacles, outside dwellings: ` +
          answerPlan(w, { ...r, check: false }, circuit, findings).headline,
      }
      : answerPlan(w, r, circuit, findings);
    suggest(w, r, supply.volts !== undefined);
    return answer;
  },
});

/** A plan that fails is judged, even where no single conductor would do in its place. */
function answerPlan(w: Worksheet, r: CircuitRequest, circuit: Circuit, findings: Findings): Told {
  try {
    return answerWire(w, r, circuit, findings);
  } catch (error) {
    if (!(error instanceof NotCovered) || findings.problems.length === 0) throw error;
    const because = findings.problems.join("; ");
    return ledBy({ is: "not ok", because }, because.includes(error.message) ? "" : `Here ${error.message}.`);
  }
}

/** The conductor, its drop and its ground, and what that says of a plan. */
function answerWire(w: Worksheet, r: CircuitRequest, circuit: Circuit, findings: Findings): Told {
  const { supply, device } = circuit;
  const wire = conductorOf(w, r, circuit, findings);
  const drop = dropped(w, r, circuit, wire, findings);
  const size = drop?.size ?? wire.chosen.size;
  const isRaised = w.scratch(() => isLarger(w, size, wire.chosen.size));
  if (isRaised) w.part("Ampacity of the larger conductor");
  const { ampacity } = isRaised ? ampacityOf(w, size, wire.wiring) : wire.chosen;
  w.figure("ampacity", ampacity, "ampacity of the conductor here");
  w.figure("conductor", size, `${wire.material} conductor`);
  w.part("Equipment ground");
  const ground = equipmentGround(w, device, wire.material, size, { installed: size, needed: wire.needed });
  w.figure("equipment-grounding-conductor", ground);
  checkWires(r, supply, findings);
  checkMethod(w, r, size, findings);
  checkCableGround(w, r, { circuit, wire, size, ground }, findings);
  const cable = cableOf(w, r, circuit, { size, ground });
  if (cable) w.figure("cable", cable);
  const count = wiresOf(r, supply);
  const raceway = count === undefined
    ? ""
    : inRaceway(w, r, { lines: { count, size }, ground, material: wire.material });
  tellAvailable(w, r);
  caution(w, r, { circuit, wire, size, ground });
  w.suggest(wire.material === "copper" ? "use aluminum" : "use copper");
  return decide(r, findings, headline(w, { circuit, wire, size, ground, cable, raceway, drop }));
}

type Result = {
  circuit: Circuit;
  wire: Wire;
  size: Known<"size">;
  ground: Known<"size">;
  cable: Known<"word"> | undefined;
  raceway: string;
  drop: Dropped | undefined;
};

/** What to buy, and why so much of it. */
function headline(
  w: Worksheet,
  { circuit: { load, device, supply }, wire, size, ground, cable, raceway, drop }: Result,
): string {
  const breaker = w.say`${device} ${polesOf(supply)}breaker`;
  const design = w.holds(load.design, "=", load.current) ? "" : w.say`, sized for ${load.design}`;
  const why = load.told ? w.say` (load ${load.current}${design})` : "";
  const sold = cable ? `: ${w.word(cable)}` : "";
  const run = drop ? w.say`; drop ${drop.percent} over ${drop.length}` : "";
  return w.say`${breaker}, ${size} ${wire.material}, ${ground} ground${why}${sold}${raceway}${run}.`;
}

/** Poles by the lines of the circuit, where the voltage tells them. */
function polesOf({ nominal, phases }: Supply): string {
  if (nominal === undefined) return "";
  return `${phases === 3 ? 3 : isLineToNeutral(nominal) ? 1 : 2}-pole `;
}

function suggest(w: Worksheet, r: CircuitRequest, hasVolts: boolean): void {
  if (!r.length && hasVolts) w.suggest("and at 150 ft?");
  w.suggest(r.method === "NM cable" ? "THHN in conduit" : "NM cable");
  if (r.terminals === undefined) w.suggest("75 °C terminals");
}
