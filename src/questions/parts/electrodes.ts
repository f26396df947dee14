/** How grounding electrodes are written, and written back: shared by the kinds that ground a service. */
import type { Electrode } from "../../rules/grounding.ts";

/** In the phrase language of text/phrases.ts. */
export const ELECTRODE_NAMES: Record<Electrode, string> = {
  "concrete-encased":
    "ufer|concrete encased|rebar in the (footing|foundation)|(footing|foundation) (rebar|steel|electrode)",
  "water pipe": "(copper |metal |underground )*(water (pipe|line|service)|water piping)",
  "ground ring": "ground ring",
  rod: "((two|{n}) )?(ground |driven )+rods?",
};

/** The electrode as it would be typed. */
export const writeElectrode = (electrode: Electrode): string =>
  electrode === "rod" ? "ground rods only" : `${electrode} electrode`;
