/** The readings that a de-energized, isolated panel must give between its bars, its case and its lines, and what was read. */
import type { Known, Verdict } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Finding, judge } from "./finding.ts";
import { lookFor } from "./look-for.ts";
import { type Bond, type Installed, installed, inWords, panelOf } from "./panel.ts";
import { type Expected, type Pair, pairInWords, type Read } from "./pair.ts";
import type { PanelRequest, Point } from "./request.ts";

type Reading = NonNullable<PanelRequest["readings"]>[number];
const isLine = (point: Point): boolean => point.startsWith("line");
const isNeutral = (point: Point): boolean => point === "neutral bar";

/** Every pair of points of the panel, those that tell most first. */
export function pairsOf(phases: 1 | 3): Pair[] {
  const points: Point[] = [
    "neutral bar",
    "ground bar",
    "case",
    "line A",
    "line B",
    ...(phases === 3 ? ["line C" as const] : []),
  ];
  return points.flatMap((from, i) => points.slice(i + 1).map((to): Pair => [from, to]))
    .sort(([, a], [, b]) => Number(isLine(a)) - Number(isLine(b)));
}

/** What a pair reads in a panel that is right, isolated and de-energized, every branch breaker off. */
export function expected([a, b]: Pair, bonded: boolean): Expected {
  if (isLine(a) || isLine(b)) return "open";
  return bonded || (!isNeutral(a) && !isNeutral(b)) ? "closed" : "open";
}
export function continuity(w: Worksheet, r: PanelRequest, { bond, phases }: Installed = installed(w, r)): Finding {
  const panel = panelOf(r);
  if (!bond.bonded) supposeLifted(w, r);
  cautions(w, r);
  const read = tableOf(w, r, bond, phases);
  const judged = read.map(({ pair, wanted, word, is }) =>
    judge(pairInWords(pair), is, becauseOf(pair, wanted, word, is))
  );
  const odd = read.find(({ is }) => is === "not ok") ?? read.find(({ is }) => is === "ok if");
  if (odd) return { says: lookFor(w, r, odd, bond), judged };
  const between = bond.bonded ? "closed" : "open";
  return {
    says: `${
      inWords(panel)
    }, dead and isolated: neutral to ground and to the case reads ${between}, ground bar to case closed, every line to everything open`,
    judged,
  };
}

/** Readings hold with the feeder's neutral off its bar: on it, the bond at the source closes the circuit. */
function supposeLifted(w: Worksheet, { feederNeutral }: PanelRequest): void {
  const name = "feeder neutral during the check";
  if (feederNeutral !== undefined) return void w.given(name, feederNeutral);
  const why = "on its bar it reads closed to ground through the bond at the service, and tells nothing of this panel";
  w.suppose(name, "lifted off its bar", why, "feeder neutral still connected");
}

/** The table of what each pair has to read, with what was read beside it. */
function tableOf(w: Worksheet, r: PanelRequest, bond: Bond, phases: 1 | 3): Read[] {
  w.part("Continuity");
  const limit = w.constant<"ohm">("continuity-limit");
  const open = w.constant<"ohm">("continuity-open");
  w.caution(w.say`Closed: ${limit} or less, leads zeroed. Open: ${open} or more, or overload on the display.`);
  return pairsOf(phases).flatMap((pair) => {
    const [a, b] = pair;
    const told = r.readings?.find(({ from, to }) => (from === a && to === b) || (from === b && to === a));
    const wanted = expected(pair, bond.bonded);
    const step = w.given(pairInWords(pair), wanted);
    if (told === undefined) {
      w.enter(pairInWords(pair), step);
      return [];
    }
    const read = readingOf(w, told, pair, limit, open);
    const is = verdictOn(r, pair, wanted, read.word, bond);
    w.enter(pairInWords(pair), step, read.step, is);
    return [{ pair, wanted, word: read.word, is }];
  });
}

/** A reading as a word: what a buzzer says, or a resistance between its limits. */
function readingOf(
  w: Worksheet,
  { reads, resistance }: Reading,
  pair: Pair,
  limit: Known<"ohm">,
  open: Known<"ohm">,
): { word: Expected | "between"; step: Known } {
  const name = `${pairInWords(pair)}, read`;
  if (resistance === undefined) return { word: reads ?? "closed", step: w.given(name, reads ?? "closed") };
  const step = w.given(name, asQuantity(resistance));
  const word = w.choose<Expected | "between">(
    "closed",
    [step, "≤", limit],
    ["yes", () => "closed"],
    ["no", () => w.holds(step, "≥", open) ? "open" : "between"],
  );
  return { word, step };
}

/** With the feeder's neutral on its bar a closed reading from neutral is the service's own bond. */
const isThroughService = (r: PanelRequest, pair: Pair, bond: Bond): boolean =>
  r.feederNeutral === "connected" && !bond.bonded && pair.some(isNeutral) && !pair.some(isLine);

function verdictOn(
  r: PanelRequest,
  pair: Pair,
  wanted: Expected,
  read: Expected | "between",
  bond: Bond,
): Verdict {
  if (!isThroughService(r, pair, bond)) return read === wanted ? "ok" : "not ok";
  return read === "closed" ? "ok if" : "not ok";
}

function becauseOf(pair: Pair, wanted: Expected, read: Expected | "between", is: Verdict): string {
  const what = pairInWords(pair);
  const found = read === "between" ? "neither closed nor open" : read;
  if (is === "ok") return `${what} reads ${found}, as it has to`;
  if (is === "ok if") return `${what} reads open once the feeder neutral is lifted off its bar`;
  return `${what} reads ${found} and has to read ${wanted}${wanted === "open" ? " once it is isolated" : ""}`;
}

function cautions(w: Worksheet, r: PanelRequest): void {
  w.caution(
    r.energized
      ? "Stop: never check continuity energized. Off, locked out, proved dead first."
      : "Only de-energized: off, locked out, proved dead, breakers off. Where rules want two people, two.",
  );
  if (r.panel === "service panel") {
    w.caution("Conductors ahead of the main stay live with the main off.");
  }
}
