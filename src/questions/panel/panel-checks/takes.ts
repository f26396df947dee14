/** What a check at a panel takes of the facts: the topic, what the panel is, what was read, set or put up. */
import type { Draft } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isOfTransformer, isPanelCheck, protectedDevices, UNPROTECTED } from "../../parts/panel-gate.ts";
import { CONNECTORS, type Topic } from "./request.ts";
import { takeInstallation } from "./takes-installation.ts";
import { takeRoom, takeTerminals } from "./takes-rooms.ts";
import { takeSpace, takeSurroundings } from "./takes-space.ts";
import { takeTorque } from "./takes-torque.ts";

const GOALS: readonly (readonly [goal: string, topic: Topic])[] = [
  ["goal:check-record", "record"],
  ["goal:torque", "torque"],
  ["goal:bending-space", "bending space"],
  ["goal:working-space", "working space"],
  ["goal:handle-height", "handle height"],
  ["goal:directory", "directory"],
  ["goal:panel-location", "location"],
  ["goal:room-protection", "room protection"],
  ["goal:protection-asked", "room protection"],
  ["goal:neutral-terminals", "neutral terminals"],
  ["goal:cable-sheath", "cable sheath"],
  ["goal:continuity", "continuity"],
  ["goal:bond", "bonding"],
  ["goal:feed-wires", "bonding"],
];

export function takes(t: Taker): Draft | undefined {
  if (!isPanelCheck(t)) return undefined;
  const draft: Draft = {};
  const about = topicsOf(t);
  takeInstallation(t, draft, about);
  takeReadings(t, draft);
  if (about.includes("torque") || about.includes("bending space") || about.includes("record")) {
    takeTorque(t, draft, about);
    // What the lug is of; how it is made was asked.
    for (const device of t.all("device")) t.head(device);
  }
  if (about.includes("working space") || about.includes("handle height") || about.includes("bending space")) {
    takeSpace(t, draft, about);
  }
  if (about.includes("record")) takeSurroundings(t, draft);
  takeRoom(t, draft, about);
  if (about.includes("neutral terminals")) takeTerminals(t, draft);
  if (about.length > 0) draft.about = about;
  setAside(t);
  if (t.asks("goal:check")) draft.check = true;
  t.asks("goal:size", "device:breaker", "role:wire", "goal:how-high", "goal:burial-depth");
  return draft;
}

const TORQUES = ["lbf-in", "lbf-ft", "N-m", "marked-torque", "set-torque", "label:set-torque"];
/** What was asked for; a record takes all in one. */
function topicsOf(t: Taker): Topic[] {
  const isHigh = t.has("goal:how-high");
  const topics = [...new Set(GOALS.filter(([goal]) => t.asks(goal)).map(([, topic]) => topic))];
  const devices = protectedDevices(t);
  for (const device of devices) t.head(device);
  if ((devices.length > 0 || t.said(UNPROTECTED)) && !topics.includes("room protection")) {
    topics.push("room protection");
  }
  if (topics.includes("record")) return ["record"];
  if (t.has("reading") && !topics.includes("continuity")) topics.push("continuity");
  if ((t.has("meter:closed") || t.has("meter:open")) && !topics.includes("continuity")) topics.push("continuity");
  t.terms("meter");
  t.said("goal:why");
  // A bond that was read is a check of its continuity; wires per terminal are of its bending space.
  const found = topics.filter((topic) =>
    !(topic === "bonding" && topics.includes("continuity")) &&
    !(topic === "neutral terminals" && topics.some((other) => other === "bending space" || other === "torque"))
  );
  const isLug = t.has("label:nameplate") && t.has("label:terminals");
  if (found.length === 0 && (isLug || [...TORQUES, ...CONNECTORS.map((each) => `connector:${each}`)].some(t.has))) {
    return ["torque"];
  }
  if (found.length === 0 && (t.has("depth") || t.facts.free.some(({ key }) => key.startsWith("facing:")))) {
    return ["working space"];
  }
  if (found.length === 0 && (isHigh || t.has("height"))) return ["handle height"];
  if (found.length === 0 && t.has("electrode:rod")) return ["bonding"];
  if (found.length === 0 && (t.has("panelState:bonded-here") || t.has("panelState:isolated-here"))) return ["bonding"];
  if (found.length === 0) return ["location"];
  return found;
}

/** What a panel and its supply are rated for decides neither a bond nor a reading. */
function setAside(t: Taker): void {
  if (t.wants("goal:bond")) {
    for (const key of ["ft", "m", "yd", "length"]) {
      for (const { key: at, value } of t.facts.free) if (at === key) t.aside(value, "how far it is decides no bond");
    }
    for (const value of t.facts.facts.flatMap(({ slots }) => slots.length ?? [])) {
      t.aside(value, "how far it is decides no bond");
    }
    for (const { key, value } of t.facts.free) {
      if (key === "place:wet" || key === "room:outdoors") t.aside(value, "outside or in, the bond is the same");
    }
  }
  for (const { key, value } of t.facts.free) {
    if (key.startsWith("method:")) t.aside(value, "which cable it is makes no difference to this check");
  }
  // `4 wires (2 hots, neutral, ground)`
  for (
    const fact of t.all("conductor", "ungrounded", "neutral", "equipment-ground").filter(({ slots }) => !slots.size)
  ) {
    for (const value of fact.slots.count ?? []) t.aside(value, "the wires of its feed");
  }
  const transformers = t.all("transformer");
  const windings = transformers.length > 0 ? t.all("load").filter(isOfTransformer) : [];
  for (const winding of windings) t.head(winding);
  for (const { slots } of [...t.all("device"), ...t.all("circuit"), ...transformers, ...windings]) {
    for (const slot of ["rating", "current", "volts", "phase", "windings", "poles"]) {
      for (const value of slots[slot] ?? []) t.aside(value, "it makes no difference to this check");
    }
  }
}

function takeReadings(t: Taker, draft: Draft): void {
  const readings = t.free("reading").flatMap(({ sense }) =>
    sense.is === "reading"
      ? [{
        from: sense.from,
        to: sense.to,
        ...(sense.reads && { reads: sense.reads }),
        ...(sense.ohms !== undefined && { resistance: { value: sense.ohms, unit: "ohm" } }),
      }]
      : []
  );
  if (readings.length > 0) draft.readings = readings;
}
