/** Devices, conductors, buildings and other heads that a text names. */
import { is } from "../../reading/manner.ts";
import { HOMES_IN } from "../../loads/homes.ts";
import type { Fact } from "../../reading/facts.ts";
import { OF_OTHER_USES } from "../../reading/families.ts";
import { GROUNDS } from "../../reading/passes/words.ts";
import { countOf, isAsked, isDwellings, isLine } from "./facts.ts";
import { NO_CLAMPS } from "./free.ts";
import type { Merging } from "./state.ts";
import { inList } from "./wires.ts";
import { rewind } from "./windings.ts";

/** `there's a 40 in the panel`, beside a plate: a breaker that sits there, and not what the panel is rated. */
const ofPlate = ({ known }: Merging, fact: Fact): Fact =>
  known.kind === "cooling-circuit" && fact.id === "panel" && fact.slots.rating?.[0]?.sense.is === "number"
    ? { ...fact, id: "breaker" }
    : fact;
/** Of these there may be several on one panel. */
const SOURCES = new Set(["solar", "battery", "inverter"]);
export function otherTold(m: Merging, told: Fact): void {
  const fact = ofPlate(m, told);
  // `there are clamps in it`, after `no clamps`
  if (fact.id === "clamp") m.free = m.free.filter(({ key }) => key !== NO_CLAMPS);
  if (is(m.known, "conductors") && (fact.family === "conductor" || fact.family === "box")) {
    return inList(m, fact);
  }
  // `will a 15 A trip … and on a 20 A breaker`: the device that the figure before was told of.
  const unnamed = m.facts.find(({ family, id, slots }) => family === "load" && id === undefined && slots.current);
  if (m.known.kind === "fault-path" && fact.family === "device" && fact.slots.rating && unnamed) {
    m.facts.splice(m.facts.indexOf(unnamed), 1);
  }
  // `dual element fuses`, where a breaker was asked for: what protects it is another thing.
  const asked = m.facts.find((each) => each.id !== fact.id && isProtecting(each) && isProtecting(fact));
  if (asked && !m.adds && !m.removes) {
    Object.assign(asked, { id: fact.id, said: fact.said, pieces: [...fact.pieces] });
    return;
  }
  // `they used #6`, after an electrode conductor of #4 that was put up: its size, and not the service's.
  const putUp = m.known.kind === "grounding" && isLine(fact) && fact.id === undefined && isSizeAlone(fact)
    ? m.facts.find(({ id, slots }) => GROUNDS.has(id ?? "") && slots.size)
    : undefined;
  if (putUp && !m.adds && !m.removes) return m.fill(putUp, fact.slots);
  const same = m.facts.find((each) =>
    each.family === fact.family &&
    (each.id === fact.id || (isLine(each) && isLine(fact)) || (isDwellings(each) && isDwellings(fact)) ||
      m.known.kind === "added-load" && isService(each) && isService(fact))
  );
  if (same && m.removes) return m.remove(same, fact.pieces);
  const [winding] = fact.slots.windings ?? [];
  const transformer = m.transformer();
  if (winding?.sense.is === "winding" && transformer) {
    return rewind(m, transformer, winding.sense.side, winding.sense.winding, winding);
  }
  if (otherUse(m, fact) || otherHomes(m, fact)) return;
  if (fact.id === "unit" && fact.slots.count && !same && countAgain(m, fact)) return;
  // A branch circuit asked for is no feeder any more.
  if (fact.id === "circuit" && isAsked(fact)) {
    const feeder = m.facts.find((each) => each.id === "feeder" && isAsked(each));
    if (feeder) m.facts.splice(m.facts.indexOf(feeder), 1);
  }
  const comesToo = m.adds &&
    (fact.family === "device" || (fact.family === "transformer" && SOURCES.has(fact.id ?? "")));
  if (!same || comesToo) return m.append(fact);
  m.fill(same, fact.slots);
  // `and two per phase`: so many in parallel.
  const isPerPhase = fact.others?.includes(EACH_PHASE) && !same.others?.includes(EACH_PHASE);
  const others = isPerPhase ? { others: [...same.others ?? [], EACH_PHASE] } : {};
  Object.assign(same, { pieces: [...same.pieces, ...fact.pieces], ...others });
}
const isSizeAlone = ({ slots }: Fact): boolean => Object.keys(slots).join() === "size";
const EACH_PHASE = "circuit:each-phase";
const SERVICES = new Set(["service", "panel", "main"]);
/** What a service is called: it is the same one. */
const isService = ({ family, id }: Fact): boolean => family === "device" && SERVICES.has(id ?? "");
const PROTECTING = new Set([
  "breaker",
  "fuse",
  "dual-element-fuse",
  "nontime-delay-fuse",
  "instantaneous-trip-breaker",
]);
/** A breaker or a fuse by its name alone. */
const isProtecting = ({ family, id, slots }: Fact): boolean =>
  family === "device" && PROTECTING.has(id ?? "") && !slots.rating && !slots.count;
