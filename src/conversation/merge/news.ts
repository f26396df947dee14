/** What a text says, read as of the topic under way: a reply to what was asked, or words that mean another thing there. */
import type { Need } from "../../core/outcome.ts";
import type { Fact, Facts, Free, Value } from "../../reading/facts.ts";
import type { ReadText } from "../../reading/read.ts";
import { withoutPointers } from "../counts.ts";
import { is, type Manner } from "../../reading/manner.ts";
import { asReply, unitOf } from "../reply.ts";
import { classOf, goal, isLine, isNominal, LENGTH, numbered } from "./facts.ts";

type Known = { readonly kind: string; readonly manner: Manner; readonly needs?: readonly Need[] };

/** The facts of a text, one step after the other. */
export function newsOf(text: ReadText, known: Known, earlier: Facts): Facts {
  const { kind, needs } = known;
  const isTogether = earlier.free.some(({ key }) => key === "conductors-together");
  const isSized = !is(known, "conductors") && earlier.facts.some((fact) => isLine(fact) && fact.slots.size);
  const steps: readonly ((news: Facts) => Facts)[] = [
    (news) => withoutOpening(news, text),
    (news) => ofTopic(news, known),
    (news) => asReply(news, needs, earlier),
    (news) => needs?.length ? news : ofNoLoad(news, earlier),
    (news) => ofAppliances(news, earlier, text),
    (news) => ofRun(news, earlier, text),
    (news) => ofBuilding(news, known, text),
    (news) => ofFloor(news, known, earlier),
    (news) => groundOfService(news, known),
    (news) => ofMotor(news, kind),
    (news) => ofFault(news, kind),
    (news) => ofTheSize(news, known, text),
    (news) => ofBundle(news, isSized, isTogether, isOnly(text)),
    (news) => sameSize(news, text),
    (news) => asPutUp(news, text),
    (news) => toldTwice(news),
    (news) => withoutPointers(news, text),
  ];
  return steps.reduce((news, step) => step(news), text.facts);
}

/** `any room for a #6`, of a list: whether one more of them fits. */
const asAdded = (news: Facts, known: Known): Facts =>
  !is(known, "conductors") ? news : {
    ...news,
    free: news.free.map((each) => each.key === "goal:add-load" ? { ...each, key: "change:add" } : each),
  };
/** What is added to a question that is not about adding is one more of what it is about; `40 duplexes` of an office are outlets. */
const ofTopic = (news: Facts, known: Known): Facts =>
  known.kind === "added-load" || known.kind === "" ? news : {
    ...asAdded(news, known),
    facts: news.facts.map((fact): Fact =>
      is(known, "outlets") && fact.id === "two-family"
        ? { ...fact, family: "load", id: "receptacles" }
        : fact.others?.includes("added")
        ? { ...fact, others: fact.others.filter((each) => each !== "added") }
        : fact
    ),
  };
