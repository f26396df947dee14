/** Heads: the things that a text names, each with what its neighbours make of it. */
import type { Sense } from "../sense.ts";
import { HEADS, type Label, LABELS, NO_HEADS, OF_OTHER_USES } from "../families.ts";
import { absent, gasOfAll } from "./absent.ts";
import { checkedDevices, impliedDevices } from "./devices.ts";
import { fitsLabel } from "./fits.ts";
import { type Draft, type Reading, unhead } from "./reading.ts";
import { impliedServices } from "./services.ts";
import { ARTICLES, COUNTED, MOST_COUNTED } from "./words.ts";

const WINDINGS = new Set(["transformer", "autotransformer"]);
const MOST_ORDINAL = 9;
const TO_ELECTRODE = new Set(["to", "for"]);
const EQUIPMENT = new Set(["equipment", "equipments"]);

// ── heads
export function heads(r: Reading): void {
  // Without a floor area a garage or a basement is a place.
  const hasArea = r.figures((s) => s.is === "quantity" && (s.unit === "ft2" || s.unit === "m2")).length > 0;
  r.pieces.forEach((piece, i) => {
    if (piece.is !== "fact") return;
    const terms = piece.senses.filter((s) => s.is === "term");
    const label = terms.find(({ sort }) => sort === "label");
    // `overload set at 30 A`: the device's own figure.
    if ((label?.id === "draw" || label?.id === "setpoint") && r.sort(i - 1, "device")) return;
    if (label && label.id in LABELS) {
      r.labels.push(r.draft("load", label.id, i, label.id));
      return;
    }
    const head = terms.find(({ sort, id }) =>
      HEADS[sort] && !NO_HEADS.has(`${sort}:${id}`) && (sort !== "space" || hasArea)
    );
    if (!head) return;
    const fact = r.draft(HEADS[head.sort]!, head.id, i);
    fact.others = terms.filter((t) => t !== head).map(({ sort, id }) => `${sort}:${id}`);
    r.facts.push(fact);
  });
  duplexes(r);
  triplexes(r);
  outletsOf(r);
  gfcisOf(r);
  motorsOf(r);
  wiresOf(r);
  wiresToElectrodes(r);
  demandsOf(r);
  circuitsOf(r);
  ordinals(r);
  countsAfterColons(r);
  maximumOf(r);
  loadsOf(r);
  equipmentOfKitchens(r);
  people(r);
  signings(r);
  formerCircuits(r);
  washers(r);
  sidesOfInverters(r);
  absent(r);
  gasOfAll(r);
  if (hasArea) unfinished(r);
  impliedTransformers(r);
  impliedServices(r);
  impliedDevices(r);
  fuses(r);
  kitchenCircuits(r);
  inMalls(r);
  elsewhereInBoxes(r);
  checkedDevices(r);
  r.facts.sort((a, b) => a.at - b.at);
}

/** `40 duplex receps`, `60 duplexes` in an office, `one duplex` in a box: no two-family house. */
function duplexes(r: Reading): void {
  const isOtherUse = r.facts.some(({ family, id }) => family === "building" && OF_OTHER_USES.includes(id ?? ""));
  const isInBox = r.pieces.some(({ senses }) =>
    senses.some((s) => s.is === "box" || s.is === "term" && s.sort === "box")
  );
  for (const fact of r.facts) {
    if (fact.id !== "two-family" || !isOtherUse && !isInBox || !r.isNumber(fact.at - 1)) continue;
    fact.family = "load";
    fact.id = "receptacles";
  }
  for (const fact of [...r.facts]) {
    if (fact.id !== "two-family") continue;
    const outlet = r.facts.find(({ id, at }) => id === "receptacles" && at === Math.max(...fact.pieces) + 1);
    if (!outlet) continue;
    outlet.pieces.unshift(...fact.pieces);
    outlet.at = fact.at;
    r.facts.splice(r.facts.indexOf(fact), 1);
  }
}

const OF_CABLES: ReadonlySet<string> = new Set(["goal", "metal", "role"]);
const OVERHEAD = new Set(["overhead", "underground", "aerial", "urd"]);
/** `200 A triplex size`, `2-2-4 triplex`: no three-family house, but the twisted cable of a service. */
function triplexes(r: Reading): void {
  for (const fact of r.facts.filter(({ id, said }) => id === "three-family" && said.toLowerCase() === "triplex")) {
    const isCable = [-1, 1].some((way) => {
      const piece = r.pieces[fact.at + way];
      return OVERHEAD.has(r.typed(fact.at + way)) ||
        (piece?.senses.some((s) =>
          s.is === "size" || s.is === "sizes" ||
          s.is === "term" && OF_CABLES.has(s.sort) && (s.sort !== "goal" || s.id === "size")
        ) ?? false);
    });
    if (!isCable) continue;
    Object.assign(fact, { family: "conductor", id: "wire", others: ["circuit:service-conductors"] });
    fact.slots.metal = [{
      sense: { is: "term", sort: "metal", id: "aluminum" },
      pieces: [],
      said: "triplex",
      note: "took triplex as aluminum, of which it is made",
    }];
  }
}

