/** Household cooking equipment asked alone: its demand on a feeder or service, or on a branch circuit. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { NAMES } from "../../../loads/names.ts";
import { cookingBranchLoad, cookingDemand } from "../../../rules/cooking.ts";
import { nameplate } from "../../../rules/nameplate.ts";
import { spreadOf } from "../../../rules/three-phase.ts";
import { neutralInWords } from "../../parts/demand-neutral.ts";
import { checkSpreads } from "../../parts/spreads.ts";
import { question } from "../../question.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { input, type PIECES } from "./request.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "cooking-demand",
  title: "Cooking demand",
  about: "What household ranges, wall ovens and cooktops add to a feeder, a service or a branch circuit.",
  input,
  figures: {
    "connected-load": "connected load",
    "demand-load": "demand load",
    "load-current": "load current",
    "neutral-load": "neutral load",
  },
  examples: [
    "demand for two ranges, 14 kW and 18 kW",
    "branch circuit load for a 7.2 kW cooktop and two 2.4 kW wall ovens",
  ],
  manner: { traits: ["lists", "adds up", "groups", "demand", "no volts"], words: ["load:range"] },
  takes,
  write,
  answer({ appliances, supply: told, use, method, volts, neutral }, w) {
    if (!appliances?.length) {
      throw need(
        "appliances",
        "Which cooking appliances, and what do their nameplates say?",
        "demand for a 14 kW range",
      );
    }
    checkSpreads(appliances, told);
    if (neutral && use === "branch circuit") {
      throw need(
        "use",
        "Is the neutral of a feeder or service meant? A branch circuit's is sized with it.",
        "on the feeder",
      );
    }
    const supply = appliances[0]!.spread ? "three-phase" : told;
    w.part("Cooking equipment");
    const voltage = w.take("supply voltage", volts && asQuantity(volts), "supply-voltage");
    const pieces = appliances.map(({ kind, count, rating, spread }) => ({
      piece: kind,
      count: w.given(`${NAMES[kind]}s`, { n: String(count), unit: "1" as const }),
      rating: rating ? nameplate(w, `${NAMES[kind]} nameplate`, rating, voltage) : unsaid(w, kind),
      spread: spreadOf(w, spread, `${NAMES[kind]}s`),
    }));
    const onBranch = use === "branch circuit";
    if (supply === undefined && !onBranch) {
      w.suppose("supply", "single-phase", "nothing was said of the supply", "three-phase");
    }
    const { connected, demand } = onBranch
      ? cookingBranchLoad(w, pieces)
      : cookingDemand(w, pieces, { threePhase: supply === "three-phase", ...(method && { only: method }) });
    w.figure("connected-load", connected, "connected load");
    w.figure("demand-load", demand, "demand load");
    if (supply !== "three-phase") {
      w.figure("load-current", w.work("current", "A", calc`${demand} ÷ ${voltage}`));
    }
    const onNeutral = neutral && !onBranch ? neutralInWords(w, "cooking", demand, supply === "three-phase") : "";
    w.suggest(...(onBranch ? ["on the service instead"] : ["on a three-phase service", "by note 3"]));
    return {
      headline: onBranch
        ? w.say`Branch-circuit load ${demand} (nameplate ${connected}).`
        : w.say`Cooking demand ${demand} of ${connected} connected.${onNeutral}`,
    };
  },
});

/** A range without a rating is taken as one the table's column C reaches without increase; anything else is asked about. */
function unsaid(w: Worksheet, kind: typeof PIECES[number]): Known<"VA"> {
  if (kind === "range") return w.assume<"VA">("range-rating");
  throw need("rating", `What does the ${NAMES[kind]}'s nameplate say, in kW?`, `7.2 kW ${NAMES[kind]}`);
}
