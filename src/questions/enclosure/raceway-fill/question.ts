/** How full a raceway is, the smallest that holds the conductors, how many fit, and what they then carry. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import { printValue } from "../../../core/print.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { ledBy } from "../../parts/verdict.ts";
import { question } from "../../question.ts";
import {
  allowed,
  areaOf,
  columnFor,
  countIn,
  diameterOf,
  exactlyAllowed,
  type Filling,
  filling,
  isAlike,
  listedSizes,
  percentFor,
} from "./areas.ts";
import { tellCarrying, withCarrying } from "./carries.ts";
import { type FillRequest, input, type Raceway, RACEWAYS } from "./request.ts";
import { takes } from "./takes.ts";
import { WHIP, whip } from "./whip.ts";
import { wireway } from "./wireway.ts";
import { write } from "./write.ts";

export default question({
  id: "raceway-fill",
  title: "Raceway fill",
  about:
    "Whether conductors fit in a conduit, tubing or wireway, the smallest trade size, how many fit, and what they then carry.",
  input,
  figures: {
    "fill-area": "area of the conductors",
    fill: "part of the raceway that is filled",
    "raceway-size": "trade size",
    "allowed-fill": "part that may be filled",
    "allowed-area": "area that may be filled",
    "most-conductors": "most conductors",
    "raceway-size-by-count": "trade size by the note on counts",
    "jam-ratio": "bore over conductor diameter",
    "adjustment-factor": "adjustment for the number of conductors",
    ampacity: "ampacity here",
    "termination-ampacity": "what terminations allow",
  },
  examples: [
    "how many #10 THHN fit in 3/4 in EMT?",
    "EMT size for three 6 AWG THHN and a 10 AWG ground",
    "three 600 kcmil THWN in 3 in schedule 80 PVC, does it fit?",
    "forty 10 AWG THHN and six 2 AWG THHN in a 6 x 6 in wireway, ok?",
  ],
  manner: { traits: ["lists", "conductors", "no volts", "wires"], asked: "goal:fit" },
  takes,
  write,
  answer(told, w) {
    const request = together(told);
    const open = (request.conductors ?? []).filter(({ count }) => count === undefined);
    if (!request.conductors?.length && !request.cables?.length) {
      throw need("conductors", "Which conductors lie in it: how many, of what size and insulation?", "three #6 THHN");
    }
    if (request.find && open.length !== 1) {
      throw need("conductors", "How many of which: one size without a count?", "how many #10 THHN fit");
    }
    if (request.wireway && (request.raceway ?? request.size ?? request.nipple) !== undefined) {
      throw need("wireway", `Do they lie in the ${request.wireway.is} or in the conduit?`, "6 x 6 in wireway");
    }
    w.part("Raceway");
    if (request.wireway) return wireway(w, request, request.wireway);
    const raceway = racewayOf(w, request);
    if (request.size === WHIP && listedSizes(w, raceway).includes(WHIP)) return whip(w, request, raceway);
    if (request.find) return howMany(w, request, raceway);
    if (request.size) return check(w, request, raceway, request.size);
    return smallest(w, request, raceway);
  },
});

/** Entries of the same conductor as one: `two #6 and one #6` are three. */
function together(r: FillRequest): FillRequest {
  if (!r.conductors) return r;
  const all = new Map<string, NonNullable<FillRequest["conductors"]>[number]>();
  for (const one of r.conductors) {
    const isOpen = r.find !== undefined && one.count === undefined;
    const key = `${one.size} ${one.insulation ?? r.insulation} ${one.ground} ${isOpen}`;
    const same = all.get(key);
    all.set(key, same && !isOpen ? { ...same, count: (same.count ?? 1) + (one.count ?? 1) } : one);
  }
  return { ...r, conductors: [...all.values()] };
}

function racewayOf(w: Worksheet, { raceway }: FillRequest): Raceway {
  if (raceway) {
    w.given("raceway", raceway);
    return raceway;
  }
  return w.word(w.assume<"word">("raceway")) as Raceway;
}

const exactly = (w: Worksheet, value: Known): string => printValue(w.value(value));
const named = (size: string, raceway: Raceway, { nipple }: FillRequest): string =>
  `${size} in ${raceway}${nipple ? " nipple" : ""}`;

/** The fill of a trade size by what lies in it. */
function tellFill(w: Worksheet, r: FillRequest, raceway: Raceway, size: string, { total, count }: Filling): Known<"%"> {
  w.figure("fill-area", total);
  const whole = w.lookUp<"in2">(`inside of ${size} in ${raceway}`, RACEWAYS[raceway], "total area", `${size} in`);
  const fill = w.work("part filled", "%", calc`${total} ÷ ${whole}`, "raceway-fill");
  w.figure("fill", fill);
  w.figure("allowed-fill", percentFor(w, r, count));
  return fill;
}

