/** The run of a fault: its stretches in the order of the text, each with its conductors, and the points between them. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { lines, takeWiring } from "../../parts/run-takes.ts";
import { type Point, POINTS } from "./request.ts";

const LENGTHS = ["ft", "m", "yd", "length"];
/** Points by the term that names them, where the word itself is none of ours. */
const BY_TERM: Readonly<Record<string, Point>> = {
  "device:service": "service",
  "device:main": "main",
  "device:panel": "panel",
  "device:subpanel": "subpanel",
  "device:disconnect": "disconnect",
  "place:garage": "garage",
  "place:separate-structure": "shed",
  "building:dwelling": "house",
};
/** Where a run mostly begins. */
const UPSTREAM: readonly Point[] = ["service", "main", "main panel", "meter main"];
/** Points by other words for them. */
const BY_WORD: Readonly<Record<string, Point>> = {
  "sub panel": "subpanel",
  "sub": "subpanel",
  "main breaker": "main",
  "main disconnect": "main",
  "service disconnect": "main",
  "panelboard": "panel",
  "mdp": "main panel",
  "main distribution panel": "main panel",
  "switchboard": "main panel",
  "main switchboard": "main panel",
  "load center": "panel",
  "loadcenter": "panel",
  "detached garage": "garage",
  "pole barn": "barn",
  "workshop": "shop",
  "home": "house",
};
type Named = { at: number; point: Point; sentence: number };

export function takeRunOfFault(t: Taker, draft: Draft): void {
  const { material, conduit } = takeWiring(t);
  const wires = lines(t);
  for (const fact of wires) {
    if (fact.slots.size) continue;
    t.head(fact);
    // `with zero cable`
    for (const value of fact.slots.count ?? []) {
      if ("n" in value.sense && value.sense.n === 0) t.aside(value, "right at the source");
    }
  }
  // In their order, which a conversation keeps; it keeps no places.
  const sized = wires.filter(({ slots }) => slots.size);
  const lengths = takeLengths(t, sized);
  const points = pointsOf(t);
  if (conduit !== undefined) draft.conduit = conduit;
  if (sized.length === 0 && lengths.every((each) => each === undefined)) return;
  const sets = setsOf(t, sized);
  const metals = sized.map((fact) => t.term(fact, "metal"));
  const told = new Set<Point>();
  const starts = sized.map(placeOf);
  const count = Math.max(sized.length, lengths.length);
  const sizeAt = sized.map(({ slots }) => slots.size![0]!.pieces[0]!);
  const leading = points.filter(({ at }) => at < (starts[0] ?? 0));
  /** The points that may be the end of a stretch: behind it and nearer to it than to the next; for the last also those in front. */
  const ofStretch = (i: number): Named[] => {
    if (!sized.every(({ slots }) => slots.size![0]!.pieces.length > 0)) return count === 1 ? points : [];
    const [begin, next] = [sizeAt[i] ?? -1, starts[i + 1]];
    const behind = points.filter(({ at }) =>
      at > begin && (next === undefined || at < next && at - begin <= 2 * (next - at) + 1)
    );
    const ahead = i === 0 ? [] : points.filter(({ at }) => {
      const [end, start] = [sizeAt[i - 1]!, starts[i]!];
      return at > end && at < start && at - end > 2 * (start - at) + 1;
    });
    if (i < count - 1) return [...ahead, ...behind];
    // `at the subpanel, 70 ft from the main panel`: of two the one that is further on is the end.
    const [here, upstream] = [false, true].map((is) => behind.filter(({ point }) => UPSTREAM.includes(point) === is));
    return [...ahead, ...here!, ...leading, ...upstream!];
  };
  const placed = new Set(
    sized.flatMap(({ slots }) => [...slots.to ?? [], ...slots.from ?? []]).flatMap(({ pieces }) => pieces),
  );
  const ends: (Point | undefined)[] = [];
  const run = Array.from({ length: count }, (_, i) => {
    const fact = sized[i];
    const size = fact && sizeOf(t, fact);
    const counted = fact && takeCount(t, fact);
    const ofIts = fact && t.number(fact, "sets");
    const begun = fact && pointOf(t, fact, "from", i > 0 && ends.at(-1) !== undefined ? undefined : told);
    if (fact && !begun && i > 0 && ends.at(-1) !== undefined) askWhereFrom(t, fact, i);
    const named = fact && pointOf(t, fact, "to");
    // Two ends by one name: one that begins where it ends is asked about.
    const from = begun ?? (named && told.has(named) ? named : undefined);
    const near = named ? undefined : ofStretch(i).find(({ point }) => !told.has(point));
    if (near) placed.add(near.at);
    const to = named ?? near?.point;
    if (to) told.add(to);
    ends.push(to);
    const metal = metals[i] ?? material;
    return {
      ...(lengths[i] && { length: lengths[i] }),
      ...(size !== undefined && { size }),
      ...(metal !== undefined && { material: metal }),
      ...((ofIts ?? counted ?? sets[i]) !== undefined && { sets: ofIts ?? counted ?? sets[i] }),
      ...(from && { from }),
      ...(to && { to }),
    };
  });
  draft.run = run;
  // `…, is 10 kAIC ok at the meter main?`: a point that was told before, and is not the end of the last stretch.
  const isApart = (at: number) => !placed.has(at) && (at < (starts[0] ?? 0) || !sizeAt.some((size) => size > at));
  const asked = points.find(({ at, point }) => isApart(at) && told.has(point));
  if (asked && asked.point !== run.at(-1)!.to) draft.at = asked.point;
}

