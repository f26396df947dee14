/** Load added to an existing service: published examples, the sums by hand, thresholds, properties, and how it is asked. */
import fc from "fast-check";
import { assert, assertAlmostEquals, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Outcome } from "../src/outcomes.ts";
import { makeReader } from "./support/reader.ts";
import { answered, ask, EDITIONS, engine, figure } from "./support/engine.ts";

type Said = { value: number; unit: string };
const q = (value: number, unit: string): Said => ({ value, unit });
const A = (value: number) => q(value, "A");
const kW = (value: number) => q(value, "kW");
const house = (ft2: number) => [{ area: q(ft2, "ft2") }];
const charger = (amperes: number) => ({ kind: "ev-charger", rating: A(amperes) });
const of = (request: object, edition = "2023") => answered({ kind: "added-load", ...request }, { edition });
const figures = (request: object, ids: string[], edition?: string) => ids.map((id) => figure(of(request, edition), id));

describe("a record of all there is", () => {
  // 220.87: 42 A × 125 % and the charger. Of the house nothing but its floor was told.
  const recorded = { service: A(100), demand: A(42), areas: house(1200), added: [charger(40)] };
  it("counts alone beside an area: of a house whose appliances nobody told no method knows the load", () => {
    assertAlmostEquals(figure(of(recorded), "total-current") as number, 92.5, 1e-6);
    assertEquals("existing-dwelling-method-load" in of(recorded).figures, false);
  });
  it("stands beside the methods of a house that is told, also where everything else is gas", () => {
    for (const more of [{ loads: [{ kind: "range", rating: kW(8) }] }, { nothingElse: true }]) {
      assert("existing-dwelling-method-load" in of({ ...recorded, ...more }).figures);
    }
  });
});

describe("on a three-phase supply", () => {
  // 80 A on record counts 125 %: 100 A on every line.
  const shop = { service: A(200), demand: A(80), recorded: "one year", supply: "three-phase", volts: q(208, "V") };
  const total = (added: object[], edition?: string) =>
    figure(of({ ...shop, added }, edition), "total-current") as number;
  const single = (count: number) => ({ ...charger(48), phases: 1, count });
  it("single-phase loads count on the line that is most loaded: 60° apart between two pairs, balanced by threes", () => {
    assertAlmostEquals(total([single(1)]), 148, 1e-6);
    assertAlmostEquals(total([single(2)]), 100 + 48 * Math.sqrt(3), 1e-6);
    assertAlmostEquals(total([single(3)]), 100 + 48 * Math.sqrt(3), 1e-6);
    assertAlmostEquals(total([single(4)]), 100 + 48 * Math.sqrt(7), 1e-6);
    assertAlmostEquals(total([{ kind: "hot-tub", rating: kW(10.4), phases: 1 }]), 150, 1e-6);
  });
  it("a charger's power of unknown phases is on two lines, other power on three, both listed", () => {
    const power = (kind: string, n: number) => ({ kind, rating: kW(n) });
    assertAlmostEquals(total([power("ev-charger", 10.4)]), 150, 1e-6);
    assertAlmostEquals(total([power("furnace", 10.4)]), 100 + 50 / Math.sqrt(3), 1e-6);
    const listed = (added: object[]) => of({ ...shop, added }).assumptions.map(({ name }) => name);
    assert(listed([power("ev-charger", 10.4)]).includes("phases of the charger"));
    assert(listed([power("furnace", 10.4)]).includes("added on three lines"));
    // Above 80 A at 240 V, or between 480 V lines, a charger is no single-phase one.
    assertAlmostEquals(total([power("ev-charger", 19.3)]), 100 + 19_300 / 208 / Math.sqrt(3), 1e-6);
    assertAlmostEquals(total([power("ev-charger", 19.2)]), 100 + 19_200 / 208, 1e-6);
  });
  it("a small charger counts at its least load before it is spread (220.57)", () => {
    const small = [{ kind: "ev-charger", rating: kW(3.6), phases: 1 }];
    assertAlmostEquals(total(small, "2020"), 100 + 3600 / 208, 1e-6);
    assertAlmostEquals(total(small, "2023"), 100 + 7200 / 208, 1e-6);
  });
});

