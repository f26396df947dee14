/** What a branch circuit takes of its conductors and its neutral. */
import type { Draft } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { lines, type takeSupply } from "../../parts/run-takes.ts";

/** The wire, the cable or the sizes to choose from that were told. */
export function takeConductor(t: Taker, draft: Draft): void {
  const sized = lines(t).filter(({ id, slots }) => slots.size && id !== "neutral");
  const sizes: string[] = [];
  for (const fact of sized) {
    const sense = t.slot(fact, "size")!.sense;
    t.head(fact);
    if (sense.is === "size") sizes.push(sense.size);
    if (sense.is === "cable") {
      sizes.push(sense.size);
      draft.wires = sense.wires;
      if (!t.all("conductor").some(({ slots }) => slots.insulation)) {
        draft.method = "NM cable";
        t.note(`took ${sense.size}/${sense.wires} as NM cable`);
      }
    }
    if (sense.is === "sizes") sizes.push(sense.sizes[0]!);
  }
  const different = [...new Set(sizes)];
  if (different.length > 1 && t.said("change:or")) draft.options = different;
  else if (different.length === 1) draft.size = different[0];
  else if (different.length > 1) draft.options = different;
}

/** Whether there is a neutral, and whether it counts. */
export function takeNeutral(t: Taker, draft: Draft, { low, high, wye }: ReturnType<typeof takeSupply>): void {
  // Three wires of 120/240 V are both lines and the neutral.
  const isBoth = low !== undefined && low * 2 === high && !wye && draft.phases !== 3;
  if (isBoth && t.said("connection:three-wire", "connection:four-wire")) draft.neutral = true;
  if (t.said("circuit:no-neutral")) draft.neutral = false;
  else if (t.said("circuit:with-neutral")) draft.neutral = true;
  if (t.said("circuit:neutral-counts", "circuit:nonlinear")) draft.neutralCounts = true;
  // A neutral that carries only what the lines differ by is there, and does not count.
  else if (t.said("circuit:balanced-neutral")) draft.neutral ??= true;
  if (t.asks("role:neutral")) draft.neutral ??= true;
}