/** `welder outlet`, `dryer receptacle`: one outlet, and what it is for. */
function outletsOf(r: Reading): void {
  const loads = r.facts.filter(({ family }) => family === "load");
  for (const outlet of loads.filter(({ id }) => id === "receptacles")) {
    const what = loads.find(({ at }) => at === outlet.at - 1);
    if (!what) continue;
    outlet.others.push(`for:${what.id}`);
    outlet.pieces.unshift(what.at);
    r.facts.splice(r.facts.indexOf(what), 1);
  }
}

/** `GFCI receptacle`: one device. */
function gfcisOf(r: Reading): void {
  for (const gfci of r.facts.filter(({ id }) => id === "gfci")) {
    const what = r.facts.find(({ at, id }) => at === gfci.at + 1 && (id === "receptacles" || id === "switch"));
    if (!what) continue;
    what.pieces.unshift(...gfci.pieces);
    r.facts.splice(r.facts.indexOf(gfci), 1);
  }
}

/** `hoist motor`, `pool pump motor`: one motor, and what it drives. */
function motorsOf(r: Reading): void {
  for (const motor of r.facts.filter(({ id }) => id === "motor")) {
    const what = r.facts.find(({ family, at }) => family === "load" && at === motor.at - 1);
    if (!what || what.id === "motor") continue;
    what.at = motor.at;
    what.pieces.push(motor.at);
    what.said = r.said(what.pieces);
    r.facts.splice(r.facts.indexOf(motor), 1);
  }
}

/** `range demand: two ranges …`: a goal named by loads that are told elsewhere, and none of them. */
function demandsOf(r: Reading): void {
  for (const named of r.facts.filter(({ family }) => family === "load")) {
    const isOfGoal = r.pieces[named.at + 1]?.senses.some((s) =>
      s.is === "term" && s.sort === "goal" && s.id === "load"
    );
    const told = isOfGoal &&
      r.facts.find((other) => other !== named && other.family === "load" && other.id === named.id);
    if (!told) continue;
    told.pieces.push(...named.pieces);
    r.facts.splice(r.facts.indexOf(named), 1);
  }
}

/** `equipment ground wire`, `neutral conductor`: one conductor, by what it is for. */
function wiresOf(r: Reading): void {
  for (const wire of r.facts.filter(({ family, id }) => family === "conductor" && id === "wire")) {
    const role = r.facts.find(({ family, id, at }) => family === "conductor" && id !== "wire" && at === wire.at - 1);
    if (!role) continue;
    role.pieces.push(...wire.pieces);
    r.facts.splice(r.facts.indexOf(wire), 1);
  }
}

/** `ground rod wire`, `wire size for the rods`, `conductor to the water pipe`: the wire is the one to its electrode. */
function wiresToElectrodes(r: Reading): void {
  const isElectrode = (i: number) =>
    r.pieces[i]?.senses.some((s) => s.is === "term" && s.sort === "electrode" && s.id !== "earth") ?? false;
  const isWire = ({ family, id, said }: Draft) =>
    family === "conductor" && (id === "wire" || id === "equipment-ground" && GROUND.test(said));
  for (const wire of r.facts.filter(isWire)) {
    let at = wire.at + 1;
    const isLed = TO_ELECTRODE.has(r.word(at));
    while (isLed && (TO_ELECTRODE.has(r.word(at)) || ARTICLES.has(r.word(at)))) at++;
    if (isElectrode(wire.at - 1) || (isLed && isElectrode(at))) wire.id = "grounding-electrode-conductor";
  }
}

