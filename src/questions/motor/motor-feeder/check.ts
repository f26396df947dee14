/** A feeder put up for checking. */
import type { Known, Reasoned } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { protects } from "../../../rules/overcurrent.ts";
import { judgeSize, type MotorLines } from "../../parts/motor-lines.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Judgement, underCableGround, verdictOf } from "../../parts/verdict.ts";
import type { FeederRequest } from "./request.ts";

/** What bounds a device from below and above. */
export type Limits = {
  /** The least device: what the loads together need. */
  leastDevice: Known<"A">;
  protection: Known<"A">;
  /** Conductors that were put up: larger ones allow a larger device. */
  stated: MotorLines | undefined;
};
type Found = Limits & { ampacity: Known<"A">; least: MotorLines; ground: Known<"size"> };

/** What speaks against the plan decides; nothing where nothing was put up. */
export function check(w: Worksheet, r: FeederRequest, found: Found): Reasoned | undefined {
  w.part("Plan check");
  const device = r.breaker ?? r.fuse;
  return verdictOf([
    ...(found.stated
      ? [
        judgeSize(w, r, {
          stated: found.stated,
          needed: found.ampacity,
          least: found.least,
          clauses: { ampacity: "motor-feeder-conductors", drop: "voltage-drop-feeder" },
        }),
        ...underCableGround(w, r.method, found.stated.size, found.stated.material, found.ground),
      ]
      : []),
    ...(device
      ? [judgeDevice(w, w.given("device put up", asQuantity(device)), r.fuse ? "fuse" : "breaker", found)]
      : []),
  ]);
}

/** Whether conductors that were put up allow a device above the motors' limit. */
const areLarger = (w: Worksheet, device: Known<"A">, stated: MotorLines | undefined): boolean =>
  stated !== undefined && protects(w, device, stated.ampacity);

/** Whether a device may stand; nothing is recorded. */
export const isAllowed = (w: Worksheet, device: Known<"A">, { leastDevice, protection, stated }: Limits): boolean =>
  w.holds(device, "≥", leastDevice) && (w.holds(device, "≤", protection) || areLarger(w, device, stated));

function judgeDevice(w: Worksheet, said: Known<"A">, kind: string, found: Found): Judgement {
  const what = w.say`${said} ${kind}`;
  const { protection, leastDevice, stated } = found;
  const byConductors = (): Judgement =>
    areLarger(w, said, stated)
      ? { what, is: "ok", because: w.say`the ${what} is covered by the ampacity of the larger conductors` }
      : { what, is: "not ok", because: w.say`the ${what} is more than ${protection}, the most these motors allow` };
  const large = () =>
    w.choose<Judgement>(
      "device against the limit",
      [said, "≤", protection],
      [
        "allowed",
        () => ({ what, is: "ok", because: w.say`the ${what} is within ${protection}, the most these motors allow` }),
      ],
      ["above it: only the conductors could allow it", byConductors],
      "motor-feeder-protection",
    );
  return w.choose<Judgement>(
    "device against what the loads together need",
    [said, "<", leastDevice],
    [
      "too small",
      () => ({
        what,
        is: "not ok",
        because: w.say`the ${what} is below the ${leastDevice} that the loads together need`,
      }),
    ],
    ["carries it", large],
    "motor-feeder-protection",
  );
}
