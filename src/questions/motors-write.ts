import type { SaidMotor } from "./motors.ts";

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
    m.nameplateCurrent && `nameplate ${amount(m.nameplateCurrent)}`,
  ].filter((part): part is string => typeof part === "string").join(" ");
