/** Grounding and bonding conductors, against published tables and examples. */
import fc from "fast-check";
import { assert, assertEquals, assertStringIncludes } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Request } from "../src/engine.ts";
import { makeReader } from "./support/reader.ts";
import { answered, ask, EDITIONS, editions, engine, figure } from "./support/engine.ts";
import { sound } from "./support/sound.ts";

const A = (value: number) => ({ value, unit: "A" });
const grounding = (request: object): Request => ({ kind: "grounding", ...request });
const one = (find: string, id: string) => (request: object, edition = "2023") =>
  figure(answered(grounding({ find: [find], ...request }), { edition }), id);
const toElectrode = one("grounding electrode conductor", "grounding-electrode-conductor");
const mainJumper = one("main bonding jumper", "main-bonding-jumper");
const supplyJumper = one("supply-side bonding jumper", "supply-side-bonding-jumper");
const ground = one("equipment ground", "equipment-grounding-conductor");

describe("a ground ring", () => {
  it("of less than 2 AWG is asked about (250.52(A)(4))", () => {
    const ring = (size: string) =>
      ask({ kind: "grounding", size: "4/0", material: "copper", electrode: "ground ring", ring: size });
    const small = ring("4");
    assert(small.outcome === "unclear" && small.needs[0]!.field === "ring");
    assert(small.needs[0]!.ask.includes("250.52(A)(4)"));
    assertEquals(ring("2").outcome, "answered");
  });
});

describe("published examples", () => {
  it("three sets of 250 kcmil with one jumper for all: 2/0 (The Building Code Forum, thread 26483)", () => {
    assertEquals(
      supplyJumper({ size: "250 kcmil", material: "copper", sets: 3, jumpers: "one for all" }, "2017"),
      "2/0",
    );
  });
  it("four sets of 500 kcmil: 250 kcmil, 12.5 % of the area (NEC Digest answer, Mike Holt forum thread 27781)", () => {
    for (const edition of EDITIONS) {
      assertEquals(mainJumper({ size: "500 kcmil", material: "copper", sets: 4 }, edition), "250 kcmil");
    }
  });
  it("300 A with 250 kcmil raised to 350 kcmil: 2 AWG (NEC Handbook example for 250.122(B), Code Talk notes 32)", () => {
    for (const edition of EDITIONS) {
      assertEquals(
        ground({ devices: [A(300)], needed: "250 kcmil", size: "350 kcmil", upsizedFor: "voltage drop" }, edition),
        "2",
      );
    }
  });
  it("2/0 aluminum service: 6 AWG copper to the electrode (IEC year 2 exam preparation)", () => {
    assertEquals(toElectrode({ size: "2/0", material: "aluminum", electrode: "water pipe" }), "6");
  });
  it("4/0 aluminum service: 4 AWG copper jumper (EC&M code quiz on the supply-side bonding jumper)", () => {
    assertEquals(supplyJumper({ size: "4/0", material: "aluminum" }), "4");
  });
});

describe("the electrode conductor", () => {
  // Table 250.66, each row's last size and the next one.
  const ROWS = [
    ["copper", "2", "8", "6"],
    ["copper", "1", "6", "4"],
    ["copper", "1/0", "6", "4"],
    ["copper", "2/0", "4", "2"],
    ["copper", "3/0", "4", "2"],
    ["copper", "4/0", "2", "1/0"],
    ["copper", "350 kcmil", "2", "1/0"],
    ["copper", "400 kcmil", "1/0", "3/0"],
    ["copper", "600 kcmil", "1/0", "3/0"],
    ["copper", "700 kcmil", "2/0", "4/0"],
    ["copper", "1000 kcmil", "2/0", "4/0"],
    ["copper", "1250 kcmil", "3/0", "250 kcmil"],
    ["aluminum", "1/0", "8", "6"],
    ["aluminum", "2/0", "6", "4"],
    ["aluminum", "3/0", "6", "4"],
    ["aluminum", "4/0", "4", "2"],
    ["aluminum", "250 kcmil", "4", "2"],
    ["aluminum", "300 kcmil", "2", "1/0"],
    ["aluminum", "500 kcmil", "2", "1/0"],
    ["aluminum", "600 kcmil", "1/0", "3/0"],
    ["aluminum", "900 kcmil", "1/0", "3/0"],
    ["aluminum", "1000 kcmil", "2/0", "4/0"],
    ["aluminum", "1750 kcmil", "2/0", "4/0"],
    ["aluminum", "2000 kcmil", "3/0", "250 kcmil"],
  ] as const;
  it("follows the table by row, in every edition", () => {
    for (const [material, size, copper, aluminum] of ROWS) {
      for (const edition of EDITIONS) {
        const of = (groundMaterial: string) =>
          toElectrode({ material, size, groundMaterial, electrode: "water pipe" }, edition);
        assertEquals([of("copper"), of("aluminum")], [copper, aluminum], `${size} ${material}, ${edition}`);
      }
    }
  });
  it("need not exceed 6 AWG copper or 4 AWG aluminum to rods, 4 AWG copper to concrete (250.66(A), (B))", () => {
    const supply = { size: "500 kcmil", material: "copper" };
    assertEquals(toElectrode({ ...supply, electrode: "rod" }), "6");
    assertEquals(toElectrode({ ...supply, electrode: "rod", groundMaterial: "aluminum" }), "4");
    assertEquals(toElectrode({ ...supply, electrode: "concrete-encased" }), "4");
    assertEquals(toElectrode({ size: "2", material: "copper", electrode: "rod" }), "8");
    assertEquals(toElectrode({ size: "1", material: "copper", electrode: "concrete-encased" }), "6");
  });
  it("counts parallel sets as one area: two sets of 3/0 are 335.6 kcmil", () => {
    assertEquals(toElectrode({ size: "3/0", material: "copper", sets: 2, electrode: "water pipe" }), "2");
  });
  it("asks for the conductors where only a rating is told", () => {
    const outcome = ask(grounding({ service: A(400) }));
    assert(outcome.outcome === "unclear" && outcome.needs[0]!.field === "size");
  });
});

