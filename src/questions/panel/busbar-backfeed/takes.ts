/** What a source on a busbar takes of the facts: the busbar, its main, the source's breaker or output, and where it stands. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { asksBackfeed } from "../../parts/backfeed-takes.ts";
import { ratingOf } from "../../parts/device-takes.ts";
import { hasEnd } from "../../parts/starts.ts";
import { SOURCES } from "./request.ts";

const PANELS = ["panel", "service", "subpanel"];
const isRated = ({ slots }: Fact): boolean => (slots.rating ?? slots.current ?? slots.draw) !== undefined;

export function takes(t: Taker): Draft | undefined {
  if (!asksBackfeed(t)) return undefined;
  const draft: Draft = {};
  takePanel(t, draft);
  const sources = takeSources(t, draft);
  if (sources.length > 0) draft.sources = sources;
  if (t.said("end:opposite")) draft.position = "opposite the main";
  else if (t.said("end:beside-main")) draft.position = "beside the main";
  if (t.said("end:center-fed")) draft.centerFed = true;
  if (t.said("end:supply-side")) draft.supplySide = true;
  const total = t.loose("breakers-total") ?? bare(t, "breakers-total") ?? addedUp(t);
  if (total) draft.loadBreakers = total;
  const setting = t.loose("power-control") ?? bare(t, "power-control");
  if (setting) draft.setting = setting;
  const volts = t.loose("V");
  if (volts) draft.volts = volts;
  const [phase] = t.terms("phase").filter((id) => id === "three-phase" || id === "single-phase");
  if (phase) draft.supply = phase;
  // The share is the edition's own.
  for (const { key, value } of t.facts.free) if (key === "%") t.aside(value, "the edition's own share counts");
  for (const load of t.all("load")) {
    if (load.id === undefined) {
      t.slot(load, "hours");
      const told = t.figure(load, "volts", "V");
      if (told) draft.volts ??= told;
    } // `would an inspector sign that`
    else if (Object.keys(load.slots).length === 0) t.head(load);
  }
  t.said("connector:slot", "change:or", "panelKind:main");
  t.said("source:backfeed", "motorWord:largest", "hours:continuous", "building:dwelling", "end:feeds");
  t.asks("goal:backfeed", "goal:check", "goal:fit", "goal:ampacity", "goal:size", "goal:add-load", "goal:current");
  t.asks("device:breaker", "device:panel", "device:main", "label:draw", "label:bus", "label:length");
  return draft;
}

/** The busbar and its main: told by name, as a pair, or as the panel they are in. */
function takePanel(t: Taker, draft: Draft): void {
  for (const bus of t.all("transformer", "busbar")) {
    t.head(bus);
    draft.bus ??= t.figure(bus, "rating", "A") ?? t.figure(bus, "current", "A");
  }
  draft.bus ??= t.loose("bus") ?? bare(t, "bus") ?? besideBus(t);
  const mains = t.all("device", "main");
  const changed = mains.find(({ others, slots }) => slots.rating && others?.includes("changed"));
  for (const main of mains) {
    t.head(main);
    t.slot(main, "end");
    if (!changed || main === changed) draft.main ??= ratingOf(t, main);
    else for (const value of main.slots.rating ?? []) t.aside(value, "what the main was");
  }
  // `200 main in the middle`
  const centered = t.facts.free.filter(({ key }) => key === "end:center-fed").flatMap(({ value }) => value.pieces);
  const before = t.facts.free.find(({ key, value }) =>
    key === "number" && centered.includes((value.pieces[0] ?? -2) + 1)
  );
  if (draft.main === undefined && before) {
    for (const { value } of t.facts.free.filter(({ value }) => value.pieces[0] === before.value.pieces[0])) {
      t.use(value, "main");
    }
    draft.main = { value: (before.value.sense as { n: number }).n, unit: "A" };
  }
  for (const panel of t.all("device", ...PANELS)) {
    t.head(panel);
    t.slot(panel, "end");
    const pair = panel.slots.rating?.[0]?.sense;
    // `125/125 panel`: its busbar and its main.
    if (pair?.is === "pair") {
      t.slot(panel, "rating");
      draft.bus ??= { value: pair.a, unit: "A" };
      draft.main ??= { value: pair.b, unit: "A" };
    } else if (draft.bus === undefined) draft.bus = ratingOf(t, panel);
    // `200 A panel with a 200 A main and a 225 A busbar`
    else for (const value of panel.slots.rating ?? []) t.aside(value, "its busbar and its main count");
  }
  if (draft.bus === undefined) delete draft.bus;
  if (draft.main === undefined) delete draft.main;
  // `bus is rated 200 A`
  const loose = t.all("load").find(({ id, slots }) => id === undefined && (slots.nameplate ?? slots.current));
  if (draft.bus === undefined && loose && t.all("transformer", "busbar").length > 0) {
    t.head(loose);
    const bus = t.figure(loose, "nameplate", "A") ?? t.figure(loose, "current", "A");
    if (bus) draft.bus = bus;
  }
}

