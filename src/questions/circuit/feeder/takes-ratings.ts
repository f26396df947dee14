/** Which of several amperages is which: breaker, panel at the far end, main or service it starts from, feeder tapped. */
import type { Draft, Fact, Said } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";

type Rating = { fact: Fact; slot: "rating" | "current"; amperes: number; end?: string };
const ratingsOf = (facts: readonly Fact[]): Rating[] =>
  facts.flatMap((fact) =>
    (["rating", "current"] as const).flatMap((slot): Rating[] => {
      const sense = fact.slots[slot]?.[0]?.sense;
      const amperes = sense?.is === "quantity" && sense.unit === "A"
        ? sense.n
        : sense?.is === "number"
        ? sense.n
        : undefined;
      const end = fact.slots.end?.[0]?.sense;
      return amperes === undefined ? [] : [{ fact, slot, amperes, ...(end?.is === "term" && { end: end.id }) }];
    })
  );

/** Gives every amperage its place: breaker, panel at the far end, main or service it starts from, feeder tapped. */
export function takeRatings(t: Taker, draft: Draft): void {
  const put = (field: string, { fact, slot, amperes }: Rating): void => {
    if (draft[field] !== undefined) return;
    t.head(fact);
    t.slot(fact, slot);
    t.slot(fact, "poles");
    t.term(fact, "end");
    draft[field] = { value: amperes, unit: "A" };
  };
  const isTap = t.said("label:tap") || t.has("tap");
  const panels = ratingsOf(t.all("device", "subpanel", "panel"));
  const mains = ratingsOf(t.all("device", "main", "disconnect"));
  const services = ratingsOf(t.all("device", "service"));
  const breakers = ratingsOf(t.all("device", "breaker", "fuse", "dual-element-fuse"));
  // One that was a load is no rating.
  const isTimed = t.facts.free.some(({ key }) => key.startsWith("hours:"));
  const isLoad = ({ amperes }: Rating): boolean =>
    isTimed && [draft.load, draft.continuous].some((said) => Number((said as Said | undefined)?.value) === amperes);
  const circuits = ratingsOf(t.all("circuit", "feeder", "circuit")).filter((each) => !isLoad(each));
  const loose = ratingsOf(t.all("load").filter(({ id, slots }) => id === undefined && !slots.hours));
  const all = [...panels, ...mains, ...services, ...breakers, ...circuits, ...loose];
  const isSource = (each: Rating) => each.end === "from" || each.end === "there";
  const start = isTap ? "tappedFrom" : "source";
  // `the house has a 200 and he wants 125 out there`
  const isThere = ({ end }: Rating) => end === "there" && breakers.some((other) => other.end === "wanted");
  for (const each of breakers.filter(isThere)) put(start, each);
  for (const each of breakers.filter((one) => !isThere(one))) {
    put(isTap && each.end === "from" ? start : "breaker", each);
  }
  for (const each of circuits) {
    // `a barn on a 70, he has a 40 A circuit there`: the feeder goes by its own device.
    const own = Number((draft.breaker as Said | undefined)?.value ?? 0);
    if (each.fact.id === "circuit" && each.amperes < own) {
      t.head(each.fact);
      for (const value of each.fact.slots.rating!) {
        t.aside(value, "a circuit that is fed; the feeder goes by its own device");
      }
      continue;
    }
    // Ratings of devices are round figures: a feeder of 187 A is spoken of by its load.
    if (each.amperes % 5 !== 0 && draft.load === undefined) put("load", each);
    else put(isTap && (isSource(each) || all.length > 1) ? start : "breaker", each);
  }
  for (const each of panels.filter(({ fact }) => fact.id === "subpanel")) put("panel", each);
  // `from the 100 A panel, a load of 9 A`: with a load told the panel it comes from is not the one it goes to.
  const isLoadTold = draft.load !== undefined || draft.continuous !== undefined;
  for (const each of panels.filter(({ fact }) => fact.id === "panel")) {
    const isStart = isSource(each) && (all.length > 1 || isLoadTold) || all.length > 1 && draft.panel && !isTap;
    put(isStart ? start : "panel", each);
  }
  // `200 A meter main outside, SER to the panel inside`: the first disconnect, and from there a feeder.
  const isAhead = ({ fact }: Rating) =>
    fact.others?.includes("panelKind:meter-main") && t.all("device", "panel", "subpanel").length > 0;
  for (const each of services.filter(isAhead)) {
    put(all.length > 1 ? start : "breaker", each);
    draft.supply ??= "feeder";
    if (t.said("building:dwelling", "place:in-house")) draft.wholeDwelling ??= true;
    t.note("took the meter main as the service disconnect: from there to the panel runs a feeder");
  }
  for (const each of services.filter((one) => !isAhead(one))) {
    const isStart = all.length > 1 && (isSource(each) || draft.panel !== undefined || draft.breaker !== undefined) ||
      t.all("device", "subpanel").length > 0;
    put(isStart ? start : "breaker", each);
    if (!isStart && draft.supply === undefined) draft.supply = "service";
  }
  for (const each of mains) putMain(t, draft, each, put, isTap, isSource(each));
  for (const each of loose) {
    if (all.length > 1 && (isSource(each) || (isTap && !draft.tappedFrom))) put(start, each);
    else if (draft.breaker === undefined && draft.panel === undefined) put("breaker", each);
    else if (draft.load === undefined && draft.continuous === undefined) {
      put("load", each);
      t.note(`took ${each.amperes} A as the load`);
    }
  }
  if (isTap && draft.tappedFrom === undefined) {
    t.ask({
      field: "tappedFrom",
      ask: "What is the rating of the device ahead of the feeder that is tapped?",
      example: "10 ft tap from a 400 A feeder to a 100 A panel",
    });
  }
  if (isTap) t.said("source:busbar");
  // An unrated service beside a rating of its own: `service for a 200 A house`.
  for (const service of t.all("device", "service", "main").filter(({ slots }) => !slots.rating)) {
    t.head(service);
    if (service.id === "service") draft.supply ??= "service";
  }
  const isDwelling = (draft.supply === "service" ? t.said("building:dwelling") : t.has("building:dwelling")) ||
    t.all("building", "apartment").length > 0;
  if (draft.supply === "service" && isDwelling) draft.wholeDwelling ??= true;
  const isWhole = draft.wholeDwelling === true && !draft.where && !draft.supply && !draft.panel;
  if (isWhole) draft.supply = "service";
}

/** A main told without its end may be the one the feeder starts from or the one at its end. */
function putMain(
  t: Taker,
  draft: Draft,
  main: Rating,
  put: (field: string, rating: Rating) => void,
  isTap: boolean,
  isSource: boolean,
): void {
  const amperes = (field: string): number => Number((draft[field] as Said | undefined)?.value ?? NaN);
  // `from a 150 A disconnect`: it protects what starts from it.
  const isOwn = main.fact.id === "disconnect" && Number.isNaN(amperes("breaker"));
  if (isTap || isOwn) put("breaker", main);
  else if (isSource || amperes("panel") < main.amperes) put("source", main);
  else if (Number.isNaN(amperes("breaker"))) put(draft.panel ? "source" : "breaker", main);
  else {
    put("panel", main);
    t.ask({
      field: "source",
      ask: `Is the ${main.amperes} A main in the panel that the feeder starts from, or at its far end?`,
      example: `from a ${main.amperes} A main panel`,
    });
  }
}
