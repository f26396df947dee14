/** What became of every word of a text: taken, set aside with a reason, common, or unread. */
import type { Account, Span } from "../core/worked.ts";
import type { Fact, Value } from "./facts.ts";
import type { Piece } from "./sense.ts";
import type { ReadText } from "./read.ts";
import { lostOf } from "./lost.ts";
import type { Taken } from "./take.ts";

/** Terms that only say where or what kind of thing it is: unread, they are words of the story and no missed fact. */
const STORY: ReadonlySet<string> = new Set([
  "label:temperature-rise",
  "label:terminals",
  "label:tap",
  "label:efficiency",
  "connection:delta",
  "connection:wye",
  "building:dwelling",
  "building:unit",
  "building:existing",
  "place:garage",
  "place:same-building",
  "place:dry",
  "device:panel",
  "circuit:circuit",
  "circuit:segment",
  "circuit:of-which",
  "circuit:one-way",
  "circuit:resistive",
  "circuit:part",
  "circuit:set",
  "role:wire",
  "role:pigtail",
  "goal:how-many",
  "load:load",
  "label:nameplate",
  "label:rated",
  "label:length",
  "label:volts",
  "label:phases",
  "label:ambient",
  "label:code-letter",
  "label:area",
  "label:draw",
  "label:setpoint",
  "label:conductors-together",
  "label:speed",
  "label:ring",
  "label:spacing",
  "label:beyond-opening",
  "label:opening",
  "label:depth",
  "label:breadth",
  "label:height",
  "label:first-distance",
  "connection:two-wire",
  "connection:three-wire",
  "connection:four-wire",
  "end:feeds",
  "source:busbar",
  "end:opposite",
  "end:beside-main",
  "end:center-fed",
  "end:from",
  "end:there",
  "end:wanted",
  "goal:add-load",
  "goal:start-over",
  "goal:neutral-current",
  "goal:size",
  "goal:percentage",
  "goal:current",
  "goal:kW",
  "goal:W",
  "goal:kVA",
  "goal:VA",
  "goal:hp",
  "goal:check",
  // A `GFCI breaker` is one all the same.
  "goal:room-protection",
  "goal:how-high",
  "label:marked-torque",
  "label:set-torque",
  "panelState:energized",
  "panelState:there-is",
  "goal:feed-wires",
  "goal:convert",
  "fuel:electric",
  "phase:alternating current",
  "motorWord:largest",
  "motorWord:alone",
  "motorWord:shared",
  "methodOfLoad:one-year",
  "methodOfLoad:thirty-days",
]);
const STORY_SORTS: ReadonlySet<string> = new Set([
  "story",
  "change",
  "finish",
  "covering",
  "above",
  "share",
  "space",
  "box",
  "boxPart",
  "boxWord",
  "leg",
]);

export type Accounted = Account & {
  /** Numbers and terms of the trade that nothing took, in a sentence of which something was taken: they must be asked about. */
  readonly missed: readonly Span[];
  /** Goals that nothing took and that every answer meets in its own way: they tell questions apart and are not asked about. */
  readonly met: readonly Span[];
};

/**
 * @param settled in a conversation, the pieces that a change of earlier facts used up: what it took away
 * @param minds sorts of terms that make a difference to the question, where most are only where it stands
 */
