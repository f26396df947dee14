/** Arc-fault and ground-fault protection that a circuit of a room of a dwelling wants, by edition. */
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import type { Finding } from "./finding.ts";
import type { PanelRequest } from "./request.ts";

export function roomProtection(w: Worksheet, r: PanelRequest): Finding {
  w.part("Protection by room");
  if (r.room === undefined) throw need("room", "Which room or area does the circuit serve?", "bedroom circuit");
  const circuit = r.circuit && w.given("circuit", asQuantity(r.circuit));
  const found = ofRoom(w, r, r.room, circuit);
  w.figure("arc-fault-protection", found.arc, "arc-fault protection");
  w.figure("ground-fault-protection", found.ground, "ground-fault protection for personnel");
  const others = (r.otherRooms ?? []).map((room) => ofRoom(w, r, room, circuit).says);
  const [arcKind, groundKind] = [w.edition.rule("arc-fault-circuits"), w.edition.rule("ground-fault-receptacles")];
  const near = w.constant("ground-fault-sink-distance");
  w.caution(`Arc-fault: 120 V circuits of ${arcKind}, whatever outlets or devices they serve.`, "arc-fault");
  w.caution(
    w.say`Ground-fault: receptacles of ${groundKind}; in any room within ${near} of a sink or tub.`,
    "ground-fault",
  );
  w.caution(
    "A dishwasher and other named appliances want ground-fault protection by rules of their own.",
    "ground-fault",
  );
  const [first, ...more] = [...others, found.says];
  return { says: [first, ...more.map((says) => says[0]!.toUpperCase() + says.slice(1))].join(". "), judged: [] };
}

type OfRoom = { arc: Known<"word">; ground: Known<"word">; says: string };
function ofRoom(w: Worksheet, r: PanelRequest, name: string, circuit: Known<"A"> | undefined): OfRoom {
  const room = w.given("room", name);
  const [arcKind, groundKind] = [w.edition.rule("arc-fault-circuits"), w.edition.rule("ground-fault-receptacles")];
  const arc = isArcCircuit(w, r, circuit)
    ? w.lookUp<"word">("arc-fault protection", "arc-fault-rooms", "arc-fault protection", room)
    : w.given("arc-fault protection", "not required", `the rule is for 120 V circuits of ${arcKind}`, "arc-fault");
  const ground = isGroundCircuit(w, r, circuit)
    ? w.lookUp<"word">("ground-fault protection", "ground-fault-rooms", "ground-fault protection", room)
    : w.given(
      "ground-fault protection",
      "not required",
      `the rule is for receptacles of ${groundKind}`,
      "ground-fault",
    );
  return { arc, ground, says: w.say`${room}: arc-fault protection ${arc}; ground-fault protection ${ground}` };
}

/** A 120 V system goes up to what is told as 127 V; then come 208 V. */
const OF_120 = 127;
const OF_240 = 250;
const isSmall = (w: Worksheet, circuit: Known | undefined): boolean =>
  circuit === undefined || w.holds(circuit, "≤", w.constant<"A">("arc-fault-largest-circuit"));

const isArcCircuit = (w: Worksheet, { volts }: PanelRequest, circuit: Known | undefined): boolean =>
  (volts === undefined || plain(volts) <= OF_120) && isSmall(w, circuit);

/** In 2017 only 125 V receptacles of 15 and 20 A, later all up to 250 V, of no more than 150 V to ground. */
function isGroundCircuit(w: Worksheet, { volts, toGround }: PanelRequest, circuit: Known | undefined): boolean {
  const isOfAll = w.edition.rule("ground-fault-receptacles") === "125 to 250 V";
  if (toGround) {
    const told = w.given("voltage to ground", asQuantity(toGround));
    if (!w.holds(told, "≤", w.constant<"V">("ground-fault-receptacle-voltage"))) return false;
  }
  if (volts !== undefined && plain(volts) > (isOfAll ? OF_240 : OF_120)) return false;
  return isOfAll || isSmall(w, circuit);
}
