import { writeMotor, writeRun } from "../../parts/motors-write.ts";
import { amount } from "../../parts/quantities.ts";
import type { MotorRequest } from "./request.ts";

/** The request as it would be typed. */
export function write(r: MotorRequest): string {
  const parts = [
    `circuit for a ${writeMotor({ ...r, nameplateCurrent: undefined, nameplateCurrents: undefined })} motor`,
    r.nameplateCurrents && `FLA ${r.nameplateCurrents.map(({ value }) => value).join("/")} A`,
    r.nameplateCurrent && `nameplate ${amount(r.nameplateCurrent)}`,
    r.noPowerMarked && "no hp marked",
    r.serviceFactor !== undefined && `service factor ${r.serviceFactor}`,
    r.temperatureRise && `temperature rise ${amount(r.temperatureRise)}`,
    r.codeLetter && `code letter ${r.codeLetter}`,
    r.lockedRotor && `locked rotor current ${amount(r.lockedRotor)}`,
    r.thermalProtector && "thermally protected",
    r.duty?.service && `${r.duty.service} duty`,
    r.duty?.rated && (r.duty.rated === "continuous" ? "continuous rated" : `${r.duty.rated.split(" ")[0]} rated`),
    r.reducedStart && `${r.reducedStart} starter`,
    r.secondary?.current && `rotor current ${amount(r.secondary.current)}`,
    r.secondary?.resistor && `${r.secondary.resistor} duty resistor`,
    r.capacitor && "with capacitor",
    r.control && controlText(r.control),
    r.drive && (r.drive.input ? `on a drive ${amount(r.drive.input)}` : "on a drive"),
    r.device && `${r.device}${r.percent ? ` at ${amount(r.percent)}` : ""}`,
    !r.device && r.percent && `at ${amount(r.percent)}`,
    r.breaker && `${amount(r.breaker)} breaker`,
    r.fuse && `${amount(r.fuse.rating)} ${r.fuse.type ? `${r.fuse.type} ` : ""}fuse`,
    r.overload && `overload ${amount(r.overload)}`,
    ...writeRun(r),
  ];
  return parts.filter((part): part is string => typeof part === "string").join(", ");
}

const controlText = ({ size, leaves }: NonNullable<MotorRequest["control"]>) =>
  `${size ? `${size} ` : ""}control circuit${
    leaves === undefined ? "" : leaves ? " leaving the enclosure" : " inside the enclosure"
  }`;