export function accountOf(
  text: ReadText,
  taken: Taken,
  settled?: ReadonlySet<number>,
  minds: readonly string[] = [],
): Accounted {
  const { pieces, sentences } = text;
  const as = new Map<number, string>();
  const because = new Map<number, string>();
  const mark = (into: Map<number, string>, what: Value | Fact, word: string) => {
    for (const piece of what.pieces) if (!into.has(piece)) into.set(piece, word);
  };
  for (const piece of settled ?? []) as.set(piece, "change");
  for (const [what, word] of taken.aside) mark(because, what, word);
  for (const [what, word] of taken.taken) mark(as, what, word);
  const lost = new Set(lostOf(taken).flatMap(({ pieces }) => pieces.filter((i) => isNumber(text.pieces[i]!))));
  pieces.forEach((piece, i) => {
    const aside = piece.senses.find((s) => s.is === "aside");
    if (aside?.is === "aside") because.set(i, aside.because);
    if (piece.senses.some(({ is }) => is === "edition")) as.set(i, "edition");
    if (piece.senses.some(({ is }) => is === "section")) {
      because.set(i, "the edition's own sections are named on each step");
    }
  });
  for (const { key, value } of text.facts.free) {
    if (value.sense.is === "aside") mark(because, value, value.sense.because);
    if (key === "told-ampacity") mark(because, value, "what the table says counts");
    // `all but two slots are full`: what is left of them is of consequence.
    if (key === "spaces" && (value.sense as { n: number }).n >= LEAST_SPACES) {
      mark(because, value, "how many places the panel has");
    }
    if (key === "person") mark(because, value, "who it is");
    if (key === "inverter-side") mark(because, value, "on which side of the inverter it is told");
    if (key === "replaced") mark(because, value, "what is replaced");
    if (key.startsWith("denied:")) mark(because, value, "you said that this is not meant");
    if (key === "told-result") mark(because, value, "your own result, to be held against the one worked out here");
  }
  for (const i of totalsOf(text)) because.set(i, "as many as are told");
  const busy = new Set([...as.keys()].map((i) => sentences[i]!));
  // `actually 9`: what puts something right is never of the story.
  pieces.forEach(({ senses }, i) => {
    if (senses.some((s) => s.is === "term" && s.sort === "change" && (s.id === "correct" || s.id === "retract"))) {
      busy.add(sentences[i]!);
    }
  });
  // `there is a 10 hp compressor as well`: a thing with its figure is of no story either.
  for (const { family, id, slots, sentence, pieces: head } of text.facts.facts) {
    if (family === "building") continue;
    // `need to add a 75 hp`: nor is a power without a name.
    const isPower = family === "load" &&
      slots.rating?.some(({ sense, pieces: own }) => own.length > 0 && sense.is === "quantity");
    if (isPower) busy.add(sentence);
    if (id === undefined || head.length === 0) continue;
    if (
      Object.values(slots).some((values) =>
        values.some(({ sense, pieces: own }) => own.length > 0 && sense.is === "quantity")
      )
    ) busy.add(sentence);
  }
  // `in it: a 20, another 20 and a 15`: nor are several numbers in a row.
  const bareNumbers = new Map<number, number>();
  pieces.forEach(({ senses }, i) => {
    const isBare = senses.length > 0 && senses.every(({ is }) => is === "number") && !as.has(i) && !because.has(i);
    if (isBare) bareNumbers.set(sentences[i]!, (bareNumbers.get(sentences[i]!) ?? 0) + 1);
  });
  for (const [sentence, n] of bareNumbers) if (n > 1) busy.add(sentence);
  // `does it fit on 20`: nor is a number of what is asked.
  pieces.forEach(({ senses }, i) => {
    if (senses.some((s) => s.is === "term" && s.sort === "goal" && ASKED.has(s.id))) busy.add(sentences[i]!);
  });
  const ofDevices = new Set(
    sentences.filter((_, i) => pieces[i]!.senses.some((s) => s.is === "term" && s.sort === "device")),
  );
  // `put two on the same 20`, `upgrading the sub from 60 to 100`: nor one beside what it stands on, or a device.
  pieces.forEach(({ senses }, i) => {
    if (!senses.some(({ is }) => is === "number")) return;
    const word = (far: number) => pieces[i + far]?.is === "common" ? text.tokens[pieces[i + far]!.from]!.text : "";
    const isOn = [-3, -2, -1, 1].some((far) => word(far) === "on");
    if (isOn || ofDevices.has(sentences[i]!)) busy.add(sentences[i]!);
  });
  // `12/2 on a 20 … 4500/240 is under 20`: a figure that was taken is spoken of again.
  const figures = new Set(
    [...taken.taken.keys()].flatMap((what) =>
      "sense" in what && "n" in what.sense && what.sense.n >= LEAST_AGAIN ? [what.sense.n] : []
    ),
  );
  pieces.forEach(({ senses }, i) => {
    const number = senses.find(({ is }) => is === "number");
    const before = pieces[i - 1]?.is === "common" ? text.tokens[pieces[i - 1]!.from]!.text : "";
    if (number?.is === "number" && AGAIN.has(before) && figures.has(number.n) && !as.has(i)) {
      because.set(i, "told before");
    }
  });
  // `three of them are gas`: nor is a number of what was told before, or of homes.
  pieces.forEach(({ senses }, i) => {
    if (!senses.some(({ is }) => is === "number" || is === "count")) return;
    const next = (far: number) => pieces[i + far]?.is === "common" ? text.tokens[pieces[i + far]!.from]!.text : "";
    const isOfThem = next(1) === "of" && OF_THEM.has(next(2));
    const isOfHomes = pieces[i + 1]?.senses.some((s) => s.is === "term" && s.sort === "building");
    if (isOfThem || isOfHomes) busy.add(sentences[i]!);
  });
  const said = new Set(
    [...as.keys()].flatMap((i) => pieces[i]!.senses.flatMap((s) => s.is === "term" ? [`${s.sort}:${s.id}`] : [])),
  );
  const missed: Span[] = [];
  const met: Span[] = [];
  const unread: { from: number; to: number }[] = [];
  pieces.forEach((piece, i) => {
    if (lost.has(i)) return void missed.push(span(text, i, i + 1));
    if (
      as.has(i) || because.has(i) || piece.is === "common" || piece.is === "comma" || piece.is === "mark" ||
      piece.is === "border"
    ) return;
    if (piece.is === "fact" && (isStory(piece, minds) || isArticle(text, piece) || isSaidAgain(piece, said))) return;
    // A slip of one of several terms is a term all the same.
    const isTerm = piece.is === "fact" || text.unsure.has(text.tokens[piece.from]!.at);
    const isOpen = isTerm && (settled !== undefined || busy.has(sentences[i]!));
    if (isOpen && isMet(piece)) return void met.push(span(text, i, i + 1));
    const last = unread.at(-1);
    if (last && last.to === i) last.to = i + 1;
    else unread.push({ from: i, to: i + 1 });
    if (isOpen) missed.push(span(text, i, i + 1));
  });
  return {
    taken: [...as].sort(byPlace).map(([i, word]) => ({ ...span(text, i, i + 1), as: word })),
    setAside: [...because].filter(([i]) => !as.has(i)).sort(byPlace).map(([i, why]) => ({
      ...span(text, i, i + 1),
      because: why,
    })),
    unread: unread.map(({ from, to }) => span(text, from, to)),
    missed,
    met,
  };
}

