/** What a branch circuit takes of its breaker and its receptacle. */
import type { Draft } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { deviceRating } from "../../parts/device-takes.ts";

/** Voltage and neutral of the common receptacle patterns. */
const PATTERNS: Record<number, { volts: number; neutral?: boolean }> = {
  5: { volts: 120 },
  6: { volts: 240 },
  10: { volts: 240 },
  14: { volts: 240, neutral: true },
};

/** The breaker, or a receptacle's rating; a circuit told by its amperes is its breaker. */
export function takeDevice(t: Taker, draft: Draft): void {
  for (const { sense } of t.free("pattern")) if (sense.is === "pattern") setPattern(sense, draft);
  for (const device of t.all("device", "breaker").filter(({ slots }) => slots.poles && !slots.rating)) {
    t.head(device);
    t.slot(device, "poles");
    if (t.number(device, "count") === 1) t.slot(device, "count");
  }
  const devices = t.all("device", "breaker", "fuse").filter(({ slots }) => slots.rating);
  const told = devices.flatMap((device) => {
    const rating = deviceRating(t, device);
    if (!rating) return [];
    t.head(device);
    t.slot(device, "poles");
    t.slot(device, "count");
    return [rating];
  });
  // `he quoted a 60 breaker, a 50 is plenty`: of several, the one that is needed is looked for.
  const values = [...new Set(told.map(({ value }) => Number(value)))];
  if (values.length < 2) draft.breaker ??= told[0];
  else t.note(`looked for the breaker needed, of ${values.join(" and ")} A`);
  if (draft.breaker === undefined) delete draft.breaker;
  for (const circuit of t.all("circuit", "circuit", "multiwire")) {
    t.head(circuit);
    t.slot(circuit, "poles");
    const rating = t.figure(circuit, "rating", "A");
    // Ratings of devices are round figures: a circuit of 24 A is spoken of by its load.
    if (rating && Number(rating.value) % 5 !== 0) draft.loads = [{ kind: "load", count: 1, rating }];
    else if (rating) draft.breaker ??= rating;
    const count = t.number(circuit, "count");
    if (count !== undefined && count > 1) draft.circuits = count;
    if (circuit.id === "multiwire") draft.neutral = true;
  }
}

/** What a receptacle's pattern tells: its rating, its voltage, whether it has a neutral. */
export function setPattern({ blades, amperes }: { blades: number; amperes: number }, draft: Draft): void {
  draft.receptacle = { value: amperes, unit: "A" };
  const pattern = PATTERNS[blades];
  if (pattern) draft.volts ??= { value: pattern.volts, unit: "V" };
  if (pattern?.neutral) draft.neutral = true;
}
