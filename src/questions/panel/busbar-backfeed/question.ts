/** Solar, storage or another parallel source on a panel's busbar: every permitted way, and the largest breaker. */
import { calc } from "../../../core/formula.ts";
import { need, NotCovered } from "../../../core/outcome.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { breakerBelow } from "../../../rules/overcurrent.ts";
import { apparentPower } from "../../../rules/power.ts";
import { ledBy } from "../../parts/verdict.ts";
import { question } from "../../question.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type BackfeedRequest, input } from "./request.ts";
import { type Counted, countSources } from "./sources.ts";
import { takes } from "./takes.ts";
import { type Panel, type Way, waysOf } from "./ways.ts";
import { write } from "./write.ts";

export default question({
  id: "busbar-backfeed",
  title: "Solar, storage or another source on a busbar",
  about: "Whether a panel's busbar takes a backfed breaker, by every permitted way, and the largest one.",
  input,
  figures: {
    "largest-backfeed-breaker": "largest backfeed breaker",
    "largest-source-output": "largest output of the sources",
    "largest-source-power": "largest power of the sources",
    "source-current": "current of the sources as counted",
    "busbar-limit": "what source and main may come to at opposite ends",
    "main-rating": "largest main with which it fits",
  },
  examples: [
    "200 A bus, 200 A main, 40 A solar breaker at the opposite end, ok?",
    "largest solar breaker on a 225 A bus with a 200 A main",
    "solar inverter 7.6 kW on a 125 A panel with a 100 A main",
  ],
  manner: { traits: ["lists"], pointers: { "transformer:inverter": ["largest-source-power"] } },
  takes,
  write,
  answer(request, w) {
    if (!request.bus && !request.main) {
      throw need("bus", "What are the busbar and the main rated? The panel's label says it.", "200 A bus, 200 A main");
    }
    if (request.sources?.some(({ kind }) => kind === "generator")) throw new NotCovered(GENERATOR, w.edition.id);
    w.part("Panel");
    const panel = panelOf(w, request);
    const counted = countSources(w, request);
    if (request.supplySide) return onSupplySide(w, panel, counted);
    const ways = waysOf(w, request, panel, counted);
    const limit = w.work(
      "at opposite ends",
      "A",
      calc`${panel.bus} × ${w.constant("busbar-share")}`,
      "busbar-opposite",
    );
    w.figure("busbar-limit", limit, "what source and main may come to at opposite ends");
    // `solar of 24 A is there, the largest battery breaker?`: what is left beside the sources that have a size.
    const isOpen = counted !== undefined && request.sources!.some(({ breaker, output }) => !breaker && !output);
    const room = roomOf(w, request, panel, limit, isOpen ? counted : undefined);
    const answer: Told = counted && !isOpen ? judged(w, request, counted, ways, panel, limit, room) : {
      headline: counted
        ? w.say`Beside ${counted.current} of other sources: ${lowered(turned(w, room))}`
        : turned(w, room),
    };
    cautions(w, request);
    w.suggest(counted ? "at the opposite end" : "40 A solar breaker", "with a 150 A main");
    return answer;
  },
});

/** Ahead of the main no busbar carries the source: it is held against the rating of the service alone. */
function onSupplySide(w: Worksheet, { main }: Panel, counted: Counted | undefined): Told {
  w.part("Supply side");
  w.figure("largest-source-output", main, "largest output of the sources");
  const { section } = w.cite("busbar-supply-side");
  w.caution(
    "Conductors between the service and the source's own disconnect have no overcurrent device ahead of them: the utility and the inspector decide where they may be tapped, and they stay live with the main off.",
    "busbar-supply-side",
  );
  w.suggest("on the load side at the opposite end");
  if (!counted) {
    return {
      headline: w.say`On the supply side sources of up to ${main} in all, the rating of the service (${section}).`,
    };
  }
  const fits = w.choose(
    "sources within the service",
    [counted.current, "≤", main],
    ["yes", () => true],
    ["no", () => false],
    "busbar-supply-side",
  );
  const because = fits
    ? w.say`on the supply side ${counted.current} is within the ${main} service, and no busbar carries it`
    : w.say`on the supply side ${counted.current} is more than the ${main} service`;
  const is = fits ? "ok" : "not ok";
  const { headline } = ledBy({ is, because: `${because} (${section})` });
  return { headline, verdict: { is, because } };
}

const lowered = (sentence: string): string => sentence[0]!.toLowerCase() + sentence.slice(1);

const GENERATOR =
  "a generator behind a transfer switch or an interlock never feeds the busbar beside the main, so no busbar rule " +
  "reaches it: it must carry what is switched to it (all of it, where that happens by itself). One that runs in parallel is told as an inverter.";

/** The busbar and its main; one that was not told is taken as large as the other, which is the safe case for the busbar. */
function panelOf(w: Worksheet, { bus, main }: BackfeedRequest): Panel {
  const same = (name: string, of: Known<"A">, change: string) => {
    w.suppose(name, w.say`${of}`, "it was not told, and most are alike; the panel's label says it", change);
    return of;
  };
  const toldBus = bus && w.given("busbar", asQuantity(bus));
  const toldMain = main && w.given("main", asQuantity(main));
  return {
    bus: toldBus ?? same("rating of the busbar", toldMain!, "200 A bus"),
    main: toldMain ?? same("rating of the main", toldBus!, "150 A main"),
  };
}

type Room = { current: Known<"A">; breaker: Known<"A"> | undefined; clause: string };

/** What source and main may come to where the source stands: within the busbar beside the main, else its share. */
const mostOf = ({ position }: BackfeedRequest, { bus }: Panel, limit: Known<"A">): Known<"A"> =>
  position === "beside the main" ? bus : limit;

