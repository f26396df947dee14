/** Copper beside aluminum: the other metal's sizes, and what is saved by weight. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { areaOf, type Material } from "../../../rules/conductors.ts";
import { needsRaceway } from "../../../rules/wiring-methods.ts";
import type { Circuit } from "./circuit.ts";
import { lengthOf, type Lines } from "../../parts/lines.ts";
import { racewayHint } from "../../parts/raceway.ts";
import { linesOf, type Surroundings } from "./lines.ts";
import type { FeederRequest } from "./request.ts";

/** Everything one set is made of. */
export type SetOf = { lines: Lines; neutral?: Known<"size">; ground?: Known<"size"> };
const LINES = { 1: 2, 3: 3 } as const;

/** Weight of the bare metal of the lines and the neutral over the run. */
function weight(
  w: Worksheet,
  { lines, neutral }: SetOf,
  { phases }: Circuit,
  length: Known<"ft">,
  metal: Material,
): Known<"lb"> {
  const count = w.given("ungrounded conductors of a set", { n: String(LINES[phases]), unit: "1" });
  const area = areaOf(w, lines.size);
  const ofLines = w.work("metal of the lines", "kcmil", calc`${count} × ${area}`);
  const ofSet = neutral ? w.work("with the neutral", "kcmil", calc`${ofLines} + ${areaOf(w, neutral)}`) : ofLines;
  const all = lines.sets ? w.work("all sets", "kcmil", calc`${lines.sets} × ${ofSet}`) : ofSet;
  const perFoot = w.constant<"lb/kcmil-ft">(`${metal}-weight`);
  return w.work(`weight of the ${metal}`, "lb", calc`round(${all} × ${length} × ${perFoot})`);
}

/** The other metal for the same feeder; undefined where no listed size does it. */
export function beside(
  w: Worksheet,
  r: FeederRequest,
  circuit: Circuit,
  around: Surroundings,
  chosen: SetOf,
): { other: Material; lines: Lines; copper?: Known<"lb">; aluminum?: Known<"lb"> } | undefined {
  const other: Material = chosen.lines.material === "copper" ? "aluminum" : "copper";
  const part = `In ${other} instead`;
  w.aside(part);
  return w.ifCovered(() => {
    w.part(part);
    const { sizes: _, ...open } = r;
    const lines = linesOf(w, open, circuit, around, other, part);
    if (!r.length) return { other, lines };
    const length = lengthOf(w, r);
    const instead: SetOf = { lines, ...(chosen.neutral && { neutral: lines.size }) };
    const copper = weight(w, other === "copper" ? instead : chosen, circuit, length, "copper");
    const aluminum = weight(w, other === "copper" ? chosen : instead, circuit, length, "aluminum");
    return { other, lines, copper, aluminum };
  });
}

/** The raceway of one set, as a hint; undefined for cables and where no listed trade size does. */
export function racewayOf(
  w: Worksheet,
  r: FeederRequest,
  { phases }: Circuit,
  { lines: { size, material }, neutral, ground }: SetOf,
): string | undefined {
  if (!needsRaceway(r.method)) return undefined;
  const sets = r.together && r.sets ? r.sets : 1;
  return racewayHint(w, r, {
    lines: { count: LINES[phases] * sets, size },
    neutral: neutral && { count: sets, size: neutral },
    ground,
    material,
  });
}
