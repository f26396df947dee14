/** What the sources count for on the busbar. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { lineCurrent } from "../../../rules/power.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { BackfeedRequest, Source } from "./request.ts";

export type Counted = {
  /** 125 % of the output, or the breaker where the output was not told. */
  current: Known<"A">;
  /** Their breakers together, where all were told. */
  breakers?: Known<"A">;
};

/** Undefined where no source was told with a size. */
export function countSources(w: Worksheet, request: BackfeedRequest): Counted | undefined {
  const sized = (request.sources ?? []).filter(({ breaker, output }) => breaker ?? output);
  if (sized.length === 0) return undefined;
  w.part("Sources");
  const currents = sized.map((source) => ofOne(w, request, source));
  const current = currents.length === 1 ? currents[0]! : w.work("all sources", "A", calc`sum(${currents})`);
  w.figure("source-current", current, "current of the sources as counted");
  if (sized.some(({ breaker }) => !breaker)) return { current };
  const breakers = sized.map(({ breaker, count, kind }) =>
    all(w, w.given(`breaker of the ${kind}`, asQuantity(breaker!)), count, "breakers")
  );
  return {
    current,
    breakers: breakers.length === 1 ? breakers[0]! : w.work("source breakers", "A", calc`sum(${breakers})`),
  };
}

const all = (w: Worksheet, each: Known<"A">, count: number, name: string): Known<"A"> =>
  count === 1
    ? each
    : w.work(`${name} together`, "A", calc`${each} × ${w.given("how many", { n: String(count), unit: "1" })}`);

function ofOne(w: Worksheet, { volts, supply }: BackfeedRequest, { kind, count, breaker, output }: Source): Known<"A"> {
  if (!output) {
    w.suppose(
      `what the ${kind} counts for`,
      "its breaker",
      "its output was not told; a breaker is never below 125 % of it",
      `${kind} output 24 A`,
    );
    return all(w, w.given(`breaker of the ${kind}, as its share`, asQuantity(breaker!)), count, "breakers");
  }
  const rated = output.unit === "A"
    ? w.given(`output of the ${kind}`, { n: asQuantity(output).n, unit: "A" })
    : ofPower();
  function ofPower(): Known<"A"> {
    const voltage = volts ? w.given("voltage of the source", asQuantity(volts)) : w.assume<"V">("source-voltage");
    const unit = output!.unit === "W" ? "VA" : output!.unit === "kW" ? "kVA" : output!.unit as "VA" | "kVA";
    const power = w.given(`power of the ${kind}`, { n: asQuantity(output!).n, unit });
    return lineCurrent(w, power, voltage, supply === "three-phase" ? 3 : 1, `output of the ${kind}`);
  }
  const counted = w.work(
    `${kind} as counted`,
    "A",
    calc`${rated} × ${w.constant("busbar-source-factor")}`,
    "busbar-sum",
  );
  return all(w, counted, count, `${kind} sources`);
}
