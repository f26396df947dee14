/** Text → facts. Each step is a pure function over the pieces; `deno task read` prints them all. */
import { toBeAdded } from "./added.ts";
import { assign, type FigureSide, sideOf } from "./assign.ts";
import type { Fact, Facts, FamilyId, Free, Value } from "./facts.ts";
import {
  CURRENT,
  DEVICE_RATINGS,
  HEADS,
  isNominal,
  isUsualSupply,
  type Label,
  LABELS,
  NEVER,
  NO_HEADS,
  OF_DWELLINGS,
  type Pass,
  PASSES,
  RATING,
} from "./families.ts";
import type { Sort } from "./lexicon/lexicon.ts";
import { type Mended, mendSlips } from "./mend.ts";
import { shareUnits } from "./lists.ts";
import { withAmperes } from "./amperes.ts";
import { withDistances } from "./distances.ts";
import { withoutDenied } from "./negated.ts";
import { isNumberWord } from "./numbers.ts";
import { type Piece, type Sense, TAKEN_BACK } from "./sense.ts";
import { piecesOf } from "./pieces.ts";
import { GAUGES } from "./sizes.ts";
import { withoutTakenBack } from "./taken-back.ts";
import { type Token, tokenize } from "./tokens.ts";
import type { SpokenUnit } from "./units.ts";
import { withParts } from "./within.ts";

/** A text with all that was read of it. */
export type ReadText = {
  readonly asked: string;
  readonly tokens: readonly Token[];
  readonly pieces: readonly Piece[];
  readonly facts: Facts;
  /** Which sentence each piece stands in. */
  readonly sentences: readonly number[];
  readonly mended: readonly Mended[];
  /** Where words begin that may be slips of several terms. */
  readonly unsure: ReadonlySet<number>;
};

/** A fact in the making. */
type Draft = {
  family: FamilyId;
  id?: string;
  others: string[];
  said: string;
  pieces: number[];
  at: number;
  slots: Record<string, Value[]>;
  sentence: number;
  /** A label's name, where the head is one and not a fact yet. */
  label?: string;
  /** The head in the plural of which this is a further figure. */
  listed?: Draft;
};

/** What describes a figure or its head and parts neither: `each`, `(2)`. */
const isLight = (s: Sense): boolean =>
  s.is === "count" || (s.is === "aside" && s.because === TAKEN_BACK) ||
  (s.is === "term" &&
    (s.sort === "share" || s.sort === "fuel" || (s.sort === "label" && s.id === "rated")));

/** What it costs to reach across a word, a comma, a line. */
const CROSS: Readonly<Record<string, number>> = {
  for: 2,
  from: 2,
  than: 2,
  with: 1,
  w: 1,
  on: 1,
  by: 1,
  and: 1,
  plus: 1,
  or: 1,
  then: 1.5,
  but: 1.5,
};
const CROSS_COMMON = 0.2;
const SAYS = new Set(["say", "says", "reads"]);
const CROSS_MARK = 0.2;
const CROSS_COMMA = 1.5;
const CROSS_DASH = 1;
const CROSS_LINE = 4;
const WALL = 1_000_000;
/** How many facts around it a nameplate's figure looks for its load. */
const FACTS_AROUND = 24;
/** A label belongs to the figure it touches. */
const LABEL_REACH = 1.45;

export function readText(asked: string): ReadText {
  const { tokens, mended, unsure } = mendSlips(tokenize(asked));
  const read = withAmperes(withDistances(withoutDenied(piecesOf(tokens), tokens), tokens), tokens);
  const pieces = shareUnits(withoutTakenBack(read, tokens), tokens);
  const sentences: number[] = [];
  let sentence = 0;
  for (const piece of pieces) {
    sentences.push(sentence);
    if (piece.is === "border" && tokens[piece.from]!.is !== "line") sentence++;
  }
  return {
    asked,
    tokens,
    pieces,
    sentences,
    mended,
    unsure,
    facts: withParts(new Reader(asked, tokens, pieces, sentences).read(), { tokens, pieces }),
  };
}

class Reader {
  readonly #sums: number[];
  readonly #used = new Set<number>();
  readonly #facts: Draft[] = [];
  readonly #labels: Draft[] = [];
  readonly #free: Free[] = [];

  constructor(
    readonly asked: string,
    readonly tokens: readonly Token[],
    readonly pieces: readonly Piece[],
    readonly sentences: readonly number[],
  ) {
    this.#sums = [0];
    for (let i = 0; i < pieces.length; i++) this.#sums.push(this.#sums[i]! + this.#crossing(i));
  }