/** `2 kitchen circuits`, `kitchen 2 circuits and a laundry`: of a home, those for small appliances. */
function kitchenCircuits(r: Reading): void {
  const isHome = r.facts.some(({ id }) => id === "laundry") && r.pieces.some(({ senses }) => senses.some(isFloor));
  const isKitchen = (i: number) => r.isTerm(i, "room", "kitchen");
  for (const fact of r.facts) {
    if (fact.id !== "circuit" || !isHome || !/s$/i.test(fact.said)) continue;
    const at = isKitchen(fact.at - 1)
      ? fact.at - 1
      : r.isNumber(fact.at - 1) && isKitchen(fact.at - 2)
      ? fact.at - 2
      : -1;
    if (at < 0) continue;
    fact.id = "small-appliance";
    fact.pieces.push(at);
    r.used.add(at);
  }
}
const isFloor = (s: Sense): boolean => s.is === "quantity" && (s.unit === "ft2" || s.unit === "m2");
/** `hair salon in a strip mall`: of two uses the second says where the first one is. */
function inMalls(r: Reading): void {
  const isUse = ({ family, id }: Draft) => family === "building" && OF_OTHER_USES.includes(id ?? "");
  for (const mall of r.facts.filter((fact) => isUse(fact) && /mall|plaza|center/i.test(fact.said))) {
    const isPlace = ["in", "inside", "at"].includes(r.typed(mall.at - 2)) && r.isArticle(mall.at - 1);
    const isTold = r.facts.some((fact) => fact !== mall && isUse(fact) && fact.at < mall.at);
    if (!isPlace || !isTold) continue;
    r.facts.splice(r.facts.indexOf(mall), 1);
    r.free.push({
      key: "aside",
      value: r.value({ is: "aside", because: "where it is" }, ...mall.pieces),
      sentence: mall.sentence,
    });
  }
}
/** `14/3 out to the other 3-way`: where a cable goes is no device of this box. */
function elsewhereInBoxes(r: Reading): void {
  const isElsewhere = ({ family, at }: Draft) =>
    family === "box" && ["other", "next"].includes(r.typed(at - 1)) && r.typed(at - 2) === "the" &&
    r.typed(at - 3) === "to";
  for (const fact of r.facts.filter(isElsewhere)) r.facts.splice(r.facts.indexOf(fact), 1);
}
/** `fuses, dual element`: the word for all of them beside the name of one sort. */
function fuses(r: Reading): void {
  const kind = r.facts.find(({ id }) => id === "dual-element-fuse" || id === "nontime-delay-fuse");
  const plain = r.facts.find(({ id, sentence }) => id === "fuse" && sentence === kind?.sentence);
  if (!kind || !plain || Math.abs(kind.at - plain.at) > 2) return;
  kind.pieces.push(...plain.pieces);
  r.facts.splice(r.facts.indexOf(plain), 1);
}
/** A ground by no more than that word: led to an electrode it is the conductor to it. */
const GROUND = /^ground(?:ing)?(?: wire)?$/i;
/** `six 400 W lights … on one lighting circuit`: a circuit is named by loads that were told before, and adds none. */
function circuitsOf(r: Reading): void {
  for (const load of r.facts.filter(({ family, at }) => family === "load" && r.isCircuit(at + 1))) {
    const isTold = r.facts.some((other) => other.family === "load" && other.id === load.id && other.at < load.at);
    const circuit = r.facts.find(({ at, family }) => family === "circuit" && at === load.at + 1);
    if (!circuit) continue;
    // `four 20 A lighting circuits`: what stands before the name is the circuits' own.
    if (!isTold && r.isAmperes(load.at - 1)) [load.at, circuit.at] = [circuit.at, load.at];
    if (!isTold) continue;
    circuit.pieces.unshift(...load.pieces);
    r.facts.splice(r.facts.indexOf(load), 1);
  }
}

/** `dryers: 2, 5.5 kW each`, `laundry: 1`: how many there are, behind a colon and of nothing else. */
function countsAfterColons(r: Reading): void {
  for (const fact of r.facts) {
    const [colon, at] = [fact.at + 1, fact.at + 2];
    const [sense] = r.pieces[at]?.senses ?? [];
    const isColon = r.pieces[colon]?.is === "mark" && r.tokens[r.pieces[colon]!.from]!.text === ":";
    if (!isColon || sense?.is !== "number" || !Number.isInteger(sense.n) || sense.n < 1 || sense.n > MOST_COUNTED) {
      continue;
    }
    const after = r.pieces[at + 1];
    const isAlone = after === undefined || after.is === "comma" || after.is === "border";
    const isMany = /s$/i.test(fact.said) && after?.is === "comma" &&
      r.isFigure(Math.min(at + 2, r.pieces.length - 1));
    const isOfCircuits = fact.family === "circuit" && isAlone;
    if ((fact.family === "load" && isMany) || isOfCircuits) {
      fact.slots.count = [r.value({ is: "count", n: sense.n }, at)];
    }
  }
}

