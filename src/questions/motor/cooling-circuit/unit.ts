/** What the unit asks of its circuit: as its nameplate says, or worked out from its parts. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { convert, exact } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { circuitAmpacity, compressorCurrent, type CoolingLoads, devicesOf, sumsOf } from "../../../rules/cooling.ts";
import { breakerBelow, nextBreaker, usualBreaker } from "../../../rules/overcurrent.ts";
import { askLineToLine, isLineToNeutral, lineCurrent } from "../../../rules/power.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import type { CoolingRequest } from "./request.ts";

/** What the circuit has to be, wherever that comes from. */
export type Unit = {
  ampacity: Known<"A">;
  /** The largest device; absent where the nameplate was not told and the parts are unknown. */
  largest?: Known<"A">;
  /** The same where the compressor will not start on that one. */
  hardStarting?: Known<"A">;
  /** The smallest standard breaker the circuit may have. */
  smallest: Known<"A">;
  /** What the disconnect is rated by. */
  current: Known<"A">;
};

/** Says what to look for, when there is neither a nameplate nor parts. */
const NAMEPLATE =
  "What does the unit's nameplate say: minimum circuit ampacity (MCA) and maximum overcurrent protection?";
const EXAMPLE = "MCA 23 A, max overcurrent 40 A";

export function unitOf(w: Worksheet, r: CoolingRequest): Unit {
  if (r.phases === 3 && r.volts && isLineToNeutral(plain(r.volts))) throw need(...askLineToLine(plain(r.volts)));
  const hasParts = r.compressors !== undefined || r.fans !== undefined || r.heat !== undefined;
  if (r.minimumCircuitAmpacity) return byNameplate(w, r);
  if (r.maximumProtection) {
    throw need(
      "minimumCircuitAmpacity",
      `The largest device (${r.maximumProtection.value} A) does not size the wire. What minimum circuit ampacity (MCA) does the nameplate say?`,
      `MCA 23 A, max overcurrent ${r.maximumProtection.value} A`,
    );
  }
  if (hasParts) return byParts(w, r);
  if (r.capacity) throw need("nameplate", roughly(w, r.capacity), EXAMPLE);
  throw need(
    "nameplate",
    r.unitCurrent ? `${r.unitCurrent.value} A alone does not tell. ${NAMEPLATE}` : NAMEPLATE,
    EXAMPLE,
  );
}

/** Tons say how much heat is moved: the current behind it varies twofold, so only a range is told, marked as rough. */
function roughly(w: Worksheet, { value, unit }: NonNullable<CoolingRequest["capacity"]>): string {
  return w.scratch(() => {
    const said = w.given("capacity", { n: exact(value).toFraction(), unit: "1" });
    const tons = unit === "ton" ? said : w.work("tons", "1", calc`${said} ÷ ${w.constant<"1">("heat-per-ton")}`);
    const [low, high] = ["low", "high"].map((end) =>
      w.work(end, "A", calc`roundUp(${tons} × ${w.constant<"A">(`cooling-rough-${end}`)})`)
    ) as [Known<"A">, Known<"A">];
    const called = unit === "ton" ? w.say`${said} tons` : w.say`${said} BTU/h`;
    return w
      .say`${called} is how much heat it moves, never enough to size a circuit. ${NAMEPLATE} As a rough guide only (common practice, no source): at 240 V single phase the MCA is often between ${low} and ${high}.`;
  });
}

function byNameplate(w: Worksheet, r: CoolingRequest): Unit {
  w.part("Nameplate");
  const ampacity = w.given(
    "minimum circuit ampacity",
    asQuantity(r.minimumCircuitAmpacity!),
    "as marked: the maker has already put the 125 % in",
    "hermetic-nameplate",
  );
  const marked = r.maximumProtection &&
    w.given("maximum overcurrent protection", asQuantity(r.maximumProtection), "as marked", "hermetic-nameplate");
  if (marked && w.holds(marked, "<", ampacity)) {
    throw need(
      "maximumProtection",
      w.say`The largest device (${marked}) is below the minimum circuit ampacity (${ampacity}). Are the two swapped?`,
      EXAMPLE,
    );
  }
  const least = r.minimumProtection
    ? w.given("minimum overcurrent protection", asQuantity(r.minimumProtection), "as marked")
    : ampacity;
  const smallest = nextBreaker(
    w,
    w.work("least device", "A", calc`max(${least}, ${ampacity})`),
    "smallest standard device",
  );
  const unit: Unit = { ampacity, smallest, current: runningCurrent(w, r) ?? ampacity };
  if (!marked) return unit;
  const below = w.scratch(() => w.holds(breakerBelow(w, marked), "<", smallest));
  if (below) {
    throw need(
      "maximumProtection",
      w.say`No standard device lies between ${smallest} and the marked ${marked}. Please read the nameplate again.`,
      EXAMPLE,
    );
  }
  return { ...unit, largest: breakerBelow(w, marked, "largest standard device not above the marking") };
}

