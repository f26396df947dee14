/** A request written out and read again is the same request: for generated requests, under each of the three kinds. */
import fc from "fast-check";
import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { CATALOGUE, LOAD_KINDS, type LoadKind } from "../src/loads/catalogue.ts";
import { SPACES } from "../src/rules/dwelling/area.ts";
import { equipment, EQUIPMENT_KINDS } from "../src/loads/equipment.ts";
import { OCCUPANCIES } from "../src/rules/occupancies.ts";
import { SYSTEMS } from "../src/rules/systems.ts";
import { ELECTRODES } from "../src/rules/grounding.ts";
import { makeReader } from "./support/reader.ts";
import type { Draft } from "../src/reading/facts.ts";
import { engine } from "./support/engine.ts";

const read = makeReader(engine.questions);
const questionOf = (id: string) => engine.questions.find((q) => q.id === id)!;

/** A number of up to two decimals, as nameplates have. */
const number = (most: number) => fc.integer({ min: 1, max: most * 100 }).map((hundredths) => hundredths / 100);
const quantity = (limits: Record<string, number>) =>
  fc.constantFrom(...Object.keys(limits)).chain((unit) => number(limits[unit]!).map((value) => ({ value, unit })));
const POWERS = { W: 9999, VA: 9999, kW: 15, kVA: 15, A: 60 };
const maybe = <T>(name: string, value: fc.Arbitrary<T>) => fc.record({ [name]: value }, { requiredKeys: [] });
const merge = (...parts: fc.Arbitrary<Draft>[]) => fc.tuple(...parts).map((all): Draft => Object.assign({}, ...all));

/** Kinds that are told apart by their name alone; `other` goes by its own. */
const named = LOAD_KINDS.filter((kind) => kind !== "other");
const HEATING = ["space heating", "furnace", "continuous heating"];
const electric = (kind: LoadKind) =>
  merge(
    fc.constant({ kind }),
    maybe("count", fc.integer({ min: 2, max: 90 })),
    // Appliances without a name and a figure are a heading of others.
    kind === "fixed-appliance"
      ? quantity(POWERS).map((rating) => ({ rating }))
      : maybe("rating", quantity({ ...POWERS, ...(CATALOGUE[kind].motor && { hp: 9 }) })),
    maybe("volts", fc.constantFrom(115, 120, 208, 230, 240).map((value) => ({ value, unit: "V" }))),
    maybe("leg", fc.constantFrom("A", "B")),
    HEATING.includes(CATALOGUE[kind].group) ? maybe("units", fc.integer({ min: 2, max: 20 })) : fc.constant({}),
  );
const gas = fc.constantFrom(...named.filter((kind) => CATALOGUE[kind].fuel)).map((kind): Draft => ({
  kind,
  fuel: "gas",
}));
const unknown = merge(
  fc.constantFrom("kiln", "welder", "aquarium").map((name) => ({ kind: "other", name })),
  quantity(POWERS).map((rating) => ({ rating })),
);
const load = fc.oneof({ weight: 5, arbitrary: fc.constantFrom(...named).chain(electric) }, gas, unknown);
/** A kind said twice, once with nothing, is one load: that list has no other wording. */
const loads = fc.uniqueArray(load, { minLength: 1, maxLength: 8, selector: ({ kind, name }) => `${kind} ${name}` });

const area = merge(
  fc.oneof(quantity({ ft2: 9000 }), quantity({ m2: 900 })).map((area) => ({ area })),
  fc.constantFrom(...SPACES).map((space) => space === "living" ? {} : { space }),
);
const dwelling = merge(
  // An area told twice is one: what is spoken of again.
  fc.uniqueArray(area, { minLength: 1, maxLength: 4, selector: (each) => JSON.stringify(each) }).map((areas) => ({
    areas,
  })),
  maybe("loads", loads),
  maybe("method", fc.constantFrom("standard", "optional")),
  maybe("system", fc.constantFrom("120/240", "120/208")),
  maybe("smallApplianceCircuits", fc.integer({ min: 1, max: 9 })),
  maybe("laundryCircuits", fc.integer({ min: 0, max: 5 })),
  maybe("compressorLockedOut", fc.boolean()),
  maybe("panel", fc.constantFrom("at the service disconnect", "after the service disconnect")),
  maybe("service", fc.constantFrom(100, 125, 150, 200, 320, 400).map((value) => ({ value, unit: "A" }))),
  maybe("material", fc.constantFrom("copper", "aluminum")),
  maybe("electrode", fc.constantFrom(...ELECTRODES)),
);

