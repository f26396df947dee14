/** What a run feeds, as the facts tell it: its device, one load, equal ones, loads at distances of their own. */
import type { Draft, Fact, Said } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { feet } from "./takes-run.ts";
import { distinct, figureOf, spoken } from "./values.ts";

export const USES: Readonly<Record<string, string>> = {
  lighting: "lights",
  receptacles: "receptacles",
  "gate-operator": "gate operator",
  motor: "motor",
  pump: "motor",
  "well-pump": "motor",
  "sump-pump": "motor",
  "pool-pump": "motor",
  compressor: "motor",
  "air-compressor": "motor",
  fan: "motor",
  machine: "motor",
};
const SOURCES = ["battery", "solar", "inverter", "generator"];
const SUPPLIERS = ["panel", "subpanel", "service", "main", "disconnect"];

/** The overcurrent device; a panel's rating stands for the load only where nothing else does. */
export function takeDevices(t: Taker, draft: Draft): void {
  const facts = [...t.all("device"), ...t.all("circuit", "circuit", "feeder", "multiwire")];
  for (const fact of facts) {
    const value = fact.slots.rating?.[0];
    if (!value) {
      if (SUPPLIERS.includes(fact.id ?? "") || fact.family === "circuit") t.head(fact);
      continue;
    }
    t.head(fact);
    t.slot(fact, "poles");
    if (SUPPLIERS.includes(fact.id ?? "")) continue;
    // Ratings of devices are round figures: a circuit of 12 A is spoken of by its load.
    if (fact.family === "circuit" && Number(figureOf(value)?.value) % 5 !== 0) draft.load ??= figureOf(value);
    t.use(value, "rating");
    if (draft.load) continue;
    draft.breaker ??= figureOf(value);
  }
}
function takePanel(t: Taker, draft: Draft): void {
  for (const fact of t.all("device", ...SUPPLIERS)) {
    const value = fact.slots.rating?.[0];
    if (!value) continue;
    if (draft.load || draft.points || draft.breaker || draft.count) t.aside(value, "a panel's rating is not the load");
    else draft.breaker = figureOf(t.slot(fact, "rating"));
  }
}

/** One load, equal ones, loads at distances of their own. */
export function takeLoads(t: Taker, draft: Draft): void {
  const facts = t.all("load");
  const drawn: Said[] = [];
  const loads: Said[] = [];
  const points: { at: Said; load: Said }[] = [];
  for (const fact of facts) {
    t.head(fact);
    takeUse(draft, fact);
    t.term(fact, "fuel");
    t.term(fact, "hours");
    const start = t.slot(fact, "locked-rotor-current");
    if (start) draft.starting = figureOf(start);
    const draw = figureOf(t.slot(fact, "draw"));
    if (draw) drawn.push(draw);
    const own = ["current", "full-load-current", "nameplate", "rating"].flatMap((slot) => {
      // Two figures in one are asked back.
      const figure = figureOf(fact.slots[slot]?.[0]);
      if (figure) t.slot(fact, slot);
      return figure ? [figure] : [];
    });
    const at = fact.slots.length?.[0];
    if (at && own[0] && facts.filter(({ slots }) => slots.length).length > 1) {
      points.push({ at: feet(t, t.slot(fact, "length")!), load: own[0] });
    } else loads.push(...own.slice(0, 1));
    if (own.length > 1 && own[0]!.unit === "A") t.note(`took ${spoken(own[0]!)} as the load, not ${spoken(own[1]!)}`);
    takeCount(t, fact, draft, own[0] ?? draw);
  }
  if (points.length > 0) draft.points = points;
  for (const value of t.free("calculated-load")) {
    const demand = figureOf(value) ?? (value.sense.is === "number" ? { value: value.sense.n, unit: "A" } : undefined);
    if (demand) drawn.push(demand);
  }
  if (draft.load) loads.push(draft.load as Said);
  // What a battery or an array gives is what its run carries.
  for (const source of t.all("transformer", ...SOURCES)) {
    const given = drawn.length + loads.length + points.length === 0 && figureOf(t.slot(source, "rating"));
    if (given) loads.push(given);
  }
  const [load, ...others] = distinct(drawn.length > 0 ? drawn : loads);
  if (load) draft.load = load;
  if (drawn.length > 0 && loads.length > 0) {
    t.note(`took ${spoken(load!)} as the load, not ${distinct(loads).map(spoken).join(" or ")}`);
  }
  if (others.length > 0 || (load && points.length > 0)) {
    t.ask({
      field: "load",
      ask: `Several loads are named (${[load!, ...others].map(spoken).join(", ")}). Where along the run is each?`,
      example: `${spoken(load!)} at 100 ft, ${spoken(others[0] ?? load!)} at 200 ft`,
    });
  }
  takePanel(t, draft);
}
function takeUse(draft: Draft, { id, others }: Fact): void {
  const use = USES[others?.find((other) => other.startsWith("for:"))?.slice(4) ?? id ?? ""];
  if (use !== undefined && (draft.use === undefined || use !== "lights")) draft.use = use;
}
function takeCount(t: Taker, fact: Fact, draft: Draft, load: Said | undefined): void {
  const count = t.number(fact, "count");
  const share = t.term(fact, "share");
  if (count === undefined || count < 2) return;
  if (share === "total") return;
  draft.count = count;
  if (load && share !== "each") {
    t.ask({
      field: "load",
      ask: `Is ${spoken(load)} the load of each, or of all ${count} together?`,
      example: `${spoken(load)} each`,
    });
  }
}
