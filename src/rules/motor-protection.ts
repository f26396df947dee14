/** Devices of a motor's branch circuit and its overload device: what is ordinary, and the most that is allowed. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import { breakerBelow, fuseBelow, nextBreaker, nextFuse } from "./overcurrent.ts";

export const DEVICES = ["inverse-time breaker", "dual-element fuse", "nontime-delay fuse"] as const;
export type Device = typeof DEVICES[number];
/** A device with its two ratings. */
export type Protection = { normal: Known<"A">; highest: Known<"A"> };

/** A row of the table of devices. */
export type ProtectionRow =
  | "single-phase"
  | "polyphase other than wound-rotor"
  | "design B energy-efficient and premium-efficiency"
  | "synchronous"
  | "wound-rotor"
  | "DC constant voltage";

const isBreaker = (device: Device) => device === "inverse-time breaker";
const up = (w: Worksheet, device: Device, limit: Known, name: string) =>
  isBreaker(device) ? nextBreaker(w, limit, name) : nextFuse(w, limit, name);
const down = (w: Worksheet, device: Device, limit: Known, name: string) =>
  isBreaker(device) ? breakerBelow(w, limit, name) : fuseBelow(w, limit, name);

/** The table's share of a device, or the smaller one that was asked for. */
type Share = { said?: Known<"%"> };

/** Device of a motor: ordinary, next standard size up; highest, the cap, next size down, never below the ordinary. */
export function protectionOf(
  w: Worksheet,
  device: Device,
  current: Known<"A">,
  row: ProtectionRow,
  { said }: Share = {},
): Protection {
  const normal = ordinaryDevice(w, device, current, row, { ...(said && { said }) });
  const most = highestLimit(w, device, current);
  const highest = w.choose<Known<"A">>(
    `room above the ordinary ${device}`,
    [most, ">", normal],
    ["the cap, next standard size down", () => down(w, device, most, `${device}, highest`)],
    ["none: the ordinary one is the highest", () => normal],
    "motor-protection",
  );
  return { normal, highest };
}

/** The ordinary device alone. */
export function ordinaryDevice(
  w: Worksheet,
  device: Device,
  current: Known<"A">,
  row: ProtectionRow,
  { said }: Share = {},
): Known<"A"> {
  const share = said ?? w.lookUp<"%">(`${device}, share of the current`, "motor-protection", device, row);
  const limit = w.work(`${device}, ordinary limit`, "A", calc`${current} × ${share}`, "motor-protection");
  return up(w, device, limit, `${device}, next standard size up`);
}

/** The cap for a motor that will not start on the ordinary device. */
function highestLimit(w: Worksheet, device: Device, current: Known<"A">): Known<"A"> {
  const cap = (id: string) => {
    const share = w.constant<"%">(id);
    return w.work(`${device}, cap`, "A", calc`${current} × ${share}`, "motor-protection");
  };
  if (device === "dual-element fuse") return cap("motor-highest-dual-element-fuse");
  if (device === "inverse-time breaker") {
    return w.choose(
      "which cap holds for the breaker",
      [current, "≤", w.constant("motor-highest-inverse-time-breaker-small-to")],
      ["the one for small motors", () => cap("motor-highest-inverse-time-breaker-small")],
      ["the one for large motors", () => cap("motor-highest-inverse-time-breaker-large")],
      "motor-protection",
    );
  }
  // Fuses change class at a rating: up to it the higher share, but never across it.
  const classEnd = w.constant<"A">("motor-highest-fuse-small-to");
  const small = cap("motor-highest-nontime-delay-fuse");
  return w.choose(
    "which class the fuse falls in",
    [small, "≤", classEnd],
    ["the smaller class", () => small],
    ["the larger class, or the end of the smaller", () => {
      const share = w.constant<"%">("motor-highest-fuse-large");
      return w.work(`${device}, cap`, "A", calc`max(${classEnd}, ${current} × ${share})`, "motor-protection");
    }],
    "motor-protection",
  );
}

/** Settings of an instantaneous-trip breaker: no standard sizes, so nothing is rounded. */
export function instantaneousTrip(w: Worksheet, current: Known<"A">, row: ProtectionRow): Protection {
  const setting = (share: Known<"%">, name: string) =>
    w.work(name, "A", calc`${current} × ${share}`, "motor-protection");
  const name = "instantaneous-trip breaker, setting";
  const share = w.lookUp<"%">("instantaneous trip, share of the current", "motor-protection", INSTANTANEOUS, row);
  const isDesignB = row === "design B energy-efficient and premium-efficiency";
  const most = w.constant<"%">(`motor-highest-instantaneous-trip${isDesignB ? "-design-b" : ""}`);
  return { normal: setting(share, name), highest: setting(most, `${name}, highest`) };
}
const INSTANTANEOUS = "instantaneous-trip breaker";

/** What a nameplate is marked with that earns the overload device more room; either mark is enough. */
type Marks = { serviceFactor?: Known<"1">; temperatureRise?: Known<"°C"> };

/** Separate overload device by the nameplate current: the setting, and the highest for a motor that will not start. */
export function overloadOf(w: Worksheet, nameplate: Known<"A">, marks: Marks): Protection {
  const [kind, why] = overloadKind(w, marks);
  const part = (share: Known<"%">, name: string) =>
    w.work(name, "A", calc`${nameplate} × ${share}`, "motor-overload", why);
  return {
    normal: part(w.constant<"%">(`overload-${kind}`), "overload device"),
    highest: part(w.constant<"%">(`overload-${kind}-highest`), "overload device, highest"),
  };
}

function overloadKind(w: Worksheet, { serviceFactor, temperatureRise }: Marks): ["marked" | "other", string] {
  if (!serviceFactor && !temperatureRise) {
    w.suppose(
      "service factor and temperature rise",
      "not marked",
      "neither was told, and without a mark the overload device is the smaller one",
      "service factor 1.15",
      "motor-overload",
    );
    return ["other", "no mark that earns more"];
  }
  const byFactor = serviceFactor && w.choose(
    "marked service factor",
    [serviceFactor, "≥", w.constant("overload-service-factor")],
    ["earns the higher overload percentage", () => true],
    ["earns no more", () => false],
    "motor-overload",
  );
  if (byFactor) return ["marked", "earned by the service factor"];
  const byRise = temperatureRise && w.choose(
    "marked temperature rise",
    [temperatureRise, "≤", w.constant("overload-temperature-rise")],
    ["earns the higher overload percentage", () => true],
    ["earns no more", () => false],
    "motor-overload",
  );
  return byRise ? ["marked", "earned by the temperature rise"] : ["other", "no mark that earns more"];
}

/** Most that a thermal protector inside the motor may trip at: by the table current, not the nameplate's. */
export function thermalProtector(w: Worksheet, current: Known<"A">): Known<"A"> {
  const share = w.lookUp<"%">("thermal protector, share", "motor-thermal-protector", "trip current", current);
  return w.work("thermal protector, highest trip current", "A", calc`${current} × ${share}`, "motor-overload");
}
