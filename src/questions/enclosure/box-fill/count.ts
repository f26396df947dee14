/** What in a box counts, by how much: every allowance with the size that it is reckoned by. */
import type { ConductorSize } from "../../../core/conductor-size.ts";
import { calc } from "../../../core/formula.ts";
import { need, NotCovered } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { sizesIn } from "../../../rules/conductors.ts";
import type { BoxRequest } from "./request.ts";

/** Where the volume of a size stands. */
const VOLUMES = "box-conductor-volume";
/** What a request without its open count is once that is filled in. */
type Filled = BoxRequest;

const number = (w: Worksheet, name: string, n: number): Known<"1"> => w.given(name, { n: String(n), unit: "1" });

/** The allowance of one conductor of a size. @throws NotCovered from 4 AWG up, where boxes go by their raceways */
export function volumeOf(w: Worksheet, size: ConductorSize): Known<"in3"> {
  if (!w.has(VOLUMES, "volume", size)) {
    throw new NotCovered(
      `box fill counts conductors up to 6 AWG, and this is ${size.name}: from 4 AWG up a box goes by its raceways (${
        w.cite("pull-boxes").section
      }), so ask for the pull box, “pull box, angle pull, 2 in raceways”`,
      w.edition.id,
    );
  }
  return w.lookUp<"in3">(`allowance of one ${size} conductor`, VOLUMES, "volume", size);
}

/** Sizes of everything that lies in the box, largest first by their allowance. */
function sizesInside(w: Worksheet, r: Filled): ConductorSize[] {
  const all = [...r.conductors ?? [], ...r.cables ?? [], ...(r.grounds?.size ? [r.grounds] : [])].map((each) =>
    each.size!
  );
  return largestFirst(w, [...new Set(all)]);
}

/** By their allowance: a size that the table does not have is larger than those it has. */
function largestFirst(w: Worksheet, sizes: readonly ConductorSize[]): ConductorSize[] {
  const order = sizesIn(w, VOLUMES);
  const rank = (size: ConductorSize) => order.includes(size) ? order.indexOf(size) : order.length;
  return [...sizes].sort((a, b) => rank(b) - rank(a));
}

export type Count = { volume: Known<"in3">; allowances: Known<"1">; largest: ConductorSize };

/** Everything in the box, counted by its rule, and the volume that all of it needs. */
export function count(w: Worksheet, r: Filled): Count {
  const sizes = sizesInside(w, r);
  const largest = sizes[0] ?? r.deviceSize;
  if (largest === undefined) {
    throw need("conductors", "Which conductors come into the box, how many and of what size?", "three 12/2 cables");
  }
  const volumes: Known<"in3">[] = [];
  const allowances: Known<"1">[] = [];
  const put = (what: string, counted: Known<"1">, size: ConductorSize, clause: string) => {
    const each = volumeOf(w, size);
    allowances.push(counted);
    volumes.push(w.work(`volume of the ${what}`, "in3", calc`${counted} × ${each}`, clause));
  };
  for (const { size, count: n = 1 } of r.conductors ?? []) {
    const told = number(w, `${size} conductors`, n);
    if (!r.looped) put(`${size} conductors`, told, size, "box-conductors");
    else {
      const twice = w.constant<"1">("box-loop-allowances");
      const counted = w.work(`allowances of the looped ${size}`, "1", calc`${told} × ${twice}`, "box-conductors");
      put(`looped ${size} conductors`, counted, size, "box-conductors");
    }
  }
  for (const { size, wires, count: n = 1 } of r.cables ?? []) {
    const name = `${size.name}/${wires}`;
    const cables = number(w, `${name} cables`, n);
    const each = number(w, `insulated conductors in a ${name}`, wires);
    put(
      `${name} cables`,
      w.work(`conductors of the ${name} cables`, "1", calc`${cables} × ${each}`, "box-conductors"),
      size,
      "box-conductors",
    );
  }
  countGrounds(w, r, put);
  countFittings(w, r, largest, put);
  const volume = w.work("required volume", "in3", calc`sum(${volumes})`, "box-fill");
  const all = w.work("volume allowances", "1", calc`sum(${allowances})`, "box-fill");
  return { volume, allowances: all, largest };
}
type Put = (what: string, counted: Known<"1">, size: ConductorSize, clause: string) => void;

