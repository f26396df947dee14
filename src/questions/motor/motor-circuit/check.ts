/** A plan put up for checking: a device, an overload setting, a conductor. */
import type { Known, Reasoned } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Device, Protection } from "../../../rules/motor-protection.ts";
import { judgeSize, type MotorLines } from "../../parts/motor-lines.ts";
import type { Motor } from "../../parts/motors.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Judgement, underCableGround, verdictOf } from "../../parts/verdict.ts";
import type { Devices } from "./devices.ts";
import type { MotorRequest } from "./request.ts";

export type Found = {
  motor: Motor;
  design: Known<"A">;
  devices: Devices;
  /** Settings of an instantaneous-trip breaker. */
  trip: Protection;
  disconnect: Known<"A">;
  overload: Protection | undefined;
  /** The conductor put up, and the one that would be needed. */
  stated: MotorLines | undefined;
  least: MotorLines;
};

/** What speaks against the plan decides; nothing where nothing was put up. */
export function check(w: Worksheet, r: MotorRequest, found: Found, ground: Known<"size">): Reasoned | undefined {
  w.part("Plan check");
  const judged: Judgement[] = [];
  if (found.stated) {
    const { size, material } = found.stated;
    const { stated, design: needed, least } = found;
    const clauses = { ampacity: "motor-conductors", drop: "voltage-drop-branch" } as const;
    judged.push(
      judgeSize(w, r, { stated, needed, least, clauses }),
      ...underCableGround(w, r.method, size, material, ground),
    );
  }
  if (r.breaker) {
    judged.push(judgeDevice(w, "inverse-time breaker", w.given("breaker put up", asQuantity(r.breaker)), found));
  }
  if (r.fuse) judged.push(judgeFuse(w, r.fuse, found));
  if (r.overload) judged.push(judgeOverload(w, w.given("overload device put up", asQuantity(r.overload)), found));
  return verdictOf(judged);
}

/** Something with an ordinary value and a highest: within the one, between the two, or above both. */
function judge(
  w: Worksheet,
  what: string,
  said: Known<"A">,
  { normal, highest }: Protection,
  unless: string,
  clause: string,
): Judgement {
  const above = () =>
    w.choose<Judgement>(`${what} against the highest`, [said, "≤", highest], [
      "allowed where the motor needs it",
      () => ({ what, is: "ok if", because: w.say`${unless} ${normal}, the ordinary one (${highest} is the most)` }),
    ], [
      "too large",
      () => ({ what, is: "not ok", because: w.say`the ${what} is more than ${highest}, the most this motor may have` }),
    ], clause);
  return w.choose<Judgement>(
    `${what} against the ordinary one`,
    [said, "≤", normal],
    [
      "within it",
      () => ({ what, is: "ok", because: w.say`the ${what} is within the ordinary ${normal}` }),
    ],
    ["larger", above],
    clause,
  );
}

/** A breaker serves as a disconnect too, which may not be smaller; a fuse must at least carry the current. */
export const leastDevice = (device: Device, { disconnect, motor }: Found): Known<"A"> =>
  device === "inverse-time breaker" ? disconnect : motor.current;

function judgeDevice(w: Worksheet, device: Device, said: Known<"A">, found: Found): Judgement {
  const what = w.say`${said} ${device === "inverse-time breaker" ? "breaker" : device}`;
  const rating = found.devices[device];
  return w.choose<Judgement>(`${what} against the running current`, [said, "<", leastDevice(device, found)], [
    "too small",
    () => ({
      what,
      is: "not ok",
      because: w.say`the ${what} is too small to start and run this motor: ${rating.normal} is ordinary`,
    }),
  ], [
    "carries it",
    () => judge(w, what, said, rating, "the motor will not start on", "motor-protection"),
  ], "motor-disconnect");
}

function judgeFuse(w: Worksheet, { rating, type }: NonNullable<MotorRequest["fuse"]>, found: Found): Judgement {
  if (type === undefined) {
    w.suppose(
      "kind of fuse",
      "dual-element",
      "it was not told; motor circuits mostly have these, and they are the smaller ones",
      "nontime-delay fuse",
    );
  }
  const device = type === "nontime-delay" ? "nontime-delay fuse" : "dual-element fuse";
  return judgeDevice(w, device, w.given("fuse put up", asQuantity(rating)), found);
}

function judgeOverload(w: Worksheet, said: Known<"A">, { overload }: Found): Judgement {
  const what = w.say`overload at ${said}`;
  if (overload) return judge(w, what, said, overload, "the motor trips on", "motor-overload");
  return {
    what,
    is: "ok if",
    because: w.say`the nameplate current, which was not told, allows an overload at ${said}`,
  };
}
