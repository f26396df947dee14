/** Sizes and cables to the conductors they are of. */
import type { Sense } from "../sense.ts";
import { GAUGES } from "../sizes.ts";
import type { Reading } from "./reading.ts";
import { GROUNDS, LABEL_REACH } from "./words.ts";

const LEAST_BARE_GAUGE = 4;
const IS_A = new Set(["is", "was", "are", "were", "be", "a", "an", "only", "just"]);
const JOINS = ["and", "plus", "with", "w", "&"];
const IT = new Set(["it", "it's", "its", "that's", "they", "they're"]);
const OF_IT = new Set([...IS_A, ...IT, "as"]);

/** Sizes and cables to what they are for; the rest are conductors by themselves. */
export function sizes(r: Reading): void {
  const isSize = (s: Sense) => s.is === "size" || s.is === "sizes" || s.is === "cable";
  const roles = r.facts.filter(({ family }) => family === "conductor");
  r.cut(roles, r.figures(isSize), (head, figure) => {
    const sense = r.pieces[figure]!.senses.find(isSize)!;
    // A ground's own size touches it: `ground with 1/0 copper` and `EGC, 250 kcmil` are of the conductors it runs with.
    const isGround = GROUNDS.has(head.id ?? "");
    // `one 14/3 with ground`: a cable is no ground, it has one.
    if (isGround && sense.is === "cable") return undefined;
    // `4 #12 + EGC`: the ground comes beside them.
    if (isGround && figure < head.at && ["+", "plus", "&"].includes(r.typed(head.at - 1))) return undefined;
    // `is 4/0 good and do i bond the neutral`: what is asked of it otherwise.
    const isBonded = Array.from({ length: Math.max(0, head.at - figure) }, (_, k) => figure + k)
      .some((at) => r.isTerm(at, "goal", "bond"));
    if (isBonded) return undefined;
    // `#6 bare copper as the ground`
    const isAs = isGround && figure < head.at && r.isWordBetween("as", figure, head.at);
    // `4 #14 and the grounds`: what joins them parts the size from the ground.
    const isJoined = isGround && figure < head.at && JOINS.some((word) => r.isWordBetween(word, figure, head.at));
    if (isJoined) return undefined;
    const reach = head.id === "wire" ? 1.4 : isGround && !isAs ? LABEL_REACH : 2.4;
    return { sense, slot: "size", before: reach, after: head.id === "wire" ? 1.4 : isGround ? 0.9 : 1.9 };
  });
  bareGauges(r);
  gaugesBefore(r);
  sizesOfIt(r, r.figures(isSize));
  for (const at of r.figures(isSize)) {
    const fact = r.draft("conductor", undefined, at);
    fact.pieces = [];
    fact.slots.size = [r.value(r.pieces[at]!.senses.find(isSize)!, at)];
    r.facts.push(fact);
  }
  r.facts.sort((a, b) => a.at - b.at);
}

/** `the GEC, ok if it's a #8`: what is said of it is of the last that was named without a size. */
function sizesOfIt(r: Reading, figures: readonly number[]): void {
  for (const figure of figures) {
    let at = figure - 1;
    while (OF_IT.has(r.word(at))) at--;
    const isOfIt = Array.from({ length: figure - 1 - at }, (_, i) => r.word(at + 1 + i)).some((word) => IT.has(word));
    const role = r.facts.findLast((fact) => fact.family === "conductor" && fact.at < figure);
    if (
      !isOfIt || !role || role.slots.size || !GROUNDS.has(role.id ?? "") || r.sentences[role.at] !== r.sentences[figure]
    ) continue;
    role.slots.size = [r.value(r.pieces[figure]!.senses.find(({ is }) => is === "size" || is === "cable")!, figure)];
  }
}

const WAYS = new Set(["in", "out", "entering", "leaving"]);
/** `4 #12 in, 4 out`: so many more of the same, the other way. */
export function otherWay(r: Reading): void {
  for (const at of r.figures(({ is }) => is === "number" || is === "count")) {
    if (!WAYS.has(r.word(at + 1)) || !(r.endsItem(at + 2) || r.sort(at + 2, "change"))) continue;
    const wires = r.facts.findLast((fact) => fact.family === "conductor" && fact.at < at);
    const isFirstWay = [1, 2, 3].some((back) => WAYS.has(r.word(at - back)) && r.endsItem(at - back + 1));
    if (!wires?.slots.size || !wires.slots.count || !isFirstWay || r.sentences[wires.at] !== r.sentences[at]) continue;
    const more = r.draft("conductor", wires.id, at);
    more.pieces = [];
    more.slots = { ...wires.slots, count: [r.value(r.pieces[at]!.senses[0]!, at)] };
    r.facts.push(more);
  }
  r.facts.sort((a, b) => a.at - b.at);
}

/** `60 A feeder, 6 THHN, 10 ground`: nobody counts so many grounds. */
function gaugesBefore(r: Reading): void {
  for (const ground of r.facts.filter(({ id, slots }) => GROUNDS.has(id ?? "") && !slots.size)) {
    const sense = r.pieces[ground.at - 1]?.senses.find(({ is }) => is === "number") as { n: number } | undefined;
    if (!sense || !GAUGES.includes(sense.n) || sense.n < LEAST_BARE_GAUGE || /s$/.test(ground.said)) continue;
    ground.slots.size = [r.value({ is: "size", size: String(sense.n), bare: true }, ground.at - 1)];
  }
}

/** `the ground was a ten`, `EGC is a 6`, `the hots are 4s`: a gauge without its mark, behind what it is of. */
function bareGauges(r: Reading): void {
  for (const wire of r.facts.filter(({ family, slots }) => family === "conductor" && !slots.size)) {
    let at = wire.at + 1;
    while (IS_A.has(r.word(at)) && at < wire.at + 4) at++;
    const sense = r.pieces[at]?.senses.find(({ is }) => is === "number") as { n: number } | undefined;
    const isMany = r.typed(at + 1) === "s";
    if (at === wire.at + 1 || !sense || !GAUGES.includes(sense.n) || !(isMany || r.endsAt(at))) continue;
    wire.slots.size = [r.value({ is: "size", size: String(sense.n), bare: true }, at)];
  }
}
