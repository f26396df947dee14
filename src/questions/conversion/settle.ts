/** Puts together which of power and current is told and which is wanted. */
import type { Reading } from "../../text/phrases.ts";
import { hear } from "./heard.ts";
import type { ConversionRequest } from "./question.ts";

/** Old names of the system voltages; 115, 230 and 460 V stand on nameplates and are kept. */
const SYSTEM_OF: Readonly<Record<string, number>> = { 110: 120, 220: 240, 440: 480 };
const spoken = ({ value, unit }: { value: number | string; unit: string }) => `${value} ${unit}`;

export function settle(reading: Reading): void {
  const draft = reading.draft as Partial<ConversionRequest>;
  const { powers, currents, volts, system } = hear(reading);
  if (volts) {
    const nominal = volts.unit === "V" ? SYSTEM_OF[String(volts.value)] : undefined;
    if (nominal !== undefined) reading.readAs(`took ${spoken(volts)} as a ${nominal} V system`);
    draft.volts = nominal === undefined ? volts : { value: nominal, unit: "V" };
  } else if (system !== undefined) {
    const between = Math.max(...system.match(/\d+/g)!.map(Number));
    reading.readAs(`took ${system} V as ${between} V between lines`);
    draft.volts = { value: between, unit: "V" };
  }
  const told = [...powers, ...currents];
  if (told.length > 1) {
    reading.ask({
      field: "power",
      ask: `Which is to be converted: ${told.map(spoken).join(" or ")}?`,
      example: `${spoken(told[0]!)} in ${currents.length > 0 && powers.length > 0 ? "amps" : "kVA"}`,
    });
  }
  if (powers[0]) {
    draft.power = powers[0];
    delete draft.current;
  } else if (currents[0]) {
    draft.current = currents[0];
    delete draft.power;
    if (draft.to === "A") delete draft.to;
  }
}
