import type { Circuit, ScheduleRequest } from "./request.ts";

const POLES = { 1: "", 2: "two-pole ", 3: "three-pole " } as const;
const writeCircuit = ({ name, poles, load, leg }: Circuit): string =>
  [`${POLES[poles]}${load.value} ${load.unit}`, name, leg && `on phase ${leg}`].filter(Boolean).join(" ");

/** The request as it would be typed. */
export const write = ({ system, spaces, circuits = [], currents = [] }: ScheduleRequest): string =>
  [
    circuits.length > 0 ? "panel schedule" : "neutral current",
    system && `${system} V`,
    spaces && `${spaces} spaces`,
    ...circuits.map(writeCircuit),
    ...currents.map(({ leg, current }) => `${current.value} A on phase ${leg}`),
  ].filter((part) => part !== undefined && part !== "").join("; ");
