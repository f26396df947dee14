/** How appliances lie between the phases of a three-phase supply, as a request tells it and as it would be typed. */
import * as z from "zod";
import { need } from "../../core/outcome.ts";

const MOST = 2000;
const number = z.int().min(0).max(MOST);
/** How many between A and B, B and C, C and A. */
export const spread = z.tuple([number, number, number]).optional();

const PAIRS = ["A-B", "B-C", "C-A"] as const;
export const writeSpread = (told: readonly number[] | undefined): string =>
  told ? `, ${told.map((n, i) => `${n} on ${PAIRS[i]}`).join(", ")}` : "";

/** Whether a list's spreads come to its numbers. @throws Unclear where they do not, or where some have one and some none. */
export function checkSpreads(
  items: readonly { count: number; spread?: readonly number[] | undefined }[],
  supply: "single-phase" | "three-phase" | undefined,
): void {
  const told = items.filter(({ spread }) => spread);
  if (told.length === 0) return;
  const isWhole = told.length === items.length &&
    items.every(({ count, spread }) => spread!.reduce((sum, n) => sum + n, 0) === count);
  if (supply === "single-phase" || !isWhole) {
    throw need(
      "spread",
      supply === "single-phase"
        ? "On a single-phase supply there are no pairs of phases. Is it three-phase?"
        : "The numbers between the phases do not come to how many there are. How many lie between each two phases?",
      "6 on A-B, 6 on B-C, 8 on C-A",
    );
  }
}
