/** Household dryers asked alone: their demand on a feeder or service, or one on its branch circuit. */
import * as z from "zod";
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { dryerDemand } from "../../../rules/dryers.ts";
import { nameplate } from "../../../rules/nameplate.ts";
import { quantity, question } from "../../question.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

const input = z.strictObject({
  dryers: z.array(z.strictObject({
    count: z.int().min(1).max(2000).default(1),
    rating: quantity(["W", "kW", "VA", "kVA", "A"], { W: 15000, VA: 15000, kW: 15, kVA: 15, A: 60 }).optional(),
  })).max(50).optional(),
  supply: z.enum(["single-phase", "three-phase"]).optional(),
});
export type DryerRequest = z.output<typeof input>;

export default question({
  id: "dryer-demand",
  title: "Dryer demand",
  about: "What household clothes dryers add to a feeder or service.",
  input,
  figures: { "connected-load": "connected load", "demand-load": "demand load" },
  examples: ["demand of 10 dryers 5.5 kW each", "eleven 4.5 kW dryers on a three-phase service"],
  takes,
  write,
  answer({ dryers, supply }, w) {
    if (!dryers?.length) {
      throw need("dryers", "How many dryers, and what does their nameplate say?", "10 dryers 5.5 kW each");
    }
    w.part("Dryers");
    const entries = dryers.map(({ count, rating }) => ({
      count: w.given("dryers", { n: String(count), unit: "1" }),
      rating: rating ? nameplate(w, "dryer nameplate", rating) : w.assume<"VA">("dryer-rating"),
    }));
    const threePhase = supply === "three-phase";
    if (supply === undefined) {
      w.suppose("supply", "single-phase", "nothing was said of the supply", "three-phase");
    }
    const { demand } = dryerDemand(w, entries, threePhase);
    const nameplates = entries.map(({ count, rating }) => w.work("nameplates", "VA", calc`${count} × ${rating}`));
    const connected = w.work("connected load", "VA", calc`sum(${nameplates})`);
    w.figure("connected-load", connected);
    w.figure("demand-load", demand, "demand load");
    w.headline = w.say`Dryer demand ${demand} (nameplates add up to ${connected}).`;
    w.suggest("on a three-phase service", "2020 code");
  },
});