/** `bus rated 125`: a bare number right behind the busbar. */
function besideBus(t: Taker): Said | undefined {
  const ends = t.all("transformer", "busbar").map(({ pieces }) => Math.max(...pieces));
  const found = t.facts.free.find(({ key, value }) =>
    key === "number" && ends.some((end) => (value.pieces[0] ?? 0) > end && (value.pieces[0] ?? 0) - end <= BESIDE)
  );
  if (!found) return undefined;
  for (const { value } of t.facts.free.filter(({ value }) => value.pieces[0] === found.value.pieces[0])) {
    t.use(value, "bus");
  }
  return { value: (found.value.sense as { n: number }).n, unit: "A" };
}
const BESIDE = 3;

const placesOf = (slots: Fact["slots"]): number[] => Object.values(slots).flat().flatMap(({ pieces }) => pieces);

type ToldSource = { kind: string; count?: number; breaker?: Said; output?: Said };

/** The sources: each with its breaker and its output, a solar inverter being one, told twice being one too. */
function takeSources(t: Taker, draft: Draft): ToldSource[] {
  const facts = t.all("transformer", ...SOURCES);
  for (const fact of facts) t.head(fact);
  const breakers = t.all("device", "breaker", "fuse", "disconnect");
  for (const each of breakers) {
    t.head(each);
    t.slot(each, "poles");
  }
  for (const each of breakers.filter((one) => !isRated(one))) {
    for (const value of each.slots.count ?? []) t.aside(value, "as many as there are sources");
  }
  const rated = breakers.filter(isRated);
  // `a subpanel fed by a 100 A breaker`: what feeds the panel stands for its main.
  const feeding = rated.findIndex((each) => hasEnd(each, "from"));
  const isSizeAsked = facts.some(({ slots }) => !slots.rating) && t.wants("goal:size", "motorWord:largest");
  if (feeding >= 0 && (rated.length > 1 || isSizeAsked)) {
    const [feeder] = rated.splice(feeding, 1);
    t.slot(feeder!, "end");
    draft.main ??= ratingOf(t, feeder!);
  }
  // `main replaced by a 150 A breaker`: of several, the first is the main's where that has none.
  if (draft.main === undefined && rated.length > 1 && t.all("device", "main").length > 0) {
    draft.main = ratingOf(t, rated.shift()!);
  }
  const follows = (one: Fact, other: Fact) => other.pieces.length > 0 && one.pieces[0] === other.pieces.at(-1)! + 1;
  const told: ToldSource[] = [];
  const put = (source: ToldSource) => {
    const same = told.find((each) =>
      (each.kind === source.kind || source.kind === "inverter" || each.kind === "inverter") &&
      !(each.breaker && source.breaker) && !(each.output && source.output)
    );
    if (!same) return void told.push(source);
    Object.assign(same, source, { kind: same.kind === "inverter" ? source.kind : same.kind });
  };
  const breakerOf = (device: Fact) => {
    const count = t.number(device, "count");
    return { ...(count !== undefined && count > 1 && { count }), breaker: ratingOf(t, device) };
  };
  for (const fact of facts) {
    const device = rated.find((each) => follows(each, fact));
    if (device) rated.splice(rated.indexOf(device), 1);
    const count = t.number(fact, "count");
    // `40 A of solar`, no inverter and no output named: its breaker, which is never below 125 % of what it puts out.
    const bare = fact.id === "inverter" || device ? undefined : breakerIn(t, fact);
    if (bare) {
      put({ kind: fact.id!, ...(count !== undefined && count > 1 && { count }), breaker: bare });
      continue;
    }
    const [output] = outputOf(t, fact);
    const isOfAll = count !== undefined && count > 1 && output !== undefined && isTogether(t, fact);
    if (isOfAll) t.note(`took ${output.value} ${output.unit} as what all ${count} put out together`);
    put({
      kind: fact.id!,
      ...(count !== undefined && count > 1 && !isOfAll && { count }),
      ...(device && breakerOf(device)),
      ...(output && { output }),
    });
  }
  // `225 A rated bus`, before any source, is none of their output.
  const first = Math.min(...facts.flatMap(({ pieces }) => pieces));
  const isOfSource = ({ id, slots }: Fact) =>
    id === undefined && ((slots.draw ?? slots.rating) !== undefined || Math.min(...placesOf(slots)) > first);
  // `add a second one, 10 amps out`: amperes that are added to a source are another's output.
  const isAdded = ({ id, slots }: Fact) =>
    id === undefined && slots.current !== undefined && t.has("change:add") && facts.length > 0;
  for (const fact of t.all("load").filter(isAdded)) {
    const output = t.figure(fact, "current", "A");
    if (output) told.push({ kind: told[0]?.kind ?? "solar", output });
    t.head(fact);
  }
  const outputs = t.all("load").filter((fact) => isOfSource(fact) && !isAdded(fact)).flatMap((fact) =>
    outputOf(t, fact)
  );
  const open = (slot: "breaker" | "output") => {
    const found = told.find((each) => each[slot] === undefined);
    if (found) return found;
    told.push({ kind: told[0]?.kind ?? "solar" });
    return told.at(-1)!;
  };
  for (const device of rated) Object.assign(open("breaker"), breakerOf(device));
  const rating = facts.find(({ slots }) => slots.rating);
  for (const output of outputs) {
    // `10 kW inverter, 48 A output`: told twice it is one, and the amperes count.
    const [only] = told.length === 1 ? told : [];
    if (only?.output && output.unit === "A" && only.output.unit !== "A") {
      only.output = output;
      for (const value of rating?.slots.rating ?? []) t.aside(value, "its output in amperes counts");
    } else open("output").output = output;
  }
  // `two 20 A backfeeds`
  if (t.has("source:backfeed") && !told.some(({ breaker }) => breaker)) {
    for (const load of t.all("load").filter(({ id, slots }) => id === undefined && slots.current)) {
      const count = t.number(load, "count");
      const breaker = t.figure(load, "current", "A");
      // Of several told by what they put out it is the first's that it can carry.
      const own = told.length === 1 || (count ?? 1) > 1 ? told[0] : told.find(({ output }) => carries(breaker, output));
      if (breaker && own && (told.length === 1 || (count ?? 1) === 1)) own.breaker = breaker;
      else if (breaker) told.push({ kind: "solar", ...(count !== undefined && count > 1 && { count }), breaker });
    }
  }
  const sized = told.filter(({ breaker, output }) => breaker ?? output);
  // A source without a size beside one that has it is the one that is asked for.
  const isAsked = t.wants("motorWord:largest", "goal:size", "goal:add-load") || t.has("motorWord:largest");
  const asked = told.filter(({ breaker, output }) => !breaker && !output && isAsked);
  return sized.length > 0 ? [...sized, ...asked.slice(0, 1)] : sized;
}

