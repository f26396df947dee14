/** Whether a breaker trips on a fault to the case at the far end of its run: the loop, the current, the time, and how far it holds. */
import { calc } from "../../../core/formula.ts";
import { NotCovered, Unclear } from "../../../core/outcome.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { isLarger } from "../../../rules/grounding.ts";
import { type Impedance, inSeries, sizeOf } from "../../../rules/faults.ts";
import { sizes } from "../../../rules/conductors.ts";
import { question } from "../../question.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { ledBy } from "../../parts/verdict.ts";
import { type Circuit, circuitOf, longestRun, missingFacts, overLength, voltsToGround } from "./circuit.ts";
import { cautions, type Fault, judge } from "./fault.ts";
import { throughRaceway } from "./raceway.ts";
import { type Band, bandOf, tripOf, withstand } from "./trip.ts";
import { inTime } from "./words.ts";
import { input, type PathRequest } from "./request.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "fault-path",
  title: "Fault path",
  about: "Whether a breaker trips on a fault to the case at the far end, how fast, and how far its run may go.",
  input,
  figures: {
    "loop-impedance": "impedance of the fault's loop",
    "ground-fault-current": "fault current to the case",
    "trip-multiple": "times the breaker's rating",
    "longest-run": "longest run that trips at once",
    "trip-time-most": "longest time to trip",
    "touch-voltage": "voltage of the case during the fault",
    "raceway-impedance-most": "most impedance of the raceway, end to end",
    "withstand-time": "time that the ground stands the fault",
    "equipment-grounding-conductor": "equipment ground",
  },
  examples: [
    "20A breaker 12/2 NM 140 ft to the shed receptacle, will it trip",
    "how far can a 30 A breaker on 10 AWG copper go and still trip instantly on a fault to the case?",
    "480Y/277 V, 60 A breaker, 6 AWG copper with a 10 AWG ground in EMT, 350 ft, 10 kA available at the panel: does the breaker trip on a ground fault?",
    "will a 20 A breaker trip if the case has only a 25 ohm ground rod?",
  ],
  manner: { traits: ["gauges"], asked: "goal:fault-path" },
  takes,
  write,
  answer(r, w) {
    if (r.fuse) throw new NotCovered("the trip bands held here are of breakers, and of no fuses", w.edition.id);
    const needs = missingFacts(r);
    if (needs.length > 0) throw new Unclear(needs);
    if (r.return === "earth") return throughEarth(w, r);
    if (r.return === "raceway" && !r.ground) return throughRaceway(w, r);
    w.part("Circuit");
    const circuit = circuitOf(w, r);
    w.figure("equipment-grounding-conductor", circuit.ground.size, "equipment ground");
    const band = bandOf(w, r.trips);
    const fault = r.length &&
      faultOf(w, circuit, w.given("length", convert(asQuantity(r.length), "ft"), "one way"), band);
    w.part("Longest run");
    const needed = w.work("current that trips it at once", "A", calc`${band.most} × ${circuit.breaker}`);
    const longest = longestRun(w, circuit, needed);
    if (longest) w.figure("longest-run", longest, "longest run that trips at once");
    const answer = tell(w, circuit, band, fault, longest);
    cautions(w, r, circuit, fault);
    suggest(w, r, fault);
    return answer;
  },
});

function faultOf(w: Worksheet, circuit: Circuit, length: Known<"ft">, band: Band): Fault {
  w.part("Loop of the fault");
  const line = overLength(w, circuit, circuit.line, length, "of the line");
  const ground = overLength(w, circuit, circuit.ground, length, "of the ground");
  const parts: Impedance[] = [...(circuit.source ? [circuit.source] : []), line, ground];
  const z = sizeOf(w, inSeries(w, parts, " of the loop"), "Z of the loop")!;
  const current = w.work("fault current to the case", "A", calc`${circuit.volts} ÷ ${z}`, "fault-path");
  const ofGround = sizeOf(w, ground, "Z of the ground")!;
  const touch = w.work("voltage of the case during the fault", "V", calc`${current} × ${ofGround}`);
  w.part("Trip");
  const multiple = w.work("times the breaker's rating", "1", calc`${current} ÷ ${circuit.breaker}`);
  const trip = tripOf(w, multiple, circuit.breaker, band);
  w.part("Heat in the ground");
  const stands = withstand(w, circuit.ground, current);
  w.figure("loop-impedance", z, "impedance of the fault's loop");
  w.figure("ground-fault-current", current);
  w.figure("trip-multiple", multiple);
  if (trip.most) w.figure("trip-time-most", trip.most, "longest time to trip");
  w.figure("touch-voltage", touch);
  w.figure("withstand-time", stands);
  if (trip.most) {
    w.choose(
      "time to trip against what the ground stands",
      [trip.most, "≤", stands],
      ["it stands it", () => {}],
      ["it may overheat", () => {
        w.caution(
          w.say`The ${circuit.ground.size} ground may pass 150 °C in ${
            inTime(w, stands)
          }, before the breaker is sure to open.`,
          "equipment-grounding",
        );
      }],
    );
  }
  return { current, multiple, trip, length, touch };
}

