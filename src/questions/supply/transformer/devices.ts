/** The devices on either side: the most the transformer allows, and the ones the conductors are sized for. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { nextBreaker, usualBreaker } from "../../../rules/overcurrent.ts";
import { largestDevice, type Limit, type Protection, thermalLimit } from "../../../rules/transformers.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Judgement } from "../../parts/verdict.ts";
import type { TransformerRequest } from "./request.ts";
import type { Windings } from "./windings.ts";

export type Devices = {
  protection: Protection;
  /** The most that is allowed. */
  primaryLimit?: Limit;
  secondaryLimit?: Limit;
  /** What the conductors are sized for: as put up, or as usual. */
  primary?: Known<"A">;
  secondary?: Known<"A">;
};

/** Whether every voltage is within the table's reach. */
export function isCovered(w: Worksheet, { primary, secondary }: Windings): boolean {
  const most = w.constant<"V">("transformer-protection-voltage-most");
  return [primary, secondary].every((each) => each === undefined || w.holds(each.volts, "≤", most));
}

export function devicesOf(w: Worksheet, r: TransformerRequest, windings: Windings): Devices {
  w.part("Protection");
  const protection = protectionOf(w, r);
  const { primary, secondary } = windings;
  const primaryLimit = primary && primaryLimitOf(w, r, primary.current, protection);
  const secondaryLimit = secondary && protection === "primary and secondary"
    ? largestDevice(w, secondary.current, "secondary")
    : undefined;
  return {
    protection,
    ...(primaryLimit && { primaryLimit, primary: primaryDevice(w, r, primary!.current, primaryLimit, protection) }),
    ...(secondaryLimit && {
      secondaryLimit,
      secondary: r.secondaryBreaker
        ? w.given("secondary device", asQuantity(r.secondaryBreaker))
        : secondaryLimit.device,
    }),
  };
}

function protectionOf(w: Worksheet, { protection, secondaryBreaker }: TransformerRequest): Protection {
  if (protection === "primary only" && secondaryBreaker) {
    throw need(
      "protection",
      "Is there a device on the secondary or not? Both were said.",
      "primary and secondary protection",
    );
  }
  if (protection || secondaryBreaker) {
    const said = protection ?? "primary and secondary";
    w.given("protection", said, undefined, "transformer-protection");
    return said;
  }
  w.suppose(
    "protection",
    "primary and secondary",
    "secondary conductors mostly need a device of their own anyway",
    "primary protection only",
    "transformer-protection",
  );
  return "primary and secondary";
}

function primaryLimitOf(w: Worksheet, r: TransformerRequest, current: Known<"A">, protection: Protection): Limit {
  if (r.thermallyProtected) {
    if (!r.impedance) {
      throw need("impedance", "What impedance (% Z) does the transformer's nameplate say?", "4 % impedance");
    }
    return thermalLimit(w, current, w.given("impedance", asQuantity(r.impedance)));
  }
  return largestDevice(w, current, protection === "primary only" ? "primary only" : "primary with secondary");
}

/**
 * The primary device that the conductors are sized for. The table's limit with a secondary device is far above what the
 * primary conductors need, so the usual choice is the primary-only percentage.
 */
function primaryDevice(
  w: Worksheet,
  r: TransformerRequest,
  current: Known<"A">,
  most: Limit,
  protection: Protection,
): Known<"A"> {
  if (r.primaryBreaker) return w.given("primary device", asQuantity(r.primaryBreaker));
  if (protection === "primary only" && !r.thermallyProtected) return most.device;
  const factor = w.constant<"%">("continuous-load-factor");
  const isAbove = w.scratch(() => {
    const usual = usualBreaker(w, w.work("usual", "A", calc`${current} × ${factor}`));
    return w.holds(usual, ">", most.device);
  });
  if (isAbove) return most.device;
  const least = w.work("full load, as if continuous", "A", calc`${current} × ${factor}`);
  const device = usualBreaker(w, least, "primary device the conductors are sized for");
  w.suppose(
    "primary device",
    w.say`${device}`,
    w.say`usual, common practice; up to ${most.device} is allowed where it trips on energising`,
    w.say`${most.device} primary breaker`,
  );
  return device;
}

/** Judges the devices that were put up. */
export function judgeDevices(w: Worksheet, r: TransformerRequest, windings: Windings, devices: Devices): Judgement[] {
  if (!r.primaryBreaker && !r.secondaryBreaker) return [];
  w.part("Check of the devices");
  const { primary, primaryLimit, secondary, secondaryLimit } = devices;
  return [
    r.primaryBreaker && primary && primaryLimit &&
    judge(w, "primary", primary, primaryLimit, windings.primary!.current, r.continuous && windings.primary!.design),
    r.secondaryBreaker && secondary && secondaryLimit &&
    judge(w, "secondary", secondary, secondaryLimit, windings.secondary!.current, leastFor(w, r, windings)),
  ].filter((each) => each !== undefined);
}

/** The least device for the load that was told, a continuous one raised; without one, for a full load that is continuous. */
function leastFor(w: Worksheet, r: TransformerRequest, { load, secondary }: Windings): Known<"A"> | undefined {
  if (!r.continuous) return load;
  if (!load) return secondary?.design;
  return w.work(
    "least device for the continuous load",
    "A",
    calc`${load} × ${w.constant<"%">("continuous-load-factor")}`,
    "continuous-loads-feeder",
  );
}

const nothing = () => {};

function judge(
  w: Worksheet,
  side: "primary" | "secondary",
  device: Known<"A">,
  { device: most }: Limit,
  rated: Known<"A">,
  least: Known<"A"> | false | undefined,
): Judgement {
  const what = w.say`${device} on the ${side}`;
  const kept = w.choose(
    `${side} device against the largest allowed`,
    [device, "≤", most],
    ["kept", () => true],
    ["too large", () => false],
    "transformer-protection",
  );
  if (!kept) {
    return { what, is: "not ok", because: w.say`${device} on the ${side} is above the largest allowed, ${most}` };
  }
  if (least) {
    const enough = w.choose(
      "device against the load",
      [device, "≥", least],
      ["carries it", () => true],
      ["too small", () => false],
      "continuous-loads-feeder",
    );
    return enough
      ? {
        what,
        is: "ok",
        because: w.say`${device} on the ${side} carries the load (needs ${least}) and is not above ${most}`,
      }
      : {
        what,
        is: "not ok",
        because: w.say`${device} on the ${side} is too small for the load, which needs ${least}: take ${
          nextBreaker(w, least)
        }`,
      };
  }
  w.choose(`${side} device against the rated current`, [device, "≥", rated], ["carries full load", nothing], [
    "below full load",
    nothing,
  ]);
  return w.holds(device, "≥", rated)
    ? { what, is: "ok", because: w.say`${device} on the ${side} is not above the largest allowed, ${most}` }
    : {
      what,
      is: "ok if",
      because: w
        .say`the load stays below ${device}: it is allowed on the ${side}, but the transformer's full load is ${rated}`,
    };
}
