/** What lies in a box, counted by its rules: the volume it needs, the box that holds it, and what still fits. */
import type { ConductorSize } from "../../../core/conductor-size.ts";
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { printValue } from "../../../core/print.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { question } from "../../question.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { ledBy } from "../../parts/verdict.ts";
import { candidates, shapesFor, smallest, standard, withRing } from "./boxes.ts";
import { type Count, count, volumeOf } from "./count.ts";
import { freeConductor } from "./free.ts";
import { pullBox } from "./pull.ts";
import { type BoxRequest, input } from "./request.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "box-fill",
  title: "Box fill",
  about:
    "The volume that conductors, clamps and devices need in a box, the box that holds them, the free length of conductors, and pull boxes.",
  input,
  figures: {
    "required-volume": "required volume",
    "box-volume": "volume of the box",
    box: "box",
    allowances: "volume allowances",
    "spare-volume": "volume left",
    "further-conductors": "further conductors of the largest size",
    "most-conductors": "most conductors",
    "most-cables": "most cables",
    "pull-box-length": "least length of the pull box",
    "pull-box-width": "least width of the pull box",
    "free-length": "least length of free conductor",
    "length-outside": "least length outside the opening",
    "entry-spacing": "between entries of the same conductors",
  },
  examples: [
    "4 square deep box with two 12/2 and a 12/3, too full?",
    "18 cu in box, two 14/2 with ground, internal clamps, one switch: does it fit?",
    "pull box for an angle pull, 3 in conduit and two 2 in conduits",
    "how much free conductor to leave in a box",
  ],
  manner: { traits: ["lists", "conductors", "no volts", "wires", "outlets"], asked: "goal:box-fill" },
  takes,
  write,
  minds: ["box", "boxPart", "boxWord"],
  answer(request, w) {
    if (request.pull !== undefined || request.raceways !== undefined) return pullBox(w, request);
    if (request.free) return freeConductor(w, request.free);
    if (request.find) return howMany(w, request);
    w.part("Count");
    const counted = count(w, request);
    w.figure("required-volume", counted.volume);
    w.figure("allowances", counted.allowances);
    w.part("Box");
    const answer = (isTold(request) ? check : choose)(w, request, counted);
    cautions(w, request);
    w.suggest("internal clamps", "one more 12/2", "2017 code");
    return answer;
  },
});

/** A volume to the hundredth that the comparison may hang on. */
const exactly = (w: Worksheet, volume: Known): string => printValue(w.value(volume));

/** Whether a box was told well enough to be held against what lies in it; those of cast metal have a least depth of their own. */
const isTold = ({ box, find, check }: BoxRequest): boolean =>
  box?.volume !== undefined || box?.depth !== undefined ||
  (isCast(box) && (find !== undefined || check === true || box!.gangs !== undefined));
const isCast = (box: BoxRequest["box"]): boolean => box?.shape === "FS" || box?.shape === "FD";

/** The told box: its marked volume, or the table's. */
function boxOf(w: Worksheet, { box = {}, ring }: BoxRequest): { volume: Known<"in3">; name?: Known<"word"> } {
  if (box.volume) return { volume: withRing(w, w.given("volume of the box", asQuantity(box.volume)), ring) };
  const rows = candidates(w, box);
  if (rows.length === 0) {
    throw need("box", "No standard box has those dimensions. What volume is marked in it?", "18 cu in box");
  }
  if (rows.length > 1) {
    throw need("box", `Which box is it: ${rows.join(", ")}?`, `${rows[0]} box`);
  }
  if (isCast(box) && box.gangs === undefined) w.suppose("gangs", "one", "none were told", `2 gang ${box.shape} box`);
  const { name, volume } = standard(w, rows[0]!, box.gangs);
  return { name, volume: withRing(w, volume, ring) };
}