/** `i think 60 amps is plenty. make it 60`: what is decided, told twice, and nothing put up for checking. */
function toldTwice(news: Facts): Facts {
  const numbers = news.free.flatMap(({ key, value: { sense } }) =>
    key === "number" && sense.is === "number" ? [sense.n] : []
  );
  const isDecided = news.free.some(({ key }) => key === "change:make" || key === "change:decide");
  const again = news.facts.find(({ family, others, slots }) => {
    const sense = (slots.rating ?? slots.current)?.[0]?.sense;
    return (family === "device" && others?.includes("implied") || family === "load") && sense?.is === "quantity" &&
      Object.keys(slots).length === 1 && numbers.includes(sense.n);
  });
  if (!isDecided || !again) return news;
  const pieces = Object.values(again.slots).flat().flatMap((value) => value.pieces);
  return {
    facts: news.facts.filter((fact) => fact !== again),
    free: news.free.filter(({ key }) => key !== "goal:check").map((each) =>
      each.key === "number" ? { ...each, value: { ...each.value, pieces: [...each.value.pieces, ...pieces] } } : each
    ),
  };
}
/** `6/3 then?`: a wire or a device that is all of a question is put up for checking. */
function asPutUp(news: Facts, { tokens }: ReadText): Facts {
  const isPlan = news.facts.length === 1 && news.free.every(({ key }) => key.startsWith("change:")) &&
    news.facts.every(({ family, slots }) =>
      family === "conductor" && slots.size || family === "device" && slots.rating
    );
  return isPlan && tokens.at(-1)?.text === "?" ? { ...news, free: [...news.free, goal("check")] } : news;
}
/** `same size but copper` asks for no size: the one that is known stays. */
function sameSize(news: Facts, { pieces, tokens }: ReadText): Facts {
  const isSameSize = ({ key, value }: Free) =>
    key === "goal:size" && tokens[(pieces[value.pieces[0] ?? -1]?.from ?? 0) - 1]?.text === "same";
  return { ...news, free: news.free.filter((each) => !isSameSize(each)) };
}
/** `whats the drop at 60`, of a circuit of which no length is known: so many feet. */
function ofRun(news: Facts, { facts, free }: Facts, { pieces, tokens }: ReadText): Facts {
  const isOfDrop = news.free.some(({ key }) => key === "label:drop" || key === "goal:drop");
  const isKnown = free.some(({ key }) => classOf(key) === LENGTH) || facts.some(({ slots }) => slots.length);
  const number = news.free.find(({ key, value }) => {
    const before = tokens[(pieces[value.pieces[0] ?? -1]?.from ?? 0) - 1]?.text ?? "";
    return key === "number" && value.sense.is === "number" && !isNominal(value.sense.n) && AT.has(before);
  });
  if (!isOfDrop || isKnown || !number || news.facts.length > 0 || number.value.sense.is !== "number") return news;
  const { n } = number.value.sense;
  const note = `took ${number.value.said.trim()} as the feet of the run`;
  const length: Free = {
    ...number,
    key: "ft",
    value: { ...number.value, sense: { is: "quantity", n, unit: "ft" }, note },
  };
  return { ...news, free: news.free.map((each) => each === number ? length : each) };
}
const AT: ReadonlySet<string> = new Set(["at", "over", "for", "of"]);
/** Labels of a load's plate that another thing's plate has as well. */
const OF_PLATES: ReadonlySet<string> = new Set(["nameplate", "rated-load-current", "rating"]);
/** `nameplate says 4.2`, where no load is known: the label is of what is known, and the number a figure of that. */
function ofNoLoad(news: Facts, { facts: known }: Facts): Facts {
  const isPlate = ({ family, id, slots }: Fact) =>
    family === "load" && id === undefined && Object.keys(slots).length === 1 && OF_PLATES.has(Object.keys(slots)[0]!) &&
    Object.values(slots)[0]![0]!.sense.is === "number";
  if (known.length === 0 || known.some(({ family }) => family === "load")) return news;
  const numbers = news.facts.filter(isPlate).map(({ slots, sentence }): Free => ({
    key: "number",
    value: Object.values(slots)[0]![0]!,
    sentence,
  }));
  return { facts: news.facts.filter((fact) => !isPlate(fact)), free: [...news.free, ...numbers] };
}
/** `6 in a pipe`, of a wire whose size is known: so many together. */
function ofBundle(news: Facts, isSized: boolean, isKnown: boolean, isOnly: boolean): Facts {
  // `only 6 of em in there`, `only 6`, where so many together are known.
  const isOfThem = isKnown && (news.free.some(({ key }) => key === "count") || isOnly);
  // `1/0 aluminum then, nine of em in the pipe`: the wire is told as well.
  const areWires = news.facts.every((fact) => isLine(fact) && !fact.slots.count);
  const isTogether = isSized && areWires &&
    (isOfThem || news.free.some(({ key }) => key === "place:bundle"));
  if (!isTogether) return isKnown ? ofWires(news) : news;
  const [number, ...others] = news.free.filter(({ key }) => key === "number" || key === "count");
  const { n } = number?.value.sense as { n: number } ?? {};
  if (!number || others.length > 0 || !Number.isInteger(n) || n < 2) return news;
  const together: Free = { ...number, key: "conductors-together", value: numbered(number.value, n) };
  return { ...news, free: news.free.map((each) => each === number ? together : each) };
}
/** Words behind `ok` with which it asks for leave. */
const OK_TO = new Set(["to", "for", "if", "on", "with", "using", "when", "in", "?"]);
/** `ok 1000 kva`: an `ok` that only begins what is said checks nothing; a `then` that ends it leads nowhere. */
function withoutOpening(news: Facts, { pieces, tokens }: ReadText): Facts {
  const isOpening = ({ key, value }: Free) =>
    key === "goal:check" && pieces[value.pieces[0] ?? -1]?.from === 0 && ["ok", "okay"].includes(tokens[0]!.text) &&
    tokens.length > 1 && !OK_TO.has(tokens[1]!.text) && !tokens.some(({ text }) => text === "?");
  const words = tokens.filter(({ is }) => is === "word");
  const isClosing = ({ key, value }: Free) =>
    key === "circuit:segment" && tokens[pieces[value.pieces[0] ?? -1]?.from ?? -1] === words.at(-1);
  return { ...news, free: news.free.filter((each) => !isOpening(each) && !isClosing(each)) };
}
/** `4 of the #3s, there's a neutral`: so many wires of that size, whatever they are for. */
function ofTheSize(news: Facts, known: Known, { pieces, tokens }: ReadText): Facts {
  if (!is(known, "conductors")) return news;
  const number = news.free.find(({ key, value }) => {
    const to = pieces[value.pieces.at(-1) ?? -1]?.to ?? -1;
    return key === "number" && tokens[to]?.text === "of" &&
      ["the", "those", "these"].includes(tokens[to + 1]?.text ?? "");
  });
  const [sized, ...others] = news.facts.filter(({ family, slots }) => family === "conductor" && slots.size);
  if (!number || !sized || others.length > 0 || sized.slots.count) return news;
  const { id: _, ...wire } = sized;
  return {
    facts: news.facts.map((each) =>
      each === sized ? { ...wire, slots: { ...sized.slots, count: [number.value] } } : each
    ),
    free: news.free.filter((each) => each !== number),
  };
}
/** `only 6`, `just 4`: a number right behind such a word. */
const isOnly = ({ pieces, tokens }: ReadText): boolean =>
  pieces.some(({ from, senses }) =>
    senses.some(({ is }) => is === "number") && ["only", "just"].includes(tokens[from - 1]?.text ?? "")
  );