function check(w: Worksheet, r: FillRequest, raceway: Raceway, size: string): Told {
  mustBeListed(w, raceway, size);
  w.part("Conductors");
  const lies = filling(w, r);
  w.part("Fill");
  const fill = tellFill(w, r, raceway, size, lies);
  const area = allowed(w, r, raceway, size, lies.count);
  w.figure("allowed-area", area);
  w.figure("raceway-size", w.lookUp<"word">("trade size", RACEWAYS[raceway], "trade size", `${size} in`));
  const what = named(size, raceway, r);
  const fits = w.choose<boolean>(
    "do they fit",
    [lies.total, "≤", area],
    ["yes", () => true],
    ["no", () => false],
    "raceway-fill",
  );
  const byNote = fits ? undefined : fitsByCount(w, r, raceway, size, lies.count);
  const numbers = w.say`${exactly(w, lies.total)} of ${exactly(w, area)} allowed in ${what}, ${fill} filled`;
  const verdict: Reasoned = fits || byNote
    ? {
      is: "ok",
      because: byNote ? w.say`${byNote} count as fitting, a count being rounded up from 0.8 (${fill} filled)` : numbers,
    }
    : { is: "not ok", because: numbers };
  const instead = fits || byNote ? "" : larger(w, r, raceway, lies);
  const most = isAlike(r) && r.conductors?.length ? mostOf(w, r, raceway, size) : undefined;
  const room = most === undefined ? "" : w.say`At most ${most} of them in ${size} in.`;
  const jams = jam(w, r, raceway, size);
  const carries = fits || byNote ? tellCarrying(w, r) : "";
  close(w, r, raceway);
  return ledBy(verdict, [instead, carries && `${carries}.`, room, jams].filter(Boolean).join(" "));
}

function mustBeListed(w: Worksheet, raceway: Raceway, size: string): void {
  const sizes = listedSizes(w, raceway);
  if (sizes.includes(size)) return;
  throw need(
    "size",
    `${raceway} is listed in trade sizes ${sizes[0]} to ${sizes.at(-1)}; which is it?`,
    `${sizes[1]} in`,
  );
}

/** The number that counts as fitting, where all are alike and it reaches theirs. */
function fitsByCount(
  w: Worksheet,
  r: FillRequest,
  raceway: Raceway,
  size: string,
  count: number,
): Known<"1"> | undefined {
  if (!isAlike(r) || !r.conductors?.length) return undefined;
  const area = exactlyAllowed(w, r, raceway, size, count);
  const fitting = countIn(w, area, areaOf(w, r, r.conductors[0]!));
  const told = w.given("conductors told", { n: String(count), unit: "1" });
  return w.choose<boolean>("by the note on counts", [fitting, "≥", told], ["they fit", () => true], [
      "they do not",
      () => false,
    ], "raceway-count")
    ? fitting
    : undefined;
}

/** The smallest trade size whose area holds them; a whip is for uses of its own. */
const sizeFor = (w: Worksheet, r: FillRequest, raceway: Raceway, { total, count }: Filling): Known<"word"> =>
  w.atLeast<"word">(
    `${raceway} trade size`,
    RACEWAYS[raceway],
    columnFor(r, count),
    total,
    (size) => size !== `${WHIP} in`,
  );

function larger(w: Worksheet, r: FillRequest, raceway: Raceway, lies: Filling): string {
  const found = w.ifCovered(() => sizeFor(w, r, raceway, lies));
  return found ? `Smallest that fits: ${w.word(found)} ${raceway}.` : `No listed ${raceway} is large enough.`;
}

function smallest(w: Worksheet, r: FillRequest, raceway: Raceway): Told {
  w.part("Conductors");
  const lies = filling(w, r);
  w.part("Fill");
  const found = sizeFor(w, r, raceway, lies);
  const size = w.word(found).replace(/ in$/, "");
  w.figure("raceway-size", found, `${raceway} trade size`);
  const fill = tellFill(w, r, raceway, size, lies);
  const area = allowed(w, r, raceway, size, lies.count);
  w.figure("allowed-area", area);
  w.choose("they fit", [lies.total, "≤", area], ["yes", () => {}], ["no", () => {}], "raceway-fill");
  const words = w.say`${named(size, raceway, r)}: ${exactly(w, lies.total)} of ${
    exactly(w, area)
  } allowed, ${fill} filled.`;
  const below = listedSizes(w, raceway)[listedSizes(w, raceway).indexOf(size) - 1];
  if (below && below !== WHIP && isAlike(r)) byCount(w, r, raceway, below, lies.count);
  const jams = jam(w, r, raceway, size);
  const headline = [withCarrying(w, r, words), jams].filter(Boolean).join(" ");
  close(w, r, raceway);
  return { headline };
}

/** The next smaller trade size, where the note on counts lets it pass. */
function byCount(w: Worksheet, r: FillRequest, raceway: Raceway, below: string, count: number): void {
  const found = w.first([below], (size) =>
    fitsByCount(w, r, raceway, size, count) &&
    w.lookUp<"word">("trade size by the note on counts", RACEWAYS[raceway], "trade size", `${size} in`));
  if (!found) return;
  w.figure("raceway-size-by-count", found);
  w.caution(
    w.say`${found} would pass by the note that rounds a count up from 0.8, over the area it allows.`,
    "raceway-count",
  );
}