/** Equipment grounds together: by the edition one allowance, or one for the first four and a quarter for each further one. */
function countGrounds(w: Worksheet, r: Filled, put: Put): void {
  const cables = r.cables ?? [];
  const told = r.grounds ? number(w, "equipment grounds", r.grounds.count) : undefined;
  const hasOne = r.cableGrounds ?? true;
  if (cables.length > 0 && r.cableGrounds === undefined) {
    w.suppose(
      "equipment grounds",
      "one in each cable",
      "cables come with one",
      "cables without ground",
      "box-grounds",
    );
  }
  const inCables = hasOne
    ? cables.map(({ size, wires, count: n = 1 }) => number(w, `${size.name}/${wires} cables`, n))
    : [];
  const all = [...inCables, ...(told ? [told] : [])];
  if (all.length > 0) {
    const counted = w.work("equipment grounds", "1", calc`sum(${all})`);
    const sizes = [...hasOne ? cables.map(({ size }) => size) : [], ...(r.grounds?.size ? [r.grounds.size] : [])];
    const size = largestFirst(w, sizes.length > 0 ? sizes : sizesInside(w, r))[0]!;
    put("equipment grounds", groundAllowance(w, counted), size, "box-grounds");
  }
  if (!r.isolatedGrounds) return;
  const isolated = number(w, "isolated equipment grounds", r.isolatedGrounds.count);
  const size = r.isolatedGrounds.size ?? sizesInside(w, r)[0]!;
  put("isolated equipment grounds", groundAllowance(w, isolated), size, "box-grounds");
}

function groundAllowance(w: Worksheet, counted: Known<"1">): Known<"1"> {
  if (w.edition.rule("box-grounds") === "one allowance together") {
    return w.work("allowance of the grounds", "1", calc`min(${counted}, 1)`, "box-grounds");
  }
  const first = w.constant<"1">("box-grounds-first");
  return w.choose<Known<"1">>(
    "equipment grounds",
    [counted, "≤", first],
    ["one allowance together", () => w.work("allowance of the grounds", "1", calc`min(${counted}, 1)`, "box-grounds")],
    ["a quarter more for each further one", () => {
      const further = w.constant<"1">("box-ground-further");
      return w.work("allowance of the grounds", "1", calc`1 + (${counted} − ${first}) × ${further}`, "box-grounds");
    }],
    "box-grounds",
  );
}

/** Clamps, supports, devices, terminal blocks. */
function countFittings(w: Worksheet, r: Filled, largest: ConductorSize, put: Put): void {
  if (r.clamps) put("clamps", number(w, "clamps inside, all together", 1), largest, "box-clamps");
  for (const support of r.supports ?? []) {
    put(support, number(w, `${support} in the box`, 1), largest, "box-supports");
  }
  const devices = r.devices ?? [];
  if (devices.length > 0 && r.deviceSize === undefined && sizesInside(w, r).length > 1) {
    w.suppose(
      "conductor on the device",
      largest.name,
      "several sizes lie in the box, and the largest was taken to be on it",
      "14 AWG on the device",
      "box-devices",
    );
  }
  for (const { count: n = 1, gangs } of devices) {
    const wide = gangs === undefined || gangs === 1 ? "" : `${gangs}-gang `;
    const told = number(w, `${wide}devices`, n);
    const each = w.constant<"1">("box-device-allowances");
    const counted = wide === ""
      ? w.work("allowances of the devices", "1", calc`${told} × ${each}`, "box-devices")
      : w.work(
        `allowances of the ${wide}devices`,
        "1",
        calc`${told} × ${each} × ${number(w, "gangs of one device", gangs!)}`,
        "box-devices",
      );
    put(`${wide}devices`, counted, r.deviceSize ?? largest, "box-devices");
  }
  if (r.terminalBlocks === undefined) return;
  if (w.edition.rule("box-terminal-blocks") === "not counted") {
    w.caution("This edition has no allowance for terminal blocks; from 2023 each counts as one conductor.", "box-fill");
    return;
  }
  const told = number(w, "terminal blocks", r.terminalBlocks);
  const each = w.constant<"1">("box-terminal-block-allowances");
  const counted = w.work("allowances of the terminal blocks", "1", calc`${told} × ${each}`, "box-terminal-blocks");
  put("terminal blocks", counted, largest, "box-terminal-blocks");
}