describe("to a ground ring alone (250.66(C))", () => {
  const ring = { electrode: "ground ring", material: "copper" };
  it("no larger than the ring, and no larger than the table asks", () => {
    for (const edition of EDITIONS) {
      assertEquals(toElectrode({ size: "4", ...ring }, edition), "8");
      assertEquals(toElectrode({ size: "3/0", ...ring }, edition), "4");
      assertEquals(toElectrode({ size: "500 kcmil", ...ring }, edition), "2");
      assertEquals(toElectrode({ size: "500 kcmil", ring: "1/0", ...ring }, edition), "1/0");
      assertEquals(toElectrode({ size: "500 kcmil", ring: "4/0", ...ring }, edition), "1/0");
    }
  });
  it("the ring's size is listed where it was not told", () => {
    const told = answered(grounding({ find: ["grounding electrode conductor"], size: "500 kcmil", ...ring }));
    assert(told.assumptions.some(({ name }) => name === "ground ring"));
  });
  it("in aluminum it is asked back: a ring lies in earth (250.64(A))", () => {
    const outcome = ask(
      grounding({ find: ["grounding electrode conductor"], size: "4", ...ring, groundMaterial: "aluminum" }),
    );
    assertEquals(outcome.outcome, "unclear");
  });
});

describe("the bonding jumpers", () => {
  it("are read from the table to 1100 kcmil copper, and are 12.5 % of the area above", () => {
    const copper = (sets: number, size: string) => mainJumper({ material: "copper", sets, size });
    // 1100 kcmil is the last row; 3 × 400 = 1200 kcmil asks for 150 kcmil, which is 3/0.
    assertEquals([copper(2, "500 kcmil"), copper(3, "400 kcmil"), copper(3, "500 kcmil"), copper(6, "500 kcmil")], [
      "2/0",
      "3/0",
      "4/0",
      "400 kcmil",
    ]);
  });
  it("may be one in each raceway, of that raceway's own conductors", () => {
    const supply = { size: "250 kcmil", material: "copper", sets: 3 };
    assertEquals(supplyJumper({ ...supply, jumpers: "one for each raceway" }), "2");
    assertEquals(supplyJumper(supply), "2/0");
  });
  it("of another metal than the supply are asked about above the table", () => {
    const outcome = ask(grounding({ find: ["main bonding jumper"], size: "500 kcmil", material: "aluminum", sets: 5 }));
    assert(outcome.outcome === "unclear" && outcome.needs[0]!.field === "groundMaterial");
    assertEquals(
      mainJumper({ size: "500 kcmil", material: "aluminum", sets: 5, groundMaterial: "aluminum" }),
      "350 kcmil",
    );
  });
});

