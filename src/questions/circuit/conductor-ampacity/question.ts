/** What a conductor carries where it lies, every factor shown, and the largest breaker it may have. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { markedHigher, ratingOfConductor, wiringOf } from "../../../rules/conditions.ts";
import { type Ampacity, ampacityOf, type Material, smallLimit } from "../../../rules/conductors.ts";
import { cautionWiring, unfit } from "../../../rules/fitness.ts";
import { largestBreaker } from "../../../rules/overcurrent.ts";
import { tooSmallToParallel } from "../../../rules/parallel.ts";
import { isLimited } from "../../../rules/wiring-methods.ts";
import { question } from "../../question.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Judgement, ledBy, refusedByHeat, verdictOf } from "../../parts/verdict.ts";
import { type AmpacityRequest, input } from "./request.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

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
    "parallel-sets": "parallel sets",
    "ampacity-of-all-sets": "ampacity of all sets together",
    "termination-ampacity": "most that the terminations allow",
    "small-conductor-limit": "largest device on this small size",
    "breaker-rating": "largest breaker",
  },
  examples: [
    "ampacity of 10 AWG THHN copper, 6 current-carrying conductors, 105 °F",
    "what is 2/0 aluminum XHHW-2 good for at 110 °F with 75 °C terminals?",
    "how many amps can #8 copper THHN carry with 75 °C terminals?",
  ],
  manner: { traits: ["no volts", "one wire"], asked: "goal:ampacity" },
  takes,
  write,
  answer(request, w) {
    if (request.size === undefined) {
      throw need("size", "What size is the conductor, and is it copper or aluminum?", "8 AWG copper");
    }
    w.part("Conductor");
    const conductor = w.given("conductor", request.size);
    const material = request.material ?? w.word(w.assume<"word">("conductor-material")) as Material;
    const sets = request.sets ? parallelSets(w, request.sets, conductor) : undefined;
    const rating = request.breaker ? w.given("breaker put up for checking", asQuantity(request.breaker)) : ofAllSets(
      w,
      sets,
      request.load
        ? w.lookUp<"A">("lowest column of the table", "conductor-ampacity", `${material} 60 °C`, conductor)
        : ratingOfConductor(w, conductor, { ...request, material }),
      "rating by which terminations go",
    );
    const wires = wiringOf(w, { ...request, material }, rating);
    const hot = request.breaker || request.load ? refusedByHeat(w, () => wires) : undefined;
    if (hot) return hot;
    w.part("Ampacity");
    const one = ampacityOf(w, conductor, wires);
    const carries = whatItCarries(request, one);
    w.figure("table-ampacity", one.table);
    w.figure("correction-factor", one.correction);
    w.figure("adjustment-factor", w.work("adjustment factor", "1", calc`1 × ${one.adjustment}`, "count-adjustment"));
    w.figure("ampacity", carries, "ampacity here");
    w.figure("termination-ampacity", one.terminal);
    const together = ofAllSets(w, sets, one.ampacity);
    if (together !== one.ampacity) w.figure("ampacity-of-all-sets", together);
    w.part("Breaker");
    const breaker = largest(w, together, conductor, material);
    w.figure("breaker-rating", breaker, "largest breaker");
    return tell(w, request, {
      conductor,
      one,
      carries,
      breaker,
      material,
      rating,
      better: atMarked(w, request, conductor, rating, sets),
      sets,
      together,
    });
  },
});

/**
 * What the conductor carries: corrected and adjusted, and not above what terminations of a known marking or the cable's
 * own article allow. Terminations of unknown marking limit the breaker, and are told beside.
 */
const whatItCarries = ({ terminals, method }: AmpacityRequest, one: Ampacity): Known<"A"> =>
  terminals !== undefined || isLimited(method) ? one.ampacity : one.corrected;

type Sets = { count: Known<"1"> } | { tooSmall: string };

/** How many sets there are, where the size may be run in parallel: a word on it where it may not. */
function parallelSets(w: Worksheet, count: number, conductor: Known<"size">): Sets {
  const tooSmall = tooSmallToParallel(w, conductor);
  if (tooSmall) return { tooSmall };
  const sets = w.given("parallel sets", { n: String(count), unit: "1" });
  w.figure("parallel-sets", sets);
  return { count: sets };
}

/** As many times what one conductor has as there are sets of it; a device and a load are those of all of them. */
const ofAllSets = (
  w: Worksheet,
  sets: Sets | undefined,
  ofOne: Known<"A">,
  name = "ampacity of all sets",
): Known<"A"> => sets && "count" in sets ? w.work(name, "A", calc`${sets.count} × ${ofOne}`) : ofOne;

function largest(w: Worksheet, ampacity: Known<"A">, conductor: Known<"size">, material: Material): Known<"A"> {
  const breaker = largestBreaker(w, ampacity);
  const limit = smallLimit(w, conductor, material);
  if (!limit) return breaker;
  w.figure("small-conductor-limit", limit);
  return w.work("largest breaker", "A", calc`min(${breaker}, ${limit})`, "small-conductors");
}

/** What terminations marked for the higher column would allow, where their marking is open. */
type Better = { condition: string; ampacity: Known<"A">; breaker: Known<"A"> };

