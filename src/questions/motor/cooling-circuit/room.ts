/** A cord-and-plug room unit: the share of a circuit it may take, alone or with other outlets. */
import type { ConductorSize } from "../../../core/conductor-size.ts";
import { calc } from "../../../core/formula.ts";
import { need, NotCovered } from "../../../core/outcome.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Known, Told } from "../../../core/worked.ts";
import { markedHigher, wiringOf } from "../../../rules/conditions.ts";
import { ampacityOf, chooseConductor, type Duty, meets, showTests, type Wiring } from "../../../rules/conductors.ts";
import { equipmentGround } from "../../../rules/grounding.ts";
import { usualBreaker } from "../../../rules/overcurrent.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Judgement, ledBy, verdictOf } from "../../parts/verdict.ts";
import type { CoolingRequest } from "./request.ts";

export function answerRoomUnit(w: Worksheet, r: CoolingRequest): Told {
  const said = r.unitCurrent ?? r.compressors?.[0]?.ratedLoad;
  if (!said) {
    throw need("unitCurrent", "How many amps does the room unit's nameplate say?", "10 A window air conditioner");
  }
  w.part("Room unit");
  const current = w.given("rated current of the unit", asQuantity(said), undefined, "room-air-conditioner");
  limits(w, r, current);
  const shared = r.room === "shared";
  const sharing = shared
    ? w.given("circuit", "shared with other outlets")
    : r.room === "alone"
    ? w.given("circuit", "for this unit alone")
    : w.suppose(
      "circuit",
      "for this unit alone",
      "nothing was said of other outlets on it",
      "other outlets on the same circuit",
      "room-air-conditioner",
    );
  const leastFor = (which: "alone" | "shared") => {
    const share = w.constant<"%">(`room-air-conditioner-${which}`);
    const least = w.work("least circuit rating", "A", calc`${current} ÷ ${share}`, "room-air-conditioner");
    return { share, least };
  };
  const { share, least } = leastFor(shared ? "shared" : "alone");
  const rating = r.breakers?.[0]
    ? w.given("circuit put up for checking", asQuantity(r.breakers[0]))
    : usualBreaker(w, least, "breaker");
  const factor = w.constant<"%">("hermetic-conductor-factor");
  const ampacity = w.work("minimum circuit ampacity", "A", calc`${current} × ${factor}`, "hermetic-conductors");
  const fits = w.choose(
    "the unit's share of the circuit",
    [rating, "≥", least],
    ["kept", () => true],
    ["too much", () => false],
    "room-air-conditioner",
  );
  // A unit too large for a shared circuit gets one of its own.
  const ownCircuit = !fits && shared;
  const device = fits ? rating : usualBreaker(w, ownCircuit ? leastFor("alone").least : least, "breaker");
  w.part("Conductor");
  const wiring = wiringOf(w, r, device);
  const duty: Duty = { design: ampacity, load: current, device };
  const needed = chooseConductor(w, duty, wiring).size;
  const plan = r.size === undefined ? undefined : putUp(w, r, r.size, duty, wiring);
  const size = plan?.size ?? needed;
  const ground = equipmentGround(w, device, wiring.material, size, { installed: size, needed });
  w.figure("minimum-circuit-ampacity", ampacity);
  w.figure("breaker-rating", device, "breaker");
  w.figure("conductor", size, "conductor");
  w.figure("equipment-grounding-conductor", ground, "equipment grounding conductor");
  const where = shared && !ownCircuit ? "with other outlets" : "alone on its circuit";
  const judged: Judgement[] = plan ? [plan.judged] : [];
  if (r.breakers) {
    const what = "circuit";
    judged.push(
      !fits
        ? {
          what,
          is: "not ok",
          because: w.say`${current} is more than ${share} of the ${rating} circuit${
            shared ? " with other outlets" : ""
          }: it takes ${ownCircuit ? "a circuit of its own, " : ""}at least ${device}`,
        }
        : r.room === "not told"
        ? { what, is: "ok if", because: w.say`nothing else is on the ${rating} circuit` }
        : { what, is: "ok", because: w.say`${current} is not more than ${share} of the ${rating} circuit` },
    );
  }
  w.caution(
    "The plug may be the disconnect where it can be reached; its cord has to have the leakage or arc protection it was listed with.",
    "room-air-conditioner",
  );
  w.suggest(w.word(sharing).startsWith("shared") ? "alone on its circuit" : "other outlets on the same circuit");
  const sentence = w.say`${current} room unit ${where}: ${device} circuit, ${size} ${wiring.material}.`;
  return ledBy(verdictOf(judged), sentence);
}

/** A conductor that was put up: judged like the one that is chosen, and installed where it stands. */
function putUp(
  w: Worksheet,
  r: CoolingRequest,
  put: ConductorSize,
  duty: Duty,
  wiring: Wiring,
): { judged: Judgement; size?: Known<"size"> } {
  const size = w.given("size put up for checking", put);
  const what = w.say`${size} ${wiring.material}`;
  const does = (at: Wiring) => meets(w, ampacityOf(w, size, at), duty, size, at.material);
  const marked = markedHigher(w, r);
  const terminals = w.constant<"°C">("terminal-temperature-large");
  const one = ampacityOf(w, size, wiring);
  if (does(wiring)) {
    showTests(w, { size, ...one }, duty, wiring.material);
    return { size, judged: { what, is: "ok", because: w.say`${what} carries ${one.ampacity} here` } };
  }
  if (marked && w.scratch(() => does({ ...wiring, terminals }))) {
    return { size, judged: { what, is: "ok if", because: marked.condition } };
  }
  const because = w.say`${what} carries ${one.ampacity} here, too little for ${duty.device!} and ${duty.design}`;
  return { judged: { what, is: "not ok", because } };
}

/** Beyond these a unit is no room unit to the rule. */
function limits(w: Worksheet, r: CoolingRequest, current: Parameters<Worksheet["holds"]>[0]): void {
  const most = w.constant<"A">("room-air-conditioner-most");
  if (w.holds(current, ">", most)) {
    throw new NotCovered(
      w.say`A room unit is at most ${most}; ask for its circuit by the nameplate's MCA instead`,
      w.edition.id,
    );
  }
  if (r.phases === 3) {
    throw new NotCovered(
      "A room unit is single-phase; ask for its circuit by the nameplate's MCA instead",
      w.edition.id,
    );
  }
  const highest = w.constant<"V">("room-air-conditioner-voltage-most");
  if (r.volts && w.holds(w.given("voltage", asQuantity(r.volts)), ">", highest)) {
    throw new NotCovered(
      w.say`A room unit is on at most ${highest}; ask for its circuit by the nameplate's MCA instead`,
      w.edition.id,
    );
  }
}