function tell(
  w: Worksheet,
  circuit: Circuit,
  band: Band,
  fault: Fault | undefined,
  longest: Known<"ft"> | undefined,
): Told {
  const { most } = band;
  const { breaker, line: { size, material }, ground } = circuit;
  if (!fault) {
    const wire = w.say`A ${breaker} breaker on ${size} ${material} with a ${ground.size} ground`;
    return {
      headline: longest
        ? w.say`${wire} surely trips at once up to ${longest} (${most} times its rating there).`
        : w.say`${wire}: not even at the panel do ${most} times its rating flow.`,
    };
  }
  const far = longest ? w.say`Sure to trip at once up to ${longest}` : w.say`Not even at the panel sure to`;
  const better = fault.trip.is === "at once" ? undefined : largerConductors(w, circuit, fault, most);
  const instead = better === undefined ? "" : `, here with ${better} ${material} (line and ground)`;
  return ledBy(judge(w, circuit, band, fault), w.say`${far}${instead}. Until then the case is at ${fault.touch}.`);
}

/** The smallest line and ground alike with which it trips at once at this length. */
function largerConductors(w: Worksheet, circuit: Circuit, { length }: Fault, most: Known<"1">): string | undefined {
  return w.scratch(() => {
    const needed = w.work("current that trips it at once", "A", calc`${most} × ${circuit.breaker}`);
    for (const size of sizes(w, circuit.line.material)) {
      const found = w.ifCovered(() => {
        const alike = { size: w.given("size", size), material: circuit.line.material };
        if (!isLarger(w, alike.size, circuit.ground.size)) return undefined;
        const reach = longestRun(w, { ...circuit, line: alike, ground: alike }, needed);
        return reach && w.holds(reach, "≥", length) ? w.say`${alike.size}` : undefined;
      });
      if (found) return found;
    }
    return undefined;
  });
}

/** No wire back: what flows through a rod and the soil. */
function throughEarth(w: Worksheet, r: PathRequest): Told {
  w.part("Through the earth");
  const volts = voltsToGround(w, r);
  const breaker = w.given("breaker", asQuantity(r.breaker!));
  const earth = r.earth
    ? w.given("resistance of the rod to earth", asQuantity(r.earth))
    : w.assume<"ohm">("earth-resistance");
  const current = w.work("fault current to the case", "A", calc`${volts} ÷ ${earth}`, "earth-not-a-fault-path");
  w.part("Trip");
  const multiple = w.work("times the breaker's rating", "1", calc`${current} ÷ ${breaker}`);
  const trip = tripOf(w, multiple, breaker, bandOf(w, r.trips));
  w.figure("loop-impedance", earth, "impedance of the fault's loop");
  w.figure("ground-fault-current", current);
  w.figure("trip-multiple", multiple);
  w.figure("touch-voltage", volts, "voltage of the case during the fault");
  if (trip.most) w.figure("trip-time-most", trip.most, "longest time to trip");
  const flows = w.say`${volts} drive ${current} through ${earth} of earth, ${multiple} times the ${breaker} breaker`;
  const then = trip.is === "never"
    ? "it does not trip"
    : trip.most
    ? `it may take ${inTime(w, trip.most)}`
    : "it may never trip";
  w.caution(
    "A rod is for lightning and surges; only a wire or raceway back to the source clears a fault.",
    "earth-not-a-fault-path",
  );
  w.suggest("12/2 NM, 100 ft");
  const because = `${flows}: ${then}, and the case stays at ${w.say`${volts}`}`;
  return ledBy({ is: "not ok", because }, "Earth is no path: run an equipment ground.");
}

function suggest(w: Worksheet, r: PathRequest, fault: Fault | undefined): void {
  if (!fault) w.suggest("140 ft");
  if (!r.source) w.suggest("2 kA available at the panel");
  if (r.trips === undefined) w.suggest("trips at 8 times its rating");
}