const LEAST_AGAIN = 10;
const AGAIN = new Set(["under", "over", "below", "above", "than", "that"]);
/** No panel for branch circuits has fewer. */
const LEAST_SPACES = 4;
const PIECES = new Set(["pieces", "items", "appliances", "loads", "machines", "units", "things"]);
const PLACES = new Set(["points", "spots", "places", "ends"]);
const isAll = (piece: Piece | undefined): boolean =>
  piece?.senses.some((s) => s.is === "term" && s.sort === "circuit" && s.id === "one-for-all") ?? false;
/** `five pieces: …`: numbers that only say how many things are told. */
function totalsOf({ pieces, tokens, facts }: ReadText): number[] {
  const word = (piece: Piece | undefined) => piece ? tokens[piece.to - 1]!.text : "";
  // `two more things`
  const isOfPieces = (next: Piece) =>
    PIECES.has(word(next)) || word(next) === "more" && PIECES.has(word(pieces[pieces.indexOf(next) + 1]));
  const told = facts.facts.filter(({ family, slots }) =>
    family === "load" && (slots.rating ?? slots.current ?? slots["minimum-circuit-ampacity"] ?? slots.draw)
  )
    .reduce((sum, { slots }) => sum + ((slots.count?.[0]?.sense as { n?: number } | undefined)?.n ?? 1), 0);
  return pieces.flatMap(({ senses }, i) => {
    const n = senses.find(({ is }) => is === "number" || is === "count") as { n: number } | undefined;
    const next = pieces[i + 1];
    if (n && next && PLACES.has(word(next))) return [i];
    // `demand for all six`: what was counted before, and the words before it.
    if (n?.n === told && told > 1 && isAll(pieces[i - 1])) return [i - 1, i];
    return n?.n === told && told > 1 && next && isOfPieces(next) ? [i] : [];
  });
}

/** What an answer tells whatever it was asked for: the load it works with, what has to be carried. */
const MET: ReadonlySet<string> = new Set([
  "goal:load",
  "goal:branch-load",
  "goal:feeder-load",
  "goal:leg-loads",
  "goal:fault",
  "goal:ampacity",
  "label:calculated-load",
  "label:demand-recorded",
]);
const isMet = ({ senses }: Piece): boolean =>
  senses.length > 0 && senses.every((s) => s.is === "term" && MET.has(`${s.sort}:${s.id}`));

const isNumber = ({ senses }: Piece): boolean =>
  senses.some(({ is }) => ["quantity", "number", "count", "size", "sizes", "cable"].includes(is));
const ASKED = new Set([
  ...["check", "fit", "ampacity", "drop", "longest-run", "size"],
  ...["fault", "fault-path", "fault-current", "panel-schedule", "burial-depth", "working-space"],
]);
const OF_THEM = new Set(["them", "those", "these", "em"]);
const byPlace = (a: readonly [number, string], b: readonly [number, string]): number => a[0] - b[0];
const isStory = ({ senses }: Piece, minds: readonly string[]): boolean =>
  senses.every((s) =>
    (s.is === "box" && !minds.includes("box")) ||
    s.is === "term" &&
      (STORY.has(`${s.sort}:${s.id}`) || (STORY_SORTS.has(s.sort) && !minds.includes(s.sort)) ||
        (WHERE.has(s.sort) && !minds.includes(s.sort)) ||
        (OF_BUILDINGS.has(`${s.sort}:${s.id}`) && !minds.includes("building")))
  );
/** Where it stands, which most questions do not ask. */
const WHERE: ReadonlySet<string> = new Set(["place", "building", "room", "facing", "panelKind", "bar"]);
/** Circuits that only a dwelling's load counts: elsewhere a room. */
const OF_BUILDINGS: ReadonlySet<string> = new Set(["circuit:laundry", "circuit:small-appliance"]);
/** A term that was taken once is taken: `stays on all day (continuous)`. */
const isSaidAgain = ({ senses }: Piece, said: ReadonlySet<string>): boolean =>
  senses.length > 0 && senses.every((s) => s.is === "term" && said.has(`${s.sort}:${s.id}`));

/** `in one conduit`: spelled out and taken by nothing, it counts nothing. */
const isArticle = ({ tokens }: ReadText, { from, to }: Piece): boolean =>
  to === from + 1 && tokens[from]!.text === "one";

function span({ asked, tokens, pieces }: ReadText, from: number, to: number): Span {
  const at = tokens[pieces[from]!.from]!.at;
  return { at, text: asked.slice(at, tokens[pieces[to - 1]!.to - 1]!.end) };
}
