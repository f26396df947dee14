/** Lighting, receptacles and what else is counted by numbers and lengths. */
import type { Draft, Fact, Said } from "../../../reading/facts.ts";
import { saidOf, type Taker } from "../../../reading/take.ts";

type Power = Said<"W" | "kW" | "VA" | "kVA">;
const POWER = ["W", "kW", "VA", "kVA"] as const;
const isPower = (said: Said | undefined): said is Power => POWER.includes(said?.unit as never);

/** @param places alike, each of which has what is told of each */
export function takeOutlets(t: Taker, draft: Draft, places: number): void {
  takeLighting(t, draft, "lighting", "lighting");
  takeLighting(t, draft, "outdoor-lighting", "outdoorLighting");
  takeReceptacles(t, draft, places);
  for (const [id, field] of [["show-window", "showWindow"], ["track-lighting", "trackLighting"]] as const) {
    for (const fact of t.all("load", id)) {
      t.head(fact);
      const length = takeOwnLength(t, fact);
      if (length) draft[field] = length;
    }
  }
  for (const fact of t.all("load", "multioutlet-assembly")) {
    t.head(fact);
    const load = t.figure(fact, "rating", ...POWER);
    const length = takeOwnLength(t, fact);
    if (load) draft.multioutletLoad = load;
    if (length) draft.multioutlet = length;
  }
  if (t.said("motorWord:not-used-together")) draft.multioutletTogether = false;
  else if (draft.multioutlet && t.said("motorWord:used-together", "motorWord:at-once", "motorWord:all-at-once")) {
    draft.multioutletTogether = true;
  }
}

/** The length it is counted by: `30 ft of show window`. */
function takeOwnLength(t: Taker, fact: Fact): Said | undefined {
  const own = t.figure(fact, "ownLength", "ft", "m") ?? t.figure(fact, "length", "ft", "m");
  if (!own) return t.loose("ft", "m");
  const count = t.number(fact, "count");
  if (count === undefined || count < 2) return own;
  t.note(`took ${count} of ${own.value} ${own.unit} each`);
  return { ...own, value: Number(own.value) * count };
}

/** Luminaires and lighting that was told; what was not told is counted by the area. */
function takeLighting(t: Taker, draft: Draft, id: string, field: string): void {
  const told: { count?: number; rating: Power }[] = [];
  for (const fact of t.all("load", id)) {
    t.head(fact);
    t.term(fact, "hours");
    const rating = t.figure(fact, "rating", ...POWER);
    const count = t.number(fact, "count");
    const isTotal = t.term(fact, "share") === "total";
    if (rating) told.push({ ...(count !== undefined && count > 1 && !isTotal && { count }), rating: rating as Power });
    else if (count !== undefined && count > 1) {
      t.ask({
        field,
        ask: `What do the ${count} ${fact.said} take, each?`,
        example: `${count} × 40 W ${fact.said}`,
      });
    }
  }
  if (told.length > 0) draft[field] = told;
  if (id !== "lighting") return;
  for (const { sense } of t.free("VA/ft2")) {
    const perArea = saidOf(sense);
    if (perArea && t.all("load", "receptacles").length > 0 && t.all("load", "lighting").length === 0) {
      draft.receptaclesPerArea = perArea;
    } else if (perArea) draft.lightingPerArea = perArea;
  }
}

/** Receptacles by their number, or as a load of all of them. */
function takeReceptacles(t: Taker, draft: Draft, places: number): void {
  let count = 0;
  if (t.said("absent:receptacles")) draft.receptacles = 0;
  for (const fact of t.all("load", "receptacles")) {
    t.head(fact);
    const rating = saidOf(fact.slots.rating?.[0]?.sense);
    const current = fact.slots.current ?? fact.slots.pattern;
    const number = t.number(fact, "count") ?? bareNumber(t, fact);
    const share = t.term(fact, "share");
    if (current) t.aside(current[0]!, "each counts alike, whatever its rating");
    const isOfEach = share === "each" && places > 1 && rating === undefined;
    if (number !== undefined && isOfEach) t.note(`took ${number} receptacles in each of ${places} places`);
    if (number !== undefined) count += isOfEach ? number * places : number;
    if (!isPower(rating)) continue;
    const value = fact.slots.rating![0]!;
    // `80 receptacles at 180 VA each`
    if (number !== undefined && rating.unit.length < 3 && Number(rating.value) < MOST_OF_EACH && rating.unit !== "kW") {
      t.aside(value, "each counts at the load that the rule gives it");
      continue;
    }
    t.use(value, "rating");
    // `dishwasher 8 kW, 28 outlets`: a number and a load of all of them are told together by nobody.
    if (number !== undefined && share !== "total") {
      t.ask({
        field: "receptacleLoad",
        ask: `Is ${rating.value} ${rating.unit} the load of all ${number} receptacles together, or of something else?`,
        example: `receptacles ${rating.value} ${rating.unit} in total`,
      });
    }
    draft.receptacleLoad = rating;
  }
  count += beforeRatings(t);
  if (count > 0) draft.receptacles = count;
}
/** Below this a load beside a number of receptacles is of each of them. */
const MOST_OF_EACH = 1000;

/** `110 receptacles`, `575 receptacles`: a number that could be a voltage, with nothing that says so. */
function bareNumber(t: Taker, { slots, pieces }: Fact): number | undefined {
  const beside = t.facts.free.map(({ value }) => value).filter(({ sense, pieces: [at] }) =>
    sense.is === "number" && at !== undefined && pieces.includes(at + 1)
  );
  const values = slots.volts?.[0]?.sense.is === "number" ? [slots.volts[0]!] : beside;
  for (const value of values) t.use(value, "count");
  return (values[0]?.sense as { n: number } | undefined)?.n;
}

/** `180 15 A and 20 A receptacles`: their number stands with the first of their ratings. */
function beforeRatings(t: Taker): number {
  const facts = t.all("load");
  return facts.reduce((sum, fact, i) => {
    const isBefore = fact.id === undefined && fact.slots.count && fact.slots.current &&
      facts[i + 1]?.id === "receptacles" && facts[i + 1]!.sentence === fact.sentence;
    if (!isBefore) return sum;
    t.head(fact);
    t.aside(fact.slots.current![0]!, "each counts alike, whatever its rating");
    return sum + (t.number(fact, "count") ?? 0);
  }, 0);
}
