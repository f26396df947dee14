/** Plan checks: devices and a wire that were put up for the unit. */
import type { Known, Verdict } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { markedHigher } from "../../../rules/conditions.ts";
import { ampacityOf, type Wiring } from "../../../rules/conductors.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { anyOf, type Judgement, underMethod, verdictOf as worstOf } from "../../parts/verdict.ts";
import type { CoolingRequest } from "./request.ts";
import type { Unit } from "./unit.ts";

export type Checked = {
  devices: Judgement[];
  wire: Judgement[];
  /** The device put up that stands, if one does. */
  device?: Known<"A">;
  /** The conductor put up, where it stands, and what it carries here with the terminations that it stands with. */
  size?: Known<"size">;
  ampacity?: Known<"A">;
};

export function check(w: Worksheet, r: CoolingRequest, unit: Unit, wiring: Wiring): Checked {
  if (!r.breakers && !r.fuses && !r.size) return { devices: [], wire: [] };
  w.part("Check");
  const devices = [
    ...(r.breakers ?? []).map((said) => ({ said, kind: "breaker" as const })),
    ...(r.fuses ?? []).map((said) => ({ said, kind: "fuse" as const })),
  ].map(({ said, kind }) => {
    const rating = w.given(`${kind} put up for checking`, asQuantity(said));
    return { rating, what: w.say`${rating} ${kind}`, ...judgeDevice(w, r, unit, rating, kind) };
  });
  const size = r.size === undefined ? undefined : w.given("size put up for checking", r.size);
  const judged = size && judgeSize(w, r, size, unit, wiring);
  const isStanding = judged !== undefined && judged.is !== "not ok";
  const standing = devices.find(({ is }) => is !== "not ok");
  return {
    devices,
    wire: judged ? [judged] : [],
    ...(standing && { device: standing.rating }),
    ...(isStanding && { size, ampacity: judged.ampacity }),
  };
}

function judgeDevice(
  w: Worksheet,
  r: CoolingRequest,
  { smallest, largest, hardStarting }: Unit,
  rating: Known<"A">,
  kind: "breaker" | "fuse",
): Omit<Judgement, "what"> {
  const enough = w.choose(
    "not too small",
    [rating, "≥", smallest],
    ["kept", () => true],
    ["too small", () => false],
    "hermetic-nameplate",
  );
  if (!enough) {
    return { is: "not ok", because: w.say`${rating} is too small for the unit, which needs at least ${smallest}` };
  }
  if (!largest) return { is: "ok if", because: w.say`the nameplate's maximum is not below ${rating}` };
  const kept = w.choose(
    "not above the largest device",
    [rating, "≤", largest],
    ["kept", () => true],
    ["too large", () => false],
    "hermetic-protection",
  );
  const starts = !kept && hardStarting && w.choose<boolean>(
    "not above the largest where the compressor will not start",
    [rating, "≤", hardStarting],
    ["allowed then", () => true],
    ["too large then too", () => false],
    "hermetic-protection",
  );
  if (starts) return { is: "ok if", because: w.say`the compressor will not start on ${largest}` };
  if (!kept) return { is: "not ok", because: w.say`${rating} is above the largest device allowed, ${largest}` };
  if (r.markedFor === "fuse" && kind === "breaker") {
    return { is: "not ok", because: w.say`the nameplate names a fuse, and a ${rating} breaker is none` };
  }
  return { is: "ok", because: w.say`${rating} lies between ${smallest} and the largest allowed, ${largest}` };
}

function judgeSize(
  w: Worksheet,
  r: CoolingRequest,
  size: Known<"size">,
  unit: Unit,
  wiring: Wiring,
): Judgement & { ampacity: Known<"A"> } {
  const what = w.say`${size} ${wiring.material}`;
  const carries = (at: Wiring) => {
    const { ampacity } = ampacityOf(w, size, at);
    const because = w.say`${what} carries ${ampacity} here, the unit asks for ${unit.ampacity}`;
    const is = w.choose<Verdict>(
      "carries the circuit ampacity",
      [ampacity, "≥", unit.ampacity],
      ["enough", () => "ok"],
      ["falls short", () => "not ok"],
      "hermetic-conductors",
    );
    return { what, is, because, ampacity };
  };
  const judged: Judgement & { ampacity: Known<"A"> } = carries(wiring);
  // Terminations of unknown marking were taken as the lower ones: the higher may be what is there.
  const marked = markedHigher(w, r);
  if (judged.is === "ok" || !marked) return underMethod(w, r, size, judged);
  const terminals = w.constant<"°C">("terminal-temperature-large");
  const better = carries({ ...wiring, terminals });
  const best = better.is === "not ok" ? judged : { ...better, is: "ok if" as const, because: marked.condition };
  return underMethod(w, r, size, best);
}

/** A disconnect has to carry its share; one that does changes nothing else. */
export function judgeDisconnect(
  w: Worksheet,
  said: NonNullable<CoolingRequest["disconnect"]>,
  least: Known<"A">,
): Judgement {
  const rating = w.given("disconnect put up for checking", asQuantity(said));
  const what = w.say`${rating} disconnect`;
  const is = w.choose<Verdict>(
    "rating of the disconnect",
    [rating, "≥", least],
    ["enough", () => "ok"],
    ["too small", () => "not ok"],
    "hermetic-disconnect",
  );
  return { what, is, because: w.say`the ${what} needs a rating of at least ${least}` };
}

/** Of several devices to choose from one that stands is enough; the wire and the disconnect have to stand anyway. */
export const verdictOf = ({ devices, wire }: Checked, beside: readonly Judgement[]) =>
  worstOf([...anyOf(devices), ...wire, ...beside]);