/** `and 3 wires`, where so many together are known: another number of them. */
function ofWires(news: Facts): Facts {
  const isCounted = (fact: Fact) => isLine(fact) && fact.slots.count !== undefined && !fact.slots.size;
  const together = news.facts.filter(isCounted).map(({ slots, sentence }): Free => ({
    key: "conductors-together",
    value: slots.count![0]!,
    sentence,
  }));
  const facts = news.facts.map((fact) => {
    const { count: _, ...slots } = fact.slots;
    return isCounted(fact) ? { ...fact, slots } : fact;
  });
  return { facts, free: [...news.free, ...together] };
}
/** `no 208, but two rtus`: a voltage that a comma parts from the load is the supply's. */
function ofBuilding(news: Facts, known: Known, { pieces }: ReadText): Facts {
  if (!is(known, "one supply")) return news;
  const isParted = (fact: Fact, { pieces: [at] }: Value) => {
    const own = fact.pieces[0];
    if (at === undefined || own === undefined) return false;
    return pieces.slice(Math.min(at, own), Math.max(at, own)).some(({ is }) => is === "comma" || is === "border");
  };
  const free: Free[] = [];
  const facts = news.facts.map((fact) => {
    const [volts] = fact.slots.volts ?? [];
    if (fact.family !== "load" || !volts || volts.sense.is === "system" || !isParted(fact, volts)) return fact;
    const { volts: _, ...slots } = fact.slots;
    const n = "n" in volts.sense ? volts.sense.n as number : NaN;
    free.push({ key: "V", value: { ...volts, sense: { is: "quantity", n, unit: "V" } }, sentence: fact.sentence });
    return { ...fact, slots };
  });
  return { facts, free: [...news.free, ...free] };
}
/** `8000 ft`, of a load whose floor area is known and told of like size: square feet. */
function ofFloor(news: Facts, known: Known, { facts, free }: Facts): Facts {
  const areas = [
    ...free.filter(({ key }) => key === "ft2").map(({ value }) => value),
    ...facts.flatMap(({ slots }) => slots.area ?? []),
  ];
  const [length, ...others] = news.free.filter(({ key }) => key === "ft");
  const n = length && "n" in length.value.sense ? length.value.sense.n : NaN;
  const isLike = areas.some(({ sense }) => "n" in sense && n / sense.n < LIKE_FLOOR && sense.n / n < LIKE_FLOOR);
  const isFloor = is(known, "service") && length && others.length === 0 && n >= LEAST_FLOOR && isLike &&
    !free.some(({ key }) => classOf(key) === LENGTH);
  if (!isFloor) return news;
  const note = `took ${length.value.said.trim()} as square feet, like the floor area before`;
  const area: Free = {
    ...length,
    key: "ft2",
    value: { ...length.value, note, sense: { is: "quantity", n, unit: "ft2" } },
  };
  return { ...news, free: news.free.map((each) => each === length ? area : each) };
}
/** A floor is of so many square feet, and another one told for it of so many times as much at most. */
const [LEAST_FLOOR, LIKE_FLOOR] = [300, 4];
/** `forgot the microwave, 1800`, `and an ac at 3600`: a number beside what it names is its power, where powers were told. */
function ofAppliances(news: Facts, earlier: Facts, { pieces }: ReadText): Facts {
  const units = earlier.facts.filter(({ family }) => family === "load").map(({ slots }) => unitOf(slots.rating?.[0]));
  const unit = units.some((each) => each === "VA" || each === "kVA") ? "VA" : "W";
  if (!units.some((each) => each !== undefined && POWERS.has(each))) return news;
  const taken = new Set<Free>();
  const facts = news.facts.map((fact): Fact => {
    const { rating, current, fuel } = fact.slots;
    if (fact.family !== "load" || fact.id === undefined || fact.pieces.length === 0 || rating || current || fuel) {
      return fact;
    }
    const behind = Math.max(...fact.pieces);
    const number = news.free.find(({ key, value: { sense, pieces: [at] } }) =>
      key === "number" && sense.is === "number" && sense.n >= LEAST_POWER && !isNominal(sense.n) && at !== undefined &&
      at > behind && at - behind <= BESIDE &&
      pieces.slice(behind + 1, at).every(({ is }) => is === "common" || is === "comma")
    );
    if (!number) return fact;
    taken.add(number);
    const n = (number.value.sense as { n: number }).n;
    const note = `took "${number.value.said}" as ${n} ${unit}, like the others`;
    const value: Value = { ...number.value, sense: { is: "quantity", n, unit }, note };
    return { ...fact, slots: { ...fact.slots, rating: [value] } };
  });
  return taken.size === 0 ? news : { facts, free: news.free.filter((each) => !taken.has(each)) };
}
const POWERS: ReadonlySet<string> = new Set(["W", "kW", "VA", "kVA"]);
/** A bare number from here on is a power rather than a count; it stands so many pieces behind its name at most. */
const [LEAST_POWER, BESIDE] = [300, 3];