/** `two inverters, together 11.4 kW`: right before the figure, it is of all of them. */
function isTogether(t: Taker, { slots }: Fact): boolean {
  const words = t.facts.free.filter(({ key }) => key === "place:bundle" || key === "share:total");
  const figures = [slots.rating, slots.draw, slots.nameplate].flatMap((values) => values ?? []);
  const before = words.find(({ value }) =>
    figures.some(({ pieces: [at] }) => at !== undefined && at - (value.pieces[0] ?? Infinity) === 1)
  );
  if (before) t.use(before.value, "together");
  return before !== undefined || slots.share?.some(({ sense }) => sense.is === "term" && sense.id === "total") === true;
}
/** Whether a breaker may be that of a source: of one told in kilowatts by what they are at 240 V. */
const carries = (breaker: Said | undefined, output: Said | undefined): boolean =>
  breaker !== undefined && output !== undefined &&
  Number(breaker.value) >= (output.unit === "A" ? Number(output.value) : Number(output.value) * 1000 / LINE_VOLTS);
const LINE_VOLTS = 240;

/** Amperes of a usual breaker that stand at a source alone. */
function breakerIn(t: Taker, fact: Fact): Said | undefined {
  const value = (fact.slots.rating ?? fact.slots.current)?.[0];
  const said = saidOf(value?.sense);
  const isOutput = fact.slots.draw || t.wants("label:draw") || t.has("label:draw") ||
    t.all("transformer", "inverter").length > 0 || t.has("end:supply-side");
  if (!value || said?.unit !== "A" || isOutput || !BREAKERS.has(Number(said.value))) return undefined;
  t.head(fact);
  t.use(value, "breaker");
  t.note(`took ${value.said} as the breaker of the ${fact.id}; its output is said as such`);
  return said;
}
const BREAKERS: ReadonlySet<number> = new Set([15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100]);

