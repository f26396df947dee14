/** Checks at a panel. Published figures have their source beside them. */
import fc from "fast-check";
import { assert, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import question from "../src/questions/panel/panel-checks/question.ts";
import { expected, pairsOf } from "../src/questions/panel/panel-checks/continuity.ts";
import { CONNECTORS, FACING, PANELS, POINTS, ROOMS } from "../src/questions/panel/panel-checks/request.ts";
import { markdown } from "../src/render/markdown.ts";
import { printOutcome } from "../src/render/outcome.ts";
import { brief, text } from "../src/render/text.ts";
import { answered, ask, EDITIONS, engine, figure } from "./support/engine.ts";
import { readText } from "../src/reading/read.ts";
import { makeReader } from "./support/reader.ts";

const check = (request: object, edition = "2023") => answered({ kind: "panel-checks", ...request }, { edition });
const inches = (value: number | string) => ({ value, unit: "in" });
const volts = (value: number) => ({ value, unit: "V" });
const asked = (request: object, edition = "2023") => {
  const outcome = ask({ kind: "panel-checks", ...request }, { edition });
  return outcome.outcome === "unclear" ? outcome.needs.map(({ field }) => field) : outcome.outcome;
};

describe("bond or isolate", () => {
  const bond = (request: object, edition?: string) =>
    figure(check({ about: ["bonding"], ...request }, edition), "neutral-bond");
  it("bonds at the service only (250.24, 250.142(B)), under every edition", () => {
    for (const edition of EDITIONS) {
      const all = PANELS.map((panel) => bond({ panel }, edition));
      assertEquals(all, ["bonded", "isolated", "isolated", "bonded", "isolated"], edition);
    }
  });
  it("has the system bonding jumper at one place (250.30(A)(1))", () => {
    assertEquals(bond({ panel: "after a transformer", jumperAt: "transformer" }), "isolated");
    assertEquals(bond({ panel: "after a transformer", jumperAt: "panel" }), "bonded");
  });
  it("wants four wires on a feeder and three at a service, one more on three phases", () => {
    const wires = (request: object) => figure(check({ about: ["bonding"], ...request }), "feed-wires");
    assertEquals(wires({ panel: "feeder panel" }), 4);
    assertEquals(wires({ panel: "service panel" }), 3);
    assertEquals(wires({ panel: "feeder panel", phases: 3 }), 5);
    assertEquals(wires({ panel: "service panel", phases: 3 }), 4);
  });
  it("refuses three wires to another building, but for an existing feeder (250.32(B), exception)", () => {
    const told = (request: object) => check({ about: ["bonding"], panel: "separate structure", ...request });
    assertEquals(told({ feederWires: 3 }).verdict, "not ok");
    assertEquals(told({ feederWires: 4 }).verdict, undefined);
    assertEquals(told({ feederWires: 4, check: true }).verdict, "ok");
    const old = told({ feederWires: 3, existing: true });
    assertEquals([old.verdict, figure(old, "neutral-bond")], ["ok if", "bonded"]);
    const onThreePhases = (feederWires: number) => {
      const answer = told({ feederWires, existing: true, phases: 3 });
      return [answer.verdict, figure(answer, "neutral-bond")];
    };
    assertEquals([4, 3].map(onThreePhases), [["ok if", "bonded"], ["not ok", "isolated"]]);
  });
  it("sizes the main bonding jumper by the supply (4/0 aluminum: 4 AWG copper, EC&M quiz; four 500 kcmil: 250 kcmil)", () => {
    const jumper = (request: object) =>
      figure(check({ about: ["bonding"], panel: "service panel", ...request }), "main-bonding-jumper");
    assertEquals(jumper({ size: "4/0", material: "aluminum" }), "4");
    assertEquals(jumper({ size: "500 kcmil", material: "copper", sets: 4 }), "250 kcmil");
  });
  it("judges what was found", () => {
    const found = (panel: string, bonded: boolean) => check({ about: ["bonding"], panel, bonded }).verdict;
    assertEquals(found("feeder panel", true), "not ok");
    assertEquals(found("feeder panel", false), "ok");
    assertEquals(found("service panel", false), "not ok");
    assertEquals(found("service panel", true), "ok");
  });
  it("asks what the panel is: nothing else decides", () => assertEquals(asked({ about: ["bonding"] }), ["panel"]));
});

describe("continuity", () => {
  const reading = (from: string, to: string, reads: string) => ({ from, to, reads });
  const judged = (panel: string, readings: object[], more: object = {}) =>
    check({ about: ["continuity"], panel, readings, ...more });
  it("has every pair of bars, case and lines once", () => {
    assertEquals(pairsOf(1).length, 10);
    assertEquals(pairsOf(3).length, 15);
    for (const panel of PANELS) {
      const { record } = check({ about: ["continuity"], panel, phases: 3 });
      assertEquals(record!.length, 15);
    }
  });
  it("closes neutral to ground at the bond alone, and never a line", () => {
    for (const bonded of [true, false]) {
      for (const pair of pairsOf(3)) {
        const isLine = pair.some((point) => point.startsWith("line"));
        const isNeutral = pair.includes("neutral bar");
        assertEquals(expected(pair, bonded), isLine || (isNeutral && !bonded) ? "open" : "closed", pair.join());
      }
    }
  });
  it("calls a beep between neutral and ground of a subpanel not ok, and says where to look", () => {
    const answer = judged("feeder panel", [reading("neutral bar", "ground bar", "closed")]);
    assertEquals(answer.verdict, "not ok");
    for (const word of ["lift the feeder neutral", "bonding screw", "ground on the neutral bar", "branch neutrals"]) {
      assertStringIncludes(answer.headline.toLowerCase(), word);
    }
    assert(answer.assumptions.some(({ name }) => name === "feeder neutral during the check"));
  });
  it("takes a beep with the feeder neutral on its bar for the service's own bond", () => {
    const told = (reads: string) =>
      judged("feeder panel", [reading("neutral bar", "ground bar", reads)], { feederNeutral: "connected" }).verdict;
    assertEquals(told("closed"), "ok if");
    // Both ends meet at the service: open means that one of them is lost.
    assertEquals(told("open"), "not ok");
    const lifted = (reads: string) =>
      judged("feeder panel", [reading("neutral bar", "ground bar", reads)], { feederNeutral: "lifted" }).verdict;
    assertEquals([lifted("closed"), lifted("open")], ["not ok", "ok"]);
  });
  it("judges a resistance by its limits: below, at, above", () => {
    const ohms = (value: number, panel: string) =>
      judged(panel, [{ from: "neutral bar", to: "ground bar", resistance: { value, unit: "ohm" } }]).verdict;
    assertEquals([0, 0.9, 1, 1.1, 40].map((n) => ohms(n, "service panel")), ["ok", "ok", "ok", "not ok", "not ok"]);
    assertEquals([1, 40, 999_999, 1_000_000, 2_000_000].map((n) => ohms(n, "feeder panel")), [
      "not ok",
      "not ok",
      "not ok",
      "ok",
      "ok",
    ]);
  });
  it("is the same whichever point is told first, and in any order", () => {
    const point = fc.constantFrom(...POINTS);
    const some = fc.record({ from: point, to: point, reads: fc.constantFrom("closed", "open") });
    const property = fc.property(
      fc.constantFrom(...PANELS),
      fc.array(some, { minLength: 1, maxLength: 5 }),
      (panel, list) => {
        const pairs = list.filter(({ from, to }) => from !== to);
        const seen = new Set<string>();
        const readings = pairs.filter(({ from, to }) =>
          !seen.has([from, to].sort().join()) && seen.add([from, to].sort().join())
        );
        if (readings.length === 0) return;
        const turned = readings.map(({ from, to, reads }) => ({ from: to, to: from, reads })).reverse();
        const [a, b] = [judged(panel, readings, { phases: 3 }), judged(panel, turned, { phases: 3 })];
        assertEquals(b.verdict, a.verdict);
        assertEquals(b.headline, a.headline);
      },
    );
    fc.assert(property, { numRuns: 60 });
  });
  it("never calls a line to anything closed ok", () => {
    for (const panel of PANELS) {
      const answer = judged(panel, [reading("line A", "case", "closed")]);
      assertEquals(answer.verdict, "not ok");
      assertStringIncludes(answer.headline, "energize");
    }
  });
  it("stops whoever would check it live, however that is said", () => {
    for (const told of ["is live", "still live", "while energized"]) {
      const answer = answered(`can I check continuity neutral to ground in my subpanel, ${told}?`);
      assert(answer.cautions.some(({ text }) => text.startsWith("Stop")), told);
    }
  });
  it("cautions of conductors ahead of the main, and against testing live", () => {
    const cautions = check({ about: ["continuity"], panel: "service panel", energized: true }).cautions.map((c) =>
      c.text
    );
    assert(cautions.some((each) => each.includes("ahead of the main")));
    assert(cautions.some((each) => each.startsWith("Stop")));
  });
});

describe("torque", () => {
  const torque = (request: object, edition?: string) =>
    figure(check({ about: ["torque"], ...request }, edition), "tightening-torque");
  it("is Table I.1 for the connector and conductor (connector catalogue, page O-7)", () => {
    const slotted = (size: string, slot?: string) =>
      torque({ connector: "slotted screw", size, ...(slot && { slot }) });
    assertEquals(slotted("2/0"), 50);
    assertEquals([slotted("12", "narrow"), slotted("12", "wide")], [20, 35]);
    assertEquals([slotted("8", "narrow"), slotted("8", "wide")], [25, 40]);
    assertEquals([slotted("6", "narrow"), slotted("6", "wide")], [35, 45]);
    assertEquals(torque({ connector: "split bolt", size: "4" }), 165);
    assertEquals(torque({ connector: "hex head", size: "4/0" }), 250);
  });
  it("is Table I.3 for a socket (generator guide: 5/16 in. 275, 3/8 in. 375), under every edition", () => {
    for (const edition of EDITIONS) {
      assertEquals(torque({ connector: "socket screw", socket: inches("5/16") }, edition), 275);
      assertEquals(torque({ socket: inches(0.375) }, edition), 375);
    }
  });
  it("is Table I.2 for small screws, in between by the shorter slot: below, at, above", () => {
    const small = (slotLength: number | string, slot: string) =>
      torque({ connector: "small slotted screw", slotLength: inches(slotLength), slot });
    assertEquals([0.1, "5/32", 0.17, "1/4", 0.27, "9/32", 0.3].map((n) => small(n, "wide")), [
      9,
      12,
      12,
      12,
      12,
      15,
      20,
    ]);
    assertEquals([0.1, "1/4"].map((n) => small(n, "narrow")), [7, 9]);
    assertEquals(
      asked({ about: ["torque"], connector: "small slotted screw", slotLength: inches(0.3), slot: "narrow" }),
      "not covered",
    );
  });
  it("yields to the maker's marking", () => {
    const marked = {
      about: ["torque"],
      marked: { value: 275, unit: "lbf-in" },
      connector: "slotted screw",
      size: "2/0",
    };
    assertEquals(figure(check(marked), "tightening-torque"), 275);
    assertEquals(torque({ marked: { value: 25, unit: "lbf-ft" } }), 300);
  });
  it("judges what was set: below, at, above, in either unit", () => {
    const set = (value: number, unit = "lbf-in") =>
      check({ about: ["torque"], connector: "slotted screw", size: "2/0", set: { value, unit } }).verdict;
    assertEquals([49, 50, 51].map((n) => set(n)), ["not ok", "ok", "not ok"]);
    assertEquals(
      check({ about: ["torque"], marked: { value: 300, unit: "lbf-in" }, set: { value: 25, unit: "lbf-ft" } }).verdict,
      "ok",
    );
  });
  // 275 lbf·in are 31.07 N·m (a pound-force is 4.4482216152605 N, an inch 0.0254 m: NIST SP 811), 22.9 lbf·ft.
  it("judges what was set in another unit to the figures it was told with: below, at, above", () => {
    const set = (value: number, unit: string) =>
      check({ about: ["torque"], marked: { value: 275, unit: "lbf-in" }, set: { value, unit } }).verdict;
    assertEquals([30, 31, 32].map((n) => set(n, "N-m")), ["not ok", "ok", "not ok"]);
    assertEquals([31.06, 31.07, 31.08].map((n) => set(n, "N-m")), ["not ok", "ok", "not ok"]);
    assertEquals([22, 23, 24].map((n) => set(n, "lbf-ft")), ["not ok", "ok", "not ok"]);
    assertEquals([22.8, 22.9, 23].map((n) => set(n, "lbf-ft")), ["not ok", "ok", "ok"]);
    assertEquals([274.9, 275, 275.1].map((n) => set(n, "lbf-in")), ["not ok", "ok", "not ok"]);
  });
  it("is taken in pound-inches and listed where its unit was not told, up to 75 asked about: at and above", () => {
    const told = (text: string) => engine.ask(text);
    const asked = (text: string) => {
      const outcome = told(text);
      return outcome.outcome === "unclear" ? outcome.needs.map(({ field }) => field) : [];
    };
    assertEquals(asked("label on the lug says 70, #2 copper, what torque"), ["marked"]);
    assertEquals(asked("torque 75 on the hex head lugs of a #2, ok?"), ["set"]);
    assertEquals(asked("I torqued the #2 hex head lug to 75"), ["set"]);
    for (const text of ["label on the lug says 76, #2 copper, what torque", "sticker on the lugs says 76, 2/0"]) {
      const outcome = told(text);
      assert(outcome.outcome === "answered", text);
      assertEquals(figure(outcome.answer, "tightening-torque"), 76);
      assertEquals(outcome.answer.assumptions.map(({ name, value }) => [name, value]), [
        ["torque that is marked", "76 lbf·in"],
      ]);
    }
    const set = told("torqued the 2/0 slotted screw to 120");
    assert(set.outcome === "answered" && set.answer.verdict === "not ok");
    assertEquals(set.answer.assumptions.map(({ name }) => name), ["torque that was set"]);
    // Beside the other it has that one's unit, where it can: at three times as much, and above.
    const beside = (n: number) => told(`lug marked 20 ft-lb, I torqued it to ${n}`);
    const [near, far] = [beside(60), beside(61)];
    assert(near.outcome === "answered" && near.answer.verdict === "not ok" && far.outcome === "unclear");
    assertEquals((near.answer.request as { set?: unknown }).set, { value: 60, unit: "lbf-ft" });
    assertEquals(
      (told("lug marked 20 ft-lb, I torqued it to 240") as { answer: { verdict?: string } }).answer.verdict,
      "ok",
    );
  });
  it("asks for what decides, and for a slot only where there are two", () => {
    assertEquals(asked({ about: ["torque"], size: "2" }), ["connector"]);
    assertEquals(asked({ about: ["torque"], connector: "hex head" }), ["size"]);
    assertEquals(asked({ about: ["torque"], connector: "slotted screw", size: "2" }), ["slot"]);
    assertEquals(asked({ about: ["torque"], connector: "socket screw" }), ["socket"]);
  });
  it("never falls with a larger conductor", () => {
    const sizes = [
      "14",
      "12",
      "10",
      "8",
      "6",
      "4",
      "3",
      "2",
      "1",
      "1/0",
      "2/0",
      "3/0",
      "4/0",
      "250 kcmil",
      "500 kcmil",
      "1000 kcmil",
    ];
    for (const connector of ["split bolt", "hex head"]) {
      const values = sizes.map((size) => torque({ connector, size }) as number);
      assert(values.every((value, i) => i === 0 || value >= values[i - 1]!), `${connector} ${values}`);
    }
  });
});

describe("working space", () => {
  const depth = (request: object, edition?: string) =>
    figure(check({ about: ["working space"], ...request }, edition), "working-depth");
  const facing = (i: number) => FACING[i]!;
  it("is Table 110.26(A)(1): at and above each voltage (Electrical Contractor, July 2016)", () => {
    for (const edition of EDITIONS) {
      const rows: [number, number[]][] = [[120, [3, 3, 3]], [150, [3, 3, 3]], [151, [3, 3.5, 4]], [600, [3, 3.5, 4]], [
        601,
        [3, 4, 5],
      ]];
      for (const [toGround, wanted] of rows) {
        const found = FACING.map((each) => depth({ toGround: volts(toGround), facing: each }, edition));
        assertEquals(found, wanted, `${edition} ${toGround}`);
      }
    }
    assertEquals(asked({ about: ["working space"], toGround: volts(1001), facing: facing(0) }), "not covered");
  });
  it("asks what stands opposite only where it matters", () => {
    assertEquals(depth({ toGround: volts(120) }), 3);
    assertEquals(depth({}), 3);
    assertEquals(asked({ about: ["working space"], toGround: volts(277) }), ["facing"]);
  });
  it("asks for the voltage to ground where a voltage alone does not tell it", () => {
    // 277 V to a grounded neutral or 480 V without one: 151 to 600 V, one row (110.26(A)(1)).
    assertEquals(depth({ volts: volts(480), facing: "nothing live or grounded" }), 3);
    assertEquals(depth({ volts: volts(480), facing: "grounded surface" }), 3.5);
    assertEquals(depth({ volts: volts(480), facing: "live parts" }), 4);
    assertEquals(depth({ volts: volts(240) }), 3);
    assertEquals(asked({ about: ["working space"], volts: volts(240), phases: 3 }), ["toGround"]);
    // 208Y/120 V, listed.
    assertEquals(depth({ volts: volts(208), facing: "live parts" }), 3);
  });
  it("is 30 in. wide or the equipment's width (OSHA letter, May 1999), 6-1/2 ft high or its height", () => {
    const of = (request: object) => check({ about: ["working space"], ...request });
    assertEquals(figure(of({ equipmentWidth: inches(20) }), "working-width"), 30);
    assertEquals(figure(of({ equipmentWidth: inches(36) }), "working-width"), 36);
    assertEquals(figure(of({ equipmentHeight: inches(90) }), "working-height"), 7.5);
  });
  // Table 110.26(A)(1) prints 0.9, 1.0, 1.2 and 1.5 m beside its feet, rounded, and either holds (90.9(D)).
  it("holds metres against the metric depths", () => {
    const at = (toGround: number, facing: string, value: number) =>
      check({ about: ["working space"], toGround: volts(toGround), facing, depth: { value, unit: "m" } }).verdict;
    const metric: [number, number[]][] = [[150, [0.9, 0.9, 0.9]], [600, [0.9, 1, 1.2]], [1000, [0.9, 1.2, 1.5]]];
    for (const [toGround, depths] of metric) {
      depths.forEach((depth, i) =>
        assertEquals([depth - 0.01, depth].map((each) => at(toGround, facing(i), each)), ["not ok", "ok"])
      );
    }
    assertEquals(depth({ toGround: volts(120), depth: { value: 0.9, unit: "m" } }), 3);
  });
  // 110.26(A)(3), exception 1: existing dwelling, service equipment or panelboard of no more than 200 A.
  it("lets a panel of an existing dwelling have less headroom up to 200 A", () => {
    const low = (more: object) => check({ about: ["working space"], height: inches(76), ...more }).verdict;
    const existing = { dwelling: true, existing: true };
    const rated = (value: number) => ({ ...existing, rating: { value, unit: "A" } });
    assertEquals([199, 200, 201].map((value) => low(rated(value))), ["ok", "ok", "not ok"]);
    assertEquals([low(existing), low({ dwelling: true }), low({})], ["ok if", "not ok", "not ok"]);
    // Whose panel it is was not told.
    const any = (value: number) => low({ existing: true, rating: { value, unit: "A" } });
    assertEquals([any(200), any(201), low({ existing: true })], ["ok if", "not ok", "ok if"]);
    assertEquals(low({ ...rated(100), dwelling: false }), "not ok");
  });
  it("judges what there is: below, at, above", () => {
    const there = (value: number) => check({ about: ["working space"], depth: inches(value) }).verdict;
    assertEquals([35, 36, 37].map(there), ["not ok", "ok", "ok"]);
  });
});

describe("the highest handle", () => {
  it("is 6 ft 7 in. above the floor (404.8(A)): below, at, above", () => {
    const at = (value: number | string, unit = "in") =>
      check({ about: ["handle height"], handle: { value, unit } }).verdict;
    assertEquals([78, 79, 80].map((n) => at(n)), ["ok", "ok", "not ok"]);
    assertEquals([at("79/12", "ft"), at(2.1, "m")], ["ok", "not ok"]);
    assertStringIncludes(check({ about: ["handle height"] }).headline, "6 ft 7 in.");
  });
});

describe("bending space", () => {
  const space = (request: object) => figure(check({ about: ["bending space"], ...request }), "bending-space");
  it("is Table 312.6(A) or (B) (Mike Holt forum: 4/0 takes 4 in. at the side and 7 in. opposite; three 600 kcmil 12 in.)", () => {
    assertEquals(space({ size: "4/0", leaves: "another wall" }), 4);
    assertEquals(space({ size: "4/0", leaves: "opposite wall" }), 7);
    assertEquals(space({ size: "600 kcmil", wires: 3, leaves: "another wall" }), 12);
    assertEquals(space({ size: "8" }), 1.5);
  });
  // The last column of Table 312.6(B) is for four and more wires, that of Table 312.6(A) for five.
  it("takes more wires than four opposite the terminal as four, and none above five at another wall", () => {
    const of = (wires: number, leaves: string) => ({ size: "500 kcmil", wires, leaves });
    assertEquals([3, 4, 5, 6].map((wires) => space(of(wires, "opposite wall"))), [15, 16, 16, 16]);
    assertEquals([4, 5].map((wires) => space(of(wires, "another wall"))), [12, 14]);
    assertEquals(asked({ about: ["bending space"], ...of(6, "another wall") }), "not covered");
  });
  it("judges the room there is: below, at, above; small wires have none given", () => {
    const there = (value: number) => check({ about: ["bending space"], size: "4/0", space: inches(value) }).verdict;
    assertEquals([6.9, 7, 7.1].map(there), ["not ok", "ok", "ok"]);
    assertEquals(asked({ about: ["bending space"], size: "12" }), "not covered");
  });
  it("says that prints differ on two wires of 250 kcmil", () => {
    const { steps } = check({ about: ["bending space"], size: "250 kcmil", wires: 2, leaves: "opposite wall" });
    assert(steps.some(({ note }) => note?.includes("prints differ")));
  });
});

describe("protection by room", () => {
  const of = (room: string, edition: string, more: object = {}) => {
    const answer = check({ about: ["room protection"], room, ...more }, edition);
    return [figure(answer, "arc-fault-protection"), figure(answer, "ground-fault-protection")];
  };
  // 210.8(A) from 2020: receptacles of 125 to 250 V, single-phase, 150 V or less to ground (one source).
  it("asks for ground-fault protection up to 150 V to ground: at and above", () => {
    const at = (toGround: number) => of("garage", "2020", { volts: volts(240), toGround: volts(toGround) })[1];
    assertEquals([120, 150, 151, 240].map(at), ["required", "required", "not required", "not required"]);
  });
  it("has every room under every edition", () => {
    for (const edition of EDITIONS) for (const room of ROOMS) assertEquals(of(room, edition).length, 2);
  });
  it("widened from edition to edition: kitchens in 2023, basements in 2020 (EC&M 2020; a maker's notes on 2023)", () => {
    assertEquals(EDITIONS.map((edition) => of("finished basement", edition)[1]), [
      "near sinks and tubs only",
      "required",
      "required",
      "required",
    ]);
    assertEquals(EDITIONS.map((edition) => of("kitchen", edition)[1]), [
      "countertop receptacles, and near sinks",
      "countertop receptacles, and near sinks",
      "required",
      "required",
    ]);
  });
  it("wants no arc-fault protection in bathrooms and garages (Mike Holt forum), none of 240 V circuits", () => {
    assertEquals(of("bathroom", "2020"), ["not required", "required"]);
    assertEquals(of("garage", "2023"), ["not required", "required"]);
    assertEquals(of("bedroom", "2020")[0], "required");
    assertEquals(of("bedroom", "2020", { volts: volts(240) })[0], "not required");
    assertEquals([20, 21].map((value) => of("bedroom", "2020", { circuit: { value, unit: "A" } })[0]), [
      "required",
      "not required",
    ]);
  });
  it("wants ground-fault protection of a 240 V garage receptacle from 2020 on", () => {
    const more = { volts: volts(240), circuit: { value: 30, unit: "A" } };
    assertEquals(EDITIONS.map((edition) => of("garage", edition, more)[1]), [
      "not required",
      "required",
      "required",
      "required",
    ]);
  });
});

describe("terminals, places and the directory", () => {
  it("one neutral a terminal (408.41)", () => {
    const shared = (request: object) => check({ about: ["neutral terminals"], ...request }).verdict;
    assertEquals([shared({ neutrals: 1 }), shared({ neutrals: 2 })], ["ok", "not ok"]);
    assertEquals([shared({ grounds: 2 }), shared({ neutrals: 1, grounds: 1 })], ["ok if", "not ok"]);
  });
  it("no panel in a bathroom, a clothes closet, over stairs (240.24(D) to (F))", () => {
    const there = (place: string) => check({ about: ["location"], place }).verdict;
    assertEquals(["bathroom", "clothes closet", "stairs", "garage"].map(there), [
      "not ok",
      "not ok",
      "not ok",
      "ok if",
    ]);
    assertEquals(asked({ about: ["location"], place: "closet" }), ["place"]);
  });
  it("the directory leaves the source out in a dwelling (408.4(B))", () => {
    const lines = (request: object) => check({ about: ["record"], panel: "feeder panel", ...request }).record!.length;
    assertEquals(lines({}) - lines({ dwelling: true }), 1);
  });
});

describe("the record", () => {
  it("has the working space of the voltage that was told", () => {
    const depth = (text: string) => figure(answered(`check record for a subpanel, ${text}`), "working-depth");
    assertEquals([depth("120/240 V"), depth("480Y/277 V, concrete wall opposite")], [3, 3.5]);
  });
  const outcome = ask("check record for a subpanel in a detached garage");
  it("has who and when, every pair, every termination, the space and the directory, left to fill", () => {
    assert(outcome.outcome === "answered");
    const { record } = outcome.answer;
    const parts = [...new Set(record!.map(({ part }) => part))];
    assertEquals(parts, ["Who and when", "Continuity", "Terminations", "Space", "Directory"]);
    assert(record!.every(({ found, verdict }) => found === undefined && verdict === undefined));
    assert(record!.length <= 45, "what is longer does not fit a sheet");
  });
  it("is filled with what was read", () => {
    const { record } = check({
      about: ["record"],
      panel: "separate structure",
      readings: [{ from: "ground bar", to: "case", resistance: { value: 0.2, unit: "ohm" } }],
    });
    const line = record!.find(({ what }) => what === "ground bar to case")!;
    assertEquals(line.verdict, "ok");
    assert(line.found !== undefined && line.wanted !== undefined);
  });
  it("stands as a table in markdown, and in part in a chat text", () => {
    const table = printOutcome(outcome, markdown(""));
    assertStringIncludes(table, "| neutral bar to ground bar | open |");
    assertStringIncludes(printOutcome(outcome, text("")), "- ground bar to case: closed");
  });
  it("has a termination that is told once: with what was set, or left to fill", () => {
    const told = { connector: "hex head", size: "2" };
    const lines = (request: object) =>
      check(request).record!.filter(({ what }) => what === "2 AWG, hex head").map(({ verdict }) => verdict);
    assertEquals(lines({ about: ["record"], panel: "feeder panel", ...told }), [undefined]);
    const set = check({ about: ["torque"], ...told, set: { value: 200, unit: "lbf-in" } });
    assertEquals(set.record!.map(({ verdict }) => verdict), [set.verdict]);
  });
  it("is of nothing where one value was only looked up", () => {
    assertEquals(check({ about: ["handle height"] }).record, undefined);
    assertEquals(check({ about: ["torque"], connector: "hex head", size: "2" }).record, undefined);
  });
});

describe("every answer", () => {
  it("fits a message: brief under 400 characters, text under 3,000", () => {
    for (const example of question.examples) {
      const outcome = ask(example);
      assert(printOutcome(outcome, brief("")).length < 400, example);
      assert(printOutcome(outcome, text("")).length < 3000, example);
    }
  });
  it("is asked back what the question is where nothing was told", () => assertEquals(asked({}), ["about"]));
});

describe("written and read again", () => {
  const read = makeReader(engine.questions);
  const torque = (most: number) =>
    fc.integer({ min: 5, max: Math.min(most, 500) }).chain((value) =>
      fc.constantFrom("lbf-in" as const, "lbf-ft" as const, "N-m" as const).map((unit) => ({ value, unit }))
    );
  const maybe = <T>(name: string, value: fc.Arbitrary<T>) => fc.record({ [name]: value }, { requiredKeys: [] });
  const merge = (...parts: fc.Arbitrary<object>[]) => fc.tuple(...parts).map((all) => Object.assign({}, ...all));
  const point = fc.constantFrom("neutral bar", "ground bar", "case", "line A", "line B");
  const readings = fc.tuple(point, point).filter(([from, to]) => from !== to).chain(([from, to]) =>
    fc.oneof(
      fc.constantFrom("closed", "open").map((reads) => [{ from, to, reads }]),
      fc.integer({ min: 0, max: 900 }).map((value) => [{ from, to, resistance: { value, unit: "ohm" } }]),
    )
  );
  const size = fc.constantFrom("12", "6", "2", "2/0", "4/0", "250 kcmil", "500 kcmil");
  const material = maybe("material", fc.constantFrom("copper", "aluminum"));
  const requests: Record<string, fc.Arbitrary<object>> = {
    bonding: merge(
      fc.constantFrom(...PANELS).map((panel) => ({ about: ["bonding"], panel })),
      maybe("phases", fc.constantFrom(1, 3)),
      maybe("bonded", fc.boolean()),
    ),
    continuity: merge(
      fc.constantFrom(...PANELS).map((panel) => ({ about: ["continuity"], panel })),
      maybe("readings", readings),
      maybe("feederNeutral", fc.constantFrom("lifted", "connected")),
      maybe("phases", fc.constantFrom(1, 3)),
    ),
    torque: merge(
      fc.constantFrom(...CONNECTORS.filter((each) => !["small slotted screw", "socket screw"].includes(each)))
        .map((connector) => ({ about: ["torque"], connector })),
      size.map((each) => ({ size: each })),
      material,
      maybe("marked", torque(600)),
      maybe("set", torque(600)),
    ),
    "torque without its unit": merge(
      fc.constant({ about: ["torque"], bareTorque: true }),
      fc.integer({ min: 76, max: 600 }).map((value) => ({ marked: { value, unit: "lbf-in" } })),
    ),
    socket: fc.constantFrom(0.125, 0.25, 0.3125, 0.375, 0.5).map((value) => ({
      about: ["torque"],
      connector: "socket screw",
      socket: inches(value),
    })),
    space: merge(
      fc.constantFrom(120, 277, 480).map((value) => ({ about: ["working space"], toGround: volts(value) })),
      maybe("facing", fc.constantFrom(...FACING)),
      maybe("depth", fc.integer({ min: 10, max: 90 }).map(inches)),
    ),
    height: fc.integer({ min: 20, max: 99 }).map((value) => ({ about: ["handle height"], handle: inches(value) })),
    bending: merge(
      size.map((each) => ({ about: ["bending space"], size: each })),
      maybe("leaves", fc.constantFrom("opposite wall", "another wall")),
      maybe("wires", fc.integer({ min: 2, max: 4 })),
    ),
    rooms: merge(
      fc.constantFrom(...ROOMS.filter((room) => room !== "damp or wet indoor place"))
        .map((room) => ({ about: ["room protection"], room })),
      maybe("circuit", fc.constantFrom(15, 20, 30).map((value) => ({ value, unit: "A" }))),
    ),
    record: fc.constantFrom(...PANELS).map((panel) => ({ about: ["record"], panel })),
  };
  for (const [topic, arbitrary] of Object.entries(requests)) {
    it(`is the same: ${topic}`, () => {
      fc.assert(
        fc.property(arbitrary, (draft) => {
          const request = question.input.parse(draft);
          const written = question.write(request);
          const parsed = read(written);
          assertEquals(parsed.question?.id, "panel-checks", written);
          if (parsed.question) assertEquals(question.input.parse(parsed.draft), request, written);
        }),
        { numRuns: 80 },
      );
    });
  }
});

describe("what is easily read wrong", () => {
  const depth = (text: string) => figure(answered(text), "working-depth");
  it("a grounded corner leaves the whole voltage to ground", () => {
    assertEquals(depth("240 V corner grounded delta, concrete wall opposite, working space"), 3.5);
    assertEquals(depth("120/240 V, concrete wall opposite, working space"), 3);
  });
  it("a width that is not put up is the panel's own", () => {
    assertEquals(figure(answered("panel is 42 inches wide, working space?"), "working-width"), 42);
    assertEquals(answered("working space 28 inches wide in front of the panel, ok?").verdict, "not ok");
  });
  it("a jumper at the transformer isolates the panel after it", () => {
    assertEquals(
      figure(answered("panel after a transformer with the bond in the transformer, bond it?"), "neutral-bond"),
      "isolated",
    );
  });
  it("a panel with its rating in a bathroom is no feeder", () => {
    assertEquals(answered("200 A service panel in a bathroom allowed?").verdict, "not ok");
  });
  it("lines by their letters or told twice, in every spelling, are a pair; of a sum they are none", () => {
    for (const pair of ["leg to leg", "hot to hot", "phase to phase", "line A to line B", "A to B", "B to A"]) {
      const outcome = engine.ask(`${pair} beeps in my subpanel, everything off`);
      assert(outcome.outcome === "answered" && outcome.answer.kind === "panel-checks", pair);
      assertEquals(outcome.answer.verdict, "not ok", pair);
    }
    const single = engine.ask("subpanel, B to case reads open");
    assert(single.outcome === "answered" && single.answer.verdict === "ok");
    const sum = readText("transformer, phase to phase 0.02 ohm");
    assert(!sum.facts.free.some(({ key }) => key === "reading"));
  });
  it("a panel behind a transformer is bonded by what it is, a wye has three phases", () => {
    const answer = answered("panel behind a transformer, bond or isolate? 75 kVA, 208Y/120");
    assertEquals([answer.kind, figure(answer, "neutral-bond"), figure(answer, "feed-wires")], [
      "panel-checks",
      "bonded",
      5,
    ]);
    assertEquals(figure(answered("480Y/277 subpanel, bond or isolate the neutral?"), "feed-wires"), 5);
    assertEquals(figure(answered("120/240 subpanel, bond or isolate the neutral?"), "feed-wires"), 4);
  });
  it("a height in feet with bare inches is one", () => {
    assertEquals(answered("breaker handle at 6 ft 8 ok").verdict, "not ok");
    assertEquals(answered("top breaker handle 6 ft 7 high, ok?").verdict, "ok");
  });
  it("an edition's year behind what protects is the edition", () => {
    const afci = (year: string) => answered(`does a kitchen receptacle need afci, ${year}?`);
    assertEquals([afci("2017").edition, afci("2020").edition], ["2017", "2020"]);
    assertEquals(answered("gfci for a crawl space receptacle 2020").edition, "2020");
  });
  it("what should be read is no reading", () => {
    assertEquals(answered("should neutral and ground beep in a subpanel?").verdict, undefined);
    assertEquals(
      answered("is there supposed to be continuity between neutral and ground in a subpanel").verdict,
      undefined,
    );
  });
  it("volts without their unit are asked about, not passed over", () => {
    const outcome = ask("working space in front of a 480 panel");
    assertEquals(outcome.outcome === "unclear" && outcome.needs[0]!.field, "facing");
  });
});

describe("a conversation", () => {
  const talk = (...texts: string[]) => {
    let after: unknown;
    let last = engine.ask("");
    for (const text of texts) {
      last = engine.ask(text, after ? { after: after as never } : {});
      after = last.thread;
    }
    if (last.outcome !== "answered") throw new Error(JSON.stringify(last).slice(0, 400));
    return last.answer;
  };
  it("takes bare replies to what was asked back", () => {
    assertEquals(figure(talk("torque for a #2 lug", "slotted screw", "wide"), "tightening-torque"), 50);
    assertEquals(figure(talk("torque for a #2 lug", "allen", "5/16"), "tightening-torque"), 275);
    assertEquals(figure(talk("working space for a 480Y/277 panel", "concrete wall"), "working-depth"), 3.5);
    assertEquals(talk("neutral and ground beep together", "subpanel").verdict, "not ok");
    const label = "label on the lug says 45";
    assertEquals(figure(talk(label, "foot pounds"), "tightening-torque"), 540);
    assertEquals(figure(talk(label, "inch pounds"), "tightening-torque"), 45);
    const asked = engine.ask("is the lug label 250 in or ft lbs?");
    assert(
      asked.outcome === "answered" && asked.answer.assumptions.some(({ name }) => name === "torque that is marked"),
    );
    assertEquals(talk("torque 250 on the hex head lug of a 4/0, ok?", "250 foot pounds").verdict, "not ok");
  });
  it("goes on with a change", () => {
    assertEquals(
      talk("neutral and ground beep together in my subpanel", "feeder neutral still connected").verdict,
      "ok if",
    );
    assertEquals(
      figure(talk("torque for 2/0 aluminum on a slotted screw", "make it a split bolt"), "tightening-torque"),
      385,
    );
    assertEquals(
      figure(talk("working space in front of a 480Y/277 V panel, concrete wall opposite", "drywall"), "working-depth"),
      3,
    );
  });
});
