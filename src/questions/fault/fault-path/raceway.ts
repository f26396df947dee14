/**
 * A metal raceway as the way back of a fault. No impedance of one is held here: it changes with its make, its joints and the
 * current itself. One that was told is taken; otherwise the answer is how much the raceway may have.
 */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { printValue } from "../../../core/print.ts";
import { convert } from "../../../core/quantity.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { inSeries, sizeOf } from "../../../rules/faults.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { ledBy } from "../../parts/verdict.ts";
import { overLength, perLength, smallestGround, type WayOut, wayOutOf } from "./circuit.ts";
import { cautions, type Fault, judge } from "./fault.ts";
import type { PathRequest } from "./request.ts";
import { type Band, bandOf, tripOf } from "./trip.ts";

/** Its share of R and X is not known, so that it is added as if it had the angle of what it is added to. */
const ADDED = "added as sizes: whatever the raceway's angle, the loop has no more";

export function throughRaceway(w: Worksheet, r: PathRequest): Told {
  if (!r.length && !r.returnImpedance) {
    throw need(
      "returnImpedance",
      "No impedance of a metal raceway is held here: it hangs on its make, its joints and the current. How many ohms has it per 1000 ft, by its maker or measured, or which ground wire lies in it?",
      "raceway impedance 0.2 ohm per 1000 ft",
    );
  }
  w.part("Circuit");
  const out = wayOutOf(w, r);
  const length = r.length && w.given("length", convert(asQuantity(r.length), "ft"), "one way");
  const band = bandOf(w, r.trips);
  w.caution(
    "A raceway clears faults only while every coupling is tight; its impedance is more than its resistance on direct current.",
    "fault-path",
  );
  const refused = r.flexible && beyondItsUse(w, r.flexible, out, length);
  if (refused) return ledBy({ is: "not ok", because: refused }, `Pull ${wireInstead(w, out)} ground.`);
  if (!r.returnImpedance) return mostImpedance(w, r, out, length!, band);
  return byImpedance(w, r, out, length, band);
}

/** Why flexible conduit is no equipment ground there: it is one of short lengths and small circuits alone. */
function beyondItsUse(
  w: Worksheet,
  flexible: NonNullable<PathRequest["flexible"]>,
  { breaker }: WayOut,
  length: Known<"ft"> | undefined,
): string | undefined {
  const longest = w.constant<"ft">("flexible-ground-longest");
  const most = w.constant<"A">(flexible === "FMC" ? "flexible-ground-most-fmc" : "flexible-ground-most-lfmc");
  if (w.holds(breaker, ">", most)) return w.say`${flexible} is the ground of circuits up to ${most} alone`;
  if (length && w.holds(length, ">", longest)) return w.say`${flexible} is the ground up to ${longest} alone`;
  const small = w.constant<"A">("flexible-ground-small-lfmc");
  if (flexible === "LFMC" && w.holds(breaker, ">", small)) {
    w.caution(w.say`Above ${small} it takes LFMC of 3/4 in to 1-1/4 in.`, "raceway-ground");
  }
  w.caution("Its fittings are listed for grounding, and nothing moves once it is in.", "raceway-ground");
  return undefined;
}

/** Through an impedance that was told. */
function byImpedance(
  w: Worksheet,
  r: PathRequest,
  out: WayOut,
  length: Known<"ft"> | undefined,
  band: Band,
): Told {
  const told = w.given("Z of the raceway", asQuantity(r.returnImpedance!), "as told, joints included");
  const whole = told.kind === "ohm" ? told as Known<"ohm"> : undefined;
  const each = whole
    ? w.work("Z of the raceway per length", "ohm/kft", calc`${whole} ÷ ${length!}`)
    : told as Known<"ohm/kft">;
  const fault = length && faultOf(w, out, length, whole ?? w.work("Z of it", "ohm", calc`${each} × ${length}`), band);
  w.part("Longest run");
  const needed = w.work("current that trips it at once", "A", calc`${band.most} × ${out.breaker}`);
  const reach = longestRun(w, out, each, needed);
  const longest = reach && r.flexible
    ? w.work("of flexible conduit", "ft", calc`min(${reach}, ${w.constant<"ft">("flexible-ground-longest")})`)
    : reach;
  if (longest) w.figure("longest-run", longest, "longest run that trips at once");
  cautions(w, r, out, fault);
  const far = longest
    ? w.say`Sure to trip at once up to ${longest}`
    : w.say`Not even at the panel sure to trip at once`;
  if (!fault) return { headline: `${far}, through that raceway.` };
  if (fault.trip.is !== "at once") w.suggest(w.say`${wireInstead(w, out)} ground`);
  return ledBy(judge(w, out, band, fault), w.say`${far}. Until then the case is at ${fault.touch} at the most.`);
}