/**
 * What is left for sources at the end opposite the main, or, told to stand elsewhere, within the busbar itself; what the load
 * breakers leave of it, where they were told and that is more.
 */
function roomOf(
  w: Worksheet,
  request: BackfeedRequest,
  panel: Panel,
  limit: Known<"A">,
  others: Counted | undefined,
): Room {
  const { position, volts, supply, loadBreakers } = request;
  const { bus, main } = panel;
  w.part("Largest source");
  const nothing = w.given("least", { n: "0", unit: "A" });
  const most = mostOf(request, panel, limit);
  const clause = position === "beside the main" ? "busbar-sum" : "busbar-opposite";
  const beside = others
    ? w.work(
      "left beside the main and the other sources",
      "A",
      calc`max(${nothing}, ${most} − ${main} − ${others.current})`,
      clause,
    )
    : w.work("left for sources beside the main", "A", calc`max(${nothing}, ${most} − ${main})`, clause);
  const devices = loadBreakers && w.work(
    "left for sources beside all load breakers",
    "A",
    calc`max(${nothing}, ${bus} − ${w.given("load breakers", asQuantity(loadBreakers))} − ${
      others?.breakers ?? others?.current ?? nothing
    })`,
    "busbar-all-devices",
  );
  const isByDevices = devices !== undefined && w.holds(devices, ">", beside);
  const current = isByDevices ? devices : beside;
  const by = isByDevices ? "busbar-all-devices" : clause;
  const breaker = w.ifCovered(() => breakerBelow(w, current, "largest standard breaker within it"));
  w.figure("largest-backfeed-breaker", breaker ?? nothing, "largest backfeed breaker");
  const output = w.work(
    "their output",
    "A",
    calc`${current} ÷ ${w.constant("busbar-source-factor")}`,
    by,
  );
  w.figure("largest-source-output", output, "largest output of the sources");
  const voltage = volts ? w.given("voltage of the source", asQuantity(volts)) : w.assume<"V">("source-voltage");
  const power = apparentPower(w, output, voltage, supply === "three-phase" ? 3 : 1);
  w.figure("largest-source-power", power, "largest power of the sources");
  return { current, breaker, clause: by };
}

function turned(w: Worksheet, { current, breaker, clause }: Room): string {
  if (!breaker) return w.say`Nothing fits on this busbar beside its main: ${current} is left for a source.`;
  const [output, power] = ["largest-source-output", "largest-source-power"].map((id) => w.figures[id]!);
  const kVA = Math.floor(Number(power!.value) / 100) / 10;
  return w.say`Largest backfeed breaker ${breaker}, ${w.cite(clause).section}${
    clause === "busbar-all-devices" ? ", if none is added later" : ""
  }: ${current} is left, so up to ${String(Math.floor(Number(output!.value) * 10) / 10)} A of output (${
    String(kVA)
  } kVA).`;
}

/** The verdict by the ways that were judged, the best of them first, and what would let it fit. */
function judged(
  w: Worksheet,
  request: BackfeedRequest,
  { current }: Counted,
  ways: readonly Way[],
  panel: Panel,
  limit: Known<"A">,
  { current: left, breaker }: Room,
): Told {
  const { bus, main } = panel;
  const best = ways.find(({ is }) => is === "ok") ?? ways.find(({ is }) => is === "ok if");
  if (best) {
    // By another way than the main's share more may stand there than that share leaves.
    const largest = w.holds(current, "≤", left) ? w.say`Largest breaker ${breaker ?? "none"}.` : "";
    return ledBy({ is: best.is, because: best.because }, largest);
  }
  const isBeside = request.position === "beside the main";
  const most = mostOf(request, panel, limit);
  const because = isBeside
    ? w.say`source ${current} and main ${main} on a ${bus} busbar: beside its main ${bus} is the most`
    : w.say`source ${current} and main ${main} on a ${bus} busbar: ${limit} is the most, at opposite ends`;
  const moved = isBeside && w.holds(calc`${current} + ${main}`, "≤", limit)
    ? w.say`; at the opposite end it fits, ${limit} being the most there`
    : "";
  w.part("A smaller main");
  const nothing = w.given("least", { n: "0", unit: "A" });
  const mains = w.work("left for the main", "A", calc`max(${nothing}, ${most} − ${current})`);
  const smaller = w.ifCovered(() => breakerBelow(w, mains, "largest main with which it fits"));
  // One of less than half would hardly carry what the panel was made for.
  const isOffered = smaller && w.holds(calc`2 × ${smaller}`, "≥", main);
  if (smaller && isOffered) w.figure("main-rating", smaller, "largest main with which it fits");
  const lower = smaller && isOffered ? w.say`; with a ${smaller} main it fits, if that carries the load` : "";
  const { headline } = ledBy(
    { is: "not ok", because: `${because}${moved}` },
    w.say`Largest breaker here ${breaker ?? "none"}${lower}; or connect on the supply side.`,
  );
  return { headline, verdict: { is: "not ok", because } };
}

function cautions(w: Worksheet, { centerFed, setting }: BackfeedRequest): void {
  w.caution(
    "Two sources: both stay live behind their own switch. Open main and source, and test, before the panel is touched; mark it so.",
  );
  if (setting && w.edition.rule("busbar-power-control") !== "the setting counts") {
    w.caution("The setting of a power control system does not count in this edition.");
  }
  w.caution("At the opposite end: a label beside it that it may not be moved.", "busbar-opposite");
  if (centerFed) w.caution("Center-fed: at one end of the busbar only.", "busbar-center-fed");
}
