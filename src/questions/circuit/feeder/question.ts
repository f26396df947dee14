/** A feeder to a subpanel or a separate structure, or the conductors of a service: everything from end to end. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { convert } from "../../../core/quantity.ts";
import type { Reasoned } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { type Material, tooHot } from "../../../rules/conductors.ts";
import { cautionWiring, unfit } from "../../../rules/fitness.ts";
import { isLarger } from "../../../rules/grounding.ts";
import { isLimited, needsRaceway } from "../../../rules/wiring-methods.ts";
import { feederTap } from "../../../rules/taps.ts";
import { question } from "../../question.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { groundService } from "../../parts/service-grounding.ts";
import { type Judged, judgeGround, judgeNeutral, judgeSizes, type Standing, stands, verdictOn } from "./check.ts";
import { type Circuit, circuitOf, leastService } from "./circuit.ts";
import { wholeAmperes } from "../../../rules/overcurrent.ts";
import { farEnd, groundOf, neutralOf, supplyOf, withUsualNeutral } from "./grounding.ts";
import { headline } from "./headline.ts";
import { FAULT_FIGURES, tellAvailable } from "../../parts/available-fault.ts";
import type { Lines } from "../../parts/lines.ts";
import { dwellingUntold, linesOf, type Surroundings, surroundings } from "./lines.ts";
import { beside, racewayOf, type SetOf } from "./material.ts";
import { type FeederRequest, input } from "./request.ts";
import { type Judgement, underCableGround, verdictOf } from "../../parts/verdict.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "feeder",
  title: "Feeder or service conductors",
  about:
    "Wire, neutral, ground, breakers, drop and bonding of a feeder to a subpanel or another building, or of a service.",
  input,
  figures: {
    "design-current": "design current",
    "breaker-rating": "breaker at the source",
    "ungrounded-conductor": "ungrounded conductor",
    "neutral-conductor": "neutral conductor",
    "equipment-grounding-conductor": "equipment grounding conductor",
    "parallel-sets": "parallel sets",
    ampacity: "ampacity of the conductors here",
    "voltage-drop": "voltage drop",
    "voltage-drop-volts": "voltage drop in volts",
    "neutral-bond": "neutral bond",
    "far-end-disconnect": "disconnect at the far end",
    "grounding-electrode-conductor": "grounding electrode conductor",
    "main-bonding-jumper": "main bonding jumper",
    "raceway-size": "raceway trade size",
    ...FAULT_FIGURES,
  },
  examples: [
    "garage subpanel 150 ft, 100 amp, aluminum ok?",
    "60 A subpanel in the same house, 60 A load, THHN in EMT, 75 °C terminals",
    "is 6/3 NM ok on a 60 A breaker for a subpanel with a 50 A load?",
    "200 A service conductors for a one-family dwelling, aluminum",
  ],
  manner: {
    traits: ["gauges"],
    asked: "circuit:feeder",
    words: ["circuit:feeder", "device:subpanel", "place:separate-structure", "device:panel"],
  },
  takes,
  minds: ["building", "place"],
  write,
  answer(said, w) {
    const circuit = circuitOf(w, said);
    w.figure("design-current", circuit.design, "design current");
    w.part("Conductors");
    const r = withUsualNeutral(w, said, circuit);
    const material = r.material ?? w.word(w.assume("conductor-material")) as Material;
    dwellingUntold(w, r, circuit);
    const around = surroundings(w, r, circuit);
    const judged = r.tappedFrom ? [] : judgeSizes(w, r, circuit, around, material);
    const plan = judged.find(stands);
    const { lines, place, ofTap }: Found = plan
      ? { lines: planned(w, r, circuit, material, plan), place: plan.around }
      : r.tappedFrom
      ? { ...tapped(w, r, circuit, around, material), place: around }
      : needed(w, r, circuit, around, material, judged.length > 0);
    if (lines.sets && r.together === undefined && needsRaceway(r.method)) {
      w.suppose(
        "parallel sets",
        "each in a raceway of its own",
        "nothing was said of one raceway, in which they would warm each other",
        "all in one conduit",
        "parallel-conductors",
      );
    }
    figures(w, r, circuit, lines);
    // A size that was put up and does not do is told what it carries; otherwise the chosen one is.
    const told = judged.length === 1 ? judged[0]! : undefined;
    w.figure(
      "ampacity",
      told?.ampacity ?? lines.ampacity,
      told?.ampacity ? `ampacity of the ${told.put.name} put up for checking` : "ampacity of the conductors here",
    );
    w.part("Neutral and ground");
    const neededNeutral = neutralOf(w, r, circuit, place, lines);
    const putNeutral = judgeNeutral(w, r, circuit, place, lines);
    const neutral = putNeutral?.size ?? neededNeutral;
    if (neutral) w.figure("neutral-conductor", neutral, `neutral conductor, ${lines.material}`);
    const isService = r.supply === "service";
    const neededGround = isService ? undefined : groundOf(w, r, circuit, lines);
    const putGround = judgeGround(w, r, neededGround);
    const ground = neededGround && { ...neededGround, ...(putGround?.size && { size: putGround.size }) };
    if (ground) {
      w.figure("equipment-grounding-conductor", ground.size, `equipment grounding conductor, ${ground.material}`);
    }
    if (isService) groundService(w, supplyOf(lines), r.electrode);
    else farEnd(w, r, lines);
    const set: SetOf = { lines, ...(neutral && { neutral }), ...(ground && { ground: ground.size }) };
    const raceway = racewayOf(w, r, circuit, set);
    const instead = r.tappedFrom ? undefined : beside(w, r, circuit, place, set);
    const inCable = plan && ground && !putGround
      ? underCableGround(w, r.method, lines.size, lines.material, ground.size)
      : [];
    const putUp = [putNeutral, putGround].flatMap((put) => put ? [put.judged] : []);
    const verdict = decide(w, r, circuit, { lines, ofTap }, judged, [...putUp, ...inCable]);
    tellAvailable(w, r);
    cautions(w, r, circuit, lines, judged.length > 0);
    suggest(w, r, lines);
    return headline(w, r, { circuit, set, ground, raceway, instead }, verdict);
  },
});

/** The lines and where they lie; of a tap, what its rules say of it. */
type Found = { lines: Lines; place: Surroundings; ofTap?: Reasoned | undefined };

