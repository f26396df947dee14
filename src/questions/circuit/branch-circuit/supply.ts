/** The circuit's voltage and phases. */
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { askLineToLine, isLineToNeutral, type Phases } from "../../../rules/power.ts";
import { type CircuitKind, nameOf, usualVolts } from "./loads.ts";
import { plain } from "../../parts/quantities.ts";
import type { CircuitRequest } from "./request.ts";

export type Supply = { volts?: Known<"V">; phases: Phases; nominal?: number };

/** Older names of the nominal voltages. */
const NOMINAL: Readonly<Record<string, number>> = {
  110: 120,
  115: 120,
  125: 120,
  220: 240,
  230: 240,
  250: 240,
  440: 480,
  460: 480,
  575: 600,
};
const KNOWN = [120, 208, 240, 277, 347, 480, 600];
/** Voltages that a circuit may have on one phase or on three. */
const EITHER_PHASE = [208, 480, 600];

const isPower = (unit: string | undefined) => unit !== undefined && unit !== "A";

export function supplyOf(w: Worksheet, r: CircuitRequest): Supply {
  const kinds = (r.loads ?? []).map(({ kind }) => kind);
  const power = (r.loads ?? []).some(({ rating }) => isPower(rating?.unit));
  if (r.volts === undefined) return assumed(w, r, kinds, power);
  const said = plain(r.volts);
  const nominal = NOMINAL[said] ?? said;
  if (!KNOWN.includes(nominal)) {
    throw need(
      "volts",
      `${said} V is no nominal voltage I know here. Which is it: 120, 208, 240, 277, 347, 480 or 600 V?`,
      "240 V",
    );
  }
  if (r.phases === 3 && isLineToNeutral(nominal)) {
    throw need(...askLineToLine(nominal));
  }
  const named = kinds.some((kind) => kind !== "load");
  if (r.phases === undefined && EITHER_PHASE.includes(nominal) && power && !named) {
    throw need("phases", `Is the ${nominal} V load single-phase or three-phase?`, `${nominal} V three phase`);
  }
  const volts = w.given(
    "voltage",
    { n: String(nominal), unit: "V" },
    nominal === said ? undefined : `${said} V is the nominal ${nominal} V system`,
  );
  if (r.phases === undefined && (EITHER_PHASE.includes(nominal) || nominal === 240 && !named)) {
    w.suppose("phases", "single-phase", "no phases were told", "three phase");
  }
  return { volts, phases: r.phases ?? 1, nominal };
}

/** Smaller receptacles are as often 120 V ones (common practice, no source). */
const LEAST_OF_BOTH_LINES = 40;

function assumed(w: Worksheet, r: CircuitRequest, kinds: readonly CircuitKind[], power: boolean): Supply {
  if (r.phases === 3) throw need("volts", "Which three-phase voltage: 208, 240 or 480 V?", "208 V three phase");
  // `a 50 A receptacle`: of that size hardly any is made for 120 V alone.
  const isLarge = r.receptacle !== undefined && plain(r.receptacle) >= LEAST_OF_BOTH_LINES;
  const usual = new Set(kinds.map((kind) => isLarge && kind === "receptacles" ? 240 : usualVolts(kind)));
  const one = usual.size === 1 ? [...usual][0] : undefined;
  if (one === undefined) {
    if (power || r.length) throw need("volts", "At what voltage?", "240 V");
    return { phases: 1 };
  }
  if (one === 240) return { volts: w.assume<"V">("supply-voltage"), phases: 1, nominal: 240 };
  const volts = w.constant<"V">("branch-circuit-voltage");
  w.suppose("voltage of the circuit", w.say`${volts}`, `usual for ${nameOf(kinds[0]!)}`, "240 V");
  return { volts, phases: 1, nominal: 120 };
}
