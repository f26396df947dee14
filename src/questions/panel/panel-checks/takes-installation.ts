/** What the panel is in its installation, and how it was found. */
import type { Draft, Fact } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { takeWhere } from "../../parts/run-takes.ts";
import type { PanelKind, Topic } from "./request.ts";

/** Topics to which it makes a difference what the panel is. */
const OF_PANEL: readonly Topic[] = ["bonding", "continuity", "record"];
const NO_DWELLINGS = ["store", "office", "school", "restaurant", "church", "warehouse", "salon", "marina", "farm"];
const WIRES: Readonly<Record<string, number>> = { "two-wire": 2, "three-wire": 3, "four-wire": 4 };

export function takeInstallation(t: Taker, draft: Draft, about: readonly Topic[]): void {
  const panel = kindOf(t);
  if (panel && about.some((topic) => OF_PANEL.includes(topic))) draft.panel = panel;
  takePhases(t, draft);
  if (!about.includes("working space") && !about.includes("record")) {
    for (const { key, value } of t.facts.free) if (key === "system") t.aside(value, "its phases decide, not its volts");
  }
  takeState(t, draft);
  takeWires(t, draft);
  if (t.said("building:existing")) draft.existing = true;
  if (t.said("building:dwelling")) draft.dwelling = true;
  const others = t.all("building", ...NO_DWELLINGS);
  for (const building of others) t.head(building);
  if (others.length > 0 || t.said("building:not-dwelling")) draft.dwelling = false;
  t.terms("bar");
  for (const fact of t.all("circuit", "feeder", "circuit")) t.head(fact);
  t.asks("role:main-bonding-jumper", "role:bonding-jumper", "role:grounding-electrode-conductor", "source:busbar");
  t.terms("electrode");
}

/** By its own name, by where it is, by what feeds it. */
function kindOf(t: Taker): PanelKind | undefined {
  const devices = t.all("device", "panel", "subpanel", "main", "service", "disconnect");
  const named = (id: string) =>
    t.said(`panelKind:${id}`) || devices.some((each) => each.others?.includes(`panelKind:${id}`));
  for (const fact of devices) {
    t.head(fact);
    for (const value of fact.slots.count ?? []) t.aside(value, "how many panels there are makes no difference");
  }
  const where = takeWhere(t);
  const isSub = t.all("device", "subpanel").length > 0;
  // `meter main outside, panel inside`: the first disconnect is not in that panel.
  const isMeterMain = named("meter-main") &&
    devices.some(({ id, others }) =>
      (id === "panel" || id === "subpanel") && !others?.some((other) => other.startsWith("panelKind:"))
    );
  const isFed = t.said("end:from", "place:after-disconnect") || isMeterMain;
  const sources = t.all("transformer", "transformer", "autotransformer");
  for (const fact of [...sources, ...t.all("transformer", "generator")]) t.head(fact);
  const isSwitched = named("transfer-switch") || t.all("transformer", "generator").length > 0;
  const isService = named("service") || named("main") || t.said("place:at-disconnect");
  if (where === "separate structure") return "separate structure";
  if (sources.length > 0) return "after a transformer";
  if (isSwitched) return "behind a transfer switch";
  if (isSub || isFed) return "feeder panel";
  if (isService || isMain(devices)) return "service panel";
  return undefined;
}

/** `the main panel`, `at the service`: where nothing is said to feed it. */
const isMain = (devices: readonly Fact[]): boolean => devices.some(({ id }) => id === "service" || id === "main");

function takePhases(t: Taker, draft: Draft): void {
  const phases = [...t.terms("phase"), ...t.all("transformer").map((fact) => t.term(fact, "phase"))];
  if (phases.includes("three-phase")) draft.phases = 3;
  else if (phases.includes("single-phase")) draft.phases = 1;
  else if (isOfWye(t)) draft.phases = 3;
}

/** A wye system, wherever its voltages stand. */
const isOfWye = (t: Taker): boolean =>
  [...t.facts.free.map(({ value }) => value), ...t.facts.facts.flatMap(({ slots }) => slots.volts ?? [])]
    .some(({ sense }) => sense.is === "system" && sense.wye);

function takeState(t: Taker, draft: Draft): void {
  const is = (id: string) => t.said(`panelState:${id}`);
  if (is("neutral-lifted")) draft.feederNeutral = "lifted";
  else if (is("neutral-connected")) draft.feederNeutral = "connected";
  if (is("energized")) draft.energized = true;
  is("de-energized");
  if (is("switched-neutral")) draft.switchedNeutral = true;
  else if (is("unswitched-neutral")) draft.switchedNeutral = false;
  if (is("bonded-at-transformer")) draft.jumperAt = "transformer";
  if (is("bonded-here")) draft.bonded = true;
  else if (is("isolated-here")) draft.bonded = false;
  if (is("existing-three-wire")) Object.assign(draft, { existing: true, feederWires: 3 });
}

/** `four wires`, `a 3-wire feeder`: what the feeder has. */
function takeWires(t: Taker, draft: Draft): void {
  for (const id of t.terms("connection")) if (WIRES[id]) draft.feederWires ??= WIRES[id];
  for (const fact of t.all("conductor", "wire", "neutral", "equipment-ground", "ungrounded", "bonding-jumper")) {
    t.head(fact);
    if (fact.id !== "wire" || fact.slots.size) continue;
    const count = t.number(fact, "count");
    if (count !== undefined) draft.feederWires ??= count;
  }
}