/** The smallest conductors that do. Where the cable of a plan is not made so large, conductors in conduit, which is said. */
function needed(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  around: Surroundings,
  material: Material,
  isPlan: boolean,
): Found {
  const inCable = () => linesOf(w, r, circuit, around, material);
  const isHot = tooHot(w, around) !== undefined;
  const made = isPlan && (isLimited(r.method) || isHot) ? w.ifCovered(inCable) : inCable();
  if (made) return { lines: made, place: around };
  w.caution(
    isHot
      ? "The sizes here are for conductors of a higher rating in conduit."
      : `${r.method} is not made large enough for this: the sizes here are for conductors in conduit.`,
  );
  const { insulation: _, ...rest } = r;
  const open: FeederRequest = { ...(isHot ? rest : r), method: "conductors in conduit" };
  const place = surroundings(w, open, circuit);
  return { lines: linesOf(w, open, circuit, place, material), place };
}

/** A size that was put up and stands: with what it needs as a ground, and the drop it has. */
function planned(w: Worksheet, r: FeederRequest, circuit: Circuit, material: Material, plan: Standing): Lines {
  const part = "Smallest that would do";
  w.aside(part);
  const { sizes: _, length: _length, ...open } = r;
  const least = w.ifCovered(() => linesOf(w, { ...open, sets: r.sets ?? 1 }, circuit, plan.around, material, part));
  return {
    size: plan.size,
    // A size that stands by the next-size-up rule may be smaller than what the full rating asks for.
    needed: least && isLarger(w, plan.size, least.needed) ? least.needed : plan.size,
    material,
    ampacity: plan.ampacity,
    ...(plan.sets && { sets: plan.sets }),
    ...(plan.drop && { drop: plan.drop }),
  };
}

/** A tap: no device where it starts, so its length and its share of the device ahead decide. */
function tapped(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  around: Surroundings,
  material: Material,
): Pick<Found, "lines" | "ofTap"> {
  if (!r.length) throw need("length", "How long is the tap, from the feeder to its first device?", "8 ft tap");
  w.part("Tap");
  const ahead = w.given("device ahead", asQuantity(r.tappedFrom!));
  const length = w.given("length of the tap", convert(asQuantity(r.length), "ft"));
  const end = w.work("what it feeds", "A", calc`max(${circuit.design}, ${circuit.rating})`);
  const { least, endsInOneDevice } = feederTap(w, ahead, end, length);
  const { tappedFrom: _, sizes = [], ...own } = r;
  if (!least) {
    const because = w
      .say`a tap of ${length} is longer than the rules allow inside a building: put a breaker at its start`;
    return { lines: linesOf(w, own, circuit, around, material), ofTap: { is: "not ok", because } };
  }
  w.caution(
    endsInOneDevice
      ? "This tap must end in one breaker or one set of fuses."
      : "This tap stays in a raceway and goes no further than the equipment it feeds.",
    "feeder-taps",
  );
  // Next size up does not reach taps: the conductors carry all of it.
  const lines = linesOf(w, { ...own, ignoreDrop: true }, { ...circuit, load: least, design: least }, around, material);
  const tooSmall = sizes.find((size) => isLarger(w, lines.size, w.given("size put up for checking", size)));
  const [against] = sizes.length > 0 ? unfit(w, r, lines.size) : [];
  const ofTap: Reasoned | undefined = tooSmall
    ? { is: "not ok", because: w.say`${tooSmall} is smaller than the ${lines.size} that carries ${least}` }
    : against
    ? { is: against.is, because: against.because }
    : sizes.length > 0
    ? { is: "ok", because: w.say`it is no smaller than ${lines.size}, which carries ${least}` }
    : undefined;
  return { lines, ofTap };
}