function faultOf(w: Worksheet, out: WayOut, length: Known<"ft">, back: Known<"ohm">, band: Band): Fault {
  const ahead = aheadOf(w, out, length);
  const z = w.work("Z of the loop, at most", "ohm", calc`${ahead} + ${back}`, undefined, ADDED);
  const current = w.work("fault current to the case", "A", calc`${out.volts} ÷ ${z}`, "fault-path");
  const touch = w.work(
    "voltage of the case during the fault, at most",
    "V",
    calc`${out.volts} × ${back} ÷ sqrt(${ahead} × ${ahead} + ${back} × ${back})`,
    undefined,
    "the two at right angles, which is the most they can be apart",
  );
  w.part("Trip");
  const multiple = w.work("times the breaker's rating", "1", calc`${current} ÷ ${out.breaker}`);
  const trip = tripOf(w, multiple, out.breaker, band);
  w.figure("loop-impedance", z, "impedance of the fault's loop");
  w.figure("ground-fault-current", current);
  w.figure("trip-multiple", multiple);
  if (trip.most) w.figure("trip-time-most", trip.most, "longest time to trip");
  w.figure("touch-voltage", touch);
  return { current, multiple, trip, length, touch };
}

/** What the fault passes before the raceway: source and line. */
function aheadOf(w: Worksheet, out: WayOut, length: Known<"ft">): Known<"ohm"> {
  w.part("Loop of the fault");
  const line = overLength(w, out, out.line, length, "of the line");
  return sizeOf(w, inSeries(w, [...(out.source ? [out.source] : []), line], " ahead of it"), "Z ahead of it")!;
}

/** How far a line with a raceway beside it may go: |source + line| and the raceway's together are the most that will do. */
function longestRun(
  w: Worksheet,
  out: WayOut,
  each: Known<"ohm/kft">,
  needed: Known<"A">,
): Known<"ft"> | undefined {
  const most = w.work("Z that lets it through", "ohm", calc`${out.volts} ÷ ${needed}`);
  const { r, x } = perLength(w, out, out.line);
  const line = w.work("Z of the line per length", "ohm/kft", calc`sqrt(${r} × ${r} + ${x} × ${x})`);
  const name = "longest run, one way";
  if (!out.source) return w.work(name, "ft", calc`${most} ÷ (${line} + ${each})`);
  const own = sizeOf(w, out.source, "Z of the source")!;
  if (!w.holds(own, "<", most)) return undefined;
  const [sr, sx] = [out.source.r, out.source.x];
  const across = sr && sx ? calc`${sr} × ${r} + ${sx} × ${x}` : sr ? calc`${sr} × ${r}` : calc`${sx!} × ${x}`;
  const along = w.work("Z of the source along the line's", "ohm", { op: "÷", args: [across, { ref: line }] });
  const share = w.work("the raceway's Z against the line's", "1", calc`${each} ÷ ${line}`);
  const both = w.work("Z of the source and the raceway along it", "ohm", calc`${along} + ${share} × ${most}`);
  return w.work(
    name,
    "ft",
    calc`(${most} × ${most} − ${own} × ${own}) ÷ (${both} + sqrt(${both} × ${both} + (1 − ${share} × ${share}) × (${most} × ${most} − ${own} × ${own}))) ÷ ${line}`,
  );
}

/** As exactly as is printed: the verdict hangs on it. */
const exactly = (w: Worksheet, value: Known): string => printValue(w.value(value));

/** The smallest wire that may be its ground, to ask with instead: `10 AWG copper`. */
const wireInstead = (w: Worksheet, { breaker, line }: WayOut): string =>
  w.scratch(() => w.say`${smallestGround(w, breaker, line, line.material)} ${line.material}`);

/** No impedance told: how much of it lets the breaker trip at once. */
function mostImpedance(w: Worksheet, r: PathRequest, out: WayOut, length: Known<"ft">, { least, most }: Band): Told {
  const ahead = aheadOf(w, out, length);
  w.part("Left for the raceway");
  const needed = w.work("current that trips it at once", "A", calc`${most} × ${out.breaker}`);
  const allowed = w.work("Z that lets it through", "ohm", calc`${out.volts} ÷ ${needed}`);
  const wire = wireInstead(w, out);
  w.suggest("raceway impedance 0.2 ohm per 1000 ft", `${wire} ground`);
  if (!w.holds(ahead, "<", allowed)) {
    const current = w.work("fault current with none in the raceway", "A", calc`${out.volts} ÷ ${ahead}`);
    const multiple = w.work("times the breaker's rating, at the most", "1", calc`${current} ÷ ${out.breaker}`);
    cautions(w, r, out, { trip: { is: "by heat" } });
    const flows = w.say`${multiple} times the ${out.breaker} breaker`;
    return w.holds(multiple, "≥", least)
      ? ledBy({
        is: "ok if",
        because:
          `its instantaneous trip is well below ${flows}, which flow only through a raceway of no impedance at all`,
      })
      : ledBy({
        is: "not ok",
        because: `even a raceway of no impedance lets no more than ${flows} to the case at ${w.say`${length}`}`,
      });
  }
  const left = w.work("Z left for the raceway", "ohm", calc`${allowed} − ${ahead}`, "fault-path", ADDED);
  w.figure("raceway-impedance-most", left);
  const each = w.work("the same per length", "ohm/kft", calc`${left} ÷ ${length}`);
  cautions(w, r, out, undefined);
  return ledBy(
    {
      is: "ok if",
      because: `the raceway has no more than ${exactly(w, left)} from end to end, ${
        exactly(w, each)
      }, joints included: then it trips at once`,
    },
    `I hold no impedance of raceways. Tell its maker's or a measured one, or lay ${wire} in it.`,
  );
}
