/** The circuit that a fault passes: voltage to ground, the conductor out, the equipment ground back, the source behind them. */
import { calc } from "../../../core/formula.ts";
import { type Need, need } from "../../../core/outcome.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { byAmpacity, type Material } from "../../../rules/conductors.ts";
import { bySize, type Impedance, ofStretch, sizeOf } from "../../../rules/faults.ts";
import { equipmentGround, groundInCable } from "../../../rules/grounding.ts";
import { type Conduit, conduitOf, impedanceOf } from "../../../rules/voltage-drop.ts";
import { isCable } from "../../../rules/wiring-methods.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import type { PathRequest, System } from "./request.ts";

export type Conductor = { size: Known<"size">; material: Material };
/** What a fault passes on its way out, whatever it returns by. */
export type WayOut = {
  volts: Known<"V">;
  breaker: Known<"A">;
  line: Conductor;
  conduit: Conduit;
  temperature?: Known<"°C">;
  source?: Impedance;
};
export type Circuit = WayOut & { ground: Conductor };

const TO_GROUND: Record<System, string> = { "120/240": "120", "208Y/120": "120", "480Y/277": "277", "600Y/347": "347" };
/** Between the lines of systems that have a grounded neutral, and to ground. */
const BETWEEN_LINES: Readonly<Record<string, string>> = { 208: "120", 480: "277", 600: "347" };
/** As high as a voltage to ground of a single-phase circuit is spoken of. */
const [LOW, CENTER_TAPPED] = [[110, 115, 120, 125, 277, 347], [220, 230, 240]];

export function missingFacts(r: PathRequest): Need[] {
  const needs: Need[] = [];
  if (!r.breaker) {
    needs.push({ field: "breaker", ask: "How many amperes is the breaker?", example: "20 A breaker" });
  }
  if (r.return === "earth") return needs;
  if (!r.size) {
    needs.push({ field: "size", ask: "Which wire or cable is the circuit?", example: "12/2 NM" });
  }
  const isMeasured = r.returnImpedance?.unit === "ohm" && r.return === "raceway" && !r.ground;
  if (!r.length && (r.find === undefined || isMeasured)) {
    needs.push({ field: "length", ask: "How far is it from the breaker to the fault, one way?", example: "140 ft" });
  }
  return needs;
}

/** Voltage from a line to ground, which is all that drives a fault to the case. */
export function voltsToGround(w: Worksheet, r: PathRequest): Known<"V"> {
  const name = "voltage to ground";
  if (r.system) return w.given(name, { n: TO_GROUND[r.system], unit: "V" }, `${r.system} V system`);
  if (!r.volts) return w.assume<"V">("voltage-to-ground");
  const volts = plain(r.volts);
  if (r.phases !== 3 && CENTER_TAPPED!.includes(volts)) {
    const lines = w.given("voltage between the lines", asQuantity(r.volts));
    return w.work(name, "V", calc`${lines} ÷ 2`, undefined, "the center of the winding is grounded");
  }
  const ofWye = BETWEEN_LINES[String(volts)];
  if (ofWye) return w.given(name, { n: ofWye, unit: "V" }, `of a ${volts}Y/${ofWye} V system`);
  if (LOW!.includes(volts)) return w.given(name, asQuantity(r.volts));
  throw need(
    "system",
    `How many volts has a line to ground, on ${volts} V${r.phases === 3 ? " three-phase" : ""}?`,
    "480Y/277 V system",
  );
}

/** The way out, and the wire that a fault returns by. */
export function circuitOf(w: Worksheet, r: PathRequest): Circuit {
  const { volts, breaker, line } = lineOf(w, r);
  const ground = groundOf(w, r, breaker, line);
  return { volts, breaker, line, ground, ...surroundings(w, r, volts) };
}

/** The way out alone, where no wire leads back. */
export function wayOutOf(w: Worksheet, r: PathRequest): WayOut {
  const out = lineOf(w, r);
  return { ...out, ...surroundings(w, r, out.volts) };
}

function lineOf(w: Worksheet, r: PathRequest): Pick<WayOut, "volts" | "breaker" | "line"> {
  const volts = voltsToGround(w, r);
  const breaker = w.given("breaker", asQuantity(r.breaker!));
  const material = r.material ?? w.word(w.assume<"word">("conductor-material")) as Material;
  return { volts, breaker, line: { size: w.given("ungrounded conductor", r.size!, material), material } };
}

function surroundings(
  w: Worksheet,
  r: PathRequest,
  volts: Known<"V">,
): Pick<WayOut, "conduit" | "temperature" | "source"> {
  const conduit = conduitOf(w, isCable(r.method) ? "PVC" : r.conduit);
  const temperature = r.temperature && w.given("conductor temperature", asQuantity(r.temperature));
  if (!temperature) w.assume<"°C">("fault-conductor-temperature");
  const source = sourceOf(w, r, volts);
  return { conduit, ...(temperature && { temperature }), ...(source && { source }) };
}

