/** What a conductor carries where it lies, every factor shown, and the largest breaker it may have. */
import * as z from "zod";
import { calc } from "../../core/formula.ts";
import { need } from "../../core/outcome.ts";
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { isSmallForSe, wiringOf } from "../../rules/conditions.ts";
import { type Ampacity, ampacityOf, type Material, sizeInWords, smallLimit } from "../../rules/conductors.ts";
import { largestBreaker } from "../../rules/overcurrent.ts";
import { isLimited } from "../../rules/wiring-methods.ts";
import { asQuantity, quantity, question } from "../question.ts";
import { size, wiring } from "../wiring.ts";
import { cues, phrases, settle } from "./phrases.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

const input = z.strictObject({
  size: size.optional(),
  /** A breaker put up for checking. */
  breaker: quantity(["A"], { A: 6000 }).optional(),
  /** A load put up for checking. */
  load: quantity(["A"], { A: 6000 }).optional(),
  ...wiring,
});
export type AmpacityRequest = z.output<typeof input>;

export default question({
  id: "conductor-ampacity",
  title: "Conductor ampacity",
  about: "What a conductor carries here, and the largest breaker it may have.",
  input,
  figures: {
    "table-ampacity": "ampacity by the table",
    "correction-factor": "correction for ambient temperature",
    "adjustment-factor": "adjustment for the number of conductors",
    ampacity: "ampacity here",
    "termination-ampacity": "most that the terminations allow",
    "small-conductor-limit": "largest device on this small size",
    "breaker-rating": "largest breaker",
  },
  examples: [
    "ampacity of 10 AWG THHN copper, 6 current-carrying conductors, 105 °F",
    "what is 2/0 aluminum XHHW-2 good for at 110 °F with 75 °C terminals?",
    "how many amps can #8 copper THHN carry with 75 °C terminals?",
  ],
  takes,
  cues,
  phrases,
  settle,
  write,
  answer(request, w) {
    if (request.size === undefined) {
      throw need("size", "What size is the conductor, and is it copper or aluminum?", "8 AWG copper");
    }
    w.part("Conductor");
    const conductor = w.given("conductor", request.size);
    const material = request.material ?? w.word(w.assume<"word">("conductor-material")) as Material;
    const rating = request.breaker
      ? w.given("breaker put up for checking", asQuantity(request.breaker))
      : w.lookUp<"A">("lowest column of the table", "conductor-ampacity", `${material} 60 °C`, conductor);
    const isSmallSize = isSmallForSe(w, conductor);
    const wires = wiringOf(w, { ...request, material }, rating, { isSmallSize });
    w.part("Ampacity");
    const one = ampacityOf(w, conductor, wires);
    const carries = whatItCarries(request, one);
    w.figure("table-ampacity", one.table);
    w.figure("correction-factor", one.correction);
    w.figure("adjustment-factor", w.work("adjustment factor", "1", calc`1 × ${one.adjustment}`, "count-adjustment"));
    w.figure("ampacity", carries, "ampacity here");
    w.figure("termination-ampacity", one.terminal);
    w.part("Breaker");
    const breaker = largest(w, one, conductor, material);
    w.figure("breaker-rating", breaker, "largest breaker");
    tell(w, request, { one, carries, breaker, material, rating });
  },
});

/**
 * What the conductor carries: corrected and adjusted, and not above what terminations of a known marking or the cable's
 * own article allow. Terminations of unknown marking limit the breaker, and are told beside.
 */
const whatItCarries = ({ terminals, method }: AmpacityRequest, one: Ampacity): Known<"A"> =>
  terminals !== undefined || isLimited(method) ? one.ampacity : one.corrected;

function largest(w: Worksheet, one: Ampacity, conductor: Known<"word">, material: Material): Known<"A"> {
  const breaker = largestBreaker(w, one.ampacity);
  const limit = smallLimit(w, conductor, material);
  if (!limit) return breaker;
  w.figure("small-conductor-limit", limit);
  return w.work("largest breaker", "A", calc`min(${breaker}, ${limit})`, "small-conductors");
}

type Result = { one: Ampacity; carries: Known<"A">; breaker: Known<"A">; material: Material; rating: Known<"A"> };

function tell(w: Worksheet, request: AmpacityRequest, { one, carries, breaker, material, rating }: Result): void {
  const what = [sizeInWords(request.size!), material, request.insulation ?? request.method].filter(Boolean).join(" ");
  const limits = carries === one.corrected ? w.say`; terminations allow ${one.terminal}` : "";
  w.headline = w.say`${what} carries ${carries} here${limits}; largest breaker ${breaker}.`;
  check(w, request, one, breaker, rating);
  w.caution(
    "The next size up is not allowed on a circuit with several receptacles for cord-and-plug loads.",
    "next-size-up",
  );
  w.caution("Motors, cooling equipment and welders have device rules of their own, which may allow more.");
  if (request.insulation === "THHN" && request.wet) {
    w.caution("THHN alone is not for wet places: look for THWN-2 in the marking.");
  }
  const other = material === "copper" ? "aluminum" : "copper";
  w.suggest(
    `use ${other}`,
    request.terminals?.value === 75 ? "60 °C terminals" : "75 °C terminals",
    "ambient 110 °F",
    "9 current-carrying conductors",
  );
}

function check(w: Worksheet, request: AmpacityRequest, one: Ampacity, breaker: Known<"A">, rating: Known<"A">): void {
  if (request.load) {
    const load = w.given("load put up for checking", asQuantity(request.load));
    if (w.holds(load, ">", one.ampacity)) {
      return verdict(w, "not ok", w.say`${load} is more than ${one.ampacity}, what it may carry here`);
    }
    if (!request.breaker) return verdict(w, "ok", w.say`${load} is within ${one.ampacity}, what it may carry here`);
  }
  if (!request.breaker) return;
  w.choose(
    "breaker put up for checking",
    [rating, "≤", breaker],
    ["allowed", () => verdict(w, "ok", w.say`this conductor may have up to ${breaker}`)],
    [
      "too large",
      () => verdict(w, "not ok", w.say`${rating} is more than ${breaker}, the most this conductor may have`),
    ],
    "next-size-up",
  );
}

function verdict(w: Worksheet, is: "ok" | "not ok", because: string): void {
  w.verdict = { is, because };
  w.headline = `${is === "ok" ? "OK" : "Not OK"}: ${because}. ${w.headline}`;
}