describe("the equipment ground", () => {
  // Table 250.122 (Mike Holt newsletter 2080, 2017 code), at and just above each row.
  const ROWS = [
    [15, "14", "12"],
    [16, "12", "10"],
    [20, "12", "10"],
    [25, "10", "8"],
    [60, "10", "8"],
    [70, "8", "6"],
    [100, "8", "6"],
    [110, "6", "4"],
    [200, "6", "4"],
    [225, "4", "2"],
    [300, "4", "2"],
    [350, "3", "1"],
    [400, "3", "1"],
    [450, "2", "1/0"],
    [500, "2", "1/0"],
    [600, "1", "2/0"],
    [700, "1/0", "3/0"],
    [800, "1/0", "3/0"],
    [1000, "2/0", "4/0"],
    [1200, "3/0", "250 kcmil"],
    [1600, "4/0", "350 kcmil"],
    [2000, "250 kcmil", "400 kcmil"],
  ] as const;
  it("follows the table by device", () => {
    for (const [device, copper, aluminum] of ROWS) {
      for (const edition of EDITIONS) {
        assertEquals(ground({ devices: [A(device)] }, edition), copper, `${device} A`);
        assertEquals(ground({ devices: [A(device)], groundMaterial: "aluminum" }, edition), aluminum, `${device} A`);
      }
    }
  });
  it("is aluminum 1200 kcmil at 6000 A in 2017, and 1250 from 2020", () => {
    const at = (edition: string) => ground({ devices: [A(6000)], groundMaterial: "aluminum" }, edition);
    assertEquals([at("2017"), at("2020"), at("2023")], ["1200 kcmil", "1250 kcmil", "1250 kcmil"]);
  });
  it("is asked back for where only the wire is told", () => {
    const outcome = ask("what ground wire do I need with 1/0 copper?");
    assert(outcome.outcome === "unclear" && outcome.needs[0]!.field === "breaker");
  });
  it("need not be larger than the circuit's own conductors", () => {
    assertEquals(ground({ devices: [A(60)], size: "12" }), "12");
    assertEquals(ground({ devices: [A(20)], needed: "12", size: "6" }), "6");
  });
  it("goes by the largest device of the circuits that share it (250.122(C))", () => {
    assertEquals(ground({ devices: [A(20), A(70), A(30)] }), "8");
  });
  it("is full size in each raceway of parallel sets (250.122(F))", () => {
    assertEquals(ground({ devices: [A(800)], sets: 3, size: "300 kcmil" }), "1/0");
  });
  it("does not grow for temperature, which 2017 leaves open and so lists", () => {
    const raised = { devices: [A(100)], needed: "3", size: "1", upsizedFor: "ampacity corrections" };
    assertEquals(EDITIONS.map((edition) => ground(raised, edition)), ["8", "8", "8", "8"]);
    const listed = (edition: string) =>
      answered(grounding(raised), { edition }).assumptions.some(({ name }) =>
        name.startsWith("increase for temperature")
      );
    assertEquals(EDITIONS.map(listed), [true, false, false, false]);
    // 8 AWG × 83.69 ÷ 52.62 is a little above 6 AWG. From 2020 the words say that such an increase is none (250.122(B)).
    assertEquals(EDITIONS.map((edition) => ground({ ...raised, anyIncrease: true }, edition)), ["4", "8", "8", "8"]);
    const typed = answered(
      "ground for a 100 A breaker, conductors raised from #3 to #1 for ambient temperature, any increase counts",
      {
        edition: "2017",
      },
    );
    assertEquals(figure(typed, "equipment-grounding-conductor"), "4");
  });
  it("takes the next listed size above the exact area", () => {
    // 8 AWG is 16.51 kcmil; × 83.69 ÷ 52.62 is 26.26, a little above 6 AWG (26.24).
    assertEquals(ground({ devices: [A(100)], needed: "3", size: "1", upsizedFor: "voltage drop" }), "4");
  });
});

describe("a plan", () => {
  it("is judged by area", () => {
    const plan = (size: string) =>
      answered(grounding({ find: ["equipment ground"], devices: [A(125)], ground: size })).verdict;
    assertEquals([plan("8"), plan("6"), plan("4")], ["not ok", "ok", "ok"]);
  });
  it("of earth as the fault path is never ok (250.4(A)(5))", () => {
    for (const edition of EDITIONS) {
      const answer = answered("can I drive a ground rod instead of an equipment ground?", { edition });
      assertEquals(answer.verdict, "not ok");
      assertStringIncludes(answer.verdictBecause!, "250.4(A)(5)");
    }
  });
});

const table = editions.get("2023")!.table("conductor-properties");
const SIZES = table.data.rows.map((row) => String(row[0])).slice(table.data.rows.findIndex((row) => row[0] === "14"));
const area = (size: number | string) => Number(table.row(String(size))![1]);
const anySize = fc.constantFrom(...SIZES);
const device = fc.constantFrom(15, 20, 60, 100, 200, 400, 800, 1200).map(A);

