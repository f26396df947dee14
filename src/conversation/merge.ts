/**
 * What a further text does to the facts of a topic. A head that is named again is the same one, and what is said of it anew
 * replaces what was said before; a figure without a head goes where its like stands; a bare number answers what was asked
 * back, or is the new value of the figure told last. What finds no place is left over, for another question to explain.
 */
import type { Fact, Facts } from "../reading/facts.ts";
import type { ReadText } from "../reading/read.ts";
import {
  asksSize,
  breakerOfAmpacity,
  forgetAdded,
  forgetLength,
  forgetRaceway,
  forgetRating,
  forgetSize,
  forgetTransformerSize,
  otherGrounds,
  otherService,
} from "./merge/asked.ts";
import { addByNumber, insteadOf, pairTold, removeByFigure, sumTold, swapped } from "./merge/by-figure.ts";
import { circuitTold } from "./merge/circuits.ts";
import { denied, leftAt } from "./merge/denied.ts";
import { checkBreaker, forgetChecked, forgetTried } from "./merge/devices.ts";
import { electrodeWire } from "./merge/electrodes.ts";
import { classOf, isBare, LENGTH, PAST } from "./merge/facts.ts";
import { singleTold } from "./merge/free.ts";
import { allOfThem, moreOfKnown, moreOfThese, onlySomeOfThem, severalOfThese, someOfGroup } from "./merge/groups.ts";
import { otherTold } from "./merge/heads.ts";
import { fuelsTold, loadTold, swappedLoads } from "./merge/loads.ts";
import { gaugeTold, sizePutUp } from "./merge/numbers.ts";
import { anotherPanel } from "./merge/panels.ts";
import { type Known, Merging } from "./merge/state.ts";
import { otherHomes, scaled } from "./merge/scaled.ts";
import { serviceRated } from "./merge/services.ts";
import { nextStretch } from "./merge/stretches.ts";
import { bothProtected, singleRun } from "./merge/undone.ts";
import { atEnds, plateOfTwo } from "./merge/windings.ts";
import { groundToo, howManyTold, swappedDevice, swappedWires } from "./merge/wires.ts";
import { type Last, MOST_GONE, type Past } from "./thread.ts";

type Merged = {
  readonly facts: Facts;
  readonly last?: Last;
  readonly past: readonly Past[];
  readonly gone: readonly Fact[];
  /** Pieces of the text that the merging itself used: what it removed, and the words that said so. */
  readonly used: ReadonlySet<number>;
  /** Whether something was to be added or taken away and all is as it was. */
  readonly isIdle: boolean;
  /** Conductors that the text names without a figure, as what they are here. */
  readonly named: readonly Fact[];
  /** What no longer counts, and why: what the plate of another machine told. */
  readonly notes: readonly string[];
};

export function merge(earlier: Facts, text: ReadText, known: Known): Merged {
  const m = new Merging(earlier, text, known);
  const before = m.digest();
  // A check is asked beside what was asked before.
  const asks = m.news.free.some(({ key }) => key.startsWith("goal:") && key !== "goal:check");
  // How far a breaker still trips at once is told with whether it trips.
  const isFarTrip = m.known.kind === "fault-path" &&
    m.news.free.every(({ key }) => !key.startsWith("goal:") || key === "goal:longest-run");
  if (asks && !isFarTrip) m.free = m.free.filter(({ key }) => !key.startsWith("goal:"));
  // How far is asked of a run whose length no longer counts.
  if (m.news.free.some(({ key }) => key === "goal:longest-run")) forgetLength(m);
  // Where a length is told again, how far is not asked any more.
  else if (m.news.free.some(({ key }) => classOf(key) === LENGTH)) {
    m.free = m.free.filter(({ key }) => key !== "goal:longest-run");
  }
  if (asksSize(m)) forgetSize(m);
  forgetRaceway(m);
  if (m.known.kind === "grounding" && !m.adds) otherGrounds(m);
  forgetAdded(m);
  forgetRating(m);
  otherService(m);
  electrodeWire(m);
  singleRun(m);
  bothProtected(m);
  anotherPanel(m);
  forgetTransformerSize(m);
  breakerOfAmpacity(m);
  forgetChecked(m);
  checkBreaker(m);
  circuitTold(m);
  serviceRated(m);
  denied(m);
  insteadOf(m);
  if (!m.removes && !moreOfThese(m) && !moreOfKnown(m) && !severalOfThese(m) && !onlySomeOfThem(m) && !m.adds) {
    someOfGroup(m);
  }
  allOfThem(m);
  gaugeTold(m);
  sizePutUp(m);
  plateOfTwo(m);
  if (m.known.kind === "cooling-circuit") forgetTried(m);
  swappedWires(m);
  howManyTold(m);
  swappedDevice(m);
  nextStretch(m);
  scaled(m);
  otherHomes(m);
  if (!m.removes) swapped(m);
  else if (!leftAt(m)) removeByFigure(m);
  swappedLoads(m);
  fuelsTold(m);
  pairTold(m);
  sumTold(m);
  atEnds(m);
  if (m.adds) addByNumber(m);
  for (const fact of m.news.facts) {
    if (m.settled.has(fact)) continue;
    if (fact.family === "load") loadTold(m, fact);
    else otherTold(m, fact);
  }
  for (const each of m.news.free) if (!m.placed.has(each)) singleTold(m, each);
  groundToo(m);
  m.outlived();
  const last = m.lastOf(m.told);
  return {
    facts: { facts: m.facts, free: m.free },
    notes: m.notes,
    named: m.news.facts.filter(({ family, slots }) => family === "conductor" && isBare(slots)),
    used: m.used,
    past: m.past.slice(-PAST),
    gone: m.gone.slice(-MOST_GONE),
    isIdle: (m.removes || m.adds || onlyNames(m)) && m.digest() === before,
    ...(last && { last }),
  };
}

/** Whether it names loads that are known, and neither asks nor tells anything of them. */
const onlyNames = (m: Merging): boolean =>
  m.text.facts.facts.length > 0 &&
  m.text.facts.facts.every(({ family, id, slots }) => family === "load" && id !== undefined && isBare(slots)) &&
  m.text.facts.free.every(({ key }) => key.startsWith("change:") && key !== "change:back-to") &&
  !m.text.asked.includes("?");