function check(w: Worksheet, request: BoxRequest, { volume: required, largest }: Count): Told {
  const { volume, name } = boxOf(w, request);
  w.figure("box-volume", volume, "volume of the box");
  if (name) w.figure("box", name);
  const what = name ? `${w.word(name)} box` : "box";
  const fits = w.choose<boolean>("does it fit", [required, "≤", volume], ["yes", () => true], [
    "no",
    () => false,
  ], "box-volume");
  if (!fits) {
    const short = w.work("volume lacking", "in3", calc`${required} − ${volume}`);
    const larger = largerBox(w, request, required);
    w.caution(w.say`An extension ring or raised cover marked ${short} or more would do as well.`, "box-volume");
    return ledBy(
      { is: "not ok", because: `needs ${exactly(w, required)}, the ${what} has ${exactly(w, volume)}` },
      larger ? `Smallest that fits: ${larger}.` : "No standard box is large enough.",
    );
  }
  const spare = w.work("volume left", "in3", calc`${volume} − ${required}`);
  const each = volumeOf(w, largest);
  const more = w.work("further conductors", "1", calc`roundDown(${spare} ÷ ${each})`, "box-conductors");
  w.figure("spare-volume", spare);
  w.figure("further-conductors", more, `further ${largest} conductors`);
  const holdsClamps = request.clamps !== undefined || !(request.cables?.length) || w.holds(spare, "≥", each);
  const verdict: Reasoned = holdsClamps
    ? { is: "ok", because: `needs ${exactly(w, required)}, the ${what} has ${exactly(w, volume)}` }
    : {
      is: "ok if",
      because: `it has no cable clamps inside: needs ${exactly(w, required)} of ${
        exactly(w, volume)
      }, and clamps take ${exactly(w, each)}`,
    };
  return ledBy(verdict, `${room(w, more, largest)}.`);
}

const room = (w: Worksheet, more: Known<"1">, size: ConductorSize): string =>
  w.holds(more, "=", { lit: "0" }) ? `No room for another ${size}` : w.say`Room for ${more} more ${size}`;

/** The smallest standard box of the told shape, or of those that suit, for a told box that is too small. */
function largerBox(w: Worksheet, request: BoxRequest, required: Known<"in3">): string | undefined {
  const { shape, gangs } = request.box ?? {};
  for (const each of [...(shape ? [shape] : []), ...shapesFor(request)]) {
    const key = smallest(w, candidates(w, { shape: each }), required, { gangs, ring: request.ring });
    if (key === undefined) continue;
    const { volume } = standard(w, key, gangs);
    return `${key} (${exactly(w, volume)})`;
  }
  return undefined;
}

/** No box told, or only its shape: the smallest that fits. */
function choose(w: Worksheet, request: BoxRequest, { volume: required, largest }: Count): Told {
  const { box = {}, ring } = request;
  const shapes = box.shape ? [box.shape] : shapesFor(request);
  const { gangs } = box;
  const found = shapes.flatMap((shape) => {
    const key = smallest(w, candidates(w, { ...box, shape }), required, { gangs, ring });
    return key === undefined ? [] : [key];
  });
  const first = smallest(w, found, required, { gangs, ring });
  const needs = `Needs ${exactly(w, required)}`;
  const verdict = request.check ? judgeOpen(w, request, required, first) : undefined;
  if (first === undefined) {
    const larger = largerBox(w, { ...request, box: {} }, required);
    const kind = box.shape ? `${box.shape} box` : "box";
    const instead = larger ? `; of other shapes ${larger} does` : "";
    w.caution("Use a box that is marked with that volume, or two boxes.", "box-volume");
    return ledBy(verdict, `${needs}: more than any standard ${kind} holds${instead}.`);
  }
  const { name, volume } = standard(w, first, gangs);
  const total = withRing(w, volume, ring);
  w.choose("large enough", [total, "≥", required], ["yes", () => {}], ["no", () => {}], "box-volume");
  w.figure("box", name, "smallest standard box");
  w.figure("box-volume", total, "volume of that box");
  const spare = w.work("volume left", "in3", calc`${total} − ${required}`);
  w.figure("spare-volume", spare);
  const more = w.work("further conductors", "1", calc`roundDown(${spare} ÷ ${volumeOf(w, largest)})`, "box-conductors");
  w.figure("further-conductors", more, `further ${largest} conductors`);
  const others = found.filter((key) => key !== first).map((key) =>
    ` or ${key} (${w.scratch(() => exactly(w, standard(w, key, gangs).volume))})`
  );
  const many = gangs !== undefined && gangs > 1 ? `${gangs} gangs of ` : "";
  return ledBy(
    verdict,
    `${needs}: smallest standard box ${many}${first} (${exactly(w, total)})${others.join("")}.`,
  );
}

