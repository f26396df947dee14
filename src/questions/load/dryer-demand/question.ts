/** Household dryers asked alone: their demand on a feeder or service, or one on its branch circuit. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { dryerDemand, type Dryers } from "../../../rules/dryers.ts";
import { nameplate } from "../../../rules/nameplate.ts";
import { spreadOf } from "../../../rules/three-phase.ts";
import { neutralInWords } from "../../parts/demand-neutral.ts";
import { checkSpreads } from "../../parts/spreads.ts";
import { question } from "../../question.ts";
import { type DryerRequest, input } from "./request.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "dryer-demand",
  title: "Dryer demand",
  about: "What household clothes dryers add to a feeder or service.",
  input,
  figures: {
    "connected-load": "connected load",
    "demand-load": "demand load",
    "neutral-load": "neutral load",
    "other-reading-load": "by the other reading",
  },
  examples: ["demand of 10 dryers 5.5 kW each", "eleven 4.5 kW dryers on a three-phase service"],
  manner: { traits: ["lists", "adds up", "groups", "demand", "no volts"], words: ["load:dryer"] },
  takes,
  write,
  answer({ dryers, supply: told, row, neutral }, w) {
    if (!dryers?.length) {
      throw need("dryers", "How many dryers, and what does their nameplate say?", "10 dryers 5.5 kW each");
    }
    checkSpreads(dryers, told);
    const supply = dryers[0]!.spread ? "three-phase" : told;
    w.part("Dryers");
    const entries = dryers.map(({ count, rating, spread }) => ({
      count: w.given("dryers", { n: String(count), unit: "1" }),
      rating: rating ? nameplate(w, "dryer nameplate", rating) : w.assume<"VA">("dryer-rating"),
      spread: spreadOf(w, spread, "dryers"),
    }));
    const threePhase = supply === "three-phase";
    if (supply === undefined) {
      w.suppose("supply", "single-phase", "nothing was said of the supply", "three-phase");
    }
    const isMany = threePhase && dryers.reduce((sum, { count }) => sum + count, 0) > 1;
    if (isMany && !row) {
      w.suppose(
        "dryers on three phases",
        "the table by twice the most between two phases",
        "so the section says; some training material takes the percentage for all dryers, shown beside it",
        "by the number of all dryers",
        "dryers",
      );
    }
    const { demand } = dryerDemand(w, entries, threePhase, row);
    const nameplates = entries.map(({ count, rating }) => w.work("nameplates", "VA", calc`${count} × ${rating}`));
    const connected = w.work("connected load", "VA", calc`sum(${nameplates})`);
    w.figure("connected-load", connected);
    w.figure("demand-load", demand, "demand load");
    const other = isMany ? otherReading(w, entries, row) : "";
    const onNeutral = neutral ? neutralInWords(w, "dryers", demand, threePhase) : "";
    w.suggest("on a three-phase service", "2020 code");
    return { headline: w.say`Dryer demand ${demand} (nameplates add up to ${connected}).${other}${onNeutral}` };
  },
});

/** The demand by the other reading of the three-phase row, for the record. */
function otherReading(w: Worksheet, entries: readonly Dryers[], row: DryerRequest["row"]): string {
  const isAll = row === "all dryers";
  w.part("The other reading");
  const { demand } = dryerDemand(w, entries, true, isAll ? "twice the most between two phases" : "all dryers");
  w.figure("other-reading-load", demand, "by the other reading");
  return isAll
    ? w.say` By twice the most between two phases, as the section says: ${demand}.`
    : w.say` By the number of all dryers, as some read it: ${demand}.`;
}