function figures(w: Worksheet, r: FeederRequest, circuit: Circuit, lines: Lines): void {
  if (!r.tappedFrom) {
    w.figure("breaker-rating", circuit.rating, r.supply === "service" ? "service rating" : "breaker at the source");
  }
  w.figure("ungrounded-conductor", lines.size, `ungrounded conductor, ${lines.material}`);
  if (lines.sets) w.figure("parallel-sets", lines.sets);
  if (lines.drop) {
    w.figure("voltage-drop", lines.drop.percent);
    w.figure("voltage-drop-volts", lines.drop.volts);
  }
}

const nothing = () => {};

/** The verdict, where a plan was put up or what was told cannot be. */
function decide(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  { lines, ofTap }: Pick<Found, "lines" | "ofTap">,
  judged: readonly Judged[],
  beside: readonly Judgement[],
): Reasoned | undefined {
  const against: string[] = ofTap?.is === "not ok" ? [ofTap.because] : [];
  w.part("Plan");
  if (circuit.loadTold && (r.breaker ?? r.panel)) {
    const whole = wholeAmperes(w, circuit.design);
    w.choose("rating against the load", [circuit.rating, "≥", whole], ["enough", nothing], ["too small", () => {
      against.push(w.say`the load takes ${circuit.design}, more than ${circuit.rating}`);
    }], "continuous-loads-feeder");
  }
  if (r.panel && r.breaker) {
    const panel = w.given("panel at the far end", asQuantity(r.panel));
    w.choose("panel against the breaker", [panel, "≥", circuit.rating], ["protected by it", nothing], [
      "too small",
      () => {
        against.push(w.say`a panel rated ${panel} may not be fed through ${circuit.rating} without a main of its own`);
      },
    ]);
  }
  if (r.source) {
    const source = w.given("main it starts from", asQuantity(r.source));
    w.choose("breaker against the main ahead", [circuit.rating, "≤", source], ["not above it", nothing], [
      "larger",
      () => {
        w.caution(w.say`The feeder breaker is larger than the main ahead of it (${source}).`);
      },
    ]);
  }
  if (r.wires === 3 && r.neutral !== false && circuit.phases === 1) {
    against.push(
      w.say`a new feeder with a neutral takes four wires, the ground apart from the neutral (${
        w.cite("separate-structure-grounding").section
      })`,
    );
    w.caution(
      "A three-wire feeder stays only where it already exists and no metal path joins the buildings.",
      "separate-structure-grounding",
    );
  }
  const sizes = judged.length > 0 ? verdictOn(judged) : undefined;
  const because = sizes?.is === "ok"
    ? w.say`${lines.size} ${lines.material} carries ${lines.ampacity} here`
    : undefined;
  const plan = verdictOf([...(sizes ? [{ what: "lines", ...sizes, ...(because && { because }) }] : []), ...beside]);
  if (against.length > 0) {
    return { is: "not ok", because: [...against, ...(plan?.is === "not ok" ? [plan.because] : [])].join("; ") };
  }
  const isAsked = r.check === true;
  return plan ?? ofTap ?? (isAsked ? { is: "ok", because: `${lines.material} will do in this size` } : undefined);
}

function cautions(w: Worksheet, r: FeederRequest, circuit: Circuit, lines: Lines, isJudged: boolean): void {
  cautionWiring(w, r, lines.size, lines.material, isJudged);
  if (lines.sets) {
    w.caution("Parallel sets: same length, metal, size, insulation and terminations.", "parallel-conductors");
  }
  if (r.supply === "service") return cautionSmallService(w, r, circuit);
  if (r.where !== "separate structure") return;
  const [least, what] = r.wholeDwelling
    ? ["separate-structure-dwelling-minimum", "of a one-family dwelling in a structure of its own"]
    : ["separate-structure-minimum", "at a structure with more than two circuits"];
  if (w.scratch(() => w.holds(circuit.rating, "<", w.constant(least)))) {
    w.caution(w.say`The disconnect ${what} is rated ${w.constant(least)} or more.`, "separate-structure-minimum");
  }
}

/** A service that was asked for below the least rating of any. */
function cautionSmallService(w: Worksheet, r: FeederRequest, { rating }: Circuit): void {
  const least = w.constant<"A">(leastService(r));
  if (!w.scratch(() => w.holds(rating, "<", least))) return;
  const of = r.wholeDwelling ? "of a one-family dwelling" : "with more than two circuits";
  w.caution(w.say`The disconnect of a service ${of} is rated ${least} or more.`, "minimum-service");
}

function suggest(w: Worksheet, r: FeederRequest, lines: Lines): void {
  w.suggest(lines.material === "copper" ? "use aluminum" : "use copper");
  if (!r.length) w.suggest("and at 150 ft?");
  if (!r.load && !r.continuous) w.suggest("load 60 A");
  if (!r.terminals) w.suggest("75 °C terminals");
}