describe("the method for existing dwellings", () => {
  // Mike Holt forum thread 108476 quotes 220.83(A): 8 kVA at 100 %, the rest at 40 %; worked out by hand:
  // 1200 ft² × 3 + 2 × 1500 + 1500 + 10 000 + 4500 = 22 600; 8000 + 40 % of 14 600 = 13 840; with 5000 more 15 840.
  const kitchen = {
    service: A(100),
    areas: house(1200),
    loads: [{ kind: "range", rating: kW(10) }, { kind: "water-heater", rating: kW(4.5) }],
    nothingElse: true,
  };
  it("takes everything through its tiers where neither heating nor cooling is added", () => {
    const request = { ...kitchen, added: [{ kind: "dryer", rating: kW(5) }] };
    for (const edition of ["2017", "2020", "2023"]) {
      const wanted = ["existing-load", "total-load", "total-current", "spare-current"];
      assertEquals(figures(request, wanted, edition), [13840, 15840, 66, 34]);
      assertEquals(of(request, edition).verdict, "ok");
    }
  });
  // Mike Holt forum thread on 220.83(A) and (B): added heating or cooling in full. By hand: 8000 + 40 % of 16 000, and 5760.
  it("counts heating or cooling in full where any is added", () => {
    const loads = [{ kind: "range", rating: kW(10) }, { kind: "dryer", rating: kW(5) }];
    const request = { service: A(100), areas: house(1500), loads, added: [{ kind: "air-conditioner", rating: A(24) }] };
    assertEquals(figures(request, ["total-load", "total-current"], "2020"), [20160, 84]);
  });
  it("puts the larger of existing heating and cooling into the tiers", () => {
    const with_ = (...loads: object[]) => figures({ ...kitchen, loads }, ["existing-dwelling-method-load"])[0]!;
    const heat = { kind: "furnace", rating: kW(10) };
    const cool = { kind: "air-conditioner", rating: kW(4) };
    // 3600 + 4500 + 10 000 = 18 100: 8000 + 40 % of 10 100
    assertEquals(with_(heat), 12040);
    assertEquals(with_(heat, cool), 12040);
    assertEquals(with_(cool), 8000 + 0.4 * 4100);
  });
  it("lets the tiers begin at 8,000 VA", () => {
    const load = (watts: number) =>
      figures({
        service: A(100),
        areas: house(500),
        loads: [{ kind: "water-heater", rating: q(watts, "W") }],
        nothingElse: true,
      }, ["existing-dwelling-method-load"])[0];
    // 500 × 3 + 4500 = 6000 beside the heater
    assertEquals([1999, 2000, 2001].map(load), [7999, 8000, 8000.4]);
  });
  it("is not used in 2026, whose table was not seen in print, and says so", () => {
    const answer = of({ ...kitchen, added: [charger(32)] }, "2026");
    assert(!("existing-dwelling-method-load" in answer.figures));
    assert("optional-method-load" in answer.figures);
    assert(answer.cautions.some(({ text }) => text.includes("not seen in print")));
    const outcome = ask({ kind: "added-load", ...kitchen, method: "existing dwelling" }, { edition: "2026" });
    assertEquals(outcome.outcome, "not covered");
  });
});

