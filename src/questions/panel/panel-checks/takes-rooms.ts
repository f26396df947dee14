/** Rooms of circuits, rooms of panels, and what shares a terminal. */
import type { Draft } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { roomsSaid } from "../../parts/panel-gate.ts";
import { PLACES, ROOMS, type Topic } from "./request.ts";

export function takeRoom(t: Taker, draft: Draft, about: readonly Topic[]): void {
  const said = roomsSaid(t);
  t.terms("room");
  for (const { fact } of said) if (fact) t.head(fact);
  const rooms = said.map(({ room }) => room);
  if (about.includes("room protection")) {
    const wired = said.filter(({ room }) => (ROOMS as readonly string[]).includes(room))
      .toSorted((a, b) => Math.min(...a.pieces) - Math.min(...b.pieces));
    const last = wired.at(-1);
    if (last) draft.room = last.room;
    const others = last ? [...new Set(besideLast(wired))].filter((room) => room !== last.room) : [];
    if (others.length > 0) draft.otherRooms = others;
    takeNamedCircuit(t, draft);
    takeBasement(t, draft);
    takeCircuit(t, draft);
  }
  if (!about.includes("location")) return;
  const place = rooms.find((each) => each !== "closet" && (PLACES as readonly string[]).includes(each)) ??
    (rooms.includes("closet") ? "closet" : undefined);
  if (place) draft.place = place;
  else if (rooms.length > 0 || t.has("place:same-building")) draft.place = "other";
}

/** `bedroom, hall and kitchen`: rooms in a row, that stand close before the last one. */
function besideLast(said: ReturnType<typeof roomsSaid>): string[] {
  const rooms: string[] = [];
  for (let i = said.length - 1; i > 0; i--) {
    const gap = Math.min(...said[i]!.pieces) - Math.max(...said[i - 1]!.pieces);
    if (gap < 0 || gap > ROOMS_APART) break;
    rooms.unshift(said[i - 1]!.room);
  }
  return rooms;
}
/** A comma or an `and` stands between them, perhaps an article. */
const ROOMS_APART = 3;

/** `the laundry`, `a kitchen circuit`: circuits that a dwelling's load knows, and rooms here. */
function takeNamedCircuit(t: Taker, draft: Draft): void {
  for (const [id, room] of [["laundry", "laundry area"], ["small-appliance", "kitchen"]] as const) {
    const facts = t.all("circuit", id);
    for (const fact of facts) t.head(fact);
    if (facts.length > 0 || t.said(`circuit:${id}`)) draft.room ??= room;
  }
}

/** Basements by their finish, and spaces that are named like rooms. */
function takeBasement(t: Taker, draft: Draft): void {
  const finished = t.terms("finish");
  const spaces = [...t.terms("space"), ...t.all("space").map((fact) => (t.head(fact), fact.id))];
  if (spaces.includes("crawl-space")) draft.room ??= "crawl space";
  if (!spaces.includes("basement") && !spaces.includes("unfinished-space")) return;
  if (finished.includes("unfinished")) draft.room = "unfinished basement";
  else if (finished.includes("finished")) draft.room = "finished basement";
  else {
    const ask = "Is that part of the basement finished as a room, or unfinished?";
    t.ask({ field: "room", ask, example: "unfinished basement" });
  }
}

function takeCircuit(t: Taker, draft: Draft): void {
  for (const fact of t.all("circuit")) {
    t.head(fact);
    const rating = t.figure(fact, "rating", "A");
    if (rating) draft.circuit = rating;
  }
  for (const fact of t.all("device")) {
    t.head(fact);
    const rating = t.number(fact, "rating");
    if (rating !== undefined) draft.circuit = { value: rating, unit: "A" };
  }
  for (const load of t.all("load")) {
    t.head(load);
    const volts = t.figure(load, "volts", "V");
    if (volts) draft.volts = volts;
    const current = t.figure(load, "current", "A");
    if (current) draft.circuit ??= current;
  }
  const volts = t.loose("V");
  if (volts) draft.volts ??= volts;
}

/** `two neutrals and a ground under one screw`. */
export function takeTerminals(t: Taker, draft: Draft): void {
  const count = (id: string): number | undefined => {
    const facts = t.all("conductor", id);
    const numbers = facts.map((fact) => t.number(fact, "count"));
    const known = numbers.filter((n) => n !== undefined);
    return known.length > 0 ? Math.max(...known) : facts.length > 0 && isPutUp(t) ? 1 : undefined;
  };
  const [neutrals, grounds] = [count("neutral"), count("equipment-ground")];
  if (neutrals !== undefined) draft.neutrals = neutrals;
  if (grounds !== undefined) draft.grounds = grounds;
}

/** Both named beside one terminal: they share it. */
const isPutUp = (t: Taker): boolean =>
  t.all("conductor", "neutral").length > 0 && t.all("conductor", "equipment-ground").length > 0;