/** What the unit draws, where the nameplate's parts were told beside its circuit ampacity. */
function runningCurrent(w: Worksheet, r: CoolingRequest): Known<"A"> | undefined {
  const isTold = r.compressors?.every(({ ratedLoad, selection }) => ratedLoad ?? selection) &&
    (r.fans ?? []).every(({ current }) => current);
  return isTold ? sumsOf(w, loadsOf(w, r)).all : undefined;
}

function byParts(w: Worksheet, r: CoolingRequest): Unit {
  w.part("Currents of the parts");
  const loads = loadsOf(w, r);
  const sums = sumsOf(w, loads);
  w.part("Conductor ampacity");
  const ampacity = circuitAmpacity(w, loads, sums);
  w.part("Branch-circuit device");
  const { normal, highest } = devicesOf(w, loads, sums, ampacity);
  const smallest = usualBreaker(w, ampacity, "smallest standard device");
  return {
    ampacity,
    largest: isHardStarting(w, r) ? highest : normal,
    hardStarting: highest,
    smallest,
    current: sums.all,
  };
}

/** Whether the highest share was asked for: by trouble on starting, or by the percentage itself. */
function isHardStarting(w: Worksheet, { hardStarting, percent }: CoolingRequest): boolean {
  if (!percent) return hardStarting === true;
  return w.scratch(() => {
    const asked = w.given("share asked for", asQuantity(percent));
    const [normal, highest] = [w.constant("hermetic-protection"), w.constant("hermetic-protection-highest")];
    if (w.holds(asked, "=", highest)) return true;
    if (w.holds(asked, "=", normal)) return hardStarting === true;
    throw need(
      "percent",
      w.say`The rule knows ${normal}, and ${highest} where the compressor will not start. Which one do you mean instead of ${asked}?`,
      w.say`device at ${normal}`,
    );
  });
}

function loadsOf(w: Worksheet, r: CoolingRequest): CoolingLoads {
  const counted = (count: number, what: string) =>
    count === 1 ? {} : { count: w.given(what, { n: String(count), unit: "1" }) };
  const compressors = (r.compressors ?? []).map(({ count, ratedLoad, selection }) => {
    const current = compressorCurrent(
      w,
      ratedLoad && w.given("compressor rated-load current", asQuantity(ratedLoad), undefined, "hermetic-currents"),
      selection && w.given("branch-circuit selection current", asQuantity(selection), undefined, "hermetic-currents"),
    );
    if (!current) {
      throw need(
        "compressors",
        "What is the compressor's rated-load current (RLA), or the unit's minimum circuit ampacity (MCA)?",
        "compressor RLA 20 A, fan FLA 2.5 A",
      );
    }
    return { ...counted(count, "compressors alike"), current };
  });
  const fans = (r.fans ?? []).map(({ count, current }) => {
    if (!current) {
      throw need("fans", "How many amps does the fan motor's nameplate say (FLA)?", "fan FLA 2.5 A");
    }
    return { ...counted(count, "fans alike"), current: w.given("fan current", asQuantity(current)) };
  });
  const heat = r.heat && heatCurrent(w, r.heat, r);
  const both = compressors.length > 0 && heat !== undefined;
  if (both && !r.interlocked) {
    w.suppose(
      "heat and compressors",
      "can run together",
      "nothing was said of controls that prevent it",
      "heat and compressor never run together",
    );
  }
  if (!heat && compressors.length === 0) {
    throw need(
      "compressors",
      "A fan alone is a motor circuit. What is the compressor's rated-load current (RLA)?",
      "compressor RLA 20 A, fan FLA 2.5 A",
    );
  }
  return {
    compressors,
    fans,
    ...(heat && { heat }),
    interlocked: both && r.interlocked === true,
    phases: r.phases ?? 1,
  };
}

function heatCurrent(w: Worksheet, heat: NonNullable<CoolingRequest["heat"]>, r: CoolingRequest): Known<"A"> {
  if (heat.unit === "A") return w.given("electric heat", { ...asQuantity(heat), unit: "A" });
  const said = asQuantity(heat);
  const apparent = { n: said.n, unit: heat.unit === "kW" ? "kVA" as const : "VA" as const };
  const note = `${heat.value} ${heat.unit}: heaters draw at unity power factor`;
  const power = w.given("electric heat", convert<"VA">(apparent, "VA"), note);
  if (r.phases === 3 && !r.volts) {
    throw need("volts", "At what three-phase voltage does the heat run: 208, 240 or 480 V?", "208 V three phase");
  }
  const volts = w.take("voltage", r.volts && asQuantity(r.volts), "supply-voltage");
  return lineCurrent(w, power, volts, r.phases ?? 1, "heat current");
}