/** `twenty units now`, of appliances that were counted without them: one for each. */
function countAgain(m: Merging, unit: Fact): boolean {
  const counted = m.facts.filter(({ family, slots }) => family === "load" && slots.count);
  if (counted.length !== 1) return false;
  m.remember({ fact: counted[0]!, slot: "count", index: 0 });
  counted[0]!.slots.count = unit.slots.count!;
  for (const piece of unit.pieces) m.used.add(piece);
  return true;
}
/** `and as an office?`, `what if it were a church`: another use of the one building whose floor is known. */
function otherUse(m: Merging, fact: Fact): boolean {
  const isUse = ({ family, id }: Fact) => family === "building" && OF_OTHER_USES.includes(id ?? "");
  const [only, ...others] = m.facts.filter(isUse);
  if (m.known.kind !== "occupancy-load" || m.adds || !isUse(fact) || fact.slots.area) return false;
  // `tenant changed, it's an office now`: the word says only that it is no dwelling.
  const isCommercial = (each: Fact) => each.family === "building" && each.id === "commercial";
  if (isCommercial(fact) && m.text.facts.facts.some((each) => isUse(each) && !isCommercial(each))) {
    for (const piece of fact.pieces) m.used.add(piece);
    return true;
  }
  // `it's a store not an office, dunno why i said office`: what it is said not to be.
  if (isSaidNot(m, fact)) {
    for (const piece of fact.pieces) m.used.add(piece);
    return true;
  }
  const isBeside = (each: Fact) => each === fact || isCommercial(each) || each.id === only?.id && isSaidNot(m, each);
  if (!only || others.length > 0 || only.id === fact.id || !m.text.facts.facts.every(isBeside)) return false;
  Object.assign(only, { id: fact.id, said: fact.said, pieces: [...fact.pieces] });
  return true;
}
const NOT = new Set(["not", "isn't", "isnt", "ain't", "said", "wrote", "no"]);
/** Whether a thing is named as what it is not, or was only said to be. */
function isSaidNot({ text: { tokens, pieces } }: Merging, fact: Fact): boolean {
  let before = (pieces[fact.pieces[0] ?? -1]?.from ?? 0) - 1;
  while (["a", "an", "the", "it", "was"].includes(tokens[before]?.text ?? "")) before--;
  return NOT.has(tokens[before]?.text ?? "");
}
/** `make it a triplex`, after a duplex or three apartments, `make it 6 units` after a duplex: the same building. */
function otherHomes(m: Merging, fact: Fact): boolean {
  const isHomes = ({ id }: Fact) => (id ?? "") in HOMES_IN;
  if (!isHomes(fact) && !isDwellings(fact) || m.adds || m.removes) return false;
  const homes = m.facts.filter((each) => isHomes(each) || isDwellings(each));
  const [only, ...others] = homes;
  if (!only || others.length > 0 || !isHomes(fact) && !isHomes(only)) return false;
  const { count: _, ...slots } = only.slots;
  const were = only.slots.count ? countOf(only) : HOMES_IN[only.id ?? ""];
  if (were !== undefined) m.past.push({ fact: m.facts.indexOf(only), slot: "count", index: 0, n: were });
  Object.assign(only, { id: fact.id, said: fact.said, pieces: [...fact.pieces], slots: { ...slots, ...fact.slots } });
  return true;
}