describe("recorded demand", () => {
  // Example of r/MEPEngineering, thread 1mnmfqr: 440 kW at 0.85, × 125 %, and 339 kVA on 3000 A, 208 V, three phase: 985 kVA of
  // 1080. The post keeps 517 kVA whole before the 125 %.
  it("counts at 125 %, and new load in full on top", () => {
    const request = {
      service: A(3000),
      supply: "three-phase",
      volts: q(208, "V"),
      demand: kW(440),
      powerFactor: q(0.85, "1"),
      added: [{ kind: "other", rating: q(339, "kVA") }],
      isDwelling: false,
    };
    for (const edition of EDITIONS) {
      const [existing, total, current] = figures(request, ["existing-load", "total-load", "total-current"], edition);
      assertAlmostEquals(existing as number, 1.25 * 440000 / 0.85, 1e-6);
      assertAlmostEquals(total as number, 985_000, 985_000 * 0.002);
      assertAlmostEquals(current as number, (1.25 * 440000 / 0.85 + 339000) / (208 * Math.sqrt(3)), 1e-6);
      assertEquals(of(request, edition).verdict, "ok");
    }
  });
  it("takes amperes as those of the heaviest line", () => {
    const one = { service: A(200), demand: A(75), recorded: "one year" };
    assertEquals(figures(one, ["existing-load", "total-current", "largest-added-load"]), [22500, 93.75, 25500]);
    const three = { ...one, supply: "three-phase", volts: q(208, "V") };
    assertAlmostEquals(figures(three, ["total-current"])[0] as number, 93.75, 1e-9);
  });
  it("is ok only if a 30-day recording holds what it must", () => {
    const request = { service: A(200), demand: A(75), added: [charger(32)] };
    assertEquals([of(request).verdict, of({ ...request, recorded: "30 days" }).verdict], ["ok", "ok if"]);
    assertStringIncludes(of({ ...request, recorded: "30 days" }).headline, "15-minute");
  });
  it("counts nothing where the service has a source of its own", () => {
    const request = { kind: "added-load", service: A(200), demand: A(75), ownSource: true, added: [charger(32)] };
    const outcome = ask(request);
    assert(outcome.outcome === "unclear");
    assertEquals(outcome.needs.map(({ field }) => field), ["areas", "loads"]);
  });
  it("counts a small charger at 7,200 VA from 2023 on, and a set one at its setting", () => {
    const request = { service: A(100), demand: A(60), recorded: "one year", added: [charger(16)] };
    const total = (more: object, edition: string) => figures({ ...request, ...more }, ["total-load"], edition)[0];
    assertEquals([total({}, "2020"), total({}, "2023")], [18000 + 3840, 18000 + 7200]);
    assertEquals(total({ setpoint: A(16) }, "2023"), 18000 + 3840);
  });
});

describe("the verdict", () => {
  const told = (amperes: number, service = 100) => ({ service: A(service), calculated: A(amperes) });
  it("drops a fraction below a half once", () => {
    const verdict = (existing: number) =>
      of({ ...told(existing), added: [{ kind: "hot-tub", rating: A(40) }] }).verdict;
    assertEquals([60, 60.4, 60.5, 61].map(verdict), ["ok", "ok", "not ok", "not ok"]);
  });
  const request = {
    service: A(100),
    areas: house(1400),
    loads: [
      { kind: "space-heater", fuel: "gas" },
      { kind: "water-heater", fuel: "gas" },
      { kind: "range" },
      { kind: "dryer", rating: kW(8) },
    ],
    added: [charger(48)],
  };
  // By hand: 1400 × 3 + 4500 + 12 000 + 8000 + 11 520 = 40 220; 8000 + 40 % of 32 220 = 20 888 VA, 87 A.
  it("is what the sums say by the tiers, with the sum in full as a caution", () => {
    const answer = of(request);
    assertEquals(answer.verdict, "ok");
    assertAlmostEquals(figure(answer, "total-current") as number, 20888 / 240, 1e-9);
    assert(answer.cautions.some(({ text }) => text.includes("135.5 A")));
  });
  // 2026, by hand: 1400 × 2 + 4500 + 20 000 = 27 300; 8000 + 40 % of 19 300 = 15 720, and the charger in full: 27 240 VA, 113.5 A.
  it("names what fits, a setting and a larger service where it does not", () => {
    const answer = of(request, "2026");
    assertEquals(answer.verdict, "not ok");
    const ids = ["total-current", "largest-that-fits", "circuit-rating", "managed-setpoint", "service-rating"];
    assertEquals(ids.map((id) => figure(answer, id)), [113.5, 32, 40, 34, 125]);
    for (const words of ["32 A fits", "36 A does not", "set or managed to 34 A", "125 A service"]) {
      assertStringIncludes(answer.headline, words);
    }
  });
  it("gives the setpoint of the whole service where the edition speaks of one", () => {
    const over = { ...told(80), added: [charger(48)] };
    assertEquals(EDITIONS.map((edition) => of(over, edition).figures["service-setpoint"]?.value), [
      undefined,
      undefined,
      80,
      80,
    ]);
  });
  it("uses the optional method for conductors of 100 A or more only", () => {
    const has = (service: number) => "optional-method-load" in of({ ...request, service: A(service) }).figures;
    assertEquals([90, 100, 101].map(has), [false, true, true]);
  });
  it("lists what was not told, and by how much it could move the current", () => {
    const open = of(request).assumptions.find(({ name }) => name === "not told, so not counted")!;
    assertEquals(open.value, "air conditioning");
    // 24 A × 240 V × 40 % ÷ 240 V
    assertStringIncludes(open.because, "9.6 A");
    assert(!of({ ...request, without: ["air-conditioner"] }).assumptions.some(({ name }) => name === open.name));
  });
});