/** The most of them in a trade size, alike or beside others. */
function mostOf(w: Worksheet, r: FillRequest, raceway: Raceway, size: string): Known<"1"> {
  const [one] = r.conductors!;
  const each = areaOf(w, r, one!);
  return w.first([3, 2, 1], (count) => {
    const found = countIn(w, exactlyAllowed(w, r, raceway, size, count), each);
    if (r.nipple || count === 1 || w.holds(found, "≥", w.given("at least", { n: String(count), unit: "1" }))) {
      return count === 3 || r.nipple ? found : w.work(
        "of so few",
        "1",
        calc`min(${found}, ${w.given("so many share that fill", { n: String(count), unit: "1" })})`,
      );
    }
    return undefined;
  })!;
}

/** How many of the open size fit, beside what else lies there. */
function howMany(w: Worksheet, r: FillRequest, raceway: Raceway): Told {
  const one = r.conductors!.find(({ count }) => count === undefined)!;
  if (!r.size) throw need("size", `In which trade size of ${raceway}?`, "3/4 in");
  mustBeListed(w, raceway, r.size);
  const others = r.conductors!.filter((each) => each !== one);
  const rest: FillRequest = { ...r, conductors: others };
  w.part("Count");
  const isAlone = others.length === 0 && !r.cables?.length;
  const most = isAlone ? mostOf(w, { ...r, conductors: [one] }, raceway, r.size) : beside(w, r, raceway, one, rest);
  const n = Number(w.measure(most).n.valueOf());
  w.figure("most-conductors", most, `most ${one.size} conductors`);
  const what = `${one.size} ${one.insulation ?? r.insulation ?? ""}`
    .trim();
  const where = named(r.size, raceway, r);
  const also = isAlone ? "" : " beside the others";
  if (n < 1) {
    close(w, r, raceway);
    return { headline: `None: no ${what} fits in ${where}${also}.` };
  }
  w.part("Fill");
  const full: FillRequest = { ...r, conductors: [...others, { ...one, count: n }] };
  const fill = tellFill(w, r, raceway, r.size, filling(w, full));
  const headline = withCarrying(w, full, w.say`At most ${most} × ${what} in ${where}${also}, ${fill} filled.`);
  close(w, r, raceway);
  return { headline };
}

function beside(
  w: Worksheet,
  r: FillRequest,
  raceway: Raceway,
  one: NonNullable<FillRequest["conductors"]>[number],
  rest: FillRequest,
): Known<"1"> {
  const lies = filling(w, rest);
  const each = areaOf(w, r, one);
  const left = (count: number): Known<"1"> => {
    const area = allowed(w, r, raceway, r.size!, count);
    return w.work("that many more", "1", calc`max(0, roundDown((${area} − ${lies.total}) ÷ ${each}))`, "raceway-fill");
  };
  return w.first([3, 2], (count) => {
    const found = left(Math.max(count, lies.count + 1));
    const all = w.scratch(() => Number(w.measure(found).n.valueOf())) + lies.count;
    return r.nipple || all >= count || count === 2 ? found : undefined;
  })!;
}

/** Three alike may jam side by side in a bend: the sentence that says so, where the ratio is between its bounds. */
function jam(w: Worksheet, r: FillRequest, raceway: Raceway, size: string): string {
  const lines = (r.conductors ?? []).filter(({ ground }) => !ground);
  const [one] = lines;
  if (lines.length !== 1 || one!.count !== 3 || r.cables?.length) return "";
  w.part("Jamming");
  w.aside("Jamming");
  const bore = w.lookUp<"in">(`bore of ${size} in ${raceway}`, RACEWAYS[raceway], "internal diameter", `${size} in`);
  const ratio = w.work("bore over conductor diameter", "1", calc`${bore} ÷ ${diameterOf(w, r, one!)}`, "raceway-jam");
  w.figure("jam-ratio", ratio);
  const [least, most] = [w.constant<"1">("jam-ratio-least"), w.constant<"1">("jam-ratio-most")];
  if (!w.holds(ratio, "≥", least) || !w.holds(ratio, "≤", most)) return "";
  w.caution(
    w.say`Three alike may jam in the bends: the bore is ${ratio} times a conductor, between ${least} and ${most}.`,
    "raceway-jam",
  );
  return "Three alike may jam in its bends.";
}

function close(w: Worksheet, r: FillRequest, raceway: Raceway): void {
  if (r.compact) w.caution("Compact stranding by the listed areas; the maker's own may be smaller.", "raceway-fill");
  const other = raceway === "EMT" ? "PVC schedule 40" : "EMT";
  w.suggest(other, ...(r.insulation ? [] : ["XHHW"]), "2017 code");
}
