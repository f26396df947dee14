/** How grounding electrodes are written back: shared by the kinds that ground a service. */
import type { Electrode } from "../../rules/grounding.ts";

/** The electrode as it would be typed. */
export const writeElectrode = (electrode: Electrode): string =>
  electrode === "rod" ? "ground rods only" : `${electrode} electrode`;