/** A box that was put up without its depth holds it in every depth, in some, or in none. */
function judgeOpen(w: Worksheet, { box = {}, ring }: BoxRequest, required: Known<"in3">, first?: string): Reasoned {
  const { gangs } = box;
  const all = candidates(w, box);
  const isLarge = (key: string) =>
    w.scratch(() => w.holds(withRing(w, standard(w, key, gangs).volume, ring), "≥", required));
  const kind = all.length > 0 ? `a ${[box.across, box.shape].filter(Boolean).join(" ")} box` : "such a box";
  return first === undefined
    ? { is: "not ok", because: `no ${kind.slice(2)} of the table holds ${exactly(w, required)}` }
    : all.every(isLarge)
    ? { is: "ok", because: `${kind} of any depth holds it` }
    : { is: "ok if", because: `it is a ${first} box or larger` };
}

/** The most conductors or cables of which no count was told. */
function howMany(w: Worksheet, request: BoxRequest): Told {
  const open = [...request.conductors ?? [], ...request.cables ?? []].filter((each) => each.count === undefined);
  if (open.length !== 1) {
    throw need(
      "conductors",
      "How many of which: one conductor or cable without a count?",
      "how many 12 AWG conductors",
    );
  }
  if (!isTold(request)) {
    throw need("box", "Which box: its shape and depth, or the volume marked in it?", "4 x 2-1/8 square box");
  }
  const [one] = open;
  const withCount = (n: number): BoxRequest => {
    const fill = <T extends object>(list?: readonly T[]) =>
      list?.flatMap((each) => each !== (one as object) ? [each] : n === 0 ? [] : [{ ...each, count: n }]);
    return { ...request, conductors: fill(request.conductors), cables: fill(request.cables) };
  };
  const fits = (n: number): boolean =>
    w.scratch(() => w.holds(count(w, withCount(n)).volume, "≤", boxOf(w, request).volume));
  volumeOf(w, one!.size);
  let most = 0;
  while (most < MOST && fits(most + 1)) most++;
  const isCable = "wires" in one!;
  const what = isCable ? `${one.size.name}/${(one as { wires: number }).wires} cables` : `${one!.size} conductors`;
  w.part("Box");
  const { volume, name } = boxOf(w, request);
  w.figure("box-volume", volume, "volume of the box");
  if (name) w.figure("box", name);
  w.part("With so many");
  const shown = count(w, withCount(Math.max(most, 1)));
  w.figure("required-volume", shown.volume);
  w.choose("does it fit", [shown.volume, "≤", volume], ["yes", () => {}], ["no", () => {}], "box-volume");
  const answer = w.given(
    `most ${what}`,
    { n: String(most), unit: "1" },
    "one more would need more than the box has",
    "box-fill",
  );
  w.figure(isCable ? "most-cables" : "most-conductors", answer);
  const box = name ? `${w.word(name)} box (${exactly(w, volume)})` : `${exactly(w, volume)} box`;
  cautions(w, request);
  w.suggest("with one receptacle", "internal clamps");
  return {
    headline: most === 0
      ? `None: with one of the ${what} it needs ${exactly(w, shown.volume)}, more than the ${box}.`
      : `At most ${most} × ${what} in the ${box}: ${exactly(w, shown.volume)} with what else was told.`,
  };
}
const MOST = 200;

function cautions(w: Worksheet, { box, cables, clamps, isolatedGrounds }: BoxRequest): void {
  if (box?.volume === undefined) {
    w.caution("A volume marked in the box by its maker goes before the table.", "box-volume");
  }
  if (cables?.length && clamps === undefined) {
    w.suppose("cable clamps", "none inside", "none were told of", "internal clamps", "box-clamps");
  }
  if (isolatedGrounds && w.edition.rule("box-grounds") !== "one allowance together") {
    w.caution(
      "The separate allowance for isolated grounds is read from 2017; later texts do not name it.",
      "box-grounds",
    );
  }
}