const supply = maybe("supply", fc.constantFrom("single-phase", "three-phase"));
const piece = fc.constantFrom("range", "wall-oven", "cooktop").chain((kind) =>
  merge(
    fc.constant({ kind }),
    maybe("count", fc.integer({ min: 2, max: 90 })),
    quantity(POWERS).map((rating) => ({ rating })),
  )
);
const cooking = merge(
  fc.array(piece, { minLength: 1, maxLength: 5 }).map((appliances) => ({ appliances })),
  supply,
  maybe("use", fc.constantFrom("feeder", "branch circuit")),
  maybe("method", fc.constantFrom("column C", "note 3")),
  maybe("volts", fc.constantFrom(208, 240).map((value) => ({ value, unit: "V" }))),
);
const dryer = merge(maybe("count", fc.integer({ min: 2, max: 90 })), quantity(POWERS).map((rating) => ({ rating })));
const drying = merge(fc.array(dryer, { minLength: 1, maxLength: 4 }).map((dryers) => ({ dryers })), supply);

const EQUIPMENT_NAMED = EQUIPMENT_KINDS.filter((kind) => kind !== "other" && kind !== "machine");
const equipmentPiece = fc.constantFrom(...EQUIPMENT_NAMED).chain((kind) =>
  merge(
    fc.constant({ kind }),
    maybe("count", fc.integer({ min: 2, max: 90 })),
    quantity({ ...POWERS, ...(equipment(kind).group === "motor" && { hp: 9 }) }).map((rating) => ({ rating })),
    maybe("volts", fc.constantFrom(208, 240, 277, 480).map((value) => ({ value, unit: "V" }))),
    maybe("phases", fc.constantFrom(1, 3)),
    maybe("continuous", fc.boolean()),
  )
);
const luminaires = fc.array(
  merge(
    maybe("count", fc.integer({ min: 2, max: 300 })),
    quantity({ W: 900, VA: 900, kW: 9 }).map((rating) => ({ rating })),
  ),
  { minLength: 1, maxLength: 3 },
);
const feet = number(300).map((value) => ({ value, unit: "ft" }));
const occupancy = merge(
  fc.uniqueArray(
    merge(
      fc.oneof(quantity({ ft2: 90000 }), quantity({ m2: 9000 })).map((area) => ({ area })),
      fc.constantFrom(...OCCUPANCIES).map((occupancy) => ({ occupancy })),
    ),
    { minLength: 1, maxLength: 4, selector: ({ occupancy }) => occupancy },
  ).map((areas) => ({ areas })),
  maybe("method", fc.constantFrom("standard", "optional")),
  maybe("system", fc.constantFrom(...SYSTEMS)),
  maybe("lighting", luminaires),
  maybe("outdoorLighting", luminaires),
  maybe("receptacles", fc.integer({ min: 0, max: 900 })),
  maybe("receptacleLoad", quantity({ VA: 90000, kVA: 90 })),
  maybe("multioutletLoad", quantity({ VA: 90000, kVA: 90 })),
  maybe("showWindow", feet),
  maybe("trackLighting", feet),
  maybe("loads", fc.uniqueArray(equipmentPiece, { minLength: 1, maxLength: 6, selector: ({ kind }) => kind })),
  maybe("linear", fc.boolean()),
  maybe("panel", fc.constantFrom("at the service disconnect", "after the service disconnect")),
  maybe("material", fc.constantFrom("copper", "aluminum")),
  maybe("electrode", fc.constantFrom(...ELECTRODES)),
  maybe("upTo", fc.constant("service")),
);

function readsBack(kind: string, draft: Draft): void {
  const question = questionOf(kind);
  const written = question.write(question.input.parse(draft));
  const parsed = read(written);
  assertEquals(parsed.question?.id, kind, written);
  if (!parsed.question) return;
  assertEquals(question.input.parse(parsed.draft), question.input.parse(draft), written);
  assertEquals([parsed.asks, parsed.unused.filter(({ text }) => /\d/.test(text))], [[], []], written);
}

describe("a request that is written and read again", () => {
  const kinds = {
    "dwelling-load": dwelling,
    "occupancy-load": occupancy,
    "cooking-demand": cooking,
    "dryer-demand": drying,
  };
  for (const [kind, requests] of Object.entries(kinds)) {
    it(`is the same ${kind} request`, () => {
      fc.assert(fc.property(requests, (draft) => readsBack(kind, draft)), { numRuns: 300 });
    });
  }
});