function groundOf(w: Worksheet, r: PathRequest, breaker: Known<"A">, line: Conductor): Conductor {
  const material = r.groundMaterial ?? line.material;
  if (r.ground) return { size: w.given("equipment ground", r.ground, material), material };
  const inCable = isCable(r.method) ? groundInCable(w, line.size, line.material, r.method) : undefined;
  if (inCable) {
    w.suppose(
      "equipment ground",
      w.say`${inCable} ${line.material}`,
      `as ${r.method} of this size is usually made`,
      "10 AWG ground",
    );
    return { size: inCable, material: line.material };
  }
  const size = smallestGround(w, breaker, line, material);
  w.suppose(
    "equipment ground",
    w.say`${size} ${material}`,
    "none was told: the smallest that is allowed",
    "10 AWG ground",
  );
  return { size, material };
}

/** The smallest wire that may be the equipment ground, grown with its line from what the breaker needs. */
export function smallestGround(
  w: Worksheet,
  breaker: Known<"A">,
  line: Conductor,
  material: Material,
): Known<"size"> {
  // The column of terminations of unknown marking; above it a colder one would call no line upsized, and its ground too small.
  const isSmall = w.holds(breaker, "≤", w.constant<"A">("terminal-temperature-small-to"));
  const column = w.constant<"°C">(isSmall ? "terminal-temperature-small" : "terminal-temperature-large");
  const needed = w.ifCovered(() => byAmpacity(w, "conductor that the breaker needs", breaker, column, line.material));
  return equipmentGround(w, breaker, material, line.size, needed && { installed: line.size, needed });
}

/** What stands behind the panel, where it was told. */
function sourceOf(w: Worksheet, r: PathRequest, volts: Known<"V">): Impedance | undefined {
  if (!r.source) {
    w.suppose(
      "source",
      "without impedance",
      "nothing was told of it; what there is takes something off the current",
      "2 kA available at the panel",
    );
    return undefined;
  }
  const current = w.given("fault current at the panel", convert(asQuantity(r.source), "A"), "of a line to ground");
  const z = w.work("Z of the source", "ohm", calc`${volts} ÷ ${current}`);
  if (r.ratio !== undefined) {
    return bySize(w, z, w.given("X/R of the source", { n: String(r.ratio), unit: "1" }), "of the source");
  }
  w.suppose("source impedance", "resistance alone", "its X/R was not told; so it takes most off the current", "X/R 2");
  return bySize(w, z, "r", "of the source");
}

/** Impedance of one conductor of the circuit over a length. */
export const overLength = (
  w: Worksheet,
  c: WayOut,
  { size, material }: Conductor,
  length: Known<"ft">,
  name: string,
): Impedance =>
  ofStretch(w, {
    size,
    material,
    conduit: c.conduit,
    length,
    name,
    ...(c.temperature && { temperature: c.temperature }),
  });

/** The most impedance that still lets a current through, spent on the run: how far it may go. */
export function longestRun(w: Worksheet, c: Circuit, current: Known<"A">): Known<"ft"> | undefined {
  const most = w.work("Z that lets it through", "ohm", calc`${c.volts} ÷ ${current}`);
  const { r: line, x: lineX } = perLength(w, c, c.line);
  const { r: ground, x: groundX } = perLength(w, c, c.ground);
  const r = w.work("R of line and ground per length", "ohm/kft", calc`${line} + ${ground}`);
  const x = w.work("X of line and ground per length", "ohm/kft", calc`${lineX} + ${groundX}`);
  const name = "longest run, one way";
  if (!c.source) return w.work(name, "ft", calc`${most} ÷ sqrt(${r} × ${r} + ${x} × ${x})`);
  const own = sizeOf(w, c.source, "Z of the source")!;
  if (!w.holds(own, "<", most)) return undefined;
  const [sr, sx] = [c.source.r, c.source.x];
  const across = sr && sx ? calc`${sr} × ${r} + ${sx} × ${x}` : sr ? calc`${sr} × ${r}` : calc`${sx!} × ${x}`;
  const size = calc`sqrt(${r} × ${r} + ${x} × ${x})`;
  const z = w.work("Z of line and ground per length", "ohm/kft", size);
  const along = w.work("Z of the source along the run's", "ohm", { op: "÷", args: [across, { ref: z }] });
  return w.work(name, "ft", calc`(sqrt(${along} × ${along} + ${most} × ${most} − ${own} × ${own}) − ${along}) ÷ ${z}`);
}

/** R and X of one conductor of the circuit per length. */
export function perLength(w: Worksheet, c: WayOut, { size, material }: Conductor) {
  const wire = { size, material, conduit: c.conduit, ...(c.temperature && { temperature: c.temperature }) };
  const { resistance, reactance } = impedanceOf(w, wire);
  return { r: resistance, x: reactance! };
}
