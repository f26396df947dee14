/** What a source on a busbar takes of the facts: the busbar, its main, the source's breaker or output, and where it stands. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { asksBackfeed } from "../../parts/backfeed-takes.ts";
import { ratingOf } from "../../parts/dwelling-takes.ts";
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
  const total = t.loose("breakers-total") ?? bare(t, "breakers-total");
  if (total) draft.loadBreakers = total;
  const setting = t.loose("power-control") ?? bare(t, "power-control");
  if (setting) draft.setting = setting;
  const volts = t.loose("V");
  if (volts) draft.volts = volts;
  const [phase] = t.terms("phase").filter((id) => id === "three-phase" || id === "single-phase");
  if (phase) draft.supply = phase;
  // The share is the edition's own.
  for (const { key, value } of t.facts.free) if (key === "%") t.aside(value, "the edition's own share counts");
  for (const load of t.all("load")) if (load.id === undefined) t.slot(load, "hours");
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
  draft.bus ??= t.loose("bus") ?? bare(t, "bus");
  for (const main of t.all("device", "main")) {
    t.head(main);
    t.slot(main, "end");
    draft.main ??= ratingOf(t, main);
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
  const rated = breakers.filter(isRated);
  // `a subpanel fed by a 100 A breaker`: what feeds the panel stands for its main.
  const feeding = rated.findIndex((each) => hasEnd(each, "from"));
  if (feeding >= 0 && rated.length > 1) {
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
    const [output] = outputOf(t, fact);
    put({
      kind: fact.id!,
      ...(count !== undefined && count > 1 && { count }),
      ...(device && breakerOf(device)),
      ...(output && { output }),
    });
  }
  const outputs = t.all("load").filter(({ id }) => id === undefined).flatMap((fact) => outputOf(t, fact));
  const open = (slot: "breaker" | "output") => {
    const found = told.find((each) => each[slot] === undefined);
    if (found) return found;
    told.push({ kind: told[0]?.kind ?? "solar" });
    return told.at(-1)!;
  };
  for (const device of rated) Object.assign(open("breaker"), breakerOf(device));
  const sized = facts.find(({ slots }) => slots.rating);
  for (const output of outputs) {
    // `10 kW inverter, 48 A output`: told twice it is one, and the amperes count.
    const [only] = told.length === 1 ? told : [];
    if (only?.output && output.unit === "A" && only.output.unit !== "A") {
      only.output = output;
      for (const value of sized?.slots.rating ?? []) t.aside(value, "its output in amperes counts");
    } else open("output").output = output;
  }
  // `two 20 A backfeeds`
  if (told.length === 0 && t.has("source:backfeed")) {
    for (const load of t.all("load").filter(({ id, slots }) => id === undefined && slots.current)) {
      const count = t.number(load, "count");
      const breaker = t.figure(load, "current", "A");
      if (breaker) told.push({ kind: "solar", ...(count !== undefined && count > 1 && { count }), breaker });
    }
  }
  return told.filter(({ breaker, output }) => breaker ?? output);
}

/** What a source puts out: its own figure, or one that was told as an output. */
function outputOf(t: Taker, fact: Fact): Said[] {
  for (const slot of ["draw", "rating", "current"]) {
    const value = fact.slots[slot]?.[0];
    const said = saidOf(value?.sense);
    if (!value || !said || (fact.family === "load" && slot !== "draw" && slot !== "rating")) continue;
    t.head(fact);
    t.use(value, "output");
    return [said];
  }
  return [];
}

/** A bare number under a label is in amperes. */
function bare(t: Taker, key: string): Said | undefined {
  const found: Value | undefined = t.facts.free.find((each) => each.key === key && each.value.sense.is === "number")
    ?.value;
  if (!found) return undefined;
  t.use(found, key);
  return { value: (found.sense as { n: number }).n, unit: "A" };
}
