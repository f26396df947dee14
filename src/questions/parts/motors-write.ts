import type * as z from "zod";
import { exact } from "../../core/quantity.ts";
import { NAMEPLATE_AMBIENT, type SaidMotor } from "./motors.ts";
import type { runFields } from "./motor-lines.ts";
import { amount } from "./quantities.ts";
import { type WiringFields, writeWiring } from "./wiring.ts";

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

/** The run as it would be typed: the conductors put up for checking, how far they go, the drop, where they lie. */
export const writeRun = (r: z.output<z.ZodObject<typeof runFields>>, length = r.length && writeLength(r.length)) => [
  r.sets !== undefined && `${r.sets} sets${r.size ? ` of ${r.size}` : ""}`,
  r.sets === undefined && r.size && String(r.size),
  length,
  r.powerFactor !== undefined && `power factor ${r.powerFactor}`,
  r.dropLimit && `${amount(r.dropLimit)} drop`,
  r.ignoreDrop && "ignore drop",
  ...writeMotorWiring(r),
  r.conduit && `${r.conduit} conduit`,
];

/** The wiring as it would be typed: beside a nameplate its usual ambient is taken for the motor's, unless it is the wires'. */
function writeMotorWiring({ ambient, ...wiring }: WiringFields & { conduit?: string | undefined }): string[] {
  const isUsual = ambient?.unit === "°C" && Number(ambient.value) === NAMEPLATE_AMBIENT;
  return isUsual
    ? [...writeWiring(wiring), `wires at ${NAMEPLATE_AMBIENT} °C`]
    : writeWiring({ ...wiring, ...(ambient && { ambient }) });
}
