import type { Circuit, ScheduleRequest } from "./request.ts";

const POLES = { 1: "", 2: "two-pole ", 3: "three-pole " } as const;
const writeCircuit = ({ name, poles, count, load, leg }: Circuit): string =>
  [count > 1 && `${count} circuits of`, `${POLES[poles]}${load.value} ${load.unit}`, name, leg && `on phase ${leg}`]
    .filter(Boolean).join(" ");

const POLES_OF = { 1: "single-pole", 2: "two-pole", 3: "three-pole" } as const;
/** The request as it would be typed. */
export const write = ({ system, spaces, breakers = [], circuits = [], currents = [] }: ScheduleRequest): string =>
  [
    currents.length > 0 ? "neutral current" : "panel schedule",
    system && `${system} V`,
    spaces && `${spaces} spaces`,
    ...breakers.map(({ poles, count }) => `${count} ${POLES_OF[poles]} breakers`),
    ...circuits.map(writeCircuit),
    ...currents.map(({ leg, current }) => `${current.value} A on phase ${leg}`),
  ].filter((part) => part !== undefined && part !== "").join("; ");
