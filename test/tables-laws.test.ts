/**
 * What small tables and single values must be by what stands elsewhere: by the name of the thing, geometry, what insulation adds
 * to a wire, and the rules that two tables share. The figures compared with are another table's or are named with their source.
 */
import { assert, assertAlmostEquals, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { exact } from "../src/core/quantity.ts";
import { type Table } from "../src/editions/table.ts";
import { EDITIONS, editions } from "./support/engine.ts";

const table = (code: string, id: string): Table => editions.get(code)!.table(id);
const value = (code: string, id: string) => exact(editions.get(code)!.constant(id).value as number | string).valueOf();
const keys = (t: Table) => t.data.rows.map((row) => row[0] ?? null);
const column = (t: Table, name: string) => t.data.rows.map((row) => t.number(row, name)?.valueOf());
const rowOf = (t: Table, key: string) => {
  const row = t.row(key);
  assert(row, `${t.id} has no row ${key}`);
  return row;
};
/** `2-1/2` or `10` as a number. */
const mixed = (text: string) =>
  text.split("-").map((part) => exact(part).valueOf()).reduce((sum, part) => sum + part, 0);
/** Calls the check for every edition. */
const inEach = (check: (code: string) => void) => () => EDITIONS.forEach(check);

describe("things that bear their measures in their names", () => {
  it(
    "boxes: across and depth",
    inEach((code) => {
      const boxes = table(code, "box-volumes");
      for (const row of boxes.data.rows) {
        // FS and FD boxes bear a letter instead.
        if (!/^\d/.test(String(row[0]))) continue;
        const sides = String(row[0]).split(" ").slice(0, -1).join(" ").split(" x ");
        assertEquals(boxes.cell(row, "across"), sides.slice(0, -1).join(" x "), `${code} ${row[0]}`);
        assertEquals(boxes.number(row, "depth")!.valueOf(), mixed(sides.at(-1)!), `${code} ${row[0]}`);
      }
    }),
  );
  it(
    "wireways: one side by the other",
    inEach((code) => {
      const sizes = table(code, "wireway-sizes");
      for (const row of sizes.data.rows) {
        const [width, height] = String(row[0]).replace(" in", "").split(" x ").map(mixed);
        assertEquals(sizes.number(row, "inside area")!.valueOf(), width! * height!, `${code} ${row[0]}`);
      }
    }),
  );
  it(
    "rigid conduit: the last row of its supports reaches the largest trade size there is",
    inEach((code) => {
      for (const id of ["rigid-conduit-supports", "pvc-supports"]) {
        const largest = String(keys(table(code, id === "pvc-supports" ? "raceway-pvc-40" : "raceway-rmc")).at(-1));
        assertEquals(`${keys(table(code, id)).at(-1)} in`, largest, `${code} ${id}`);
      }
    }),
  );
  it("the circle constant: the sum of Machin's formula", () => {
    assertAlmostEquals(value("2017", "circle-constant"), 16 * Math.atan(1 / 5) - 4 * Math.atan(1 / 239), 1e-13);
  });
});

describe("compact conductors (Chapter 9, Table 5A, from memory)", () => {
  /** Thickness of insulation with nylon in mils by size (Table 310.104(A), from these sizes on). */
  const SIZES_FROM = ["8", "6", "4", "1", "250 kcmil", "600 kcmil"];
  const THICKNESS: Record<string, number[]> = {
    THHN: [35, 35, 46, 57, 68, 79],
    XHHW: [45, 45, 45, 55, 65, 80],
    THW: [60, 60, 60, 80, 95, 110],
  };
  it(
    "are round, thinner than concentric ones, and bear the insulation of their type",
    inEach((code) => {
      const compact = table(code, "compact-conductor-dimensions");
      const concentric = table(code, "insulated-conductor-dimensions");
      const properties = table(code, "conductor-properties");
      const areaOf = (size: string) => properties.number(rowOf(properties, size), "area")!.valueOf();
      for (const row of compact.data.rows) {
        const size = String(row[0]);
        const bare = compact.number(row, "bare diameter")!.valueOf();
        // Chapter 9, Table 8, notes: compact stranding is about 9 % smaller in bare diameter than class B.
        const thinner = bare / properties.number(rowOf(properties, size), "diameter")!.valueOf();
        assert(thinner > 0.895 && thinner < 0.925, `${size}: bare ${bare} is ${thinner} of class B`);
        for (const [type, thickness] of Object.entries(THICKNESS)) {
          const diameter = compact.number(row, `${type} diameter`)?.valueOf();
          if (diameter === undefined) continue;
          // The area is worked from a diameter of one digit more than the one printed beside it.
          const area = compact.number(row, `${type} area`)!.valueOf();
          assertAlmostEquals(area, Math.PI / 4 * diameter ** 2, 6e-4, `${code} ${size} ${type} area`);
          // What is printed is up to 10 mils more, 22 from 250 kcmil on; THHN of 900 and 1000 kcmil stands out.
          const covered = bare +
            2 * thickness[SIZES_FROM.findLastIndex((from) => areaOf(size) >= areaOf(from))]! / 1000;
          const [more, kcmil] = [diameter - covered, areaOf(size)];
          const most = kcmil < 250 ? 0.0101 : kcmil >= 900 && type === "THHN" ? 0.0371 : 0.0221;
          assert(more > -0.0011 && more < most, `${size} ${type}: ${more.toFixed(4)}`);
          // THW of 8 AWG has the thicker insulation of larger sizes here.
          if (size === "8" && type === "THW") continue;
          const wide = concentric.number(rowOf(concentric, size), `${type} diameter`)?.valueOf();
          if (wide !== undefined) assert(diameter < wide + 0.002, `${size} ${type}: ${diameter} against ${wide}`);
        }
      }
    }),
  );
});

describe("3/8 in flexible conduit (Table 348.22, from memory)", () => {
  it(
    "holds, with fittings outside, what its bore does by Chapter 9",
    inEach((code) => {
      const allowed = table(code, "flexible-conduit-conductors");
      const bores = table(code, "raceway-fmc");
      const bore = rowOf(bores, "3/8 in");
      const wires = table(code, "insulated-conductor-dimensions");
      for (const size of ["14", "12", "10"]) {
        for (const type of ["XHHW", "THHN"]) {
          const area = wires.number(rowOf(wires, size), `${type} area`)!.valueOf();
          const fits = (count: number) => {
            const fill = ["one conductor", "two conductors"][count - 1] ?? "over two conductors";
            // Wires of one size: a remainder of 0.8 is one wire more (notes to Table 1).
            return Math.floor(bores.number(bore, fill)!.valueOf() / area + 0.2) >= count;
          };
          const most = [1, 2, 3, 4, 5, 6].findLast(fits);
          assertEquals(allowed.number(rowOf(allowed, size), `${type}, fittings outside`)?.valueOf(), most, size + type);
        }
      }
    }),
  );
  it(
    "holds no more of a larger size, of thicker insulation or with the fittings inside",
    inEach((code) => {
      const t = table(code, "flexible-conduit-conductors");
      for (const name of Object.keys(t.data.columns)) {
        column(t, name).forEach((count, i, all) => assert(i === 0 || count! <= all[i - 1]!, `${name}, row ${i}`));
      }
      for (const row of t.data.rows) {
        const [a, b, c, d] = ["XHHW", "THHN"].flatMap((type) =>
          ["inside", "outside"].map((where) => t.number(row, `${type}, fittings ${where}`)!.valueOf())
        );
        assert(a! <= b! && c! <= d! && a! <= c! && b! <= d!, String(row[0]));
      }
    }),
  );
});

describe("mobile homes and parks", () => {
  it(
    "a range counts as one range of column C does, 5 % more for each kilowatt above 12 (Table 220.55, note 1)",
    inEach((code) => {
      const ranges = table(code, "mobile-home-range-demand");
      const cooking = table(code, "household-cooking-demand");
      const one = cooking.number(cooking.row(exact(1))!, "column C")!.valueOf();
      for (const row of ranges.data.rows) {
        const demand = ranges.number(row, "demand")?.valueOf();
        const upTo = Number(row[0]);
        if (demand === undefined) assertEquals(upTo * ranges.number(row, "share")!.valueOf() / 100, one);
        // Half a kilowatt more is a major fraction, and these rows end there.
        else assertEquals(demand, one * (1 + 0.05 * (upTo / 1000 - 12.5)), `${code}, up to ${upTo} W`);
      }
    }),
  );
  it(
    "general lighting goes by the tiers of a dwelling as far as its own reach (Table 220.42)",
    inEach((code) => {
      const [home, house] = ["mobile-home-lighting-demand", "general-lighting-demand-dwelling"]
        .map((id) => table(code, id).data.rows.slice(0, 2).map((row) => row.slice(0, 2)));
      assertEquals([home![0], home![1]![1]], [house![0], house![1]![1]]);
    }),
  );
  it(
    "a home's service and feeder are no smaller than a one-family dwelling's (230.79(C))",
    inEach((code) => {
      for (const id of ["mobile-home-service-least", "mobile-home-feeder-least"]) {
        assertEquals(value(code, id), value(code, "one-family-minimum-service"), `${code} ${id}`);
      }
    }),
  );
  it(
    "its metric unit load is that of a square foot (1 m² = 10.764 ft²), rounded up",
    inEach((code) => {
      assertEquals(
        value(code, "mobile-home-unit-load-metric"),
        Math.ceil(value(code, "mobile-home-unit-load") / .3048 ** 2),
      );
    }),
  );
  it(
    "the share falls with every row, and what all lots or sites come to within a row rises",
    inEach((code) => {
      for (const id of ["mobile-home-park-demand", "recreational-vehicle-site-demand"]) {
        const t = table(code, id);
        const demands = column(t, "demand").map(Number);
        demands.forEach((demand, i) => assert(i === 0 || demand < demands[i - 1]!, `${code} ${id}, row ${i}`));
        const total = (count: number) => count * t.number(t.row(exact(count))!, "demand")!.valueOf();
        // One lot more never takes less, but where rows of more than a few lots begin.
        const falls = Array.from({ length: 80 }, (_, i) => i + 1).filter((count) => total(count + 1) < total(count));
        assertEquals(falls, id === "mobile-home-park-demand" ? [40, 60] : [], `${code} ${id}`);
      }
    }),
  );
});

describe("rules that two tables share", () => {
  it(
    "circuits with several outlets are those that Table 210.21(B)(3) has receptacles for, and 10 A from 2023 (210.18)",
    inEach((code) => {
      const receptacles = keys(table(code, "receptacle-ratings"));
      const ratings = keys(table(code, "several-outlet-circuits"));
      assertEquals(ratings, code < "2023" ? receptacles : [10, ...receptacles]);
    }),
  );
  it(
    "a service has as many disconnects at most as the supply of a building (230.71, 225.33)",
    inEach((code) => {
      assertEquals(value(code, "most-service-disconnects"), value(code, "separate-structure-disconnects-most"));
    }),
  );
  it(
    "the metric depth of a working space is that in feet, cut to a tenth of a metre",
    inEach((code) => {
      const t = table(code, "working-space-depth");
      for (const row of t.data.rows) {
        for (const name of Object.keys(t.data.columns).filter((each) => !each.endsWith(", metric"))) {
          const metres = t.number(row, name)!.valueOf() * 0.3048;
          const printed = t.number(row, `${name}, metric`)!.valueOf();
          assertEquals(printed, Math.floor(metres * 10) / 10, `${code}, up to ${row[0]} V, ${name}`);
        }
      }
    }),
  );
});