function atMarked(
  w: Worksheet,
  request: AmpacityRequest,
  conductor: Known<"size">,
  rating: Known<"A">,
  sets: Sets | undefined,
): Better | undefined {
  const marked = markedHigher(w, request);
  if (!marked || !(request.breaker || request.load)) return undefined;
  const title = "If the terminations are marked for the higher column";
  w.part(title);
  w.aside(title);
  const wires = wiringOf(w, marked.r, rating);
  const ampacity = ofAllSets(w, sets, ampacityOf(w, conductor, wires).ampacity);
  const limit = smallLimit(w, conductor, wires.material);
  const breaker = largestBreaker(w, ampacity);
  const within = limit
    ? w.work("largest breaker then", "A", calc`min(${breaker}, ${limit})`, "small-conductors")
    : breaker;
  return { condition: marked.condition, ampacity, breaker: within };
}

type Result = {
  sets: Sets | undefined;
  /** What all sets carry within their terminations; one conductor where there are none. */
  together: Known<"A">;
  conductor: Known<"size">;
  better: Better | undefined;
  one: Ampacity;
  carries: Known<"A">;
  breaker: Known<"A">;
  material: Material;
  rating: Known<"A">;
};

function tell(
  w: Worksheet,
  request: AmpacityRequest,
  { conductor, one, carries, breaker, material, rating, better, sets, together }: Result,
): Told {
  const what = [request.size, material, request.insulation ?? request.method].filter(Boolean).join(" ");
  const limits = carries === one.corrected ? w.say`; terminations allow ${one.terminal}` : "";
  const asSets = sets && "count" in sets
    ? w.say`; ${String(request.sets)} sets ${together} within their terminations`
    : "";
  const sentence = w.say`${what} carries ${carries} here${limits}${asSets}; largest breaker ${breaker}.`;
  const tooSmall: Told = sets && "tooSmall" in sets
    ? ledBy({ is: "not ok", because: sets.tooSmall }, sentence)
    : { headline: sentence };
  const checked = check(w, request, { conductor, together, breaker, rating, better });
  const answer = checked ? ledBy(checked, tooSmall.headline) : tooSmall;
  w.caution(
    "The next size up is not allowed on a circuit with several receptacles for cord-and-plug loads.",
    "next-size-up",
  );
  w.caution("Motors, cooling equipment and welders have device rules of their own, which may allow more.");
  const small = w.constant<"A">("terminal-temperature-small-to");
  if (request.terminals === undefined && !isLimited(request.method) && w.holds(breaker, ">", small)) {
    const lower = w.lookUp<"A">("ampacity at the lower column", "conductor-ampacity", `${material} 60 °C`, conductor);
    if (w.holds(lower, "<", one.terminal)) {
      w.caution(
        w.say`On a circuit of ${small} or less terminations of unknown marking allow ${lower}.`,
        "terminal-temperature",
      );
    }
  }
  cautionWiring(w, request, conductor, material, answer.verdict !== undefined);
  const other = material === "copper" ? "aluminum" : "copper";
  w.suggest(
    `use ${other}`,
    request.terminals?.value === 75 ? "60 °C terminals" : "75 °C terminals",
    "ambient 110 °F",
    "9 current-carrying conductors",
  );
  return answer;
}

type Held = Pick<Result, "conductor" | "together" | "breaker" | "rating" | "better">;

function check(
  w: Worksheet,
  request: AmpacityRequest,
  { conductor, together, breaker, rating, better }: Held,
): Reasoned | undefined {
  const judged: Judgement[] = [];
  if (request.load) {
    const load = w.given("load put up for checking", asQuantity(request.load));
    const against = (most: Known<"A">) =>
      w.choose<boolean>("load put up for checking", [load, "≤", most], ["carried", () => true], [
        "too much",
        () => false,
      ], "ampacity");
    // A small conductor carries no load that its largest breaker does not.
    const mostOf = (ampacity: Known<"A">, device: Known<"A">) => w.holds(device, "<", ampacity) ? device : ampacity;
    const most = mostOf(together, breaker);
    const limit = w.holds(breaker, "<", together) ? "the largest breaker it may have" : "what it may carry here";
    const does = against(most);
    judged.push(judge(w, does, better && against(mostOf(better.ampacity, better.breaker)), better, {
      what: "load",
      ok: w.say`${load} is within ${most}, ${limit}`,
      not: w.say`${load} is more than ${most}, ${limit}`,
    }));
  }
  if (request.breaker) {
    const against = (most: Known<"A">) =>
      w.choose<boolean>("breaker put up for checking", [rating, "≤", most], ["allowed", () => true], [
        "too large",
        () => false,
      ], "next-size-up");
    const does = against(breaker);
    judged.push(judge(w, does, better && against(better.breaker), better, {
      what: "breaker",
      ok: w.say`this conductor may have up to ${breaker}`,
      not: w.say`${rating} is more than ${breaker}, the most this conductor may have`,
    }));
  }
  if (judged.length > 0) {
    judged.push(...unfit(w, request, conductor).map(({ is, because }) => ({ what: "method", is, because })));
  }
  return verdictOf(judged);
}

/** What holds only where the terminations are marked for more hangs on that marking. */
function judge(
  w: Worksheet,
  does: boolean,
  doesMarked: boolean | undefined,
  better: Better | undefined,
  { what, ok, not }: { what: string; ok: string; not: string },
): Judgement {
  if (does) return { what, is: "ok", because: ok };
  if (doesMarked && better) return { what, is: "ok if", because: w.say`${better.condition}` };
  return { what, is: "not ok", because: not };
}
