/** The circuit of a unit with a hermetic compressor: air conditioner, heat pump, cooler. From its nameplate or its parts. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { wiringOf } from "../../../rules/conditions.ts";
import { ampacityOf, chooseConductor, type Wiring } from "../../../rules/conductors.ts";
import { cautionWiring } from "../../../rules/fitness.ts";
import { cautionCableGround, equipmentGround } from "../../../rules/grounding.ts";
import { inRaceway, RACEWAY_FIGURES } from "../../parts/raceway.ts";
import { question } from "../../question.ts";
import { ledBy, refusedByHeat, underCableGround } from "../../parts/verdict.ts";
import { check, judgeDisconnect, verdictOf } from "./check.ts";
import { dropHeld, dropOfPlan } from "./drop.ts";
import { type CoolingRequest, input } from "./request.ts";
import { answerRoomUnit } from "./room.ts";
import { type Unit, unitOf } from "./unit.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "cooling-circuit",
  title: "Air conditioner or heat pump circuit",
  about: "Wire, breaker or fuse, disconnect and ground of an air conditioner, heat pump or cooler.",
  input,
  figures: {
    "minimum-circuit-ampacity": "minimum circuit ampacity",
    "maximum-protection": "largest device",
    "maximum-protection-hard-starting": "largest device where the compressor will not start",
    "breaker-rating": "breaker",
    conductor: "conductor",
    "equipment-grounding-conductor": "equipment grounding conductor",
    "disconnect-current": "least current rating of the disconnect",
    "voltage-drop": "voltage drop in percent",
    "voltage-drop-volts": "voltage drop in volts",
    ...RACEWAY_FIGURES,
  },
  examples: [
    "heat pump MCA 23.4 A, max breaker 40 A, what wire?",
    "compressor RLA 20 A, condenser fan 2.5 A: wire and breaker?",
    "AC nameplate MCA 18, MOCP 30. Is a 35 A breaker ok?",
    "10 A window air conditioner on a 15 A circuit with other outlets, ok?",
  ],
  manner: {
    traits: ["one load", "one circuit", "gauges"],
    words: ["load:air-conditioner", "load:heat-pump"],
    pointers: { "label:minimum-circuit-ampacity": ["minimum-circuit-ampacity"] },
  },
  takes,
  write,
  answer(request, w) {
    if (request.room) return answerRoomUnit(w, request);
    const unit = unitOf(w, request);
    w.figure("minimum-circuit-ampacity", unit.ampacity, "minimum circuit ampacity");
    if (unit.largest) w.figure("maximum-protection", unit.largest, "largest device");
    if (unit.hardStarting) {
      w.figure("maximum-protection-hard-starting", unit.hardStarting, "largest device where it will not start");
    }
    w.part("Conductor");
    const wiring = wiringOf(w, request, unit.ampacity);
    const hot = request.size === undefined ? undefined : refusedByHeat(w, () => wiring);
    if (hot) return hot;
    const needed = chooseConductor(w, { design: unit.ampacity, load: unit.ampacity, smallLimits: false }, wiring);
    const checked = check(w, request, unit, wiring);
    const { size, drop } = checked.size
      ? dropOfPlan(w, request, unit.current, checked, wiring)
      : dropHeld(w, request, unit.current, needed.size, wiring);
    w.figure("conductor", size, "conductor");
    if (drop) {
      w.figure("voltage-drop", drop.percent);
      w.figure("voltage-drop-volts", drop.volts);
    }
    const breaker = checked.device ?? unit.largest ?? unit.smallest;
    w.figure("breaker-rating", breaker, checked.device ? "breaker put up for checking" : breaker.name);
    const least = disconnect(w, unit);
    const switched = request.disconnect && judgeDisconnect(w, request.disconnect, least);
    w.part("Equipment ground");
    const ground = equipmentGround(w, breaker, wiring.material, size, { installed: size, needed: needed.size });
    w.figure("equipment-grounding-conductor", ground, "equipment grounding conductor");
    cautionCableGround(w, request.method, size, wiring.material, ground);
    cautionWiring(w, request, size, wiring.material, checked.wire.length > 0);
    const isNeeded = w.size(size) === w.size(needed.size);
    explain(w, unit, breaker, {
      size,
      ampacity: checked.ampacity ?? (isNeeded ? needed : ampacityOf(w, size, wiring)).ampacity,
    });
    const inCable = checked.size ? underCableGround(w, request.method, size, wiring.material, ground) : [];
    const verdict = verdictOf(checked, [...(switched ? [switched] : []), ...inCable]);
    suggest(w, request, unit);
    const lines = { count: request.phases === 3 ? 3 : 2, size };
    const raceway = inRaceway(w, request, { lines, ground, material: wiring.material });
    return ledBy(verdict, sentence(w, request, unit, { size, wiring, ground, raceway }));
  },
});

/** The disconnect carries a share more than all that runs at once; a nameplate's ampacity is more than that current. */
function disconnect(w: Worksheet, { current, ampacity }: Unit): Known<"A"> {
  w.part("Disconnect");
  const factor = w.constant<"%">("hermetic-disconnect-factor");
  const note = current === ampacity
    ? "on the safe side: taken of the circuit ampacity, which is more than the unit draws"
    : undefined;
  const name = "least current rating of the disconnect";
  const least = w.work(name, "A", calc`${current} × ${factor}`, "hermetic-disconnect", note);
  w.figure("disconnect-current", least, name);
  return least;
}

