/** Amperes and powers to the labels, devices, circuits and loads they are of. */
import { type FigureSide, sideOf } from "../assign.ts";
import { CURRENT, DEVICE_RATINGS, isUsualSupply, type Label, LABELS, NEVER, RATING } from "../families.ts";
import { fitsLabel, isBare } from "./fits.ts";
import type { Draft, Reading } from "./reading.ts";
import { ARTICLES, COUNTED, CROSS_COMMA, LABEL_REACH, LEAST_POWER, MOST_COUNTED } from "./words.ts";

/** How far a load's own figure stands from its name. */
const LOAD_REACH = 6;
/** So far from a load's name its own figure does not stand, where a device's name touches it. */
const APART = 0.5;
const TERMINALS: ReadonlySet<number> = new Set([60, 75, 90]);
const NO_SHAFTS = new Set(["lighting", "receptacles", "range", "cooktop", "wall-oven", "space-heater", "water-heater"]);

// ── labels and ratings
/** *k* labels on a line over *k* values on the next. */
export function bindRows(r: Reading): void {
  r.pieces.forEach((piece, i) => {
    if (piece.is !== "border" || r.tokens[piece.from]!.is !== "line") return;
    const [above, below] = [r.line(i, -1), r.line(i, 1)];
    if (above.length < 2 || above.length !== below.length) return;
    if (!above.every(r.isLabel) || !below.every(r.isFigure)) return;
    above.forEach((at, k) => {
      const label = r.labels.find((each) => each.at === at);
      const sense = label && r.pieces[below[k]!]!.senses.find((s) => fitsLabel(s, LABELS[label.id as never]!));
      if (label && sense) label.slots.value = [r.value(sense, at, below[k]!)];
    });
  });
}

/** Where the figures of loads stand, over powers and amperes together: `4 A fan 5 kW dryer 28 A heat pump`. */
function sideOfFigures(r: Reading): FigureSide | undefined {
  const heads = r.facts.filter(({ family, whole }) => family === "load" && !whole);
  const figures = r.figures((s) => CURRENT.figures(s) || RATING.figures(s)).filter((at) => !isOfDevice(r, at));
  const toAssign = heads.map((head) => ({
    at: head.at,
    most: 2,
    rated: burnsGas(r, head.at) || lacksNone(r, head),
  }));
  return sideOf(toAssign, figures, (f, h) => {
    const [at, head] = [figures[f]!, heads[h]!.at];
    const distance = at === head ? 0 : r.between(Math.min(at, head), Math.max(at, head));
    return distance > LOAD_REACH ? Infinity : distance;
  });
}

