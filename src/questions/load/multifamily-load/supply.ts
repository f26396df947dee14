/** The building's supply, and the one that each unit has of it. */
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { systemOf } from "../../../rules/dwelling/system.ts";
import type { System } from "../../../rules/loads.ts";
import { lineCurrent, type Phases } from "../../../rules/power.ts";
import type { MultifamilyRequest } from "./request.ts";

export type Supply = {
  /** The voltages of a unit, and of the house loads. */
  system: System;
  /** Between the building's lines. */
  volts: Known<"V">;
  phases: Phases;
  /** Whether a unit has two lines and the neutral of a network. */
  network: boolean;
  /** Whether the whole building has no more than that. */
  isNetworkAlone: boolean;
};

export function supplyOf(w: Worksheet, told: MultifamilyRequest["system"]): Supply {
  if (told === undefined || told === "120/240") {
    const system = systemOf(w, told);
    return { system, volts: system.lineToLine, phases: 1, network: false, isNetworkAlone: false };
  }
  const system = systemOf(w, "120/208");
  const isNetworkAlone = told === "120/208";
  if (!isNetworkAlone) {
    w.suppose(
      "each unit",
      "two lines and the neutral, spread over the phases",
      "nothing was said of three phases in a unit, and ranges and dryers are single-phase",
      "120/208 V single phase",
    );
  }
  return { system, volts: system.lineToLine, phases: isNetworkAlone ? 1 : 3, network: true, isNetworkAlone };
}

/** What some load draws of the building's lines. */
export const currentOf = (w: Worksheet, load: Known<"VA">, { volts, phases }: Supply, name: string): Known<"A"> =>
  lineCurrent(w, load, volts, phases, name);
