import { exact } from "../../core/quantity.ts";
import { NAMEPLATE_AMBIENT, type SaidMotor } from "./motors.ts";
import { type WiringFields, writeWiring } from "./wiring.ts";

const amount = ({ value, unit }: { value: number | string; unit: string }) => `${value} ${unit}`;

/** A motor as it would be typed. */
export const writeMotor = (m: SaidMotor): string =>
  [
    m.power && amount(m.power),
    m.dualVolts && `${m.dualVolts} V`,
    m.volts && (m.dualVolts ? `connected to ${amount(m.volts)}` : amount(m.volts)),
    m.supply,
    m.type === "torque" ? "torque motor" : m.type,
    m.speed !== undefined && `${m.speed} rpm`,
    m.nameplateCurrents && `FLA ${m.nameplateCurrents.map(({ value }) => value).join("/")} A`,
    m.nameplateCurrent && `${m.power ? "nameplate " : ""}${amount(m.nameplateCurrent)}`,
  ].filter((part): part is string => typeof part === "string").join(" ");

/** Metres to the foot, exactly. */
const METRES = "381/1250";
/** A length as it would be typed: feet that are a fraction were metres. */
export const writeLength = ({ value, unit }: { value: number | string; unit: string }): string =>
  unit === "ft" && typeof value === "string" ? `${exact(value).mul(METRES).valueOf()} m` : `${value} ${unit}`;

/** The wiring as it would be typed: beside a nameplate its usual ambient is taken for the motor's, unless it is the wires'. */
export function writeMotorWiring({ ambient, ...wiring }: WiringFields & { conduit?: string | undefined }): string[] {
  const isUsual = ambient?.unit === "°C" && Number(ambient.value) === NAMEPLATE_AMBIENT;
  return isUsual
    ? [...writeWiring(wiring), `wires at ${NAMEPLATE_AMBIENT} °C`]
    : writeWiring({ ...wiring, ...(ambient && { ambient }) });
}