describe("the question turned round", () => {
  const open = fc.constantFrom("ev-charger", "heat-pump", "range", "hot-tub", "dryer", "air-conditioner");
  const known = fc.record({
    service: fc.constantFrom(100, 125, 150, 200).map(A),
    areas: fc.integer({ min: 8, max: 40 }).map((hundreds) => house(hundreds * 100)),
    loads: fc.uniqueArray(
      fc.constantFrom(
        { kind: "range", rating: kW(10) },
        { kind: "dryer", rating: kW(5) },
        { kind: "water-heater", rating: kW(4.5) },
        { kind: "furnace", rating: kW(10) },
        { kind: "air-conditioner", rating: A(24) },
      ),
      { selector: ({ kind }) => kind, maxLength: 5 },
    ),
    nothingElse: fc.constant(true),
  });
  const fits = (request: object, edition: string) => of(request, edition).verdict !== "not ok";
  it("is proved: what it names fits, and the next size does not", () => {
    fc.assert(
      fc.property(known, open, fc.constantFrom(...EDITIONS), (request, kind, edition) => {
        const answer = of({ ...request, added: [{ kind }] }, edition);
        const largest = answer.figures["largest-that-fits"];
        if (!largest) return;
        const one = (value: number) => ({ ...request, added: [{ kind, rating: q(value, largest.unit) }] });
        assert(fits(one(largest.value as number), edition), answer.headline);
        const next = /; ([\d.]+) (?:A|kW) does not/.exec(answer.headline)?.[1];
        if (next !== undefined) assert(!fits(one(Number(next)), edition), answer.headline);
      }),
      { numRuns: 120 },
    );
  });
  // A demand takes a part of a load, and the main all of it: 24 kVA at 240 V are the 100 A of the service.
  it("is no more than the service itself, whatever part of it a method counts", () => {
    const small = { service: A(100), areas: house(600), nothingElse: true };
    const heater = (value: number) => of({ ...small, added: [{ kind: "tankless-water-heater", rating: kW(value) }] });
    assertEquals([23.5, 24, 24.1, 24.2].map((value) => heater(value).verdict), ["ok", "ok", "ok", "not ok"]);
    const answer = heater(27);
    assertStringIncludes(answer.headline, "alone takes 112.5 A on 100 A");
    assertEquals([figure(answer, "largest-that-fits"), figure(answer, "service-rating")], [24, 125]);
    const room = (service: number) =>
      figure(of({ ...small, service: A(service), loads: [{ kind: "range", rating: kW(12) }] }), "largest-added-load");
    assertEquals([100, 200].map(room), [24_000, 48_000]);
    assertEquals(figure(of({ ...small, method: "existing dwelling" }), "largest-added-load"), 24_000);
  });
  // 625.41: a charger takes 125 % of its draw, so 48 A is the most of a 60 A service.
  it("looks for no charger whose own circuit is above the service", () => {
    const answer = of({ service: A(60), areas: house(500), nothingElse: true, added: [{ kind: "ev-charger" }] });
    assertEquals([figure(answer, "largest-that-fits"), figure(answer, "circuit-rating")], [48, 60]);
    const verdict = (amperes: number) =>
      of({ service: A(60), areas: house(500), nothingElse: true, added: [charger(amperes)] }).verdict;
    assertEquals([48, 49].map(verdict), ["ok", "not ok"]);
  });
  it("takes a charger of every standard circuit's share", () => {
    // 80 A record × 125 % = 100 A of 150 A: 50 A left; 48 A is the share of a 60 A circuit, 56 A that of a 70 A one.
    const answer = of({ service: A(150), demand: A(80), recorded: "one year", added: [{ kind: "ev-charger" }] });
    assertEquals([figure(answer, "largest-that-fits"), figure(answer, "circuit-rating")], [48, 60]);
    assertStringIncludes(answer.headline, "56 A does not");
  });
  it("finds a room that is used up to the last volt-ampere", () => {
    fc.assert(
      fc.property(known, fc.constantFrom(...EDITIONS), (request, edition) => {
        const room = figure(of(request, edition), "largest-added-load") as number;
        if (room < 1) return;
        const load = (watts: number) => ({ ...request, added: [{ kind: "other", rating: q(watts, "VA") }] });
        assert(fits(load(Math.floor(room)), edition));
      }),
      { numRuns: 60 },
    );
  });
});