/** Where a stretch was told to begin or end; it begins at a point that was reached before. */
function pointOf(t: Taker, fact: Fact, slot: "from" | "to", reached?: ReadonlySet<Point>): Point | undefined {
  const value = fact.slots[slot]?.[0];
  if (value?.sense.is !== "words") return undefined;
  const point = pointNamed(value.sense.words);
  if (!point || (reached && !reached.has(point))) return undefined;
  t.use(value, slot);
  return point;
}
/** A stretch that begins at a place of no name here: taken as the next of a chain it would let too little through. */
function askWhereFrom(t: Taker, fact: Fact, i: number): void {
  const value = fact.slots.from?.[0];
  if (value?.sense.is !== "words") return;
  t.ask({
    field: `run.${i}.from`,
    ask: `Which wire leads to the ${value.sense.words}, where a later one begins?`,
    example: "30 ft of 4/0 copper to the main panel, from the main panel 120 ft of #6 to the shop",
  });
}
const pointNamed = (words: string): Point | undefined =>
  POINTS.find((each) => each === words || words === `the ${each}`) ?? BY_WORD[words];

const placeOf = ({ pieces, slots }: Fact): number =>
  Math.min(...pieces, ...Object.values(slots).flatMap((values) => values.flatMap((value) => value.pieces)));

function sizeOf(t: Taker, fact: Fact): string | undefined {
  t.head(fact);
  const sense = t.slot(fact, "size")?.sense;
  return sense?.is === "size" || sense?.is === "cable"
    ? sense.size
    : sense?.is === "sizes"
    ? sense.sizes[0]
    : undefined;
}

/** `two 500 kcmil`, marked as a count, are sets; `3 #2` are the wires of one. */
function takeCount(t: Taker, fact: Fact): number | undefined {
  const value = fact.slots.count?.[0];
  if (!value) return undefined;
  const n = t.number(fact, "count");
  return value.sense.is === "count" || (fact.others?.includes("circuit:each-phase") ?? false) ? n : undefined;
}