/** `compressor 1 RLA 30`, `motor #2: 5 hp`: which one it is, and no figure of it. */
function ordinals(r: Reading): void {
  // `ckt1 MCA 52`: which circuit it is.
  for (const circuit of r.facts.filter(({ family, id }) => family === "circuit" && id === "circuit")) {
    const at = circuit.at + 1;
    const [sense] = r.pieces[at]?.senses ?? [];
    const isTouching = r.pieces[at] !== undefined && r.tokens[r.pieces[at]!.from]!.glued;
    if (sense?.is !== "number" || !Number.isInteger(sense.n) || sense.n > MOST_ORDINAL) continue;
    if (!isTouching && !r.sort(at + 1, "label")) continue;
    circuit.pieces.push(at);
    r.used.add(at);
  }
  for (const fact of r.facts) {
    const at = fact.at + 1;
    const [sense] = r.pieces[at]?.senses ?? [];
    if (fact.family !== "load" || /s$/i.test(fact.said) || !sense) continue;
    const isMarked = sense.is === "size" && !sense.bare && r.tokens[r.pieces[at]!.from]!.text === "#";
    const n = sense.is === "number" ? sense.n : isMarked ? Number(sense.size) : NaN;
    if (!Number.isInteger(n) || n < 1 || n > MOST_ORDINAL) continue;
    const after = r.pieces[at + 1];
    // `dryer 6 - oven 4` numbers no dryer: what is numbered is followed by its figure.
    const told = Math.min(at + 2, r.pieces.length - 1);
    const isColon = after?.is === "mark" && [":", "-", "="].includes(r.tokens[after.from]!.text) &&
      (r.isFigure(told) || r.sort(told, "label"));
    // `pump 1 is 20 hp, pump 2 is 15`
    const isTold = COUNTED.has(r.word(at + 1)) || ["is", "has"].includes(r.word(at + 1));
    const isLabelled = r.sort(at + 1, "label") && r.isFigure(Math.min(at + 2, r.pieces.length - 1));
    if (
      !isColon && !isLabelled && !(isTold && r.isFigure(told)) &&
      !(isMarked && r.isFigure(Math.min(at + 1, r.pieces.length - 1)))
    ) {
      continue;
    }
    fact.pieces.push(at);
    r.used.add(at);
  }
}

/** `MCA 27 max 45`: beside a marked ampacity the bare maximum is the device's. */
function maximumOf(r: Reading): void {
  if (!r.labels.some(({ id }) => id === "minimum-circuit-ampacity")) return;
  if (
    r.labels.some(({ id }) =>
      (LABELS[id as never] as Label).slot === "maximum-protection" || id === "maximum-protection"
    )
  ) {
    return;
  }
  r.pieces.forEach((_, i) => {
    if (!["max", "maximum"].includes(r.word(i)) || !r.isFigure(i + 1 < r.pieces.length ? i + 1 : i)) {
      return;
    }
    const sense = r.pieces[i + 1]?.senses.find((s) => fitsLabel(s, LABELS["maximum-protection"]!));
    if (!sense) return;
    const label = r.draft("load", "maximum-protection", i, "maximum-protection");
    r.labels.push(label);
    r.labels.sort((a, b) => a.at - b.at);
  });
}

/** `dryer load`, `range loads`: the load of that appliance. */
function loadsOf(r: Reading): void {
  for (const load of r.facts.filter(({ family, id }) => family === "load" && id === "load")) {
    const what = r.facts.find(({ family, at, id }) => family === "load" && at === load.at - 1 && id !== "load");
    if (!what) continue;
    what.others.push("load:load");
    r.free.push({
      key: "goal:load",
      value: { sense: { is: "term", sort: "goal", id: "load" }, pieces: [load.at], said: load.said },
      sentence: load.sentence,
    });
    what.pieces.push(load.at);
    r.facts.splice(r.facts.indexOf(load), 1);
  }
}

/** `restaurant, 6 pieces of equipment`: in a kitchen equipment is the kitchen's. */
function equipmentOfKitchens(r: Reading): void {
  if (!r.facts.some(({ family, id }) => family === "building" && id === "restaurant")) return;
  for (const load of r.facts) {
    if (load.family === "load" && load.id === "load" && EQUIPMENT.has(load.said.toLowerCase())) {
      load.id = "kitchen-equipment";
    }
  }
}

/** `no washers in the units`: nothing that a laundry circuit would be for. */
function washers(r: Reading): void {
  r.pieces.forEach((_, i) => {
    if (!/^washers?$/.test(r.typed(i)) || !["no", "without"].includes(r.typed(i - 1))) return;
    const value = r.value({ is: "term", sort: "circuit", id: "laundry" }, i - 1, i);
    r.free.push({ key: "absent:laundry", value, sentence: r.sentences[i]! });
  });
}