const READS: ReadonlySet<string> = new Set(["shows", "reads", "showing", "reading", "sees", "measures", "displays"]);
const ASKING: ReadonlySet<string> = new Set(["what", "whats", "what's"]);
/** One cut of all amperes and bare numbers over labels, devices and loads. */
export function currents(r: Reading): void {
  const labels = r.labels.filter((l) => !l.slots.value && LABELS[l.id as never] as Label | undefined);
  const heads = [
    ...labels,
    // `60 A PV breaker`: the breaker's, and no source's output.
    ...r.facts.filter(({ family, id, at, whole }) =>
      !whole &&
      CURRENT.heads.some((h) => h.family === family) &&
      !(family === "transformer" && id !== "busbar" && r.sort(at + 1, "device"))
    ),
  ].sort((a, b) => a.at - b.at || a.pieces.length - b.pieces.length);
  const figures = r.figures((s) =>
    (s.is === "quantity" && s.unit === "A") || s.is === "number" || s.is === "pair" || s.is === "choice" ||
    s.is === "plate-currents"
  );
  r.cut(
    heads,
    figures,
    (head, figure) => {
      const senses = r.pieces[figure]!.senses;
      if (head.label) {
        const label = LABELS[head.id as never] as Label;
        const sense = senses.find((s) => fitsLabel(s, label));
        // `fan 1.5, whats the mca`: what is asked for has no figure before it.
        const isAskedFor = Array.from({ length: Math.max(0, head.at - figure - 1) }, (_, k) => r.word(figure + 1 + k))
          .some((word) => ASKING.has(word));
        if (isAskedFor && label.ofLoad) return undefined;
        // `what is #1 good for at 75`: the column that is asked for.
        const isColumn = head.id === "told-ampacity" && r.typed(figure - 1) === "at" &&
          senses.some((s) => s.is === "number" && TERMINALS.has(s.n));
        if (isColumn) return undefined;
        // `60 A, using 6/3`: what it is wired with, and no draw.
        if (head.id === "draw" && figure < head.at && r.isSize(head.at + 1)) return undefined;
        // `at 45C ambient 12 conductors`: a figure with its unit touches the label already.
        const isServed = sense?.is === "number" && figure > head.at && !(head.at > 1 && r.isLabel(head.at - 2)) &&
          r.pieces[head.at - 1]?.senses.some((s) => s.is === "quantity" && fitsLabel(s, label));
        if (isServed) return undefined;
        // Only a figure with its unit is looked for farther away: `drop for nine lights` limits nothing.
        const isBareCount = sense?.is === "number" &&
          label.reach !== undefined && !label.only &&
          // `can I pull 10 #12`: so many of that size. `of two 12 kW ranges`
          (r.isThing(figure + 1) || r.isMany(figure + 1) || r.isSize(figure + 1) ||
            isPower(r, figure + 1) && r.isThing(figure + 2));
        if (isBareCount) return undefined;
        // `lugs on both ends say 75`: what can be only this or that is known from farther away.
        const reach = sense?.is === "number" && !label.only
          ? Math.min(label.reach ?? LABEL_REACH, LABEL_REACH)
          : label.reach ?? LABEL_REACH;
        return sense && { sense, slot: "value", before: reach, after: reach };
      }
      // `is a 25 A breaker ok`: what touches a device's name is the device's.
      // `charger a 100 A panel takes`: an article begins another thing.
      const isApart = r.between(head.at, figure) >= APART ||
        (head.at < figure && ARTICLES.has(r.word(figure - 1)));
      if (head.family === "load" && isOfDevice(r, figure) && isApart) return undefined;
      // `lighting, 12 amps of other stuff`: what it is of stands behind the figure.
      if (head.family === "load" && head.at < figure && r.word(figure + 1) === "of") return undefined;
      // `gas heat, there's a 48 A charger`: nor one beyond a comma behind it.
      if (head.family === "load" && head.at < figure && r.hasComma(head.at, figure) && burnsGas(r, head.at)) {
        return undefined;
      }
      // `200 A, 1800 sq ft, gas heat`: what burns gas has no figure so far ahead of it.
      const isAhead = head.family === "load" && figure < head.at && r.between(figure, head.at) >= CROSS_COMMA;
      if (isAhead && burnsGas(r, head.at)) return undefined;
      // `the meter on the panel shows 118 A`: what is read off is no rating.
      const isRead = head.family === "device" && head.at < figure &&
        [1, 2, 3, 4].some((back) => figure - back > head.at && READS.has(r.word(figure - back)));
      if (isRead) return undefined;
      // `285 ft from the panel, 12 A`: the panel says where the run begins.
      const isPlace = head.family === "device" && [1, 2].some((back) => r.word(head.at - back) === "from");
      if (isPlace && r.between(Math.min(head.at, figure), Math.max(head.at, figure)) >= APART) return undefined;
      // `VOLTS 460 AMPS 14 PH 3 breaker and wire`: a nameplate's figure is no device's.
      if (head.family === "device" && head.at > figure && r.isOfPlate(figure)) return undefined;
      const rule = CURRENT.heads.find((h) => h.family === head.family && (h.ids?.includes(head.id!) ?? true));
      // `lighting 20 A circuit 16 A`: what touches the word is the circuit's.
      if (head.family === "load" && head.at < figure && r.isCircuit(figure + 1)) return undefined;
      // `20 amp lighting circuit`: the circuit's, and no load of the lights.
      if (head.family !== "circuit" && isOfCircuit(r, figure)) return undefined;
      // `20 A continuous`: what runs for hours is a load, no device.
      if (!rule || (head.family !== "load" && isOfHours(r, figure))) return undefined;
      // `dw 1200 disposal 900 what service`: behind each name its figure, up to the last.
      if (head.family === "device" && isOfList(r, figure)) return undefined;
      const sense = senses.find((s) =>
        s.is === "quantity" || (s.is === "pair" && (s.unit === "A" || head.family === "device")) ||
        (s.is === "choice" && head.family === "device")
      );
      const slot = head.family === "load" ? "current" : "rating";
      if (sense) return { sense, slot, before: rule.before, after: rule.after };
      const bare = r.countsBehind(figure) && head.at !== figure + 1
        ? undefined
        // `the sub is 240, 60 amp`
        : senses.find((s) => s.is === "number" && isBare(s.n, DEVICE_RATINGS) && !isUsualSupply(s.n) && s.n % 5 === 0);
      // `the circuit is 50`
      const isSaidOfCircuit = head.family === "circuit" && figure === head.at + 2 && r.word(head.at + 1) === "is";
      if (bare && isSaidOfCircuit) {
        return {
          sense: { is: "quantity", n: (bare as { n: number }).n, unit: "A" },
          slot,
          before: NEVER,
          after: 1.3,
        };
      }
      // `a 400 feeder`
      if (bare && head.id === "feeder" && figure === head.at - 1 && (bare as { n: number }).n >= LEAST_FEEDER) {
        return { sense: { is: "quantity", n: (bare as { n: number }).n, unit: "A" }, slot, before: 0.1, after: NEVER };
      }
      // `200 bus, 200 main`
      if (bare && head.id === "busbar") {
        return { sense: { is: "quantity", n: (bare as { n: number }).n, unit: "A" }, slot, before: 0.1, after: 0.5 };
      }
      return bare && head.family === "device" ? { sense: bare, slot, before: 0.9, after: 1.3 } : undefined;
    },
    undefined,
    (head) => head.slots.rating !== undefined || burnsGas(r, head.at) || lacksNone(r, head),
  );
}

