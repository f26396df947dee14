/** A run must be allowed by its ampacity too, where it lies and with the breaker it has. */
import { calc } from "../../core/formula.ts";
import type { Known, Verdict } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { type Conditions, wiringOf } from "../../rules/conditions.ts";
import { ampacityOf, chooseConductor, sizeInWords, smallLimit } from "../../rules/conductors.ts";
import { protects } from "../../rules/overcurrent.ts";
import type { Run } from "../../rules/voltage-drop.ts";
import { motorTerminals } from "../motors.ts";
import { asQuantity } from "../question.ts";
import { isMotor } from "./circuit.ts";
import type { Setting, Wiring } from "./run.ts";

const TABLE = "conductor-ampacity";

type Check = { is: Verdict; because: string };
type Placed = Pick<Setting, "r" | "load">;

/** A motor's conductors carry a share more than its current, and its breaker does not protect them from overload. */
function dutyOf(w: Worksheet, { r, load }: Placed): { needed: Known<"A">; device?: Known<"A"> } {
  if (isMotor(r)) {
    const factor = w.constant<"%">("motor-conductor-factor");
    return { needed: w.work("ampacity a motor needs", "A", calc`${load.total} × ${factor}`, "motor-conductors") };
  }
  return { needed: load.total, ...(r.breaker && { device: w.given("breaker", asQuantity(r.breaker)) }) };
}

/** Motors' terminations have a rule of their own where their marking is not known. */
const unmarkedOf = (r: Placed["r"]) => isMotor(r) ? { whenUnmarked: motorTerminals } : {};

/** Whether a told conductor carries the load and may have the breaker. Sizes without an ampacity are not judged. */
export function carries(w: Worksheet, run: Run, { r, load }: Placed): Check {
  const { size, material, sets } = run;
  if (!w.has(TABLE, `${material} 75 °C`, size)) return { is: "ok", because: "" };
  w.part("Ampacity");
  const { needed, device } = dutyOf(w, { r, load });
  const wire = `${sizeInWords(w.word(size))} ${material}`;
  const limit = device && smallLimit(w, size, material);
  if (limit && w.holds(device, ">", limit)) {
    return { is: "not ok", because: w.say`${wire} may have a ${limit} breaker at most, not ${device}` };
  }
  const all = (terminals: Conditions["terminals"]) => {
    const wires = wiringOf(w, { ...r, material, terminals }, device ?? needed, unmarkedOf(r));
    const { ampacity } = ampacityOf(w, size, wires);
    return sets ? w.work("ampacity of all sets", "A", calc`${ampacity} × ${sets}`) : ampacity;
  };
  const enough = (ampacity: Known<"A">) =>
    w.holds(needed, "≤", ampacity) && (device === undefined || protects(w, device, ampacity));
  const ampacity = all(r.terminals);
  if (enough(ampacity)) return { is: "ok", because: "" };
  const marked = { value: 75, unit: "°C" } as const;
  const what = device ? w.say`a ${device} breaker` : w.say`${needed}`;
  if (r.terminals === undefined && w.scratch(() => enough(all(marked)))) {
    return {
      is: "ok if",
      because: w.say`all terminations are marked 75 °C (${wire} carries ${ampacity} here otherwise)`,
    };
  }
  return { is: "not ok", because: w.say`${wire} carries ${ampacity} here, too little for ${what}` };
}

/** The smallest conductor whose ampacity is enough; undefined where no single one is. */
export function leastByAmpacity(w: Worksheet, placed: Placed, wiring: Wiring): Known<"word"> | undefined {
  const { needed, device } = dutyOf(w, placed);
  const wires = wiringOf(w, { ...placed.r, material: wiring.material }, device ?? needed, unmarkedOf(placed.r));
  const duty = {
    design: needed,
    load: needed,
    ...(device && { device }),
    ...(wiring.sets && { sets: wiring.sets, least: w.word(w.constant<"word">("parallel-least-size")) }),
  };
  return w.ifCovered(() => chooseConductor(w, duty, wires, "least conductor by ampacity").size);
}
