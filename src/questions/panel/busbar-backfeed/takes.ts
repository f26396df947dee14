/** What a source on a busbar takes of the facts: the busbar, its main, the source's breaker or output, and where it stands. */
import type { Draft, Fact, Said, Value } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";
import { asksBackfeed } from "../../parts/backfeed-takes.ts";
import { ratingOf } from "../../parts/dwelling-takes.ts";
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
    } else draft.bus ??= ratingOf(t, panel);
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

/** The sources: each with its breaker and its output, a solar inverter being one. */
function takeSources(t: Taker, draft: Draft): ToldSource[] {
  const facts = t.all("transformer", ...SOURCES);
  for (const fact of facts) t.head(fact);
  const breakers = t.all("device", "breaker", "fuse", "disconnect").filter(isRated);
  for (const each of breakers) {
    t.head(each);
    t.slot(each, "poles");
  }
  for (const each of t.all("device", "breaker")) {
    t.head(each);
    t.slot(each, "poles");
  }
  const ratings = breakers.map((each) => ({ rating: ratingOf(t, each), count: t.number(each, "count") }));
  // `main replaced by a 150 A breaker`: of several, the first is the main's where that has none.
  if (draft.main === undefined && ratings.length > 1 && t.all("device", "main").length > 0) {
    draft.main = ratings.shift()!.rating;
  }
  const named = SOURCES.filter((kind) => facts.some(({ id }) => id === kind));
  const kind = named.find((each) => each !== "inverter") ?? named[0] ?? "solar";
  const outputs = [...facts, ...t.all("load").filter(({ id }) => id === undefined)].flatMap((fact) =>
    outputOf(t, fact)
  );
  const count = facts.map((fact) => t.number(fact, "count")).find((n) => n !== undefined);
  const most = Math.max(ratings.length, outputs.length);
  return Array.from({ length: most }, (_, i): ToldSource => {
    const breaker = ratings[i]?.rating;
    const many = ratings[i]?.count ?? count;
    return {
      kind,
      ...(many !== undefined && many > 1 && { count: many }),
      ...(breaker && { breaker }),
      ...(outputs[i] && { output: outputs[i] }),
    };
  });
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