/** What a source puts out: its own figure, or one that was told as an output. */
function outputOf(t: Taker, fact: Fact): Said[] {
  for (const slot of ["draw", "rating", "nameplate", "current"]) {
    const told = fact.slots[slot] ?? [];
    // `7.6 kW inverter, 31.7 A out`: told twice it is one, and the amperes count.
    const value = told.find(({ sense }) => saidOf(sense)?.unit === "A") ?? told[0];
    const said = saidOf(value?.sense);
    if (!value || !said || (fact.family === "load" && slot === "current")) continue;
    for (const other of told) if (other !== value) t.aside(other, "its output in amperes counts");
    t.head(fact);
    // What it puts out it does for hours, told or not.
    t.term(fact, "hours");
    t.use(value, "output");
    return [said];
  }
  return [];
}

/** `a 20, another 20 and a 15, … adding up all the breakers`: bare breakers in a row, `two 20` being two of them. */
function addedUp(t: Taker): Said | undefined {
  if (!t.has("label:breakers-total") && !t.has("building:nothing-else")) return undefined;
  const numbers = t.facts.free.filter(({ key, value }) => key === "number" && "n" in value.sense)
    .map(({ value }) => ({ value, n: (value.sense as { n: number }).n, at: value.pieces[0] ?? -1 }));
  let sum = 0;
  numbers.forEach(({ value, n, at }, i) => {
    const before = numbers[i - 1];
    const isCounted = before !== undefined && before.at === at - 1 && before.n <= MOST_ALIKE;
    const isCount = n <= MOST_ALIKE && numbers[i + 1]?.at === at + 1;
    t.use(value, "load breakers");
    if (!isCount) sum += isCounted ? before.n * n : n;
  });
  t.said("label:breakers-total", "building:nothing-else", "motorWord:alone", "change:add");
  return sum > 0 ? { value: sum, unit: "A" } : undefined;
}
const MOST_ALIKE = 6;

/** A bare number under a label is in amperes. */
function bare(t: Taker, key: string): Said | undefined {
  const found: Value | undefined = t.facts.free.find((each) => each.key === key && each.value.sense.is === "number")
    ?.value;
  if (!found) return undefined;
  t.use(found, key);
  return { value: (found.sense as { n: number }).n, unit: "A" };
}
