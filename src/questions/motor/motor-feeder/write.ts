import { writeLength, writeMotor, writeRun } from "../../parts/motors-write.ts";
import { amount } from "../../parts/quantities.ts";
import type { FeederRequest } from "./request.ts";

/** The request as it would be typed. */
export function write(r: FeederRequest): string {
  const motors = (r.motors ?? []).map(({ count, atOnce, ...motor }) =>
    `${count === 1 ? "" : `${count} x `}${writeMotor(motor)} motor${count === 1 ? "" : "s"}${
      atOnce === undefined ? "" : ` ${atOnce} at once`
    }`
  );
  const parts = [
    `motor feeder for ${motors.join(" and ")}`,
    r.volts && amount(r.volts),
    r.supply,
    ...(r.others ?? []).map(({ load, continuous }) =>
      `plus ${amount(load)} ${continuous === undefined ? "" : continuous ? "continuous " : "noncontinuous "}other load`
    ),
    r.interlocked && "interlocked one at a time",
    r.device && `${r.device}s`,
    r.percent && `at ${amount(r.percent)}`,
    r.oneBranch && "on one branch circuit",
    r.tap && `${amount(r.tap)} taps`,
    r.breaker && `${amount(r.breaker)} breaker`,
    r.fuse && `${amount(r.fuse)} fuse`,
    ...writeRun(r, r.length && `${writeLength(r.length)} run`),
  ];
  return parts.filter((part): part is string => typeof part === "string").join(", ");
}
