/** What the figures of a branch circuit leave open, and asks: whether loads share it, what bare amperes are. */
import type { Draft, Fact } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { lines } from "../../parts/run-takes.ts";
import { type CircuitKind, isCooking } from "./loads.ts";
import type { SaidLoad } from "./request.ts";

/** `is a 45 enough for 100 A of three phase`: less than the amperes, a bare number may as well be a transformer's kVA. */
export function askWhetherTransformer(t: Taker, draft: Draft, loads: readonly Partial<SaidLoad>[]): void {
  const device = t.all("device").find(({ others, slots }) =>
    others?.includes("implied") && slots.rating?.[0]?.sense.is === "number"
  );
  const n = (device?.slots.rating?.[0]?.sense as { n: number } | undefined)?.n;
  const amperes = loads.reduce((sum, { rating }) => sum + (rating?.unit === "A" ? Number(rating.value) : 0), 0);
  const isPlain = loads.every(({ kind }) => kind === "load") && !lines(t).some(({ slots }) => slots.size);
  if (n === undefined || draft.phases !== 3 || !isPlain || amperes <= n) return;
  t.ask({ field: "breaker", ask: `Is ${n} a breaker's amperes or a transformer's kVA?`, example: `${n} A breaker` });
}

/** Appliances that are named side by side are on one circuit only where that is said, or where a rule puts them there. */
export function askWhetherOne(t: Taker, { loads = [] }: { loads?: Partial<SaidLoad>[] }): void {
  const kinds = new Set(loads.map(({ kind }) => kind).filter((kind) => kind !== "load"));
  const isOne = t.said("motorWord:one-branch") || t.wants("circuit:circuit") || t.all("circuit").length > 0;
  // `oven and cooktop, separate circuits`
  const areApart = t.said("motorWord:alone") && kinds.size > 1;
  if (
    !areApart &&
    (kinds.size < 2 || isOne || [...kinds].every((kind) => kind && (isCooking(kind) || SHARED.includes(kind))))
  ) return;
  t.ask({
    field: "loads",
    ask:
      "Are these on one circuit together, or does each have its own? Ask for one at a time, or say “on one circuit”.",
    example: "on one circuit",
  });
}

/** `27 kW water heater, 40 A feeds`: amperes beside a load that has its power, and nothing that adds them to it. */
export function askWhetherDevice(t: Taker, heads: readonly Fact[]): void {
  const isNamed = heads.some(({ id, slots }) =>
    id !== undefined && id !== "load" && (slots.rating ?? slots.nameplate ?? slots.draw ?? slots["full-load-current"])
  );
  const loose = heads.find(({ id, slots, others }) =>
    id === undefined && slots.current && !slots.hours && !others?.some((each) => ADDED.includes(each))
  );
  const n = (loose?.slots.current?.[0]?.sense as { n?: number } | undefined)?.n;
  if (!isNamed || n === undefined) return;
  t.ask({
    field: "loads",
    ask: `What is ${n} A: a breaker, or another load on the circuit?`,
    example: `${n} A breaker`,
  });
}
const ADDED = ["joined", "twin", "added"];
/** What general circuits carry side by side. */
const SHARED: readonly CircuitKind[] = ["lighting", "receptacles", "refrigerator", "microwave"];
