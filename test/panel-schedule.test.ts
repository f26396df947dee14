/** A panel's schedule against complex numbers of mathjs, against every arrangement there is, and against its own rules. */
import fc from "fast-check";
import { abs, add, complex, multiply } from "mathjs";
import { assert, assertAlmostEquals, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { balance, type Piece, positions } from "../src/questions/panel/panel-schedule/arrange.ts";
import { LEGS } from "../src/questions/panel/panel-schedule/request.ts";
import type { Draft } from "../src/reading/facts.ts";
import { answered, ask, EDITIONS, engine, figure } from "./support/engine.ts";
import { makeReader } from "./support/reader.ts";

const schedule = (request: Draft, edition = "2023") => answered({ kind: "panel-schedule", ...request }, { edition });
const q = (value: number, unit = "VA") => ({ value, unit });
const on = (leg: string, value: number) => ({ leg, current: q(value, "A") });
const legsOf = (answer: ReturnType<typeof schedule>) =>
  ["leg-a-load", "leg-b-load", "leg-c-load"].flatMap((id) => answer.figures[id] ? [figure(answer, id) as number] : []);

describe("what comes back on a neutral", () => {
  // Kirchhoff's law with phasors a third of a turn apart, by a general-purpose library.
  it("of three phases is the vector sum", () => {
    const turn = complex({ r: 1, phi: (2 * Math.PI) / 3 });
    fc.assert(fc.property(fc.tuple(...LEGS.map(() => fc.integer({ min: 0, max: 400 }))), ([a, b, c]) => {
      const sum = add(add(complex(a!, 0), multiply(b!, turn)), multiply(c!, multiply(turn, turn)));
      const answer = schedule({ system: "208Y/120", currents: [on("A", a!), on("B", b!), on("C", c!)] });
      assertAlmostEquals(figure(answer, "neutral-current") as number, Number(abs(sum as never)), 1e-6 * (a! + b! + c!));
    }));
  });
  it("of one phase is the difference, and on one leg the sum", () => {
    for (const edition of EDITIONS) {
      const neutral = (...currents: Draft[]) =>
        figure(schedule({ system: "120/240", currents }, edition), "neutral-current");
      assertEquals([neutral(on("A", 40), on("B", 25)), neutral(on("A", 10), on("B", 10))], [15, 0]);
      assertEquals(neutral(on("A", 10), on("A", 10)), 20);
      assertEquals([neutral(on("A", 0), on("B", 9)), neutral(on("A", 0), on("B", 0))], [9, 0]);
    }
  });
  it("is nothing of what lies between the lines", () => {
    const answer = schedule({ system: "120/240", circuits: [{ load: q(4500), poles: 2 }, { load: q(1200) }] });
    assertEquals(figure(answer, "neutral-current"), 10);
  });
});

describe("where circuits land", () => {
  const circuits = fc.array(
    fc.record({ load: fc.integer({ min: 1, max: 40 }).map((n) => 100 * n), poles: fc.constantFrom(1, 1, 1, 2) }),
    { minLength: 1, maxLength: 8 },
  ) as fc.Arbitrary<Piece[]>;
  const sums = (pieces: readonly Piece[], landings: readonly (readonly string[])[], legs: readonly string[]) =>
    legs.map((leg) =>
      pieces.reduce((sum, { load }, i) => sum + (landings[i]!.includes(leg) ? load / landings[i]!.length : 0), 0)
    );
  const spread = (loads: readonly number[]) => Math.max(...loads) - Math.min(...loads);
  for (const legs of [LEGS.slice(0, 2), LEGS]) {
    it(`balances ${legs.length} legs as well as any arrangement does`, () => {
      fc.assert(fc.property(circuits, (pieces) => {
        const ways = pieces.map(({ poles }) =>
          poles >= legs.length
            ? [legs]
            : legs.map((_, i) => Array.from({ length: poles }, (_, k) => legs[(i + k) % legs.length]!))
        );
        let best = Infinity;
        const all = (i: number, landed: (readonly string[])[]): void => {
          if (i === pieces.length) best = Math.min(best, spread(sums(pieces, landed, legs)));
          else for (const way of ways[i]!) all(i + 1, [...landed, way]);
        };
        all(0, []);
        assertAlmostEquals(spread(sums(pieces, balance(pieces, legs), legs)), best, 1e-6);
      }));
    });
    it(`puts every pole of ${legs.length} legs on a place of its own, on its leg, side by side`, () => {
      fc.assert(fc.property(circuits, (pieces) => {
        const landings = balance(pieces, legs);
        const places = positions(landings, legs);
        const taken = places.flat();
        assertEquals(new Set(taken).size, taken.length);
        places.forEach((own, i) => {
          own.forEach((place, k) => {
            // Odd places left, even ones right, each row on the next leg.
            assertEquals(legs[Math.ceil(place / 2 - 1) % legs.length], landings[i]![k]);
            if (k > 0) assertEquals(place - own[k - 1]!, 2);
          });
        });
      }));
    });
  }
  it("sums to what is told, in any order and with a count split, in every edition", () => {
    fc.assert(fc.property(circuits, fc.constantFrom(...EDITIONS), (pieces, edition) => {
      const told = pieces.map(({ load, poles }) => ({ load: q(load), poles }));
      const answer = schedule({ system: "120/240", circuits: told }, edition);
      const total = pieces.reduce((sum, { load }) => sum + load, 0);
      assertAlmostEquals(legsOf(answer).reduce((a, b) => a + b), total, 1e-6);
      assertEquals(figure(answer, "spaces-used"), pieces.reduce((sum, { poles }) => sum + poles, 0));
      const turned = schedule({ system: "120/240", circuits: told.toReversed() }, edition);
      assertAlmostEquals(figure(turned, "imbalance") as number, figure(answer, "imbalance") as number, 1e-6);
    }));
    const together = schedule({ circuits: [{ load: q(900), count: 4 }, { load: q(1500) }] });
    const apart = schedule({ circuits: [...Array.from({ length: 4 }, () => ({ load: q(900) })), { load: q(1500) }] });
    assertEquals(legsOf(together), legsOf(apart));
  });
  it("keeps a circuit on the leg it is landed on", () => {
    const answer = schedule({
      system: "120/240",
      circuits: [{ load: q(1000), leg: "A" }, { load: q(1000), leg: "A" }, { load: q(500) }],
    });
    assertEquals(legsOf(answer), [2000, 500]);
  });
  it("takes amperes at the volts between a circuit's lines", () => {
    const of = (system: string, poles: number) =>
      legsOf(schedule({ system, circuits: [{ load: q(10, "A"), poles }] })).reduce((a, b) => a + b);
    assertEquals([of("120/240", 1), of("120/240", 2), of("208Y/120", 3)], [1200, 2400, 3600]);
    assertAlmostEquals(of("208Y/120", 2), 1200 * Math.sqrt(3), 1e-6);
    assertEquals(of("480Y/277", 1), 2770);
  });
});

describe("spaces", () => {
  it("are judged below, at and above what the panel has", () => {
    const verdict = (spaces: number) =>
      schedule({ spaces, breakers: [{ poles: 2, count: 6 }, { poles: 1, count: 9 }] }).verdict;
    assertEquals([20, 21, 22].map(verdict), ["not ok", "ok", "ok"]);
    const laid = (spaces: number) =>
      schedule({ spaces, circuits: [{ load: q(4500), poles: 2 }, { load: q(900), count: 4 }] }).verdict;
    assertEquals([5, 6, 7].map(laid), ["not ok", "ok", "ok"]);
  });
  it("are those of a leg and of a side: no place beyond the last, or it is said", () => {
    const pieces = fc.array(
      fc.record({ load: fc.integer({ min: 1, max: 40 }).map((n) => 100 * n), poles: fc.constantFrom(1, 1, 1, 2) }),
      { minLength: 1, maxLength: 12 },
    );
    const systems = fc.constantFrom("120/240", "208Y/120");
    fc.assert(fc.property(pieces, fc.integer({ min: 0, max: 3 }), systems, (told, more, system) => {
      const used = told.reduce((sum, { poles }) => sum + poles, 0);
      const spaces = Math.max(2, used + more);
      const answer = schedule({
        system,
        spaces,
        circuits: told.map((each) => ({ ...each, load: q(each.load) })),
      });
      // On two sides of so many rows stand so many two-pole breakers.
      const twos = told.filter(({ poles }) => poles === 2).length;
      const most = Math.floor(Math.ceil(spaces / 2) / 2) + Math.floor(Math.floor(spaces / 2) / 2);
      assertEquals(answer.verdict, twos <= most ? "ok" : "not ok");
      const places = (answer.headline.match(/Positions: (.*)\.$/)?.[1] ?? "").match(/\b\d+(?=[+ ]\S)/g) ?? [];
      if (answer.verdict === "ok" && told.length <= 8) assert(places.every((place) => Number(place) <= spaces));
    }));
    // Balanced best on lines C and A, which lie side by side in no row here.
    const tight = [q(400), q(4000), q(3100), q(3900)].map((load) => ({ load }));
    const close = schedule({
      system: "208Y/120",
      spaces: 6,
      circuits: [{ load: q(900), poles: 2 }, ...tight],
    });
    assertEquals(close.verdict, "ok");
    // Three circuits on one leg of a panel with two spaces a leg; three two-pole breakers where a side has three rows.
    const onA = Array.from({ length: 3 }, () => ({ load: q(600), leg: "A" }));
    assertEquals(schedule({ system: "120/240", spaces: 4, circuits: onA }).verdict, "not ok");
    assertEquals(schedule({ spaces: 6, breakers: [{ poles: 2, count: 3 }] }).verdict, "not ok");
    assertEquals(schedule({ spaces: 8, breakers: [{ poles: 2, count: 4 }] }).verdict, "ok");
    assertEquals(schedule({ system: "208Y/120", spaces: 4, breakers: [{ poles: 3 }, { poles: 1 }] }).verdict, "not ok");
  });
  it("asks for a third leg where one is told that is not there, and for the loads of breakers beside circuits", () => {
    for (
      const [request, field] of [
        [{ system: "120/240", circuits: [{ load: q(1000), leg: "C" }] }, "system"],
        [{ system: "120/240", currents: [on("A", 5), on("C", 8)] }, "system"],
        [{ circuits: [{ load: q(1000) }], breakers: [{ poles: 1 }] }, "breakers"],
      ] as const
    ) {
      const outcome = ask({ kind: "panel-schedule", ...request });
      assert(outcome.outcome === "unclear");
      assertEquals(outcome.needs[0]!.field, field);
    }
  });
  it("want a third leg for three poles", () => {
    const outcome = ask({ kind: "panel-schedule", system: "120/240", circuits: [{ load: q(9000), poles: 3 }] });
    assert(outcome.outcome === "unclear");
    assertEquals(outcome.needs[0]!.field, "system");
  });
});

describe("words", () => {
  const read = makeReader(engine.questions);
  it("a range takes two poles, told or not, and a delta panel is asked about", () => {
    const parsed = read("balance the legs: range 8 kW, kitchen 1500 W");
    assert(parsed.question);
    assertEquals(parsed.question.id, "panel-schedule");
    const { circuits } = parsed.draft as { circuits: { poles?: number }[] };
    assertEquals(circuits.map(({ poles = 1 }) => poles), [2, 1]);
    const delta = ask("panel schedule, 240 V three phase, 1500 VA, 1200 VA");
    assert(delta.outcome === "unclear");
    assertStringIncludes(delta.needs[0]!.ask, "delta");
  });
});
