/** Depth in the earth and supports, against published tables and by their own rules. */
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Draft } from "../src/reading/facts.ts";
import { answered, ask, EDITIONS, figure } from "./support/engine.ts";

const lay = (request: Draft, edition = "2023") => answered({ kind: "burial-and-support", ...request }, { edition });
const depth = (request: Draft, edition?: string) =>
  figure(lay({ find: "burial depth", ...request }, edition), "burial-cover") as number;
const spacing = (method: string, size?: string) => {
  const answer = lay({ find: "supports", method, ...(size && { size }) });
  return [figure(answer, "support-spacing"), figure(answer, "support-from-box")];
};

describe("cover", () => {
  // Table 300.5 as reproduced in an adopted code; its first row also in course notes: 24, 6, 18, 12, 6.
  it("goes by what lies there and by what lies above, in every edition", () => {
    for (const edition of EDITIONS) {
      assertEquals(["UF cable", "RMC", "IMC", "PVC", "EMT"].map((method) => depth({ method }, edition)), [
        24,
        6,
        6,
        18,
        18,
      ]);
      const circuits = ["residential branch circuit", "low voltage"];
      assertEquals(circuits.map((circuit) => depth({ method: "UF cable", circuit }, edition)), [12, 6]);
      const under = (location: string) => depth({ method: "UF cable", location }, edition);
      assertEquals(
        [
          "under 2 in of concrete in the trench",
          "under a building",
          "under a concrete slab without vehicles",
          "under a street or parking lot",
          "under a dwelling's driveway",
          "under a runway",
        ].map(under),
        [18, 0, 18, 24, 18, 18],
      );
    }
  });
  it("is judged below, at and above", () => {
    const verdict = (inches: number) =>
      lay({ find: "burial depth", method: "PVC", told: { value: inches, unit: "in" } }).verdict;
    assertEquals([17, 18, 19].map(verdict), ["not ok", "ok", "ok"]);
    const metres = lay({ find: "burial depth", method: "UF cable", told: { value: 0.6, unit: "m" } });
    assertEquals(metres.verdict, "not ok");
  });
  it("of a kind that was not told is given for all three, and a figure put up asks which it is", () => {
    const all = lay({ find: "burial depth" });
    const ids = ["burial-cover-direct", "burial-cover-pvc", "burial-cover-rigid"];
    assertEquals(ids.map((id) => figure(all, id)), [24, 18, 6]);
    const outcome = ask({ kind: "burial-and-support", find: "burial depth", told: { value: 12, unit: "in" } });
    assert(outcome.outcome === "unclear");
  });
  it("is none of a cable that may not lie in the earth", () => {
    assertEquals(ask({ kind: "burial-and-support", find: "burial depth", method: "NM cable" }).outcome, "not covered");
  });
  it("is never more for rigid conduit than for what is laid bare, and least under a dwelling's own circuit", () => {
    for (const location of ["elsewhere", "under a street or parking lot", "under a dwelling's driveway"]) {
      const [bare, rigid] = ["UF cable", "RMC"].map((method) => depth({ method, location }));
      assert(rigid! <= bare!);
      assert(depth({ method: "UF cable", location, circuit: "residential branch circuit" }) <= bare!);
    }
  });
});

describe("what is made for the earth only where it says so", () => {
  // Columns of Table 300.5: MC as a cable for direct burial, liquidtight conduit as an approved raceway.
  it("has its column's cover, and the condition with it", () => {
    for (const [method, inches] of [["MC cable", 24], ["LFMC", 18], ["LFNC", 18]] as const) {
      assertEquals(depth({ method }), inches);
      assert(lay({ find: "burial depth", method }).cautions.some(({ text }) => text.includes("marked for direct")));
    }
    assertEquals(ask({ kind: "burial-and-support", method: "FMC" }).outcome, "not covered");
  });
});

describe("supports", () => {
  // A supplier's article on conduit clamps (358.30, 352.30), and a code guide on rigid conduit (344.30).
  it("go by the raceway, PVC by its size", () => {
    assertEquals(spacing("EMT", "3/4"), [10, 3]);
    const sizes = ["1/2", "1", "1-1/4", "2", "2-1/2", "3", "3-1/2", "5", "6"];
    assertEquals(
      sizes.map((size) => spacing("PVC", size)),
      [3, 3, 5, 5, 6, 6, 7, 7, 8].map((between) => [between, 3]),
    );
    assertEquals(spacing("RMC", "1"), [10, 3]);
  });
  it("of straight threaded rigid conduit may be farther apart", () => {
    const said = (size: string) => lay({ find: "supports", method: "RMC", size }).headline;
    for (const [size, feet] of [["3/4", 10], ["1", 12], ["1-1/2", 14], ["2-1/2", 16], ["3", 20]] as const) {
      assert(said(size).includes(`up to ${feet} ft`), said(size));
    }
  });
  it("armored cable is told beside the metal-clad one, for which it is taken", () => {
    const { headline } = answered("armored cable support spacing");
    assert(headline.includes("6 ft") && headline.includes("AC (BX) cable every 4.5 ft"), headline);
  });
  it("of cables", () => {
    assertEquals(["NM cable", "MC cable", "AC cable"].map((method) => spacing(method)), [[4.5, 1], [6, 1], [4.5, 1]]);
    const verdict = (feet: number) =>
      lay({ find: "supports", method: "NM cable", told: { value: feet, unit: "ft" } }).verdict;
    assertEquals([4, 4.5, 5].map(verdict), ["ok", "ok", "not ok"]);
  });
});
