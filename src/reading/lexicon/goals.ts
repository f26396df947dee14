/** What is asked, by what it is asked of. */
import type { Lexicon } from "./entry.ts";
import { answerGoals } from "./goals/answer.ts";
import { circuitGoals } from "./goals/circuit.ts";
import { conversionGoals } from "./goals/conversion.ts";
import { enclosureGoals } from "./goals/enclosure.ts";
import { faultGoals } from "./goals/fault.ts";
import { loadGoals } from "./goals/load.ts";
import { panelGoals } from "./goals/panel.ts";
import { panelCheckGoals } from "./goals/panel-check.ts";

export const goals = {
  ...loadGoals,
  ...circuitGoals,
  ...conversionGoals,
  ...enclosureGoals,
  ...faultGoals,
  ...panelGoals,
  ...panelCheckGoals,
  ...answerGoals,
} as const satisfies Lexicon;
