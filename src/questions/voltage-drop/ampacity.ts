/** A run must be allowed by its ampacity too: checked at common terminations, uncorrected, and said. */
import { calc } from "../../core/formula.ts";
import { NotCovered } from "../../core/outcome.ts";
import type { Known, Verdict } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { chooseConductor, type Material, sizeInWords, smallLimit } from "../../rules/conductors.ts";
import { protects } from "../../rules/overcurrent.ts";
import { terminationsOf } from "../../rules/wiring-methods.ts";
import type { Setting, Wiring } from "./run.ts";

const TABLE = "conductor-ampacity";
/** Terminations of small circuits, unless they are marked otherwise, and those of large ones. */
const LOW = "60 °C";
const HIGH = "75 °C";

type Check = { is: Verdict; because: string };

/** Whether a told conductor carries the load and may have the breaker. Sizes without an ampacity are not judged. */
export function carries(w: Worksheet, size: Known<"word">, material: Material, { load, r, wiring }: Setting): Check {
  const fine: Check = { is: "ok", because: "" };
  if (!w.has(TABLE, `${material} ${HIGH}`, size)) return fine;
  w.part("Ampacity");
  const wire = `${sizeInWords(w.word(size))} ${material}`;
  const at = (terminals: string) => {
    const one = w.lookUp<"A">(`ampacity at ${terminals} terminations`, TABLE, `${material} ${terminals}`, size);
    return wiring.sets ? w.work("ampacity of all sets", "A", calc`${one} × ${wiring.sets}`) : one;
  };
  const device = r.breaker && w.given("breaker", { n: String(r.breaker.value), unit: "A" });
  const enough = (ampacity: Known<"A">) =>
    w.holds(load.total, "≤", ampacity) && (device === undefined || protects(w, device, ampacity));
  if (device && w.scratch(() => exceedsSmallLimit(w, size, material, device))) {
    return { is: "not ok", because: w.say`a ${device} breaker is more than ${wire} may have` };
  }
  const [low, high] = [at(LOW), at(HIGH)];
  if (enough(low)) return fine;
  const what = device ? w.say`a ${device} breaker` : w.say`${load.total}`;
  return enough(high)
    ? { is: "ok if", because: w.say`${wire} carries ${what} only where all terminations are marked ${HIGH} (${high})` }
    : { is: "not ok", because: w.say`${wire} carries ${high} at most, too little for ${what}` };
}

function exceedsSmallLimit(w: Worksheet, size: Known<"word">, material: Material, device: Known<"A">): boolean {
  const limit = smallLimit(w, size, material);
  return limit !== undefined && w.holds(device, ">", limit);
}

/** The smallest conductor whose ampacity is enough; undefined where no single one is. */
export function leastByAmpacity(w: Worksheet, { load, r }: Setting, wiring: Wiring): Known<"word"> | undefined {
  const device = r.breaker && w.given("breaker", { n: String(r.breaker.value), unit: "A" });
  const terminals = terminationsOf(w, device ?? load.total, undefined);
  const common = {
    ambient: w.assume<"°C">("ambient-temperature"),
    count: w.assume<"1">("current-carrying-conductors"),
  };
  try {
    return chooseConductor(
      w,
      {
        design: load.total,
        load: load.total,
        ...(device && { device }),
        ...(wiring.sets && { sets: wiring.sets, least: "1/0" }),
      },
      { material: wiring.material, insulation: terminals, terminals, ...common },
      "least conductor by ampacity",
    ).size;
  } catch (error) {
    if (error instanceof NotCovered) return undefined;
    throw error;
  }
}