/** Why a device may be larger than its wire, where it is. */
function explain(
  w: Worksheet,
  unit: Unit,
  breaker: Known<"A">,
  { size, ampacity }: { size: Known<"size">; ampacity: Known<"A"> },
): void {
  if (!w.holds(breaker, ">", ampacity)) return;
  w.part("Device and conductor");
  w.choose(
    "device against the conductor's ampacity",
    [breaker, ">", ampacity],
    ["larger, and allowed: the unit's own overload protection guards the wire", () => {}],
    ["covered", () => {}],
    "device-above-conductor",
  );
  w.caution(
    w.say`The ${breaker} device is larger than the ${ampacity} of the ${
      w.size(size)
    } wire on purpose: the compressor's own overload protection guards the wire, the device only clears short circuits and ground faults and has to let the compressor start.`,
    "device-above-conductor",
  );
  if (unit.largest) w.caution("Only for this unit: another load on this circuit would need wire to fit the device.");
}

type Parts = { size: Known<"size">; wiring: Wiring; ground: Known<"size">; raceway: string };

function sentence(w: Worksheet, r: CoolingRequest, unit: Unit, { size, wiring, ground, raceway }: Parts): string {
  const wire = w.say`${size} ${wiring.material}`;
  const device = r.fuses || r.markedFor === "fuse" ? "fuse" : "breaker";
  const grounded = w.say`${ground} ${wiring.material} ground${raceway}`;
  const ampacity = w.say`MCA ${unit.ampacity}`;
  if (!unit.largest) {
    return w
      .say`${ampacity}: ${wire}, ${device} at least ${unit.smallest}; the nameplate's maximum decides how large. ${grounded}.`;
  }
  const range = w.holds(unit.smallest, "<", unit.largest)
    ? w.say`${device} ${unit.smallest} to at most ${unit.largest}`
    : w.say`${device} ${unit.largest}`;
  const starting = unit.hardStarting && w.holds(unit.hardStarting, ">", unit.largest)
    ? w.say` (${unit.hardStarting} only if it will not start)`
    : "";
  return `${ampacity}: ${wire}, ${range}${starting}, ${grounded}.`;
}

function suggest(w: Worksheet, r: CoolingRequest, unit: Unit): void {
  if (r.material !== "aluminum") w.suggest("use aluminum");
  if (!r.terminals && r.method === undefined) w.suggest("75 °C terminals");
  if (r.method === undefined) w.suggest("with NM cable");
  if (!r.length) w.suggest("and at 80 ft?");
  if (unit.hardStarting && !r.hardStarting) w.suggest("it will not start");
  if (!unit.largest) {
    w.caution(
      "Read the nameplate's maximum overcurrent protection before choosing the device: it is the most that is allowed.",
      "hermetic-nameplate",
    );
  }
  if (r.markedFor === "fuse") {
    w.caution(
      "The nameplate names fuses: a breaker there would not match its listing, unless the nameplate names breakers too.",
      "hermetic-nameplate",
    );
  }
}