  read(): Facts {
    this.#open();
    this.#bindRows();
    this.#ownResults();
    this.#powers();
    this.#currents();
    this.#unitsNotPumps();
    this.#labelled();
    this.#standAlone();
    this.#ends();
    this.#sizes();
    this.#nameplates();
    this.#heaters();
    this.#countsBeside("count");
    for (const pass of PASSES) {
      // Before bare numbers become counts: `range 12 kW, dryer 5`.
      if (pass.slot === "count") {
        this.#toldAgain();
        this.#partsOfPlate();
        this.#carryUnits();
      }
      this.#attach(pass);
      if (pass.slot === "fuel") this.#shareFuel();
    }
    this.#tanks();
    this.#stretches();
    this.#shares();
    this.#names();
    this.#countsBeside("number");
    this.#totals();
    this.#checks();
    this.#toldAgain();
    this.#inLists();
    this.#added();
    this.#rest();
    const facts = this.#facts.map(({ at: _, label: __, listed: ___, id, others, ...fact }): Fact => ({
      ...fact,
      ...(id !== undefined && { id }),
      ...(others.length > 0 && { others }),
    }));
    return { facts, free: this.#free };
  }

  #said(pieces: readonly number[]): string {
    const from = this.tokens[this.pieces[Math.min(...pieces)]!.from]!.at;
    const to = this.tokens[this.pieces[Math.max(...pieces)]!.to - 1]!.end;
    return this.asked.slice(from, to).replace(/\s+/g, " ").trim();
  }
  #value(sense: Sense, ...pieces: number[]): Value {
    for (const piece of pieces) this.#used.add(piece);
    return { sense, pieces, said: this.#said(pieces) };
  }

  // ── what lies between
  #crossing(i: number): number {
    const piece = this.pieces[i]!;
    if (piece.is === "comma") return CROSS_COMMA;
    if (piece.is === "mark") return this.#parting(i);
    if (piece.senses.length > 0 && piece.senses.every(isLight)) return CROSS_COMMON;
    // `the lugs say 75`
    if (SAYS.has(this.#typed(i))) return CROSS_COMMON;
    if (piece.is === "common") return CROSS[this.tokens[piece.from]!.text] ?? CROSS_COMMON;
    if (piece.is === "border") {
      if (this.tokens[piece.from]!.is !== "line") return WALL;
      return this.#isLabelOverValue(i) ? CROSS_MARK : CROSS_LINE;
    }
    return 1;
  }
  /** A bar, a dash or a slash between blanks parts the items of a list. */
  #parting(i: number): number {
    const { from } = this.pieces[i]!;
    const { text, glued } = this.tokens[from]!;
    const isApart = !glued && !this.tokens[from + 1]?.glued;
    // `400 kcmil aluminum ... ground wire to the pipe`: a pause, where no figure is led to.
    if (text === "." && !(i + 1 < this.pieces.length && this.#isFigure(i + 1))) return CROSS_COMMA;
    return text === "|" || (text === "/" && isApart) ? CROSS_COMMA : text === "-" && isApart ? CROSS_DASH : CROSS_MARK;
  }
  #between = (a: number, b: number): number => this.#sums[b]! - this.#sums[a + 1]!;
  /** The pieces of the line before or behind a line's end, marks and common words left out. */
  #line(end: number, way: -1 | 1): number[] {
    const found: number[] = [];
    for (let i = end + way; i >= 0 && i < this.pieces.length && this.pieces[i]!.is !== "border"; i += way) {
      if (this.pieces[i]!.is === "fact" || this.pieces[i]!.is === "unknown") found.push(i);
    }
    return way === -1 ? found.reverse() : found;
  }
  #isLabelOverValue(end: number): boolean {
    const [above, below] = [this.#line(end, -1), this.#line(end, 1)];
    // `current-carrying conductors ⏎ nine in the conduit`: the value may be followed by what it is of.
    // `fan motor FLA ⏎ 2`: the label may follow whose it is.
    // `Heat ⏎ gas`
    const isFuel = above.length === 1 && below.length === 1 && this.#isLoad(above[0]!) && this.#sort(below[0]!, "fuel");
    if (isFuel) return true;
    return above.length > 0 && this.#isLabel(above.at(-1)!) && above.slice(0, -1).every(this.#isLoad) &&
      below.length > 0 && this.#isFigure(below[0]!) && below.filter(this.#isFigure).length === 1;
  }
  #isLabel = (i: number): boolean =>
    this.pieces[i]!.senses.some((s) => s.is === "term" && (s.sort === "label" || s.sort === "device"));
  #isLoad = (i: number): boolean => this.pieces[i]!.senses.some((s) => s.is === "term" && HEADS[s.sort] === "load");
  #isSize = (i: number): boolean => this.pieces[i]?.senses.some(({ is }) => is === "size" || is === "cable") ?? false;
  #isFigure = (i: number): boolean =>
    this.pieces[i]!.senses.some(({ is }) => is === "quantity" || is === "number" || is === "pair" || is === "system");

  // ── heads
  #open(): void {
    // Without a floor area a garage or a basement is a place.
    const hasArea = this.#figures((s) => s.is === "quantity" && (s.unit === "ft2" || s.unit === "m2")).length > 0;
    this.pieces.forEach((piece, i) => {
      if (piece.is !== "fact") return;
      const terms = piece.senses.filter((s) => s.is === "term");
      const label = terms.find(({ sort }) => sort === "label");
      // `overload set at 30 A`: the device's own figure.
      if ((label?.id === "draw" || label?.id === "setpoint") && this.#sort(i - 1, "device")) return;
      if (label && label.id in LABELS) {
        this.#labels.push(this.#draft("load", label.id, i, label.id));
        return;
      }
      const head = terms.find(({ sort, id }) =>
        HEADS[sort] && !NO_HEADS.has(`${sort}:${id}`) && (sort !== "space" || hasArea)
      );
      if (!head) return;
      const fact = this.#draft(HEADS[head.sort]!, head.id, i);
      fact.others = terms.filter((t) => t !== head).map(({ sort, id }) => `${sort}:${id}`);
      this.#facts.push(fact);
    });
    this.#outletsOf();
    this.#gfcisOf();
    this.#motorsOf();
    this.#wiresOf();
    this.#demandsOf();
    this.#circuitsOf();
    this.#ordinals();
    this.#countsAfterColons();
    this.#maximumOf();
    this.#loadsOf();
    this.#absent();
    if (hasArea) this.#unfinished();
    this.#impliedTransformers();
    this.#impliedDevices();
    this.#checkedDevices();
    this.#facts.sort((a, b) => a.at - b.at);
  }
  /** `welder outlet`, `dryer receptacle`: one outlet, and what it is for. */
  #outletsOf(): void {
    const loads = this.#facts.filter(({ family }) => family === "load");
    for (const outlet of loads.filter(({ id }) => id === "receptacles")) {
      const what = loads.find(({ at }) => at === outlet.at - 1);
      if (!what) continue;
      outlet.others.push(`for:${what.id}`);
      outlet.pieces.unshift(what.at);
      this.#facts.splice(this.#facts.indexOf(what), 1);
    }
  }
  /** `GFCI receptacle`: one device. */
  #gfcisOf(): void {
    for (const gfci of this.#facts.filter(({ id }) => id === "gfci")) {
      const what = this.#facts.find(({ at, id }) => at === gfci.at + 1 && (id === "receptacles" || id === "switch"));
      if (!what) continue;
      what.pieces.unshift(...gfci.pieces);
      this.#facts.splice(this.#facts.indexOf(gfci), 1);
    }
  }
  #sort = (i: number, sort: Sort): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === sort) ?? false;
  /** `hoist motor`, `pool pump motor`: one motor, and what it drives. */
  #motorsOf(): void {
    for (const motor of this.#facts.filter(({ id }) => id === "motor")) {
      const what = this.#facts.find(({ family, at }) => family === "load" && at === motor.at - 1);
      if (!what || what.id === "motor") continue;
      what.at = motor.at;
      what.pieces.push(motor.at);
      what.said = this.#said(what.pieces);
      this.#facts.splice(this.#facts.indexOf(motor), 1);
    }
  }
  /** `range demand: two ranges …`: a goal named by loads that are told elsewhere, and none of them. */
  #demandsOf(): void {
    for (const named of this.#facts.filter(({ family }) => family === "load")) {
      const isOfGoal = this.pieces[named.at + 1]?.senses.some((s) =>
        s.is === "term" && s.sort === "goal" && s.id === "load"
      );
      const told = isOfGoal &&
        this.#facts.find((other) => other !== named && other.family === "load" && other.id === named.id);
      if (!told) continue;
      told.pieces.push(...named.pieces);
      this.#facts.splice(this.#facts.indexOf(named), 1);
    }
  }
  /** `equipment ground wire`, `neutral conductor`: one conductor, by what it is for. */
  #wiresOf(): void {
    for (const wire of this.#facts.filter(({ family, id }) => family === "conductor" && id === "wire")) {
      const role = this.#facts.find(({ family, id, at }) =>
        family === "conductor" && id !== "wire" && at === wire.at - 1
      );
      if (!role) continue;
      role.pieces.push(...wire.pieces);
      this.#facts.splice(this.#facts.indexOf(wire), 1);
    }
  }
  /** `six 400 W lights … on one lighting circuit`: a circuit is named by loads that were told before, and adds none. */
  #circuitsOf(): void {
    for (const load of this.#facts.filter(({ family, at }) => family === "load" && this.#isCircuit(at + 1))) {
      const isTold = this.#facts.some((other) => other.family === "load" && other.id === load.id && other.at < load.at);
      const circuit = this.#facts.find(({ at, family }) => family === "circuit" && at === load.at + 1);
      if (!circuit) continue;
      // `four 20 A lighting circuits`: what stands before the name is the circuits' own.
      if (!isTold && this.#isAmperes(load.at - 1)) [load.at, circuit.at] = [circuit.at, load.at];
      if (!isTold) continue;
      circuit.pieces.unshift(...load.pieces);
      this.#facts.splice(this.#facts.indexOf(load), 1);
    }
  }
  /** `dryers: 2, 5.5 kW each`, `laundry: 1`: how many there are, behind a colon and of nothing else. */
  #countsAfterColons(): void {
    for (const fact of this.#facts) {
      const [colon, at] = [fact.at + 1, fact.at + 2];
      const [sense] = this.pieces[at]?.senses ?? [];
      const isColon = this.pieces[colon]?.is === "mark" && this.tokens[this.pieces[colon]!.from]!.text === ":";
      if (!isColon || sense?.is !== "number" || !Number.isInteger(sense.n) || sense.n < 1 || sense.n > MOST_COUNTED) {
        continue;
      }
      const after = this.pieces[at + 1];
      const isAlone = after === undefined || after.is === "comma" || after.is === "border";
      const isMany = /s$/i.test(fact.said) && after?.is === "comma" &&
        this.#isFigure(Math.min(at + 2, this.pieces.length - 1));
      const isOfCircuits = fact.family === "circuit" && isAlone;
      if ((fact.family === "load" && isMany) || isOfCircuits) {
        fact.slots.count = [this.#value({ is: "count", n: sense.n }, at)];
      }
    }
  }
  /** `compressor 1 RLA 30`, `motor #2: 5 hp`: which one it is, and no figure of it. */
  #ordinals(): void {
    for (const fact of this.#facts) {
      const at = fact.at + 1;
      const [sense] = this.pieces[at]?.senses ?? [];
      if (fact.family !== "load" || /s$/i.test(fact.said) || !sense) continue;
      const isMarked = sense.is === "size" && !sense.bare && this.tokens[this.pieces[at]!.from]!.text === "#";
      const n = sense.is === "number" ? sense.n : isMarked ? Number(sense.size) : NaN;
      if (!Number.isInteger(n) || n < 1 || n > MOST_ORDINAL) continue;
      const after = this.pieces[at + 1];
      // `dryer 6 - oven 4` numbers no dryer: what is numbered is followed by its figure.
      const told = Math.min(at + 2, this.pieces.length - 1);
      const isColon = after?.is === "mark" && [":", "-", "="].includes(this.tokens[after.from]!.text) &&
        (this.#isFigure(told) || this.#sort(told, "label"));
      // `pump 1 is 20 hp, pump 2 is 15`
      const isTold = COUNTED.has(this.#word(at + 1)) || ["is", "has"].includes(this.#word(at + 1));
      const isLabelled = this.#sort(at + 1, "label") && this.#isFigure(Math.min(at + 2, this.pieces.length - 1));
      if (
        !isColon && !isLabelled && !(isTold && this.#isFigure(told)) &&
        !(isMarked && this.#isFigure(Math.min(at + 1, this.pieces.length - 1)))
      ) {
        continue;
      }
      fact.pieces.push(at);
      this.#used.add(at);
    }
  }
  /** `MCA 27 max 45`: beside a marked ampacity the bare maximum is the device's. */
  #maximumOf(): void {
    if (!this.#labels.some(({ id }) => id === "minimum-circuit-ampacity")) return;
    if (
      this.#labels.some(({ id }) =>
        (LABELS[id as never] as Label).slot === "maximum-protection" || id === "maximum-protection"
      )
    ) {
      return;
    }
    this.pieces.forEach((_, i) => {
      if (!["max", "maximum"].includes(this.#word(i)) || !this.#isFigure(i + 1 < this.pieces.length ? i + 1 : i)) {
        return;
      }
      const sense = this.pieces[i + 1]?.senses.find((s) => fitsLabel(s, LABELS["maximum-protection"]!));
      if (!sense) return;
      const label = this.#draft("load", "maximum-protection", i, "maximum-protection");
      this.#labels.push(label);
      this.#labels.sort((a, b) => a.at - b.at);
    });
  }
  /** `dryer load`, `range loads`: the load of that appliance. */
  #loadsOf(): void {
    for (const load of this.#facts.filter(({ family, id }) => family === "load" && id === "load")) {
      const what = this.#facts.find(({ family, at, id }) => family === "load" && at === load.at - 1 && id !== "load");
      if (!what) continue;
      what.others.push("load:load");
      this.#free.push({
        key: "goal:load",
        value: { sense: { is: "term", sort: "goal", id: "load" }, pieces: [load.at], said: load.said },
        sentence: load.sentence,
      });
      what.pieces.push(load.at);
      this.#facts.splice(this.#facts.indexOf(load), 1);
    }
  }
  /** `no dryer or AC`, `without a range`: named as not there. */
  #absent(): void {
    let last: number | undefined;
    for (const fact of [...this.#facts].sort((a, b) => a.at - b.at)) {
      const isOfDwelling = fact.family === "circuit" && OF_DWELLINGS.includes(fact.id!);
      if (fact.family !== "load" && fact.family !== "box" && !isOfDwelling) continue;
      let at = fact.at - 1;
      const isBetween = (i: number) =>
        ARTICLES.has(this.#word(i)) || this.#word(i) === "any" ||
        this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "fuel") ||
        // `no intenral clamps`: a slip between does not make them there.
        (fact.family === "box" && this.pieces[i]?.is === "unknown");
      while (at >= 0 && isBetween(at)) at--;
      const isNone = at >= 0 && NONE.has(this.#typed(at));
      const isOr = last !== undefined && last === at - 1 && ["or", "nor"].includes(this.#typed(at));
      if (!isNone && !isOr) continue;
      last = fact.at;
      for (let i = at; i < fact.at; i++) this.#used.add(i);
      this.#facts.splice(this.#facts.indexOf(fact), 1);
      const pieces = [...Array.from({ length: fact.at - at }, (_, i) => at + i), ...fact.pieces];
      this.#free.push({
        key: `absent:${fact.id}`,
        value: this.#value(this.pieces[fact.at]!.senses[0]!, ...pieces),
        sentence: fact.sentence,
      });
    }
  }
  #typed = (i: number): string => {
    const piece = this.pieces[i];
    return piece && piece.to === piece.from + 1 ? this.tokens[piece.from]!.text : "";
  };
  /** `600 sq ft unfinished`: a space without a noun. */
  #unfinished(): void {
    this.pieces.forEach((piece, i) => {
      const isUnfinished = piece.senses.some((s) => s.is === "term" && s.sort === "finish" && s.id === "unfinished");
      if (!isUnfinished || this.#facts.some(({ family, at }) => family === "space" && Math.abs(at - i) <= 2)) return;
      const space = this.#draft("space", "unfinished-space", i);
      this.#facts.push(space);
    });
  }
  /** `45 kVA 480-208Y/120`: two voltages that one turns into the other are a transformer without the word. */
  #impliedTransformers(): void {
    if (this.#facts.some(({ family, id }) => family === "transformer" && WINDINGS.has(id ?? ""))) return;
    // `from 120 to 240 V` alone may be a circuit that is changed.
    const hasPower = this.pieces.some(({ senses }) =>
      senses.some((s) =>
        (s.is === "quantity" && ["kVA", "VA", "MVA"].includes(s.unit)) ||
        (s.is === "term" && s.sort === "goal" && s.id === "transformer-size")
      )
    );
    const at = this.pieces.findIndex(({ senses }) =>
      senses.some((s) => s.is === "winding" || (s.is === "windings" && (hasPower || s.secondary.low !== undefined)))
    );
    if (at < 0) return;
    const transformer = this.#draft("transformer", "transformer", at);
    transformer.pieces = [];
    transformer.said = "";
    transformer.others = ["implied"];
    this.#facts.push(transformer);
  }
  #draft(family: FamilyId, id: string | undefined, at: number, label?: string): Draft {
    return {
      family,
      ...(id !== undefined && { id }),
      others: [],
      said: this.#said([at]),
      pieces: [at],
      at,
      slots: {},
      sentence: this.sentences[at]!,
      ...(label !== undefined && { label }),
    };
  }
  /** `on a 60`, `on a 40 A`, `with a 60 amp`: the figure is a device's, where nothing behind it says otherwise. */
  #impliedDevices(): void {
    this.pieces.forEach((piece, i) => {
      const figure = piece.senses.find((s) =>
        (s.is === "quantity" && s.unit === "A") || (s.is === "number" && isBare(s.n, DEVICE_RATINGS))
      );
      if (!figure) return;
      let at = i - 1;
      let articles = 0;
      while (at >= 0 && ARTICLES.has(this.#word(at))) {
        at--;
        articles++;
      }
      let isAlone = false;
      let isBehindAll = false;
      // `there's a 40 in the panel`, `I have a 30 on the truck`, `a 150 on the secondary`
      const isInPanel = articles > 0 && (this.#isInPanel(i) || this.#isAtHand(at, i) || this.#isOnSide(i)) ||
        (figure.is === "number" && this.#isSupplyOf(at, i, figure.n));
      // `125 primary`: no winding has such a voltage; with its unit it may be a current.
      const isSide = figure.is === "number" && !isUsualSupply(figure.n) && this.#isWinding(i + 1);
      // `70 A two pole`
      const arePoles = (at: number) => this.pieces[at]?.senses.some((s) => s.is === "poles") ?? false;
      // `two pole 60`
      const isPoled = arePoles(i - 1) && !this.#sort(i + 1, "device") && !this.#sort(i - 2, "device") ||
        figure.is === "quantity" && arePoles(i + 1) && !this.#sort(i + 2, "device") && !this.#sort(i - 1, "device");
      // `30A/10-3 existing`
      const isPaired = figure.is === "quantity" && this.#isPaired(i);
      if (!isInPanel && !isSide && !isPoled && !isPaired) {
        // `10/2 romex and a 30`
        // `handed me a 40 and eight gauge`
        const isBeforeWire = articles > 0 && this.#word(i + 1) === "and" && this.#isSize(i + 2);
        // `#10 romex with a 30`
        const isWithA = this.#endsAt(i) && this.#said([Math.max(at, 0)]).toLowerCase() === "with a" &&
          (this.#isSize(at - 1) || this.#sort(at - 1, "method") || this.#sort(at - 1, "insulation"));
        const isBesideWire = isBeforeWire || isWithA || articles > 0 && this.#word(at) === "and" && this.#endsAt(i) &&
            (this.#isSize(at - 1) || this.#sort(at - 1, "method") || this.#sort(at - 1, "insulation") ||
              this.#sort(at - 1, "metal"));
        // `can it go on a fifteen`
        const isGoOn = (articles > 0 || this.#endsAt(i)) && this.#isCheck(at) && /\bon$/i.test(this.#said([at]));
        // `feeder comes off a 60 in the house`
        const isOff = articles > 0 && (this.#word(at) === "off" || this.#isEnd(at, "from"));
        // `what ground goes with a 400`, `fuse #8 at 50`
        // `10/3 NM in the attic. still ok on 30?`
        const isAsked = articles === 0 && this.#word(at) === "on" && this.#isCheck(at - 1) && this.#endsAt(i);
        const isOfWire = isAsked ||
          (this.#endsAt(i) || IFS.has(this.#word(i + 1))) && (this.#groundWith(at, articles) || this.#isProtected(at));
        const isOn = isOff || isGoOn || ON.has(this.#word(at)) && (this.#word(at) === "on" || articles > 0);
        if (at < 0 || !(isOn || isBesideWire || isOfWire)) return;
        isBehindAll = isOff || isOfWire;
        // `10/2 romex on 40`
        const isLast = this.pieces[i + 1] === undefined || this.pieces[i + 1]!.is === "border";
        const isWireOn = isLast && (this.#isSize(at - 1) || this.#sort(at - 1, "method") || this.#sort(at - 1, "role"));
        // `… on 200?` by itself is a service.
        isAlone = isLast && (at === 0 || this.pieces[at - 1]!.is === "border") && figure.is === "number" &&
          SERVICES.has(figure.n);
        if (figure.is === "number" && articles === 0 && !isWireOn && !isAlone && !isOfWire && !isGoOn) return;
        const isBareOn = ["on", "off"].includes(this.#word(at)) || isOff || isGoOn || isOfWire;
        if (figure.is === "number" && !isBesideWire && !isBareOn) return;
        // `on a 240 three-phase feeder`
        if (figure.is === "number" && isUsualSupply(figure.n)) return;
      }
      for (let next = i + 1; next < this.pieces.length && !isInPanel && !isSide && !isPoled && !isPaired; next++) {
        const { is, senses } = this.pieces[next]!;
        if (is === "border" || is === "comma") break;
        const isWhere = senses.some((s) => s.is === "term" && (s.sort === "place" || s.sort === "end"));
        if (isBehindAll && (["in", "at"].includes(this.#word(next)) || IFS.has(this.#word(next)) || isWhere)) break;
        if (is === "common" && ((CROSS[this.#word(next)] ?? 0) >= 1 || this.#word(next) === "to")) break;
        if (
          is === "unknown" ||
          senses.some((s) => s.is === "term" && (HEADS[s.sort] || BEHIND_A_LOAD.has(s.sort)))
        ) return;
      }
      const device = this.#draft("device", "breaker", i);
      device.pieces = [];
      device.said = "";
      device.others = isAlone ? ["implied", "checked"] : ["implied"];
      this.#facts.push(device);
    });
  }
  #isPaired = (i: number): boolean =>
    [1, -1].some((way) =>
      this.pieces[i + way]?.is === "mark" && this.tokens[this.pieces[i + way]!.from]!.text === "/" &&
      this.#isSize(i + 2 * way)
    );
  #isCheck = (i: number): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "goal" && CHECKS.has(s.id)) ?? false;
  #isEnd = (i: number, id: string): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "end" && s.id === id) ?? false;
  /** `what ground goes with a 400`: a ground that is asked for, and the device it goes with. */
  #groundWith(at: number, articles: number): boolean {
    const isWithA = this.#said([Math.max(at, 0)]).toLowerCase() === "with a";
    if (!isWithA && (articles === 0 || !["with", "for"].includes(this.#word(at)))) return false;
    for (let i = at - 1; i >= Math.max(0, at - WORDS_BEFORE) && this.pieces[i]!.is !== "border"; i--) {
      if (this.pieces[i]!.senses.some((s) => s.is === "term" && s.sort === "role" && GROUNDS.has(s.id))) return true;
    }
    return false;
  }
  /** `fuse #8 copper at 50`, `protect 12 gauge with a 25`: what is done to a wire that stands between. */
  #isProtected(at: number): boolean {
    if (!PROTECTED_AT.has(this.#said([Math.max(at, 0)]).toLowerCase())) return false;
    let isWire = PROTECTS.test(this.#typed(at - 1));
    for (let i = at - 1; i >= Math.max(0, at - WORDS_BEFORE) && this.pieces[i]!.is !== "border"; i--) {
      isWire ||= this.#isSize(i);
      if (isWire && PROTECTS.test(this.#typed(i))) return true;
    }
    return false;
  }
  /** `the house has a 200 and he wants 125 out at the barn`: services by their usual sizes. */
  #isSupplyOf(verb: number, figure: number, n: number): boolean {
    const isVerb = END_WORDS.there!.has(this.#word(verb)) || END_WORDS.wanted!.has(this.#word(verb));
    if (!isVerb || this.#word(verb) === "to" || !SERVICES.has(n)) return false;
    const next = this.#word(figure + 1);
    if (next !== "" && !SUPPLY_JOINTS.has(next)) return false;
    if (next === "" && !(this.#endsAt(figure) || this.#sort(figure + 1, "place"))) return false;
    const near = this.pieces.slice(Math.max(0, figure - FACTS_AROUND), figure + FACTS_AROUND);
    return near.some(({ senses }) =>
      senses.some((s) => s.is === "term" && (s.id === "separate-structure" || s.id === "subpanel"))
    );
  }
  /** What someone has, and where: no load. */
  #isAtHand(verb: number, figure: number): boolean {
    if (!END_WORDS.there!.has(this.#word(verb)) || !["in", "on", "at", "here"].includes(this.#word(figure + 1))) {
      return false;
    }
    let at = figure + 1;
    while (["in", "on", "at"].includes(this.#word(at)) || ARTICLES.has(this.#word(at))) at++;
    return AT_HAND.has(this.#typed(at));
  }
  #isInPanel(i: number): boolean {
    if (this.#word(i + 1) !== "in") return false;
    let at = i + 2;
    while (at < this.pieces.length && ARTICLES.has(this.#word(at))) at++;
    return this.pieces[at]?.senses.some((s) => s.is === "term" && s.sort === "device" && s.id === "panel") ?? false;
  }
  /** A side of a transformer, with no device named behind it that would take the figure. */
  #isWinding(i: number): boolean {
    return (this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "end" && SIDES.has(s.id)) ?? false) &&
      !this.#sort(i + 1, "device");
  }
  /** `a 150 on the secondary`, `a 70 ahead of the primary`: a device by the side it protects. */
  #isOnSide(i: number): boolean {
    let at = this.#word(i + 1) === "ahead" ? i + 2 : i + 1;
    if (!SIDE_JOINTS.has(this.#word(at))) return false;
    at++;
    while (at < this.pieces.length && ARTICLES.has(this.#word(at))) at++;
    return this.#sort(at, "end");
  }
  /** `is 200 A enough`, `150 A ok?`: amperes that stand between a question's verb and its verdict are a device put up for checking. */
  #checkedDevices(): void {
    const isCheck = (i: number) =>
      this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "goal" && CHECKS.has(s.id));
    const isService = (s: Sense) => s.is === "number" && SERVICES.has(s.n);
    const isBareRating = (s: Sense) =>
      isService(s) || (s.is === "number" && isBare(s.n, DEVICE_RATINGS) && !isNominal(s));
    for (const i of this.#figures((s) => (s.is === "quantity" && s.unit === "A") || isBareRating(s))) {
      if (this.#isAskedAlone(i)) this.#impliedCheck(i);
      let check = i + 1;
      while (check < i + 4 && this.#word(check) !== "") check++;
      if (!isCheck(check)) continue;
      // `is the 70 all right`: one that was told.
      if (THE.has(this.#word(i - 1)) && this.#isToldBefore(i)) continue;
      let at = i - 1;
      while (at >= 0 && ARTICLES.has(this.#word(at))) at--;
      // `is a 60 ok`: a bare number is a device's behind an article alone.
      // `200 enough?`: a service by its usual size opens the question.
      const isOpening = check === i + 1 && (at < 0 || this.pieces[at]!.is === "border") &&
        this.pieces[i]!.senses.some(isService);
      // `the salesman told her a 60 would do it`
      const isSaid = [at, at - 1].some((before) => OPINES.has(this.#typed(before)));
      if (at === i - 1 && !isOpening && !isSaid && !this.pieces[i]!.senses.some(({ is }) => is === "quantity")) {
        continue;
      }
      const opens = at < 0 || this.pieces[at]!.is === "border" || this.pieces[at]!.is === "comma" ||
        this.pieces[at]!.is === "mark" || VERBS.has(this.#word(at)) || isSaid;
      if (!opens || this.#facts.some((fact) => fact.at === i)) continue;
      const device = this.#draft("device", "breaker", i);
      device.pieces = [];
      device.said = "";
      device.others = ["implied", "checked"];
      this.#facts.push(device);
    }
  }
  /** `30 amp?`: amperes that are all of a question. */
  #isAskedAlone = (i: number): boolean =>
    i > 0 && (this.pieces[i - 1]!.is === "border" || (this.#isArticle(i - 1) && this.pieces[i - 2]?.is === "border")) &&
    this.pieces[i + 1]?.is === "border" &&
    this.tokens[this.pieces[i + 1]!.from]!.text === "?" &&
    this.pieces[i]!.senses.some((s) => s.is === "quantity" && s.unit === "A");
  #isArticle = (i: number): boolean => ARTICLES.has(this.#typed(i));
  #impliedCheck(i: number): void {
    const device = this.#draft("device", "breaker", i);
    this.#facts.push({ ...device, pieces: [], said: "", others: ["implied", "checked"] });
    const value: Value = { sense: { is: "term", sort: "goal", id: "check" }, pieces: [], said: "" };
    this.#free.push({ key: "goal:check", value, sentence: this.sentences[i]! });
  }
  #isToldBefore(i: number): boolean {
    const numberOf = (at: number) =>
      (this.pieces[at]!.senses.find(({ is }) => is === "number" || is === "quantity") as { n: number } | undefined)?.n;
    const n = numberOf(i);
    return this.pieces.slice(Math.max(0, i - FACTS_AROUND * 2), i).some((_, k) =>
      numberOf(Math.max(0, i - FACTS_AROUND * 2) + k) === n
    );
  }
  #isWordBetween(word: string, from: number, to: number): boolean {
    for (let i = from + 1; i < to; i++) if (this.#word(i) === word) return true;
    return false;
  }
  #word = (i: number): string => this.pieces[i]?.is === "common" ? this.tokens[this.pieces[i]!.from]!.text : "";

  // ── labels and ratings
  /** *k* labels on a line over *k* values on the next. */
  #bindRows(): void {
    this.pieces.forEach((piece, i) => {
      if (piece.is !== "border" || this.tokens[piece.from]!.is !== "line") return;
      const [above, below] = [this.#line(i, -1), this.#line(i, 1)];
      if (above.length < 2 || above.length !== below.length) return;
      if (!above.every(this.#isLabel) || !below.every(this.#isFigure)) return;
      above.forEach((at, k) => {
        const label = this.#labels.find((each) => each.at === at);
        const sense = label && this.pieces[below[k]!]!.senses.find((s) => fitsLabel(s, LABELS[label.id as never]!));
        if (label && sense) label.slots.value = [this.#value(sense, at, below[k]!)];
      });
    });
  }

  /** Where the figures of loads stand, over powers and amperes together: `4 A fan 5 kW dryer 28 A heat pump`. */
  #sideOfFigures(): FigureSide | undefined {
    const heads = this.#facts.filter(({ family }) => family === "load");
    const figures = this.#figures((s) => CURRENT.figures(s) || RATING.figures(s)).filter((at) => !this.#isOfDevice(at));
    const toAssign = heads.map(({ at }) => ({ at, most: 2, rated: this.#burnsGas(at) }));
    return sideOf(toAssign, figures, (f, h) => {
      const [at, head] = [figures[f]!, heads[h]!.at];
      const distance = at === head ? 0 : this.#between(Math.min(at, head), Math.max(at, head));
      return distance > LOAD_REACH ? Infinity : distance;
    });
  }
  /** One cut of all amperes and bare numbers over labels, devices and loads. */
  #currents(): void {
    const labels = this.#labels.filter((l) => !l.slots.value && LABELS[l.id as never] as Label | undefined);
    const heads = [
      ...labels,
      // `60 A PV breaker`: the breaker's, and no source's output.
      ...this.#facts.filter(({ family, at }) =>
        CURRENT.heads.some((h) => h.family === family) && !(family === "transformer" && this.#sort(at + 1, "device"))
      ),
    ].sort((a, b) => a.at - b.at || a.pieces.length - b.pieces.length);
    const figures = this.#figures((s) =>
      (s.is === "quantity" && s.unit === "A") || s.is === "number" || s.is === "pair" || s.is === "choice" ||
      s.is === "plate-currents"
    );
    this.#cut(
      heads,
      figures,
      (head, figure) => {
        const senses = this.pieces[figure]!.senses;
        if (head.label) {
          const label = LABELS[head.id as never] as Label;
          const sense = senses.find((s) => fitsLabel(s, label));
          // Only a figure with its unit is looked for farther away: `drop for nine lights` limits nothing.
          const isBareCount = sense?.is === "number" &&
            label.reach !== undefined && !label.only &&
            // `can I pull 10 #12`: so many of that size.
            (this.#isThing(figure + 1) || this.#isMany(figure + 1) || this.#isSize(figure + 1));
          if (isBareCount) return undefined;
          // `lugs on both ends say 75`: what can be only this or that is known from farther away.
          const reach = sense?.is === "number" && !label.only
            ? Math.min(label.reach ?? LABEL_REACH, LABEL_REACH)
            : label.reach ?? LABEL_REACH;
          return sense && { sense, slot: "value", before: reach, after: reach };
        }
        // `is a 25 A breaker ok`: what touches a device's name is the device's.
        // `charger a 100 A panel takes`: an article begins another thing.
        const isApart = this.#between(head.at, figure) >= APART ||
          (head.at < figure && ARTICLES.has(this.#word(figure - 1)));
        if (head.family === "load" && this.#isOfDevice(figure) && isApart) return undefined;
        // `lighting, 12 amps of other stuff`: what it is of stands behind the figure.
        if (head.family === "load" && head.at < figure && this.#word(figure + 1) === "of") return undefined;
        // `285 ft from the panel, 12 A`: the panel says where the run begins.
        const isPlace = head.family === "device" && [1, 2].some((back) => this.#word(head.at - back) === "from");
        if (isPlace && this.#between(Math.min(head.at, figure), Math.max(head.at, figure)) >= APART) return undefined;
        // `VOLTS 460 AMPS 14 PH 3 breaker and wire`: a nameplate's figure is no device's.
        if (head.family === "device" && head.at > figure && this.#isOfPlate(figure)) return undefined;
        const rule = CURRENT.heads.find((h) => h.family === head.family && (h.ids?.includes(head.id!) ?? true));
        // `20 amp lighting circuit`: the circuit's, and no load of the lights.
        if (head.family !== "circuit" && this.#isOfCircuit(figure)) return undefined;
        // `20 A continuous`: what runs for hours is a load, no device.
        if (!rule || (head.family !== "load" && this.#isOfHours(figure))) return undefined;
        const sense = senses.find((s) =>
          s.is === "quantity" || (s.is === "pair" && (s.unit === "A" || head.family === "device")) ||
          (s.is === "choice" && head.family === "device")
        );
        const slot = head.family === "load" ? "current" : "rating";
        if (sense) return { sense, slot, before: rule.before, after: rule.after };
        const bare = this.#countsBehind(figure)
          ? undefined
          // `the sub is 240, 60 amp`
          : senses.find((s) =>
            s.is === "number" && isBare(s.n, DEVICE_RATINGS) && !isUsualSupply(s.n) && s.n % 5 === 0
          );
        // `the circuit is 50`
        const isSaidOfCircuit = head.family === "circuit" && figure === head.at + 2 && this.#word(head.at + 1) === "is";
        if (bare && isSaidOfCircuit) {
          return {
            sense: { is: "quantity", n: (bare as { n: number }).n, unit: "A" },
            slot,
            before: NEVER,
            after: 1.3,
          };
        }
        return bare && head.family === "device" ? { sense: bare, slot, before: 0.9, after: 1.3 } : undefined;
      },
      undefined,
      ({ slots, at }) => slots.rating !== undefined || this.#burnsGas(at),
    );
  }
  /** `AC 24 A gas heat`: what burns gas and has no figure behind it needs none. */
  #burnsGas = (at: number): boolean => {
    const isGas = (i: number) =>
      this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "fuel" && s.id === "gas") ?? false;
    if (!isGas(at - 1) && !isGas(at + 1)) return false;
    const behind = this.pieces.findIndex(({ is }, i) => i > at && is === "fact" && !isGas(i));
    return behind < 0 || !this.#isFigure(behind);
  };
  /** `twelve electric dryers`: a number right before a load's name, or its fuel and name, counts it. */
  #countsBehind = (i: number): boolean => this.#isThing(i + 1) || (this.#sort(i + 1, "fuel") && this.#isThing(i + 2));
  /** `2 sets of`, `9 lights`: a term in the plural, which the number before it counts. */
  #isMany = (i: number): boolean =>
    this.pieces[i]?.is === "fact" && this.pieces[i]!.senses.some(({ is }) => is === "term") &&
    /s$/.test(this.tokens[this.pieces[i]!.to - 1]!.text);
  #isThing = (i: number): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "term" && HEADS[s.sort] === "load") ?? false;
  /** Whether a device is named right behind a figure, and has none behind its name. */
  #isOfDevice = (i: number): boolean =>
    this.#sort(i + 1, "device") && !(i + 2 < this.pieces.length && this.#isFigure(i + 2));
  /** Whether a load's circuit is named right behind a figure. */
  #isOfCircuit = (i: number): boolean => this.#isThing(i + 1) && this.#isCircuit(i + 2);
  #isAmperes = (i: number): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "quantity" && s.unit === "A") ?? false;
  #isCircuit = (i: number): boolean =>
    this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "circuit" && s.id === "circuit") ?? false;
  /** `dryers: three are 5 kW, two are 6.5 kW`: a figure with a count of its own. */
  #isCounted(i: number): boolean {
    let at = i - 1;
    while (at >= 0 && COUNTED.has(this.#word(at))) at--;
    return at < i - 1 && at >= 0 &&
      this.pieces[at]!.senses.some((s) =>
        (s.is === "number" || s.is === "count") && Number.isInteger(s.n) && s.n <= MOST_COUNTED
      );
  }
  #isOfHours = (i: number): boolean =>
    [i - 1, i + 1].some((at) => this.pieces[at]?.senses.some((s) => s.is === "term" && s.sort === "hours"));
  #powers(): void {
    const labels = this.#labels.filter((l) => !l.slots.value && (LABELS[l.id as never] as Label).units.includes("kW"));
    const heads = [
      ...labels,
      ...this.#facts.filter(({ family, id }) =>
        RATING.heads.some((h) => h.family === family && (h.ids?.includes(id!) ?? true))
      ),
    ].sort((a, b) => a.at - b.at);
    this.#cut(
      heads,
      this.#figures(RATING.figures),
      (head, figure) => {
        const sense = this.pieces[figure]!.senses.find(RATING.figures)!;
        if (head.label) {
          const label = LABELS[head.id as never] as Label;
          // `demand load of 5 kW dryers`: the power is the dryers'.
          if (!label.ofLoad && this.#countsBehind(figure)) return undefined;
          const reach = label.reach ?? LABEL_REACH;
          return fitsLabel(sense, label) ? { sense, slot: "value", before: reach, after: reach } : undefined;
        }
        const rule = RATING.heads.find((h) => h.family === head.family)!;
        // `2 x 20 hp, 12 A lighting`: what has no shaft has no horsepower.
        if (sense.is === "quantity" && sense.unit === "hp" && NO_SHAFTS.has(head.id!)) return undefined;
        // Of several that were counted, one sort: a load of its own.
        if (head.at < figure && this.#isCounted(figure) && this.#isCountBefore(head)) return undefined;
        return { sense, slot: "rating", before: rule.before, after: rule.after };
      },
      undefined,
      undefined,
      this.#sideOfFigures(),
    );
  }
  #isCountBefore = (head: Draft): boolean =>
    /s$/i.test(head.said) &&
    (this.pieces[head.at - 1]?.senses.some(({ is }) => is === "number" || is === "count") ?? false);
  /** `HP: 20 hp`, `hp ⏎ 20hp`: the letters name the figure, and no heat pump. */
  #unitsNotPumps(): void {
    for (const fact of this.#facts) {
      const sense = fact.slots.rating?.[0]?.sense;
      if (fact.said.toLowerCase() !== "hp" || sense?.is !== "quantity" || sense.unit !== "hp") continue;
      delete fact.id;
      fact.others = [];
    }
  }
  /** All other labels, and what they name. */
  #labelled(): void {
    const open = this.#labels.filter((l) => !l.slots.value);
    const figures = this.#figures((s) => s.is === "quantity" && !["A", "kW", "W", "VA", "kVA", "hp"].includes(s.unit));
    this.#cut(open, figures, (head, figure) => {
      const label = LABELS[head.id as never] as Label;
      const sense = this.pieces[figure]!.senses.find((s) => fitsLabel(s, label));
      const reach = label.reach ?? LABEL_REACH;
      return sense && { sense, slot: "value", before: reach, after: reach };
    });
  }

  /** Amperes and powers without a head are loads of their own; amperes behind a power are its own. */
  #standAlone(): void {
    const taken = this.#figures((s) =>
      (s.is === "quantity" && (s.unit === "A" || RATING.figures(s))) || (s.is === "pair" && s.unit === "A") ||
      s.is === "plate-currents"
    );
    let last: Draft | undefined;
    for (const at of taken) {
      const sense = this.pieces[at]!.senses.find((s) => ["quantity", "pair", "plate-currents"].includes(s.is))!;
      const slot = sense.is === "quantity" && sense.unit !== "A" ? "rating" : "current";
      // A nameplate's lines belong to the load that stands above them.
      last ??= this.#isOfPlate(at)
        ? this.#facts.findLast((fact) =>
          fact.family === "load" && fact.at < at && fact.slots.rating && !fact.slots[slot]
        )
        : undefined;
      if (
        last && !last.slots[slot] && this.sentences[at] === last.sentence &&
        (this.#between(last.at, at) < LABEL_REACH + 2 || this.#isOfPlate(at))
      ) {
        last.slots[slot] = [this.#value(sense, at)];
        continue;
      }
      if (this.#labelledWith(at, sense)) continue;
      const listed = this.#listedWith(at, slot);
      last = this.#draft("load", listed?.id ?? this.#countedOf(at, slot)?.id, at);
      if (listed) last.listed = listed.listed ?? listed;
      const which = this.#which(at);
      if (which !== undefined) last.others.push(which);
      if (this.#isAdded(at)) last.others.push("added");
      last.pieces = [];
      last.slots[slot] = [this.#value(sense, at)];
      this.#facts.push(last);
    }
    this.#facts.sort((a, b) => a.at - b.at);
  }

  /**
   * `from a 200 A panel`, `house has 200 A`, `want 100 A at the garage`: which end of the run a rating stands at. What is said
   * once holds up to the next comma; a rating without such a word has no end.
   */
  #ends(): void {
    for (const fact of this.#facts) {
      const figure = fact.slots.rating?.[0] ?? fact.slots.current?.[0];
      if (!figure) continue;
      const first = Math.min(...figure.pieces, ...fact.pieces);
      for (let at = first - 1; at >= Math.max(0, first - END_REACH); at--) {
        const { is, senses } = this.pieces[at]!;
        const end = senses.find((s) => s.is === "term" && s.sort === "end" && s.id in END_WORDS);
        const word = this.#word(at);
        const id = end?.is === "term" ? end.id : Object.keys(END_WORDS).find((key) => END_WORDS[key]!.has(word));
        if (id !== undefined) {
          fact.slots.end = [this.#value({ is: "term", sort: "end", id }, at)];
          break;
        }
        const isBuilding = senses.some((s) => s.is === "term" && s.sort === "building" && s.id === "existing");
        // `70 breaker on the primary and a 150 main`: the side is the first one's.
        if (word === "and" || (is !== "common" && is !== "mark" && !isBuilding)) break;
      }
    }
  }
  /** Loads that are to be added to what is there, and loads that are there: `existing 12 kW range`. */
  #added(): void {
    const added = toBeAdded(this.pieces, this.tokens);
    const isThere = (i: number) =>
      this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "building" && s.id === "existing") ?? false;
    for (const fact of this.#facts) {
      if (fact.family !== "load") continue;
      const own = ["count", "rating", "current", "volts", "fuel"].flatMap((slot) => fact.slots[slot] ?? []);
      const first = Math.min(fact.at, ...own.flatMap(({ pieces }) => pieces));
      if (added.has(fact.at)) fact.others.push("added");
      else if (isThere(first - 1)) fact.others.push("existing");
    }
  }
  /** `the other a 13.6 kW`, `another 5 kW`, `the fourth one is 6 kW`: which of what was named last a figure is of. */
  #which(at: number): string | undefined {
    const isPassed = (i: number) =>
      this.pieces[i]!.is === "common" || this.pieces[i]!.senses.some(({ is }) => is === "number" || is === "count");
    for (let before = at - 1; before >= Math.max(0, at - TWIN_REACH); before--) {
      const word = this.#typed(before);
      const ordinal = ORDINALS.indexOf(word) + 1 || Number(/^(\d+)(?:st|nd|rd|th)$/.exec(this.#said([before]))?.[1]);
      if (ordinal > 1) return `ordinal:${ordinal}`;
      if (TWINS.has(word)) return "twin";
      // `two more are 16 kW`, `and one more at 16 kW`, and not `more than 16 kW`
      const isCounted = (word === "more" && this.#isNumber(before - 1)) ||
        word === "" && /^(one|an?) more$/i.test(this.#said([before]));
      if (isCounted) return "twin";
      // What stands between may say where it is: `the fourth one in the attic is 6 kW`.
      if (!isPassed(before) && !this.#isPlain(before)) return undefined;
    }
    return undefined;
  }
  /** `1500 W heater plus 5 A`, `and about 3 A`: joined to what stands before. */
  #isAdded(at: number): boolean {
    let i = at - 1;
    while (i > at - IN_A_LIST && ["a", "an", "the", "about", "another", "maybe", "around"].includes(this.#word(i))) i--;
    return ["and", "plus", "&", "+", "with"].includes(this.#typed(i)) || this.#sort(i, "change");
  }
  #isNumber = (i: number): boolean =>
    this.pieces[i]?.senses.some(({ is }) => is === "number" || is === "count") ?? false;
  #isPlain = (i: number): boolean =>
    this.pieces[i]!.is === "unknown" || this.#sort(i, "space") || this.#sort(i, "place") || this.#sort(i, "building");
  /** `HP 20 ⏎ V 460 ⏎ A 26`: a figure behind its unit is a nameplate's. */
  #isOfPlate(at: number): boolean {
    const { is, text } = this.tokens[this.pieces[at]!.from]!;
    return is === "word" && text !== "a" && !isNumberWord(text);
  }
  /** `two compressors, rated load 18 and 22 A`: a further figure under a label is of another of the things named before it. */
  #labelledWith(at: number, sense: Sense): boolean {
    let before = at - 1;
    while (before > 0 && LIST_JOINTS.has(this.#typed(before))) before--;
    if (before === at - 1) return false;
    const label = this.#labels.find(({ slots }) => slots.value?.some(({ pieces }) => pieces.includes(before)));
    const rule = label && LABELS[label.id as never] as Label;
    const head = rule?.ofLoad && fitsLabel(sense, rule)
      ? this.#facts.findLast((fact) =>
        fact.family === "load" && fact.at < label!.at && fact.sentence === label!.sentence
      )
      : undefined;
    if (!label || !rule || !head || !/s$/i.test(head.said)) return false;
    const twin = this.#draft("load", head.id, at);
    twin.pieces = [];
    twin.listed = head.listed ?? head;
    twin.slots[rule.slot ?? label.id!] = [this.#value(sense, at)];
    this.#facts.push(twin);
    return true;
  }
  /** `compressors 22 A and 17 A`: a further figure of a head in the plural is another of them. */
  #listedWith(at: number, slot: string): Draft | undefined {
    let before = at - 1;
    while (before > 0 && LIST_JOINTS.has(this.tokens[this.pieces[before]!.from]!.text)) before--;
    if (before === at - 1) return undefined;
    const head = this.#facts.find((fact) => fact.slots[slot]?.some(({ pieces }) => pieces.includes(before)));
    return head?.family === "load" && (head.listed || (head.at < before && /s$/i.test(head.said))) ? head : undefined;
  }

  /** `dryers: three at 5.5 kW and five at 4.8 kW`: a further figure with a count of its own is of the same things. */
  #countedOf(at: number, slot: string): Draft | undefined {
    let before = at - 1;
    while (COUNTED.has(this.#word(before))) before--;
    if (!this.#isNumber(before)) return undefined;
    before--;
    const joint = before;
    while (before > 0 && LIST_JOINTS.has(this.#typed(before))) before--;
    const head = before < joint &&
      this.#facts.find((fact) => fact.slots[slot]?.some(({ pieces }) => pieces.includes(before)));
    return head && head.family === "load" && (head.pieces.length === 0 || /s$/i.test(head.said)) ? head : undefined;
  }

  /** Sizes and cables to what they are for; the rest are conductors by themselves. */
  #sizes(): void {
    const isSize = (s: Sense) => s.is === "size" || s.is === "sizes" || s.is === "cable";
    const roles = this.#facts.filter(({ family }) => family === "conductor");
    this.#cut(roles, this.#figures(isSize), (head, figure) => {
      const sense = this.pieces[figure]!.senses.find(isSize)!;
      // A ground's own size touches it: `ground with 1/0 copper` and `EGC, 250 kcmil` are of the conductors it runs with.
      const isGround = GROUNDS.has(head.id ?? "");
      // `#6 bare copper as the ground`
      const isAs = isGround && figure < head.at && this.#isWordBetween("as", figure, head.at);
      const reach = head.id === "wire" ? 1.4 : isGround && !isAs ? LABEL_REACH : 2.4;
      return { sense, slot: "size", before: reach, after: head.id === "wire" ? 1.4 : isGround ? 1.3 : 1.9 };
    });
    this.#bareGauges();
    this.#gaugesBefore();
    for (const at of this.#figures(isSize)) {
      const fact = this.#draft("conductor", undefined, at);
      fact.pieces = [];
      fact.slots.size = [this.#value(this.pieces[at]!.senses.find(isSize)!, at)];
      this.#facts.push(fact);
    }
    this.#facts.sort((a, b) => a.at - b.at);
  }

  /** `60 A feeder, 6 THHN, 10 ground`: nobody counts so many grounds. */
  #gaugesBefore(): void {
    for (const ground of this.#facts.filter(({ id, slots }) => GROUNDS.has(id ?? "") && !slots.size)) {
      const sense = this.pieces[ground.at - 1]?.senses.find(({ is }) => is === "number") as { n: number } | undefined;
      if (!sense || !GAUGES.includes(sense.n) || sense.n < LEAST_BARE_GAUGE || /s$/.test(ground.said)) continue;
      ground.slots.size = [this.#value({ is: "size", size: String(sense.n), bare: true }, ground.at - 1)];
    }
  }
  /** `the ground was a ten`, `EGC is a 6`, `the hots are 4s`: a gauge without its mark, behind what it is of. */
  #bareGauges(): void {
    for (const wire of this.#facts.filter(({ family, slots }) => family === "conductor" && !slots.size)) {
      let at = wire.at + 1;
      while (IS_A.has(this.#word(at)) && at < wire.at + 4) at++;
      const sense = this.pieces[at]?.senses.find(({ is }) => is === "number") as { n: number } | undefined;
      const isMany = this.#typed(at + 1) === "s";
      if (at === wire.at + 1 || !sense || !GAUGES.includes(sense.n) || !(isMany || this.#endsAt(at))) continue;
      wire.slots.size = [this.#value({ is: "size", size: String(sense.n), bare: true }, at)];
    }
  }

  /** Figures of a nameplate to the load before them, or the one behind; without any they are one nameplate. */
  #nameplates(): void {
    for (const label of this.#labels) {
      const value = label.slots.value?.[0];
      const rule = LABELS[label.id as never] as Label;
      if (!value) continue;
      if (!rule.ofLoad) {
        this.#free.push({ key: label.id!, value: this.#withLabel(value, label), sentence: label.sentence });
        continue;
      }
      const slot = rule.slot ?? label.id!;
      const [before, after] = this.#loadsBeside(label, slot);
      const isHere = (load: Draft | undefined) => load?.sentence === label.sentence;
      const near = isHere(before) && isHere(after)
        ? this.#between(before!.at, label.at) <= this.#between(label.at, after!.at) + 1 ? before : after
        : isHere(before)
        ? before
        : isHere(after)
        ? after
        : before ?? after;
      let owner = near;
      if (!owner) {
        owner = this.#draft("load", undefined, label.at);
        owner.pieces = [];
        this.#facts.push(owner);
        this.#facts.sort((a, b) => a.at - b.at);
      }
      owner.slots[slot] = [this.#withLabel(value, label)];
    }
  }
  /** The nearest load on each side that has no such figure yet. */
  #loadsBeside(label: Draft, slot: string): [Draft | undefined, Draft | undefined] {
    let [low, high] = [0, this.#facts.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#facts[middle]!.at < label.at) low = middle + 1;
      else high = middle;
    }
    const isFree = (fact: Draft) => fact.family === "load" && !fact.slots[slot];
    const before = this.#facts.slice(Math.max(0, low - FACTS_AROUND), low).findLast(isFree);
    const after = this.#facts.slice(low, low + FACTS_AROUND).find((fact) => fact.at > label.at && isFree(fact));
    return [before, after];
  }
  #withLabel(value: Value, label: Draft): Value {
    const pieces = [...new Set([...value.pieces, ...label.pieces])];
    for (const piece of label.pieces) this.#used.add(piece);
    return { ...value, pieces, label: label.id! };
  }

  /** `range, dryer and water heater are gas` is said of the whole row; `gas range and dryer` may be. */
  #shareFuel(): void {
    const heads = this.#facts.filter(({ family, id, pieces }) => family === "load" && id && pieces.length > 0);
    const isPlain = ({ slots }: Draft) => !slots.rating && !slots.current && !slots.fuel;
    heads.forEach((head, k) => {
      const fuel = head.slots.fuel?.[0];
      if (!fuel) return;
      const at = fuel.pieces[0]!;
      if (at > head.at) {
        const between = Array.from({ length: at - head.at }, (_, i) => this.#typed(head.at + i));
        if (!between.some((word) => OF_THE_ROW.has(word))) return;
        for (let i = k - 1; i >= 0 && heads[i]!.sentence === head.sentence && isPlain(heads[i]!); i--) {
          heads[i]!.slots.fuel = [fuel];
        }
        return;
      }
      const next = heads[k + 1];
      if (!next || !isPlain(next) || next.sentence !== head.sentence) return;
      const joint = Array.from({ length: next.at - head.at - 1 }, (_, i) => this.#typed(head.at + 1 + i));
      if (joint.length === 1 && ["and", "&", "/"].includes(joint[0]!)) next.slots.perhapsFuel = [fuel];
    });
  }
  /** `50 gallon 4.5 kW tank`: what holds gallons and takes power heats water. */
  #tanks(): void {
    for (const fact of this.#facts) {
      if (fact.family === "load" && fact.id === undefined && fact.slots.gallons && fact.slots.rating) {
        fact.id = "water-heater";
      }
    }
  }
  /** What nothing knows beside a figure without a head is its name: `3 kW steam shower`. */
  #names(): void {
    const isUnknown = (at: number) => this.pieces[at]?.is === "unknown";
    const isNameless = (at: number) =>
      (isUnknown(at) || this.pieces[at]?.is === "common") && /^\p{L}/u.test(this.#typed(at)) &&
      !NO_NAME.has(this.#typed(at));
    for (const fact of this.#facts) {
      if (fact.family !== "load" || fact.id !== undefined || !(fact.slots.rating ?? fact.slots.current)) continue;
      // `a 14 kW and an 18 kW range`
      if (["and", "&", "+"].includes(this.#typed(fact.at + 1))) fact.others.push("joined");
      const words: number[] = [];
      const from = ["of", "for"].includes(this.#word(fact.at + 1)) ? fact.at + 2 : fact.at + 1;
      for (let at = from; isNameless(at) && words.length < LONGEST_NAME; at++) words.push(at);
      if (!words.some(isUnknown)) {
        words.length = 0;
        const colon = this.#typed(fact.at - 1) === ":" || ["at", "of"].includes(this.#word(fact.at - 1)) ? 1 : 0;
        for (let at = fact.at - 1 - colon; isNameless(at) && words.length < LONGEST_NAME; at--) words.unshift(at);
      }
      if (!words.some(isUnknown)) continue;
      fact.slots.name = [{ sense: { is: "words", words: this.#said(words) }, pieces: words, said: this.#said(words) }];
    }
  }

  /**
   * `60 ft of 4/0 to the meter main, from the meter main 90 ft of #2 to the garage`: where each of several stretches begins and
   * ends, and how many sets it has, held by the stretch itself, because a conversation keeps no places.
   */
  #stretches(): void {
    const facts = this.#facts.filter(({ family, id, slots }) =>
      family === "conductor" && (id === undefined || id === "wire") && slots.size
    );
    const isFeet = (s: Sense) => s.is === "quantity" && ["ft", "m", "yd"].includes(s.unit);
    const loose = this.#figures(isFeet);
    if (facts.length < 2 || facts.filter(({ slots }) => slots.length).length + loose.length < 2) return;
    // `120 ft of 2 sets of 1/0`: a length before its sets is the stretch's own.
    facts.forEach((fact, k) => {
      const size = fact.slots.size![0]!.pieces[0]!;
      const since = facts[k - 1]?.slots.size?.[0]?.pieces[0] ?? -1;
      const own = loose.filter((at) => at > since && at < size);
      if (!fact.slots.length && own.length === 1) {
        fact.slots.length = [this.#value(this.pieces[own[0]!]!.senses.find(isFeet)!, own[0]!)];
      }
    });
    const wires = facts.map((fact) => {
      const own = Object.values(fact.slots).flatMap((values) => values.flatMap(({ pieces }) => pieces));
      return { fact, size: fact.slots.size![0]!.pieces[0]!, first: Math.min(...own), last: Math.max(...own) };
    });
    wires.forEach(({ fact, first, last }, k) => {
      this.#pointsBetween(wires[k - 1]?.last ?? -1, first, fact, false);
      this.#pointsBetween(last, wires[k + 1]?.first ?? this.pieces.length, fact, true);
    });
    for (const set of this.#facts.filter(({ family, id }) => family === "circuit" && id === "set")) {
      const far = wires.map(({ size }) => Math.abs(size - set.at));
      const nearest = wires[far.lastIndexOf(Math.min(...far))]!.fact;
      const count = set.slots.count?.[0];
      if (count) nearest.slots.sets = [count];
    }
  }
  /** Points with a preposition: behind a stretch where it goes and comes from, in front of it where it comes from. */
  #pointsBetween(after: number, before: number, fact: Draft, isBehind: boolean): void {
    for (let i = isBehind ? after + 1 : before - 1; i > after && i < before; i += isBehind ? 1 : -1) {
      if (this.pieces[i]!.is === "border" || (this.pieces[i]!.is === "comma" && (!isBehind || fact.slots.to))) return;
      const point = POINT_SORTS.some((sort) => this.#sort(i, sort));
      if (!point) continue;
      let at = i - 1;
      while (ARTICLES.has(this.#word(at))) at--;
      const slot = this.#word(at) === "to" && isBehind
        ? "to"
        : END_WORDS.from!.has(this.#word(at))
        ? "from"
        : undefined;
      if (!slot) return;
      const said = this.#said([i]);
      fact.slots[slot] ??= [{ sense: { is: "words", words: said.toLowerCase() }, pieces: [i], said }];
      if (slot === "to" || !isBehind) return;
    }
  }

  // ── everything else
  #attach(pass: Pass): void {
    const rule = (fact: Draft) =>
      pass.heads.find((h) =>
        h.family === fact.family && (h.ids?.includes(fact.id!) ?? true) && !(h.not?.includes(fact.id!) ?? false)
      );
    const heads = this.#facts.filter((fact) => rule(fact) && !fact.slots[pass.slot]);
    this.#cut(heads, this.#figures(pass.figures), (head, figure) => {
      const sense = this.pieces[figure]!.senses.find(pass.figures)!;
      const { before, after } = rule(head)!;
      // `disposer 600`: no household appliance has such a voltage.
      if (isNominal(sense) && (sense as { n: number }).n > HOUSEHOLD_VOLTS && this.#sort(head.at, "appliance")) {
        return undefined;
      }
      // `will the 100 carry the charger`: beyond what is asked stands no count.
      // `is the 70 all right on that wire`: a rating that was told.
      const isTold = pass.slot === "count" && THE.has(this.#word(figure - 1)) && this.#isToldBefore(figure);
      if (sense.is === "number" && isTold) return undefined;
      // `a 240 circuit`
      if (sense.is === "number" && pass.slot === "count" && isUsualSupply(sense.n)) return undefined;
      if (sense.is === "number" && pass.slot === "count" && this.#isGoalBetween(figure, head.at)) return undefined;
      // `water heater 4500, dryer 5600`: no count stands beyond a comma.
      if (sense.is === "number" && pass.slot === "count" && this.#hasComma(figure, head.at)) return undefined;
      // `building 4: 50 hp`, `number ten is 30 A wire`: nor does one that stands apart from a figure without a name.
      if (sense.is === "number" && pass.slot === "count" && this.#isApart(figure, head)) return undefined;
      // `two fifties and a 25 hp motor`: nor beyond another item.
      if (sense.is === "number" && pass.slot === "count" && this.#hasItem(figure, head.at)) return undefined;
      // `lighting on all day and 60 A of receptacles`: what is joined behind has hours of its own.
      if (pass.slot === "hours" && figure < head.at && this.#hasAnd(figure, head.at)) return undefined;
      // `both on a timer 5pm-11pm`: of all that was named.
      if (pass.slot === "hours" && [1, 2, 3, 4].some((back) => ["both", "all"].includes(this.#word(figure - back)))) {
        return undefined;
      }
      // `70 breaker on the primary and a 150 main`: the side is the first one's.
      if (pass.slot === "end" && this.#hasAnd(figure, head.at)) return undefined;
      if (sense.is === "count" && sense.isBehind) return { sense, slot: pass.slot, before: NEVER, after };
      return { sense, slot: pass.slot, before, after };
    }, (head) => rule(head)!.most ?? 1);
  }

  /** `five pieces: oven 11 kW`: whether a colon stands between a number and a head, or a verb before a figure without a name. */
  #isApart(number: number, { at, id }: Draft): boolean {
    for (let i = number + 1; i < at; i++) {
      if (this.#typed(i) === ":" || this.#typed(i) === "=" || (id === undefined && this.#word(i) === "is")) return true;
    }
    return false;
  }
  /** `RLA 22.4 fan 1.5`, `1.4 on the fan`: beside a compressor's marked current a fan's bare number is its own. */
  #partsOfPlate(): void {
    if (!this.#facts.some(({ slots }) => slots["rated-load-current"])) return;
    const fans = this.#facts.filter(({ id, slots }) =>
      (id === "fan" || id === "air-handler") && !slots.current && !slots["full-load-current"] && !slots.rating
    );
    this.#cut(fans, this.#figures((s) => s.is === "number"), (_, figure) => {
      const { n } = this.pieces[figure]!.senses.find((s) => s.is === "number") as { n: number };
      // `2 fans` are two of them.
      const before = Number.isInteger(n) ? -1 : LABEL_REACH;
      return { sense: { is: "quantity", n, unit: "A" }, slot: "current", before, after: 0.9 };
    });
  }
  /** `(all kW)`, `all in kW`: the unit of every bare figure of a list. */
  #unitOfAll(): Model | undefined {
    for (let i = 0; i < this.pieces.length; i++) {
      const goal = this.pieces[i]!.senses.find((s) => s.is === "term" && s.sort === "goal" && s.id in UNITS_OF_ALL);
      if (goal?.is !== "term" || ![this.#word(i - 1), this.#word(i - 2)].includes("all")) continue;
      this.#used.add(i);
      return { slot: goal.id === "current" ? "current" : "rating", unit: UNITS_OF_ALL[goal.id]!, isBehind: true };
    }
    return undefined;
  }
  /** `range 12000 ⏎ dryer 5000`: powers of a household without any unit are volt-amperes. */
  #voltAmperesOf(loads: readonly Draft[]): Model | undefined {
    const isPower = ({ at }: Draft) =>
      this.#sort(at, "appliance") && this.#endsItem(at + 2) &&
      (this.pieces[at + 1]?.senses.some((s) => s.is === "number" && s.n >= LEAST_BARE) ?? false);
    return loads.filter(isPower).length < 2 ? undefined : { slot: "rating", unit: "VA", isBehind: true };
  }
  /** Bare numbers beside heads of which a sibling has a unit: `range 12 kW, dryer 5`. */
  #carryUnits(): void {
    const isListed = ({ family, id }: Draft) =>
      family === "load" || (family === "circuit" && OF_DWELLINGS.includes(id!));
    const loads = this.#facts.filter((fact) => isListed(fact) && fact.pieces.length > 0);
    this.#horsepower(loads);
    const models = loads.map((fact) => modelOf(fact));
    const units = new Set(models.filter((model) => model !== undefined).map(({ slot, unit }) => `${slot} ${unit}`));
    const said = this.#unitOfAll() ?? (units.size === 0 ? this.#voltAmperesOf(loads) : undefined);
    if (units.size === 0 && !said) return;
    const only = said ?? (units.size === 1 ? models.find((model) => model !== undefined) : undefined);
    const carried = new Map<Draft, Model>();
    loads.forEach((fact, i) => {
      if (models[i] || fact.slots.rating || fact.slots.current || fact.slots.fuel || fact.id === undefined) return;
      // The one before in the list tells the unit; after amperes only where the text has no other.
      const before = loads[i - 1];
      const near = before && fact.sentence - before.sentence <= 1 ? models[i - 1] ?? carried.get(before) : undefined;
      // At the head of a list the unit may stand behind: `dryer 5000, dishwasher 1200 W`.
      const next = near ? undefined : models.slice(i).find((each) => each?.slot === "rating");
      const model = only ?? (near?.slot === "rating" ? near : next);
      if (model) carried.set(fact, model);
    });
    const open = [...carried.keys()];
    this.#cut(open, this.#figures((s) => s.is === "number"), (head, figure) => {
      const { n } = this.pieces[figure]!.senses.find((s) => s.is === "number") as { n: number };
      const model = carried.get(head)!;
      const { slot, isBehind } = model;
      // `small appliance 3`: circuits are counted, and no list tells their watts so small.
      if (head.family === "circuit" && n < LEAST_POWER) return undefined;
      // `range 12 kW, dishwasher 1200`
      const unit = model.unit === "kW" && n >= LEAST_POWER ? "W" : model.unit;
      // `5 dryers` are five of them, `5 dryer` is one of 5 kW.
      const isOne = !/s$/i.test(head.said);
      const sense: Sense = { is: "quantity", n, unit };
      // Behind its name a number ends the item, or it counts what follows.
      const isLast = this.#endsItem(figure + 1);
      // `1 laundry circuit` counts it, whatever stands behind.
      if (head.family === "circuit" && figure < head.at && n <= MOST_COUNTED) return undefined;
      // `dw 1200 disp 3/4 hp`: no count is so large; `microwave, 1500`: nor does it stand by itself behind a comma.
      const isPower = n >= LEAST_POWER && !isNominal({ is: "number", n });
      const isAlone = isLast && this.pieces[figure - 1]?.is === "comma";
      const after = isPower && isAlone ? CROSS_COMMA + CROSS_COMMON : isLast ? 0.9 : isPower ? 0.9 : -1;
      return { sense, slot, before: !isBehind && isOne && !isLast ? 0.1 : -1, after };
    });
    for (const fact of open) {
      const { slot, unit } = carried.get(fact)!;
      const value = fact.slots[slot]?.[0];
      if (value) {
        fact.slots[slot] = [{
          ...value,
          note: `took "${value.said}" as ${(value.sense as { n: number }).n} ${unit}${
            units.size > 0 ? ", like the others" : ""
          }`,
        }];
      }
    }
  }

  #isGoalBetween(from: number, to: number): boolean {
    for (let i = from + 1; i < to; i++) if (this.#sort(i, "goal")) return true;
    return false;
  }
  /** `will the 100 carry it`: a number behind its article is the rating that was told before. */
  #toldAgain(): void {
    for (const i of this.#figures(({ is }) => is === "number")) {
      const { n } = this.pieces[i]!.senses.find(({ is }) => is === "number") as { n: number };
      if (!THE.has(this.#word(i - 1))) continue;
      const told = this.#facts.flatMap(({ slots }) =>
        [slots.rating, slots.size, slots.current].flatMap((each) => each?.[0] ?? [])
      )
        .find((value) => value && value.pieces[0]! < i && isSameNumber(value.sense, n));
      if (!told) continue;
      this.#used.add(i);
      (told.pieces as number[]).push(i);
    }
  }
  /** `I got 41,200`: what someone worked out themselves. */
  #ownResults(): void {
    const isResult = (s: Sense) =>
      (s.is === "number" && s.n >= LEAST_BARE) || (s.is === "quantity" && (s.unit === "VA" || s.unit === "kVA"));
    for (const i of this.#figures(isResult)) {
      let at = i - 1;
      while (["about", "only", "like", "around", "a", "with"].includes(this.#typed(at))) at--;
      const isGot = GOT.has(this.#typed(at)) || (this.#typed(at) === "up" && /^c[oa]m/.test(this.#typed(at - 1)));
      if (!isGot || this.#isThing(i + 1)) continue;
      this.#free.push({
        key: "told-result",
        value: this.#value(this.pieces[i]!.senses.find(isResult)!, i),
        sentence: this.sentences[i]!,
      });
    }
  }
  /** `planer 2 hp, grinder 3/4`: a fraction beside a machine of a list told in horsepower. */
  #horsepower(loads: readonly Draft[]): void {
    const isTold = loads.some(({ slots }) =>
      slots.rating?.some(({ sense }) => sense.is === "quantity" && sense.unit === "hp")
    );
    if (!isTold) return;
    const isFraction = (s: Sense) => s.is === "number" && s.n > 0 && s.n < 1;
    const open = loads.filter(({ slots }) => !slots.rating && !slots.current && !slots.fuel);
    this.#cut(open, this.#figures(isFraction), (_, figure) => {
      const { n } = this.pieces[figure]!.senses.find(isFraction) as { n: number };
      return { sense: { is: "quantity", n, unit: "hp" }, slot: "rating", before: 0.9, after: 0.9 };
    });
    for (const { slots } of open) {
      const value = slots.rating?.[0];
      if (value) slots.rating = [{ ...value, note: `took "${value.said}" as ${value.said} hp, like the others` }];
    }
  }
  #hasComma(from: number, to: number): boolean {
    return this.pieces.slice(Math.min(from, to) + 1, Math.max(from, to)).some(({ is }) => is === "comma");
  }
  #hasItem(from: number, to: number): boolean {
    for (let i = from + 1; i < to; i++) if (ITEM.has(this.tokens[this.pieces[i]!.to - 1]!.text)) return true;
    return false;
  }
  #hasAnd(from: number, to: number): boolean {
    for (let i = from + 1; i < to; i++) if (this.#word(i) === "and") return true;
    return false;
  }
  #endsItem(i: number): boolean {
    const piece = this.pieces[i];
    return piece === undefined || piece.is === "border" || piece.is === "comma" || piece.is === "mark" ||
      ["and", "plus", "with", "or"].includes(this.#word(i));
  }
  /** `nine 100 watt lights`, `9 lights of 100 W`, `9 lights at 100 W`: the figure is of each; `9 lights 100 W` tells neither. */
  #shares(): void {
    for (const { family, slots, pieces } of this.#facts) {
      const head = pieces[0];
      const count = slots.count?.[0]?.pieces[0];
      const figure = (slots.rating ?? slots.current)?.[0]?.pieces[0];
      if (family !== "load" || slots.share || head === undefined || count === undefined || figure === undefined) {
        continue;
      }
      const between = this.pieces.slice(head + 1, figure).flatMap(({ from, to }) =>
        this.tokens.slice(from, to).map(({ text }) => text)
      );
      const isEach = (count < figure && figure < head) || between.some((word) => EACH.has(word));
      if (isEach) slots.share = [{ sense: { is: "term", sort: "share", id: "each" }, pieces: [], said: "" }];
    }
  }

  /** `8 ft 2000 W + 5 ft 1250 W` of baseboard: by its length and power a heater is told apart, and is one without the word. */
  #heaters(): void {
    const named = this.#facts.find(({ id }) => id === "space-heater");
    for (const fact of named ? this.#facts : []) {
      const figure = fact.slots.rating?.[0]?.pieces[0];
      const isHeater = fact.id === "space-heater" || fact.id === undefined;
      if (fact.family !== "load" || !isHeater || figure === undefined || this.#used.has(figure - 1)) continue;
      const feet = this.pieces[figure - 1]?.senses.find((s) => s.is === "quantity" && s.unit === "ft");
      if (!feet) continue;
      fact.slots.ownLength = [this.#value(feet, figure - 1)];
      fact.id = "space-heater";
    }
  }
  /** `duplex panel, two 7.5 hp`: a number that touches the figure of a head counts it, wherever the head stands. */
  #countsBeside(...kinds: readonly ("count" | "number")[]): void {
    for (const fact of this.#facts) {
      if (fact.family !== "load" || fact.slots.count) continue;
      if (fact.listed) continue;
      const figure = (fact.slots.rating ?? fact.slots.current)?.[0]?.pieces[0];
      if (figure === undefined) continue;
      // `dryers: four at 5 kW`
      const isAt = fact.pieces.every((at) => at < figure) && COUNTED.has(this.#word(figure - 1));
      let at = isAt ? figure - 2 : figure - 1;
      // `20 of the 40 W lamps`
      while (this.#word(at) === "the" || this.#word(at) === "of") at--;
      if (at < 0 || this.#used.has(at)) continue;
      const sense = this.pieces[at]!.senses.find(({ is }) => (kinds as readonly string[]).includes(is));
      if (!sense || (sense.is !== "number" && sense.is !== "count")) continue;
      if (Number.isInteger(sense.n) && sense.n >= 1 && sense.n <= MOST_BESIDE) {
        fact.slots.count = [this.#value(sense, at)];
      }
    }
  }

  /** `three motors: 10 hp, 15 hp, 25 hp`: as many figures as were counted are each of one. */
  #totals(): void {
    for (const head of this.#facts) {
      const count = head.slots.count?.[0];
      const n = count && (count.sense.is === "number" || count.sense.is === "count") ? count.sense.n : 0;
      if (n < 2 || (this.#facts.filter(({ listed }) => listed === head).length !== n - 1 && !this.#isListOf(head, n))) {
        continue;
      }
      head.pieces.push(...count!.pieces);
      delete head.slots.count;
    }
  }
  /** Whether exactly so many figures of one unit follow a head in the plural, each by itself. */
  #isListOf(head: Draft, n: number): boolean {
    const unit = unitOfRating(head.slots.rating?.[0]);
    const at = this.#facts.indexOf(head);
    const others = this.#facts.slice(at + 1).filter(({ family }) => family === "load");
    const isItem = (each: Draft) =>
      each.id === undefined && each.sentence === head.sentence && !each.slots.count &&
      unitOfRating(each.slots.rating?.[0]) === unit;
    const end = others.findIndex((each) => !isItem(each));
    return unit !== undefined && /s$/i.test(head.said) && (end < 0 ? others.length : end) === n - 1 &&
      head.slots.rating![0]!.pieces[0]! > head.at;
  }

  /** `will #8 copper do`, `would a 60 pass`: a question's verb and what it ends with put up what stands between. */
  #checks(): void {
    let asks = false;
    let first: number | undefined;
    // `is the drop within 3 %?`: a limit that is asked for by a question of yes or no.
    const within = (end: number, goesOn = false): void => {
      const isAsked = first !== undefined && YES_OR_NO.has(this.#word(first)) &&
        this.pieces.slice(first, end).some(({ senses }) => senses.some((s) => s.is === "quantity" && s.unit === "%"));
      if (isAsked) {
        this.#free.push({
          key: "goal:check",
          value: this.#value({ is: "term", sort: "goal", id: "check" }, first!),
          sentence: this.sentences[first!]!,
        });
      }
      asks &&= goesOn;
      first = undefined;
    };
    this.pieces.forEach((piece, i) => {
      const word = this.#word(i);
      if (piece.is === "border" || piece.is === "comma") return within(i, piece.is === "comma");
      first ??= i;
      if (asks && DO.has(word) && this.#endsAt(i)) {
        this.#free.push({
          key: "goal:check",
          value: this.#value({ is: "term", sort: "goal", id: "check" }, i),
          sentence: this.sentences[i]!,
        });
      } else if (WILL.has(word)) asks = true;
    });
    within(this.pieces.length);
  }
  #endsAt(i: number): boolean {
    const next = this.pieces[i + 1];
    return next === undefined || next.is === "border" || next.is === "comma" ||
      (next.is === "common" && this.#endsAt(i + 1));
  }

  /** `a 15 hp, a 7.5 and two 3 hp motors`: a bare number among powers of one unit is a power like them. */
  #inLists(): void {
    const isPower = ({ family, id, slots }: Draft): boolean =>
      family === "load" && (id === undefined || this.#isMotor(id)) && unitOfRating(slots.rating?.[0]) === "hp";
    for (const at of this.#figures((s) => s.is === "number")) {
      const before = this.#facts.findLast((fact) => isPower(fact) && fact.at < at);
      const after = this.#facts.find((fact) => isPower(fact) && fact.at > at);
      const { n } = this.pieces[at]!.senses.find((s) => s.is === "number") as { n: number };
      if (!before || !after || isNominal({ is: "number", n }) || !this.#endsItem(at + 1)) continue;
      if (before.sentence !== this.sentences[at] || after.sentence !== before.sentence) continue;
      const from = Math.max(...before.slots.rating![0]!.pieces);
      const to = Math.min(after.at, ...after.slots.rating![0]!.pieces);
      if (from > at || to < at || this.#between(from, at) > IN_A_LIST || this.#between(at, to) > IN_A_LIST) continue;
      const note = `took "${this.#said([at])}" as ${n} hp, like the others`;
      const fact = this.#draft("load", undefined, at);
      fact.slots.rating = [{ ...this.#value({ is: "quantity", n, unit: "hp" }, at), note }];
      this.#facts.push(fact);
    }
    this.#facts.sort((a, b) => a.at - b.at);
  }
  #isMotor = (id: string): boolean => id === "motor" || id === "pump" || id === "fan" || id === "machine";

  /** What no head took: terms by their sort, figures by their unit. */
  #rest(): void {
    const heads = new Set(this.#facts.flatMap(({ pieces }) => pieces));
    this.pieces.forEach((piece, i) => {
      if (piece.is !== "fact" || heads.has(i)) return;
      // `460/3/60` and `240 VDC` are a voltage and a supply in one, whatever took the voltage.
      const isSupply = piece.senses.length > 1 && piece.senses.some(({ is }) => is === "quantity" || is === "system");
      for (const sense of piece.senses) {
        if (this.#used.has(i) && !(isSupply && sense.is === "term" && sense.sort === "phase")) continue;
        // A bare number that is a usual voltage may be taken as one, under a key of its own.
        if (isNominal(sense)) {
          const value = { sense, pieces: [i], said: this.#said([i]) };
          this.#free.push({ key: "nominal-volts", value, sentence: this.sentences[i]! });
          // `240 from the house` is a distance.
          const isFar = FAR_WORDS.has(this.#word(i + 1)) || this.#sort(i + 1, "label");
          if (isUsualSupply((sense as { n: number }).n) && !isFar) {
            this.#free.push({ key: "supply-volts", value, sentence: this.sentences[i]! });
          }
        }
        // `single phase 240`: beside its phases it is one.
        const volts: Sense | undefined = isNominal(sense) && (this.#sort(i - 1, "phase") || this.#sort(i + 1, "phase"))
          ? { is: "quantity", n: (sense as { n: number }).n, unit: "V" }
          : undefined;
        const read = volts ?? sense;
        const key = read.is === "term" ? `${read.sort}:${read.id}` : read.is === "quantity" ? read.unit : read.is;
        const free = { value: { sense: read, pieces: [i], said: this.#said([i]) }, sentence: this.sentences[i]! };
        this.#free.push({ key, ...free });
        // `a feeder for the three`, `all four of them`
        if (key === "number" && this.#isOfAll(i - 1) && this.#endsAt(i)) {
          this.#free.push({ key: "all", ...free });
        }
      }
    });
  }

  #isOfAll = (i: number): boolean =>
    OF_ALL.has(this.#word(i)) ||
    (this.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "circuit" && s.id === "one-for-all") ?? false);

  #figures(fits: (sense: Sense) => boolean): number[] {
    const found: number[] = [];
    this.pieces.forEach(({ is, senses }, i) => {
      if (is === "fact" && !this.#used.has(i) && senses.some(fits)) found.push(i);
    });
    return found;
  }
  /** What of the way to a figure leads over the head's own figures: `two 4 kW ovens`, `12 kW 240 V range`. */
  #own(head: Draft, figure: number): number {
    const [from, to] = [Math.min(head.at, figure), Math.max(head.at, figure)];
    const own = Object.values(head.slots).flatMap((values) => values.flatMap(({ pieces }) => pieces));
    return [...new Set(own)].filter((i) => i > from && i < to).reduce((sum, i) => sum + this.#crossing(i), 0);
  }
  /** The label that a figure is glued to. */
  #touches(at: number): number | undefined {
    const first = this.tokens[this.pieces[at]!.from]!;
    return first.glued && this.#isLabel(at - 1 < 0 ? at : at - 1) && at > 0 ? at - 1 : undefined;
  }
  #cut(
    heads: readonly Draft[],
    figures: readonly number[],
    takes: (head: Draft, figure: number) => { sense: Sense; slot: string; before: number; after: number } | undefined,
    most: (head: Draft) => number = () => 1,
    isRated: (head: Draft) => boolean = () => false,
    side?: FigureSide,
  ): void {
    if (figures.length === 0 || heads.length === 0) return;
    const toAssign = heads.map((head) => ({
      at: head.at,
      most: most(head),
      rated: isRated(head),
      wants: head.label !== undefined && WANTING.has(head.label),
    }));
    const owners = assign(toAssign, figures, (f, h) => {
      const [at, head] = [figures[f]!, heads[h]!];
      const found = takes(head, at);
      if (!found) return Infinity;
      // `RLA17.9 FLA0.9`: a figure that touches a label is the label's.
      const touched = this.#touches(at);
      if (touched !== undefined && touched !== head.at && heads.some((each) => each.at === touched)) return Infinity;
      // A head that was implied by its figure stands where the figure stands.
      if (at === head.at) return head.pieces.length === 0 ? 0 : Infinity;
      const distance = this.#between(Math.min(at, head.at), Math.max(at, head.at)) -
        (found.slot === "fuel" ? 0 : this.#own(head, at));
      return distance > (at < head.at ? found.before : found.after) ? Infinity : distance;
    }, side);
    owners.forEach((owner, f) => {
      if (owner === undefined) return;
      const head = heads[owner]!;
      const { sense, slot } = takes(head, figures[f]!)!;
      (head.slots[slot] ??= []).push(this.#value(sense, figures[f]!));
    });
  }
}

/** Whether a device's rating or a wire's size is called by a number. */
const isSameNumber = (sense: Sense, n: number): boolean =>
  sense.is === "size" || sense.is === "cable"
    ? sense.size === String(n)
    : (sense.is === "number" || (sense.is === "quantity" && sense.unit === "A")) && sense.n === n;
/** Sorts of terms that a stretch of wire may go to. */
const POINT_SORTS: readonly Sort[] = ["device", "place", "building"];
/** How far a load's own figure stands from its name. */
const LOAD_REACH = 6;
const EACH = new Set(["of", "at", "@", "rated"]);
/** How far apart the items of a list may lie. */
const IN_A_LIST = 4;
const unitOfRating = (value: Value | undefined): string | undefined =>
  value?.sense.is === "quantity" ? value.sense.unit : undefined;
/** Sorts of terms behind a figure that make it something else than a device's. */
const BEHIND_A_LOAD: ReadonlySet<Sort> = new Set(["label", "place", "end", "motorWord"]);
/** Words before a rating that say which end it stands at, and how far before. */
const END_WORDS: Readonly<Record<string, ReadonlySet<string>>> = {
  from: new Set(["from", "off"]),
  there: new Set(["has", "have", "got"]),
  wanted: new Set(["want", "wants", "need", "needs", "to"]),
};
const END_REACH = 4;
/** Places where someone has a spare breaker. */
const AT_HAND = new Set(["truck", "van", "hand", "shelf", "box", "bag", "home", "here", "stock"]);
const WINDINGS = new Set(["transformer", "autotransformer"]);
/** Labels of a nameplate, which is read out rather than asked for. */
const WANTING = new Set(
  Object.entries(LABELS).filter(([id, { ofLoad }]) => ofLoad && !["draw", "setpoint", "nameplate"].includes(id)).map((
    [id],
  ) => id),
);
/** So far from a load's name its own figure does not stand, where a device's name touches it. */
const APART = 0.5;
const NO_SHAFTS = new Set(["lighting", "receptacles", "range", "cooktop", "wall-oven", "space-heater", "water-heater"]);
const MOST_ORDINAL = 9;
/** Services as they are spoken of without a unit. */
const SERVICES = new Set([60, 100, 125, 150, 200, 225, 320, 400]);
/** A bare number from here on is a power in watts or volt-amperes rather than a count. */
const LEAST_POWER = 300;
/** Two appliances with so much and no unit are told in volt-amperes. */
const LEAST_BARE = 1000;
const MOST_BESIDE = 20;
/** Words with which another item begins, also behind others: `with a`. */
const ITEM = new Set(["and", "plus", "a", "an"]);
const LIST_JOINTS = new Set([",", "and", "&", "+", "plus"]);
const HOUSEHOLD_VOLTS = 480;
/** How far before a device's rating what it protects is named. */
const WORDS_BEFORE = 7;
const SUPPLY_JOINTS = new Set(["and", "out", "at", "in", "there", "but", "so", "on"]);
const LEAST_BARE_GAUGE = 4;
const IFS = new Set(["if", "when", "with", "since", "because", "as"]);
/** Between the last of a row and what is said of all of it: `the range and the dryer went gas`. */
const OF_THE_ROW = new Set(["are", "both", "all", "went", "going", "go", "were", "switched", "changed"]);
const IS_A = new Set(["is", "was", "are", "were", "be", "a", "an", "only", "just"]);
const PROTECTED_AT = new Set(["at", "with", "@", "with a"]);
const PROTECTS = /^(fus|protect|breaker)(e|ed|ing|ect|s)?$/;
/** Behind a bare number these make it a distance. */
const FAR_WORDS = new Set(["from", "away", "out", "long", "back", "down"]);
const THE = new Set(["the", "that", "this", "my"]);
const GOT = new Set(["got", "get", "gets", "getting", "figured", "calculated", "calculate"]);
const OF_ALL = new Set(["the", "all", "these", "those"]);
const WILL = new Set(["will", "would", "does", "do", "can", "could"]);
const YES_OR_NO = new Set(["is", "are", "do", "does", "will", "would", "am", "can", "could"]);
const DO = new Set(["do", "pass", "hold", "handle"]);
const GROUNDS: ReadonlySet<string> = new Set([
  "equipment-ground",
  "grounding-electrode-conductor",
  "main-bonding-jumper",
  "system-bonding-jumper",
  "supply-side-bonding-jumper",
  "bonding-jumper",
]);
/** As many as a list counts of one thing behind its name. */
const MOST_COUNTED = 30;
const COUNTED = new Set(["are", "at", "of", "with"]);
const UNITS_OF_ALL: Readonly<Record<string, Model["unit"]>> = { kW: "kW", W: "W", VA: "VA", kVA: "kVA", current: "A" };
const TWINS = new Set(["other", "another", "others"]);
const TWIN_REACH = 9;
const ORDINALS = "first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth".split(" ");
const SIDES = new Set(["primary", "secondary"]);
const SIDE_JOINTS = new Set(["on", "of", "at", "for"]);
const ON = new Set(["on", "off", "with", "by", "using"]);
/** The unit a load of a list is told in, and on which side of its name. */
type Model = { slot: "rating" | "current"; unit: SpokenUnit; isBehind: boolean };
function modelOf({ at, slots }: Draft): Model | undefined {
  for (const slot of ["rating", "current"] as const) {
    const value = slots[slot]?.[0];
    if (value?.sense.is === "quantity" && value.sense.unit !== "hp") {
      return { slot, unit: value.sense.unit, isBehind: value.pieces[0]! > at };
    }
  }
  return undefined;
}

/** Words of a name that is in no list, and words that end it. */
const LONGEST_NAME = 3;
const NO_NAME = new Set(
  ("a an the my our i we it its is are was will and or with plus then as if no not in on at for by to from of per that which" +
    " what there this these those have has need each rated also but do does can total going").split(" "),
);
const NONE = new Set(["no", "without", "minus"]);
const CHECKS = new Set(["check", "add-load"]);
/** What people do with an opinion. */
const OPINES = new Set(
  "say says said saying tell tells told telling think thinks thought claims claimed swears insists figures reckons that"
    .split(
      " ",
    ),
);
const VERBS = new Set(["is", "will", "would", "are", "does", "can"]);
const ARTICLES = new Set(["a", "an", "the", "my", "one", "its", "his", "single"]);
const isBare = (n: number, [least, most]: readonly [number, number]): boolean => n >= least && n <= most;

function fitsLabel(sense: Sense, label: Label): boolean {
  if (sense.is === "quantity") {
    return label.units.includes(sense.unit) && (label.only?.includes(sense.n) ?? true) &&
      sense.n <= (label.most?.[sense.unit] ?? Infinity) && sense.n >= (label.least?.[sense.unit] ?? -Infinity);
  }
  if (sense.is === "pair") return label.pair === true && (sense.unit ?? "A") === "A";
  if (sense.is === "plate-currents") return label.pair === true;
  if (label.noVolts && isNominal(sense)) return false;
  return sense.is === "number" && label.bare !== undefined && isBare(sense.n, label.bare) &&
    (label.only?.includes(sense.n) ?? true);
}