/** Nobody counts so many feeders, and none is rated so little. */
const LEAST_FEEDER = 30;
/** `ac 18 A range 12 dryer 5.5`: an appliance with a number right behind its name, which ends there or before another name. */
function hasBareBehind(r: Reading, { family, pieces }: Draft): boolean {
  const figure = Math.max(...pieces) + 1;
  const isNumber = r.pieces[figure]?.senses.some((s) => s.is === "number") ?? false;
  if (family !== "load" || !isNumber) return false;
  if (!r.isThing(figure + 1)) return r.endsItem(figure + 1) || r.isGoal(figure + 1) || isOfChain(r, figure);
  const { to } = r.pieces[figure + 1]!;
  return !/s$/.test(r.tokens[to - 1]!.text) && r.pieces[figure + 2] !== undefined && r.isFigure(figure + 2);
}

/** `1200 dw 12kw range`: an appliance with a number before it that counts nothing, and the next one's figure behind it. */
function hasBareBefore(r: Reading, { family, pieces }: Draft): boolean {
  const sense = r.pieces[Math.min(...pieces) - 1]?.senses.find((s) => s.is === "number");
  const next = Math.max(...pieces) + 1;
  return family === "load" && sense?.is === "number" && sense.n >= LEAST_POWER && r.pieces[next] !== undefined &&
    r.isFigure(next) && r.isThing(next + 1) && opensChain(r, Math.min(...pieces) - 1);
}
/** Whether the names and figures in turn that end in a figure begin with a figure. */
function opensChain(r: Reading, figure: number): boolean {
  let at = figure;
  while (at > 1 && r.isThing(at - 1) && r.isFigure(at - 2)) at -= 2;
  return !(at > 0 && r.isThing(at - 1));
}
const lacksNone = (r: Reading, head: Draft): boolean => hasBareBehind(r, head) || hasBareBefore(r, head);
/** `disposal 900` behind `dw 1200` or `dw 1200 and`: name and figure in turn. */
function isOfChain(r: Reading, figure: number): boolean {
  const isJoin = r.pieces[figure - 2]?.is === "comma" || ["and", "plus", "with"].includes(r.word(figure - 2));
  const before = isJoin ? figure - 3 : figure - 2;
  return r.isThing(figure - 1) && before > 0 && r.isFigure(before) && r.isThing(before - 1);
}

/** `dryer 5 kW ac 24 A service?`, `dw 1200 disposal 900 service?`: a figure of the list that no device has. */
const isOfList = (r: Reading, i: number): boolean =>
  isOfChain(r, i) &&
  r.pieces[i]!.senses.some((s) =>
    (s.is === "quantity" && s.n < LEAST_FEEDER) || (s.is === "number" && s.n >= LEAST_POWER)
  );

/** `AC 24 A gas heat`: what burns gas and has no figure behind it needs none. */
const burnsGas = (r: Reading, at: number): boolean => {
  const isGas = (i: number) =>
    r.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "fuel" && s.id === "gas") ?? false;
  if (!isGas(at - 1) && !isGas(at + 1)) return false;
  const behind = r.pieces.findIndex(({ is }, i) => i > at && is === "fact" && !isGas(i));
  // `gas heat 10 kW range`: the figure is what is named behind it.
  return behind < 0 || !r.isFigure(behind) || r.isThing(behind + 1);
};