describe("properties", () => {
  it("adding a load never lowers the total, and what is added is never less than nothing of it", () => {
    const kinds = fc.constantFrom("dryer", "water-heater", "ev-charger", "hot-tub", "air-conditioner", "furnace");
    fc.assert(
      fc.property(
        kinds,
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 6, max: 40 }),
        fc.constantFrom(...EDITIONS),
        (kind, power, hundreds, edition) => {
          const request = { service: A(200), areas: house(hundreds * 100), loads: [], nothingElse: true };
          const total = (added: object[]) => figures({ ...request, added }, ["total-load"], edition)[0] as number;
          assert(total([{ kind, rating: kW(power) }]) >= total([]));
        },
      ),
      { numRuns: 100 },
    );
  });
});

describe("in words", () => {
  const read = makeReader(engine.questions);
  const question = engine.questions.find(({ id }) => id === "added-load")!;
  const load = fc.constantFrom(
    { kind: "range", count: 1, rating: kW(12) },
    { kind: "dryer", count: 1, fuel: "gas" },
    { kind: "water-heater", count: 1, rating: kW(4.5) },
    { kind: "air-conditioner", count: 2, rating: A(18) },
    { kind: "space-heater", count: 1, fuel: "gas" },
  );
  const added = fc.constantFrom(
    [charger(40)],
    [{ kind: "ev-charger" }],
    [charger(32), { kind: "hot-tub", rating: A(40) }],
    [{ kind: "heat-pump", rating: A(20) }, { kind: "supplemental-heat", rating: kW(8) }],
    [{ kind: "other", rating: q(9.6, "kVA") }],
  );
  const request = fc.record({
    service: fc.constantFrom(100, 125, 200).map(A),
    added,
    areas: fc.constantFrom(house(1400), [...house(1800), { area: q(400, "ft2"), space: "attached garage" }]),
    loads: fc.uniqueArray(load, { selector: ({ kind }) => kind, minLength: 1 }),
    nothingElse: fc.constant(true),
    without: fc.constantFrom(["air-conditioner"], ["heat-pump"]),
    demand: fc.constantFrom(A(62), kW(18), q(40, "kVA")),
    powerFactor: fc.constant(q(0.9, "1")),
    recorded: fc.constantFrom("one year", "30 days"),
    calculated: fc.constantFrom(A(70), q(18, "kVA")),
    setpoint: fc.constantFrom(A(16), A(24)),
    method: fc.constantFrom("existing dwelling", "optional", "standard", "measured demand", "as calculated"),
    smallApplianceCircuits: fc.constant(3),
    laundryCircuits: fc.constantFrom(0, 2),
    system: fc.constantFrom("120/240", "120/208"),
    compressorLockedOut: fc.boolean(),
  }, { requiredKeys: ["service"] });
  it("reads its own writing back", () => {
    fc.assert(
      fc.property(request, (draft) => {
        // A setting is that of a charger, and what is not there is not on the list.
        const there = [...draft.loads ?? [], ...draft.added ?? []].map(({ kind }) => kind as string);
        const without = (draft.without ?? []).filter((kind) => !there.includes(kind));
        const { setpoint, without: _, powerFactor, recorded, areas, ...rest } = draft;
        // A sum of the user's own, without a list, holds the area.
        const isSummed = draft.calculated !== undefined && draft.loads === undefined;
        const parsed = question.input.parse({
          ...rest,
          ...(areas && !isSummed && { areas }),
          ...(setpoint && there.includes("ev-charger") && draft.added?.some((each) => "rating" in each) &&
            { setpoint }),
          ...(without.length > 0 && { without }),
          ...(powerFactor && draft.demand && { powerFactor }),
          ...(recorded && draft.demand && { recorded }),
        });
        const written = question.write(parsed);
        const back = read(written);
        assertEquals(back.question?.id, "added-load", written);
        if (!back.question) return;
        assertEquals(question.input.parse(back.draft), parsed, written);
      }),
      { numRuns: 300 },
    );
  });

  const talk = (...texts: string[]): Outcome => {
    let after: never | undefined;
    let last: Outcome | undefined;
    for (const text of texts) {
      last = engine.ask(text, after ? { after } : {});
      after = last.thread as never;
    }
    return last!;
  };
  const headline = (outcome: Outcome) => outcome.outcome === "answered" ? outcome.answer.headline : "";
  it("asks for what moves the answer, by how much, and takes a bare reply", () => {
    const first = engine.ask("will my 100 amp panel take a 48 amp ev charger");
    assert(first.outcome === "unclear");
    assertEquals(first.needs.map(({ field }) => field), ["areas", "loads"]);
    // By the tiers: 500 ft² × 3 VA × 40 % ÷ 240 V; a 12 kW range × 40 % ÷ 240 V.
    assertStringIncludes(first.needs[0]!.ask, "2.5 A");
    assertStringIncludes(first.needs[1]!.ask, "range (20 A)");
    const start = "will my 100 amp panel take a 48 amp ev charger";
    const outcome = talk(start, "1400", "12 kW range, 5 kW dryer, gas heat, no AC");
    assertStringIncludes(headline(outcome), "OK: 82 A of 100 A");
    assertStringIncludes(
      headline(talk("can my panel handle a 40 A charger, 1400 sq ft, everything is gas", "100")),
      "of 100 A",
    );
  });
  it("goes on about the same service", () => {
    const start = "100 A service, peak demand 50 A over one year, add a 48 A charger";
    assertStringIncludes(headline(talk(start)), "Not OK");
    assertStringIncludes(headline(talk(start, "make it 32 A")), "OK: 94.5 A");
    assertStringIncludes(headline(talk(start, "what if it is set to 24 A")), "OK if");
    assertStringIncludes(headline(talk(start, "on a 200 A service")), "OK: 110.5 A of 200 A");
    assertStringIncludes(headline(talk(start, "make it 32 A", "and add a 10 A pool pump")), "Not OK");
  });
  it("leaves a house that is laid out anew to the dwelling load, also in a conversation", () => {
    const outcome = talk("1800 sq ft house, gas heat, 5 kW dryer, is a 100 A service enough?", "add a 48 A EV charger");
    assert(outcome.outcome === "answered");
    assertEquals(outcome.answer.kind, "dwelling-load");
  });
});
