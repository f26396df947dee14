/** Systems that a rule asks for, beside those that the owner wants: what feeds what must not go dark. */
import { each, type Lexicon } from "./entry.ts";

export const requiredSystems = {
  "emergency": {
    says: [
      ...each(["emergency"], [
        "system",
        "power system",
        "circuit",
        "lighting circuit",
        "lighting system",
        "feeder",
        "panel",
        "panelboard",
        "branch",
        "load",
        "transfer switch",
      ]),
      "life safety",
      "life safety branch",
      "life safety system",
    ],
  },
  "legally required": {
    says: [
      "legally required standby",
      "legally required standby system",
      "legally required system",
      "legally required",
    ],
  },
  "health care": { says: ["essential electrical system", "critical branch", "essential branch"] },
  "optional": { says: ["optional standby", "optional standby system"] },
} as const satisfies Lexicon;
