/** Tightening torque: the maker's marking, or the default of the connector's kind and conductor; and what was set. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { printValue } from "../../../core/print.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Judgement } from "../../parts/verdict.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Finding, judge } from "./finding.ts";
import type { PanelRequest } from "./request.ts";

export function torque(w: Worksheet, r: PanelRequest): Finding {
  w.part("Terminations");
  const wanted = r.marked ? markedTorque(w, r.marked) : defaultTorque(w, r);
  if (r.bareTorque) assumeUnit(w, r);
  w.figure("tightening-torque", wanted, "tightening torque");
  const feet = w.work("the same in foot-pounds", "lbf-ft", calc`${wanted} × 1`);
  const judged = judgeSet(w, r, wanted);
  if (judged.length === 0) w.enter(connectionOf(r), wanted);
  cautions(w, r);
  const by = r.marked ? "as the maker marks it" : "where the maker gives none";
  return { says: w.say`${wanted} (${feet}), ${by}: ${connectionOf(r)}`, judged };
}

/** A torque without its unit is one of the smaller unit, and listed. */
function assumeUnit(w: Worksheet, { marked, set }: PanelRequest): void {
  const told = marked ?? set;
  w.suppose(
    marked ? "torque that is marked" : "torque that was set",
    `${told!.value} lbf·in`,
    "its unit was not told; so much in foot-pounds is hardly marked on a lug",
    `${told!.value} foot pounds`,
    "torque",
  );
}

/** What is tightened, in words. */
const connectionOf = ({ connector, size, material, socket, slot }: PanelRequest): string =>
  [
    size && `${size}${material ? ` ${material}` : ""}`,
    socket ? `${socket.value} in. socket` : undefined,
    slot && connector === "slotted screw" ? `${slot} slot` : undefined,
    connector === "socket screw" ? undefined : connector ?? "connector",
  ].filter(Boolean).join(", ");

const markedTorque = (w: Worksheet, marked: NonNullable<PanelRequest["marked"]>): Known<"lbf-in"> => {
  const given = w.given("torque marked by the maker", asQuantity(marked), "it governs", "torque");
  return given.kind === "lbf-in"
    ? given as Known<"lbf-in">
    : w.work("torque marked by the maker, in inch-pounds", "lbf-in", calc`${given} × 1`);
};

/** @throws Unclear where kind, size or socket are missing */
function defaultTorque(w: Worksheet, r: PanelRequest): Known<"lbf-in"> {
  const connector = r.connector ?? (r.socket ? "socket screw" : undefined);
  if (connector === undefined) {
    throw need(
      "connector",
      "What is marked on the lug or panel? That value governs. With no marking: which screw is it, slotted, hex head, hex socket (Allen) and what size across flats, or a split bolt?",
      "slotted screw",
    );
  }
  if (connector === "socket screw") return ofSocket(w, r);
  if (connector === "small slotted screw") return ofSmallScrew(w, r);
  if (r.size === undefined) {
    throw need("size", `What size is the conductor under the ${connector}?`, "2/0 conductor");
  }
  const size = w.given("conductor", r.size);
  return w.lookUp<"lbf-in">("torque by default", "torque-screw-connectors", columnOf(w, r, connector, size), size);
}

const [NARROW, WIDE] = ["slotted screw, narrow slot", "slotted screw, wide slot"];
/** A slotted screw's column; of the larger conductors there is a wide slot only. */
function columnOf(w: Worksheet, r: PanelRequest, connector: string, size: Known<"size">): string {
  if (connector !== "slotted screw") return connector;
  if (r.slot) return r.slot === "wide" ? WIDE : NARROW;
  if (!w.has("torque-screw-connectors", NARROW, size)) return WIDE;
  const [width, length] = [w.constant("torque-wide-slot"), w.constant("torque-long-slot")];
  throw need(
    "slot",
    `Is the slot of the screw wider than ${printValue(w.value(width))} or longer than ${
      printValue(w.value(length))
    }, or neither?`,
    "wide slot",
  );
}

function ofSocket(w: Worksheet, { socket }: PanelRequest): Known<"lbf-in"> {
  if (socket === undefined) {
    throw need("socket", "What size is the hex or square socket across its flats?", "5/16 in socket");
  }
  const across = w.given("socket across flats", asQuantity(socket));
  return w.lookUp<"lbf-in">("torque by default", "torque-socket-screws", "torque", across);
}

/** Screws smaller than No. 10 go by their slot. */
function ofSmallScrew(w: Worksheet, { slot, slotLength }: PanelRequest): Known<"lbf-in"> {
  if (slotLength === undefined) {
    throw need("slotLength", "How long is the slot of the screw?", "slot 1/4 in long");
  }
  if (slot === undefined) throw need("slot", "Is the slot narrower than 0.047 in. or that wide?", "narrow slot");
  const length = w.given("slot length", asQuantity(slotLength));
  const longest = w.constant<"in">("torque-small-longest-slot");
  const isOver = w.holds(length, ">", longest);
  const row = w.atMost<"size">(
    "row of the slot",
    "torque-small-screws",
    "slot length from",
    length,
    (key) => isOver || !key.startsWith("over"),
  );
  return w.lookUp<"lbf-in">("torque by default", "torque-small-screws", `${slot} slot`, row);
}

/** What was set against what is wanted. */
function judgeSet(w: Worksheet, r: PanelRequest, wanted: Known<"lbf-in">): Judgement[] {
  if (!r.set) return [];
  const set = w.given("torque set", asQuantity(r.set));
  const what = connectionOf(r);
  if (w.holds(set, "=", wanted)) {
    w.enter(what, wanted, set, "ok");
    return [judge(what, "ok", w.say`${set} is what is wanted`)];
  }
  if (isTheSame(w, r, set, wanted)) {
    w.enter(what, wanted, set, "ok");
    return [judge(what, "ok", w.say`${set} is ${wanted}, as near as its figures tell`)];
  }
  const isLoose = w.holds(set, "<", wanted);
  w.enter(what, wanted, set, "not ok");
  return [judge(
    what,
    "not ok",
    isLoose
      ? w.say`${set} is below ${wanted}: loose, tighten it to the value`
      : w.say`${set} is above ${wanted}: strands and lug may be damaged, undo it, look, cut back and land it again`,
  )];
}

/** Whether what was set in another unit than is wanted is that value, rounded to the figures it was told with. */
function isTheSame(w: Worksheet, { set, marked }: PanelRequest, told: Known, wanted: Known<"lbf-in">): boolean {
  if (set!.unit === (marked?.unit ?? "lbf-in")) return false;
  const places = String(set!.value).split(".")[1]?.length ?? 0;
  const half = w.given("half of its last figure", { n: `1/${2 * 10 ** places}`, unit: set!.unit });
  return w.holds(calc`abs(${told} − ${wanted})`, "≤", half);
}

function cautions(w: Worksheet, r: PanelRequest): void {
  if (!r.marked) {
    w.caution("The value on the lug, breaker or panel governs; this holds only where there is none.", "torque");
  }
  w.caution("De-energized, with a calibrated tool, to the value once.", "torque");
  if (r.material === "aluminum") {
    w.caution("The terminal must be marked AL or AL/CU; brush the strands, compound where the maker wants it.");
  }
  if (r.connector === "split bolt") {
    w.caution("A split bolt takes no two metals without a spacer that is listed for it.");
  }
}
