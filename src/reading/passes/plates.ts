/** Figures of a nameplate to the load they are of. */
import type { Value } from "../facts.ts";
import { type Label, LABELS } from "../families.ts";
import type { Draft, Reading } from "./reading.ts";
import { FACTS_AROUND, LABEL_REACH } from "./words.ts";

/** Figures of a nameplate to the load before them, or the one behind; without any they are one nameplate. */
export function nameplates(r: Reading): void {
  for (const label of r.labels) {
    const value = label.slots.value?.[0];
    const rule = LABELS[label.id as never] as Label;
    if (!value) continue;
    if (!rule.ofLoad) {
      r.free.push({ key: label.id!, value: inFeet(withLabel(r, value, label)), sentence: label.sentence });
      continue;
    }
    const slot = rule.slot ?? label.id!;
    const [before, after] = loadsBeside(r, label, slot);
    const isHere = (load: Draft | undefined) => load?.sentence === label.sentence;
    const near = isHere(before) && isHere(after)
      ? r.between(before!.at, label.at) <= r.between(label.at, after!.at) + 1 ? before : after
      : isHere(before)
      ? before
      : isHere(after)
      ? after
      : before ?? after;
    let owner = near;
    if (!owner) {
      owner = r.draft("load", undefined, label.at);
      owner.pieces = [];
      r.facts.push(owner);
      r.facts.sort((a, b) => a.at - b.at);
    }
    owner.slots[slot] = [withLabel(r, value, label)];
  }
}

/** `the run is 300`: how far, in feet. */
const inFeet = (value: Value): Value =>
  value.label === "length" && value.sense.is === "number"
    ? { ...value, sense: { is: "quantity", n: value.sense.n, unit: "ft" }, note: `took "${value.said}" as feet` }
    : value;

/** The nearest load on each side that has no such figure yet. */
function loadsBeside(r: Reading, label: Draft, slot: string): [Draft | undefined, Draft | undefined] {
  let [low, high] = [0, r.facts.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (r.facts[middle]!.at < label.at) low = middle + 1;
    else high = middle;
  }
  const isFree = (fact: Draft) => fact.family === "load" && !fact.slots[slot];
  const before = r.facts.slice(Math.max(0, low - FACTS_AROUND), low).findLast(isFree);
  const after = r.facts.slice(low, low + FACTS_AROUND).find((fact) => fact.at > label.at && isFree(fact));
  return [before, after];
}

function withLabel(r: Reading, value: Value, label: Draft): Value {
  const pieces = [...new Set([...value.pieces, ...label.pieces])];
  for (const piece of label.pieces) r.used.add(piece);
  return { ...value, pieces, label: label.id! };
}

/** `RLA 22.4 fan 1.5`, `1.4 on the fan`: beside a compressor's marked current a fan's bare number is its own. */
export function partsOfPlate(r: Reading): void {
  if (!r.facts.some(({ slots }) => slots["rated-load-current"])) return;
  const fans = r.facts.filter(({ id, slots }) =>
    (id === "fan" || id === "air-handler") && !slots.current && !slots["full-load-current"] && !slots.rating
  );
  r.cut(fans, r.figures((s) => s.is === "number"), (_, figure) => {
    const { n } = r.pieces[figure]!.senses.find((s) => s.is === "number") as { n: number };
    // `2 fans` are two of them.
    const before = Number.isInteger(n) ? -1 : LABEL_REACH;
    return { sense: { is: "quantity", n, unit: "A" }, slot: "current", before, after: 0.9 };
  });
}
