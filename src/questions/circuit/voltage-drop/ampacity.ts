/** A run must be allowed by its ampacity too, where it lies and with the breaker it has. */
import { calc } from "../../../core/formula.ts";
import type { Known, Verdict } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { type Conditions, wiringOf } from "../../../rules/conditions.ts";
import { ampacityOf, chooseConductor, smallLimit, tooHot, whyNone } from "../../../rules/conductors.ts";
import { unfit } from "../../../rules/fitness.ts";
import { largestBreaker, protects, showProtection, usualBreaker } from "../../../rules/overcurrent.ts";
import { tooSmallToParallel } from "../../../rules/parallel.ts";
import type { Run } from "../../../rules/voltage-drop.ts";
import { motorTerminals } from "../../parts/motors.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { isMotor } from "./circuit.ts";
import { OF_STATED_IMPEDANCE, type Setting, type Wiring } from "./run.ts";

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

/** Whether a told conductor carries the load and may have the breaker. */
export function carries(w: Worksheet, run: Run, { r, load }: Placed): Check {
  const { size, material, sets } = run;
  if (w.word(size) === OF_STATED_IMPEDANCE) return { is: "ok", because: "" };
  w.part("Ampacity");
  const { needed, device } = dutyOf(w, { r, load });
  const wire = `${w.size(size)} ${material}`;
  if (!w.has(TABLE, `${material} 75 °C`, size)) return notJudged(w, wire, run, needed);
  const wiring = (terminals: Conditions["terminals"]) =>
    wiringOf(w, { ...r, material, terminals }, device ?? needed, unmarkedOf(r));
  const against = unfit(w, r, size);
  const refused = (sets && tooSmallToParallel(w, size)) ?? against.find(({ is }) => is === "not ok")?.because ??
    w.scratch(() => tooHot(w, wiring(r.terminals)));
  if (refused) return { is: "not ok", because: refused };
  const limit = isMotor(r) ? undefined : smallLimit(w, size, material);
  const isKept = limit === undefined || w.choose<boolean>(
    "small-conductor limit",
    [device ?? needed, "≤", limit],
    ["kept", () => true],
    ["exceeded", () => false],
    "small-conductors",
  );
  if (!isKept) {
    const because = device
      ? w.say`${wire} may have a ${limit} breaker at most, not ${device}`
      : w.say`${wire} may have a ${limit} breaker at most, too little for ${needed}`;
    return { is: "not ok", because };
  }
  const all = (terminals: Conditions["terminals"]) => {
    const { ampacity } = ampacityOf(w, size, wiring(terminals));
    return sets ? w.work("ampacity of all sets", "A", calc`${ampacity} × ${sets}`) : ampacity;
  };
  const enough = (ampacity: Known<"A">) => {
    const carried = w.choose<boolean>(
      "load against ampacity",
      [needed, "≤", ampacity],
      ["carried", () => true],
      ["too much", () => false],
      "ampacity",
    );
    if (!carried || device === undefined) return carried;
    const isProtected = protects(w, device, ampacity);
    if (isProtected) showProtection(w, device, ampacity);
    else {
      w.choose(
        "breaker on this conductor",
        [device, "≤", largestBreaker(w, ampacity)],
        ["allowed", () => {}],
        ["more than it may have", () => {}],
        "next-size-up",
      );
    }
    return isProtected;
  };
  const ampacity = all(r.terminals);
  const conditions = against.map(({ because }) => because);
  if (enough(ampacity)) {
    return conditions.length > 0 ? { is: "ok if", because: conditions.join(", and ") } : { is: "ok", because: "" };
  }
  const marked = { value: 75, unit: "°C" } as const;
  const what = device ? w.say`a ${device} breaker` : w.say`${needed}`;
  if (r.terminals === undefined && w.scratch(() => enough(all(marked)))) {
    const ends = w.say`all terminations are marked 75 °C (${wire} carries ${ampacity} here otherwise)`;
    return { is: "ok if", because: [ends, ...conditions].join(", and ") };
  }
  return { is: "not ok", because: w.say`${wire} carries ${ampacity} here, too little for ${what}` };
}

/**
 * A size that the ampacity table gives no power circuit: what it says at its best temperature may rule it out; otherwise
 * the drop alone was judged, and that is said.
 */
function notJudged(w: Worksheet, wire: string, { size, material, sets }: Run, needed: Known<"A">): Check {
  const best = `${material} 90 °C`;
  if (w.has(TABLE, best, size)) {
    const one = w.lookUp<"A">("ampacity at the most", TABLE, best, size);
    const most = sets ? w.work("ampacity of all sets", "A", calc`${one} × ${sets}`) : one;
    const isEnough = w.choose<boolean>(
      "load against the most it carries",
      [needed, "≤", most],
      ["not ruled out", () => true],
      ["too much", () => false],
      "ampacity",
    );
    if (!isEnough) {
      return { is: "not ok", because: w.say`${wire} carries ${most} at the most, too little for ${needed}` };
    }
  }
  return {
    is: "ok if",
    because: w
      .say`${wire} may carry ${needed} here: the table has no ampacity for power circuits of it, only the drop was judged`,
  };
}

/** Why none of this wiring may lie where it is told to, or why its cable ends; undefined where neither is so. */
export function whyNoneHere(w: Worksheet, { r, load }: Placed, wiring: Wiring): string | undefined {
  return w.scratch(() => whyNone(w, wiringOf(w, { ...r, material: wiring.material }, load.total, unmarkedOf(r))));
}

/**
 * The device that a load takes at least, where none was told: it is what rules the small sizes out that would carry the
 * load alone. Above the reach of the next size up it says nothing of the conductor.
 */
function usualDevice(w: Worksheet, { r, load }: Placed): Known<"A"> | undefined {
  if (isMotor(r) || w.holds(load.total, ">", w.constant<"A">("next-size-up-limit"))) return undefined;
  return usualBreaker(w, load.total, "breaker that the load takes at least");
}

/** The smallest conductor whose ampacity is enough; undefined where no single one is. */
export function leastByAmpacity(w: Worksheet, placed: Placed, wiring: Wiring): Known<"size"> | undefined {
  const { needed, device = usualDevice(w, placed) } = dutyOf(w, placed);
  const wires = wiringOf(w, { ...placed.r, material: wiring.material }, device ?? needed, unmarkedOf(placed.r));
  const duty = {
    design: needed,
    load: needed,
    ...(device && { device }),
    ...(wiring.sets && { sets: wiring.sets, least: w.size(w.constant<"size">("parallel-least-size")) }),
  };
  return w.ifCovered(() => chooseConductor(w, duty, wires, "least conductor by ampacity").size);
}