/** `10k breakers ok?`, of a fault current: thousands of amperes that they interrupt, and no power. */
function ofFault(news: Facts, kind: string): Facts {
  if (kind !== "fault-current") return news;
  const isThousands = ({ family, id, slots: { rating } }: Fact) =>
    family === "load" && id === undefined && unitOf(rating?.[0]) === "kW" && /\dk$/i.test(rating![0]!.said.trim());
  const ratings = news.facts.filter(isThousands).map(({ slots, sentence }): Free => {
    const value = slots.rating![0]!;
    const n = value.sense.is === "quantity" ? value.sense.n : NaN;
    return { key: "interrupting-rating", value: { ...value, sense: { is: "quantity", n, unit: "kA" } }, sentence };
  });
  return { facts: news.facts.filter((fact) => !isThousands(fact)), free: [...news.free, ...ratings] };
}
/** `heaters, nameplate 15.2 A`: of a motor they are its overload device, and the figures are the motor's. */
function ofMotor(told: Facts, kind: string): Facts {
  if (kind !== "motor-circuit") return told;
  // `won't start on the 90, how far can I go`: how large a device, and no length.
  const isStart = told.free.some(({ key }) => key === "motorWord:hard-starting");
  const news = !isStart ? told : {
    ...told,
    free: told.free.map((each) =>
      each.key === "goal:longest-run" ? { ...each, key: "label:maximum-protection" } : each
    ),
  };
  const overloads = (fact: Fact): Fact[] => {
    if (fact.id !== "space-heater" || fact.slots.rating) return [fact];
    const { slots, ...head } = fact;
    const { id: _, ...motor } = head;
    return [{ ...head, family: "device", id: "overload", slots: {} }, { ...motor, id: "motor", pieces: [], slots }];
  };
  return { ...news, facts: news.facts.flatMap(overloads) };
}
/** `and the ground`, of a service: the conductor to its electrodes, of which the answer tells. */
const groundOfService = (news: Facts, known: Known): Facts =>
  !is(known, "service") ? news : {
    ...news,
    facts: news.facts.map((fact) =>
      fact.family === "conductor" && fact.id === "equipment-ground" && !fact.slots.size &&
        GROUND.has(fact.said.toLowerCase())
        ? { ...fact, id: "grounding-electrode-conductor" }
        : fact
    ),
  };
/** Words that name no more than a ground; an equipment ground is called so. */
const GROUND: ReadonlySet<string> = new Set([
  "ground",
  "grounds",
  "ground wire",
  "grounding",
  "ground size",
  "grounding wire",
]);