/** Parallel sets of each stretch: of the conductors that stand nearest to where they were told. */
function setsOf(t: Taker, sized: readonly Fact[]): (number | undefined)[] {
  const found: (number | undefined)[] = sized.map(() => undefined);
  const sizes = sized.map(({ slots }) => slots.size![0]!.pieces[0]!);
  for (const set of t.all("circuit", "set")) {
    const n = t.number(set, "count") ?? (set.others?.includes("circuit:parallel") ? 2 : undefined);
    t.head(set);
    put(set.pieces[0]!, n);
  }
  // `parallel 4/0, two per leg`
  for (const fact of t.all("conductor", "ungrounded")) {
    if (fact.slots.size || !fact.others?.includes("circuit:each-phase")) continue;
    const n = t.number(fact, "count");
    t.head(fact);
    put(fact.pieces[0]!, n, "before");
  }
  return found;

  function put(place: number, n: number | undefined, side?: "before"): void {
    const far = sizes.map((at) => side && at > place ? Infinity : Math.abs(at - place));
    const nearest = sized.length === 1 ? 0 : far.lastIndexOf(Math.min(...far));
    if (n !== undefined && nearest >= 0) found[nearest] = n;
  }
}

/** The length of each stretch: its own, or the k-th of as many as there are stretches. */
function takeLengths(t: Taker, sized: readonly Fact[]): (Said | undefined)[] {
  const feet = (value: Value): Said => {
    t.use(value, "length");
    const sense = value.sense;
    const [n, unit] = sense.is === "quantity" ? [sense.n, sense.unit] : [(sense as { n: number }).n, "ft"];
    return unit === "yd" ? { value: n * 3, unit: "ft" } : { value: n, unit };
  };
  const own = sized.map(({ slots }) => slots.length?.[0]);
  const loose = [
    ...t.facts.free.filter(({ key }) => LENGTHS.includes(key)).map(({ value }) => value),
    ...[...lines(t), ...t.all("load")].filter((fact) => !sized.includes(fact)).flatMap(({ slots }) =>
      slots.length ?? []
    ),
  ].filter(({ sense }) => sense.is === "quantity" || sense.is === "number");
  const all = [...own.filter((value) => value !== undefined), ...loose].sort((a, b) => a.pieces[0]! - b.pieces[0]!);
  if (loose.length === 0) return own.map((value) => value && feet(value));
  if (sized.length === 0 || all.length === sized.length) return all.map(feet);
  // More lengths than stretches: which is whose was not told.
  if (all.length > sized.length) {
    t.ask({
      field: "run.0.length",
      ask: `Several lengths are named (${all.map(({ said }) => said).join(", ")}). Which conductors has each?`,
      example: "60 ft of 4/0 aluminum to the panel, 90 ft of #2 aluminum to the garage",
    });
  }
  return own.map((value) => value && feet(value));
}

/** Places along the run, in the order of the text. */
function pointsOf(t: Taker): Named[] {
  const named = (said: string, term: string): Point | undefined => {
    const words = said.toLowerCase().trim();
    return pointNamed(words) ?? BY_TERM[term];
  };
  const list: (Named | undefined)[] = [
    ...t.all("device").map((fact) => {
      const point = named(fact.said, `device:${fact.id}`);
      if (point === undefined || fact.pieces.length === 0) return undefined;
      t.head(fact);
      return { at: Math.min(...fact.pieces), point, sentence: fact.sentence };
    }),
    ...t.facts.free.map(({ key, value, sentence }) => {
      const point = named(value.said, key);
      if (point === undefined || value.sense.is !== "term" || value.pieces.length === 0) return undefined;
      t.use(value, "point");
      return { at: Math.min(...value.pieces), point, sentence };
    }),
  ];
  // `the meter main has 9.8 kA`: where the source was told is no end of the run.
  const currents = t.facts.free.filter(({ key }) => ["kA", "available-fault-current"].includes(key));
  const isSource = ({ at, sentence }: Named) =>
    currents.some(({ value, sentence: of }) => of === sentence && value.pieces.some((piece) => piece - at === 2));
  const found = list.filter((each) => each !== undefined && !isSource(each)).sort((a, b) => a!.at - b!.at) as Named[];
  return found.filter(({ at }, i) => i === 0 || found[i - 1]!.at !== at);
}