describe("for any supply", () => {
  it("more copper ahead never means a smaller electrode conductor or jumper", () => {
    fc.assert(fc.property(anySize, fc.integer({ min: 1, max: 6 }), (size, sets) => {
      for (const find of [toElectrode, mainJumper]) {
        const small = area(find({ size, material: "copper", sets, electrode: "water pipe" }));
        assert(area(find({ size, material: "copper", sets: sets + 1, electrode: "water pipe" })) >= small);
      }
    }));
  });
  it("a raised circuit never has a smaller ground", () => {
    fc.assert(fc.property(device, anySize, anySize, (each, a, b) => {
      const [needed, size] = area(a) < area(b) ? [a, b] : [b, a];
      const plain = ground({ devices: [each], size: needed, needed });
      assert(area(ground({ devices: [each], size, needed, upsizedFor: "voltage drop" })) >= area(plain));
    }));
  });
  it("every edition ends in an outcome and never throws", () => {
    const any = fc.record({
      find: fc.subarray([
        "grounding electrode conductor",
        "main bonding jumper",
        "system bonding jumper",
        "supply-side bonding jumper",
        "equipment ground",
      ]),
      size: anySize,
      needed: anySize,
      material: fc.constantFrom("copper", "aluminum"),
      groundMaterial: fc.constantFrom("copper", "aluminum"),
      sets: fc.integer({ min: 1, max: 20 }),
      electrode: fc.constantFrom("water pipe", "rod", "concrete-encased", "ground ring"),
      devices: fc.array(device, { minLength: 1, maxLength: 3 }),
      ground: anySize,
      upsizedFor: fc.constantFrom("voltage drop", "ampacity corrections"),
      anyIncrease: fc.constant(true),
    }, { requiredKeys: [] });
    fc.assert(
      fc.property(any, fc.constantFrom(...EDITIONS), (r, edition) => {
        sound(ask(grounding(r), { edition }));
      }),
      { numRuns: 300 },
    );
  });
});

describe("a grounding request written out", () => {
  const read = makeReader(engine.questions);
  const { input, write } = engine.questions.find(({ id }) => id === "grounding")!;
  const sized = fc.constantFrom("6", "1", "3/0", "4/0", "250 kcmil", "500 kcmil");
  const supply = fc.record({
    find: fc.subarray([
      "grounding electrode conductor",
      "main bonding jumper",
      "system bonding jumper",
      "supply-side bonding jumper",
    ], { minLength: 1 }),
    size: sized,
    material: fc.constantFrom("copper", "aluminum"),
    sets: fc.integer({ min: 2, max: 6 }),
    jumpers: fc.constantFrom("one for all", "one for each raceway"),
    groundMaterial: fc.constantFrom("copper", "aluminum"),
    electrode: fc.constantFrom("water pipe", "rod", "concrete-encased", "ground ring"),
    service: fc.constantFrom(100, 200, 400).map(A),
  }, { requiredKeys: ["find"] }).filter(({ find, electrode }) =>
    // An electrode beside the main bonding jumper is read as a wish for its conductor too.
    electrode === undefined || !find.includes("main bonding jumper") || find.includes("grounding electrode conductor")
  );
  const circuit = fc.record({
    find: fc.constant(["equipment ground"]),
    devices: fc.uniqueArray(device, { minLength: 1, maxLength: 3, selector: ({ value }) => value }),
    size: sized,
    material: fc.constantFrom("copper", "aluminum"),
    groundMaterial: fc.constantFrom("copper", "aluminum"),
    ground: sized,
    check: fc.constant(true),
  }, { requiredKeys: ["find", "devices"] });
  const raised = fc.record({
    find: fc.constant(["equipment ground"]),
    devices: fc.array(device, { minLength: 1, maxLength: 1 }),
    needed: fc.constantFrom("8", "3"),
    size: fc.constantFrom("2", "250 kcmil"),
    material: fc.constantFrom("copper", "aluminum"),
    upsizedFor: fc.constantFrom("voltage drop", "ampacity corrections"),
    anyIncrease: fc.constant(true),
  }, { requiredKeys: ["find", "devices", "needed", "size"] });
  it("reads back the same", () => {
    fc.assert(
      fc.property(fc.oneof(supply, circuit, raised), (drawn) => {
        // A metal is that of a size or of a service: alone it decides nothing.
        const { material: _, ...bare } = drawn;
        const r = drawn.size || "service" in drawn ? drawn : bare;
        const text = write(input.parse(JSON.parse(JSON.stringify(r))));
        const parsed = read(text);
        assert(parsed.question && parsed.question.id === "grounding", text);
        const sorted = (draft: object) => ({ ...draft, find: [...(draft as { find: string[] }).find].sort() });
        assertEquals(sorted(parsed.draft), sorted(JSON.parse(JSON.stringify(r))), text);
      }),
      { numRuns: 400 },
    );
  });
});