/** Whether a device is named right behind a figure, and has none behind its name. */
const isOfDevice = (r: Reading, i: number): boolean =>
  r.sort(i + 1, "device") && !(i + 2 < r.pieces.length && r.isFigure(i + 2)) &&
  !isOfList(r, i);

/** Whether a load's circuit is named right behind a figure. */
const isOfCircuit = (r: Reading, i: number): boolean => r.isThing(i + 1) && r.isCircuit(i + 2);

/** `dryers: three are 5 kW, two are 6.5 kW`: a figure with a count of its own. */
function isCounted(r: Reading, i: number): boolean {
  let at = i - 1;
  while (at >= 0 && COUNTED.has(r.word(at))) at--;
  return at < i - 1 && at >= 0 &&
    r.pieces[at]!.senses.some((s) =>
      (s.is === "number" || s.is === "count") && Number.isInteger(s.n) && s.n <= MOST_COUNTED
    );
}

const isPower = (r: Reading, i: number): boolean => r.pieces[i]?.senses.some(RATING.figures) ?? false;
const isOfHours = (r: Reading, i: number): boolean =>
  [i - 1, i + 1].some((at) => r.pieces[at]?.senses.some((s) => s.is === "term" && s.sort === "hours"));

export function powers(r: Reading): void {
  const labels = r.labels.filter((l) => !l.slots.value && (LABELS[l.id as never] as Label).units.includes("kW"));
  const heads = [
    ...labels,
    ...r.facts.filter(({ family, id, whole }) =>
      !whole &&
      RATING.heads.some((h) => h.family === family && (h.ids?.includes(id!) ?? true))
    ),
  ].sort((a, b) => a.at - b.at);
  r.cut(
    heads,
    r.figures(RATING.figures),
    (head, figure) => {
      const sense = r.pieces[figure]!.senses.find(RATING.figures)!;
      if (head.label) {
        const label = LABELS[head.id as never] as Label;
        // `amp draw on 7.2 kW`: amperes are asked for, and power is none.
        if (r.pieces[head.at]!.senses.some((s) => s.is === "term" && s.sort === "goal" && s.id === "current")) {
          return undefined;
        }
        // `demand load of 5 kW dryers`: the power is the dryers'.
        if (!label.ofLoad && r.countsBehind(figure)) return undefined;
        const reach = label.reach ?? LABEL_REACH;
        return fitsLabel(sense, label) ? { sense, slot: "value", before: reach, after: reach } : undefined;
      }
      const rule = RATING.heads.find((h) => h.family === head.family)!;
      // `2 x 20 hp, 12 A lighting`: what has no shaft has no horsepower.
      if (sense.is === "quantity" && sense.unit === "hp" && NO_SHAFTS.has(head.id!)) return undefined;
      // Of several that were counted, one sort: a load of its own.
      if (head.at < figure && isCounted(r, figure) && isCountBefore(r, head)) return undefined;
      return { sense, slot: "rating", before: rule.before, after: rule.after };
    },
    undefined,
    (head) => burnsGas(r, head.at) || lacksNone(r, head),
    sideOfFigures(r),
  );
}

const isCountBefore = (r: Reading, head: Draft): boolean =>
  /s$/i.test(head.said) &&
  (r.pieces[head.at - 1]?.senses.some(({ is }) => is === "number" || is === "count") ?? false);

/** `HP: 20 hp`, `hp ⏎ 20hp`: the letters name the figure, and no heat pump. */
export function unitsNotPumps(r: Reading): void {
  for (const fact of r.facts) {
    const sense = fact.slots.rating?.[0]?.sense;
    if (fact.said.toLowerCase() !== "hp" || sense?.is !== "quantity" || sense.unit !== "hp") continue;
    delete fact.id;
    fact.others = [];
  }
}

/** All other labels, and what they name. */
export function labelled(r: Reading): void {
  const open = r.labels.filter((l) => !l.slots.value);
  const figures = r.figures((s) => s.is === "quantity" && !["A", "kW", "W", "VA", "kVA", "hp"].includes(s.unit));
  r.cut(open, figures, (head, figure) => {
    const label = LABELS[head.id as never] as Label;
    const sense = r.pieces[figure]!.senses.find((s) => fitsLabel(s, label));
    const reach = label.reach ?? LABEL_REACH;
    return sense && { sense, slot: "value", before: reach, after: reach };
  });
}
