/** The available fault current where a circuit or feeder starts, told beside it: what its breaker has to interrupt. */
import { convert } from "../../core/quantity.ts";
import type { Draft } from "../../reading/facts.ts";
import { saidOf, type Taker } from "../../reading/take.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { asQuantity, quantity } from "./quantities.ts";

export const available = {
  /** Available fault current where it starts. */
  available: quantity(["A", "kA"], { A: 300_000, kA: 300 }).optional(),
};
type Told = { available?: { value: number | string; unit: "A" | "kA" } | undefined };

export const FAULT_FIGURES = {
  "available-fault-current": "available fault current where it starts",
  "interrupting-rating": "lowest suitable interrupting rating",
} as const;

/** Gives the interrupting rating that the breaker at the start needs; nothing where no fault current was told. */
export function tellAvailable(w: Worksheet, { available }: Told): void {
  if (!available) return;
  w.part("Available fault current");
  const current = w.given("available fault current where it starts", convert(asQuantity(available), "A"));
  w.figure("available-fault-current", current);
  const rating = w.ifCovered(() =>
    w.atLeast<"kA">("lowest suitable interrupting rating", "interrupting-ratings", "rating", current)
  );
  if (rating) w.figure("interrupting-rating", rating);
  w.caution(
    rating
      ? w
        .say`The breaker where it starts interrupts ${rating} or more, for the ${current} there; less flows at the far end.`
      : w.say`No interrupting rating commonly made covers the ${current} where it starts.`,
    "interrupting-rating",
  );
}

/** `14 kA available at the panel`. */
export function takeAvailable(t: Taker, draft: Draft): void {
  // Of conductors that are told, and none asked for, the fault current is.
  if (!t.wants("role:wire", "device:breaker", "circuit:circuit")) return;
  for (const key of ["available-fault-current", "kA"]) {
    for (const { sense } of t.free(key)) draft.available ??= saidOf(sense);
  }
  // Asked for without a figure it is a question of its own.
  if (draft.available) t.said("label:available-fault-current", "goal:fault-current");
}

export const writeAvailable = ({ available }: Told): string | undefined =>
  available && `available fault current ${available.value} ${available.unit} at the source`;