/** `can I use the old dryer circuit for the charger`: what a circuit was for, and is no more. */
function formerCircuits(r: Reading): void {
  for (const fact of [...r.facts]) {
    const behind = Math.max(...fact.pieces) + 1;
    const isFormer = fact.family === "load" && r.isCircuit(behind) && FORMER.has(r.typed(fact.at - 1));
    const isBeside = r.facts.some(({ family, id }) => family === "load" && id !== undefined && id !== fact.id);
    if (!isFormer || !isBeside) continue;
    for (const same of r.facts.filter(({ family, id }) => family === "load" && id === fact.id)) {
      unhead(r, same, "replaced");
    }
  }
}
const FORMER = new Set(["old", "former", "existing", "unused", "abandoned", "previous", "spare"]);

/** `before he'll sign off`: what an inspector does, and none that is lit. */
function signings(r: Reading): void {
  for (const fact of [...r.facts]) {
    const isVerb = r.typed(fact.at + 1) === "off" || SIGNING.has(r.typed(fact.at - 1));
    if (fact.id !== "sign" || fact.said.toLowerCase() !== "sign" || !isVerb) continue;
    unhead(r, fact, "person");
  }
}
const SIGNING = new Set(["will", "he'll", "she'll", "they'll", "i'll", "would", "can", "won't", "not", "must", "me"]);

/** `PV 8 kW AC`: on which side of the inverter it is told, and no air conditioner. */
function sidesOfInverters(r: Reading): void {
  const isSource = r.facts.some(({ family, id }) => family === "transformer" && FROM_THE_SUN.has(id ?? ""));
  for (const fact of isSource ? [...r.facts] : []) {
    const isPower = r.pieces[fact.at - 1]?.senses.some((s) =>
      s.is === "quantity" && ["W", "kW", "kVA", "VA"].includes(s.unit)
    );
    const isSide = isPower || SIDES.has(r.typed(fact.at + 1));
    if (fact.id !== "air-conditioner" || fact.said.toLowerCase() !== "ac" || !isSide) continue;
    unhead(r, fact, "inverter-side");
  }
}
const SIDES = new Set(["combiner", "disconnect", "side", "output", "coupled", "coupling", "panel"]);
const FROM_THE_SUN = new Set(["solar", "inverter"]);

/** `600 sq ft unfinished`: a space without a noun. */
function unfinished(r: Reading): void {
  r.pieces.forEach((piece, i) => {
    const isUnfinished = piece.senses.some((s) => s.is === "term" && s.sort === "finish" && s.id === "unfinished");
    if (!isUnfinished || r.facts.some(({ family, at }) => family === "space" && Math.abs(at - i) <= 2)) return;
    const space = r.draft("space", "unfinished-space", i);
    r.facts.push(space);
  });
}

/** `45 kVA 480-208Y/120`: two voltages that one turns into the other are a transformer without the word. */
function impliedTransformers(r: Reading): void {
  if (r.facts.some(({ family, id }) => family === "transformer" && WINDINGS.has(id ?? ""))) return;
  // `from 120 to 240 V` alone may be a circuit that is changed.
  const hasPower = r.pieces.some(({ senses }) =>
    senses.some((s) =>
      (s.is === "quantity" && ["kVA", "VA", "MVA"].includes(s.unit)) ||
      (s.is === "term" && s.sort === "goal" && s.id === "transformer-size")
    )
  );
  const at = r.pieces.findIndex(({ senses }) =>
    senses.some((s) => s.is === "winding" || (s.is === "windings" && (hasPower || s.secondary.low !== undefined)))
  );
  if (at < 0) return;
  const transformer = r.draft("transformer", "transformer", at);
  transformer.pieces = [];
  transformer.said = "";
  transformer.others = ["implied"];
  r.facts.push(transformer);
}

const PEOPLE = new Set(
  "guy guys tech techs contractor contractors installer installers company crew man dude rep salesman people folks"
    .split(
      " ",
    ),
);
/** `HVAC guy here`, `the solar company`: who it is, and nothing that is there. */
function people(r: Reading): void {
  for (const fact of [...r.facts]) {
    const after = Math.max(...fact.pieces) + 1;
    if (fact.pieces.length === 0 || !PEOPLE.has(r.typed(after))) continue;
    if (fact.family !== "load" && fact.family !== "transformer") continue;
    unhead(r, fact, "person");
  }
}
