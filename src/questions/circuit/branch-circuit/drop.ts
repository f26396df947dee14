/** Voltage drop of the circuit, and the size that keeps it within the limit. */
import { need, NotCovered } from "../../../core/outcome.ts";
import { convert, exact } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { cableEnds, sizeInWords, sizesMade } from "../../../rules/conductors.ts";
import { conduitOf, type Drop, dropOf, dropVoltage, type Run } from "../../../rules/voltage-drop.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { Findings } from "./check.ts";
import type { Circuit, Wire } from "./conductor.ts";
import type { CircuitRequest } from "./request.ts";

export type Dropped = Drop & { size: Known<"word">; length: Known<"ft">; limit: Known<"%"> };

/**
 * The drop over the told length. A conductor that is not fixed by the plan grows until the limit is kept.
 * @returns undefined where no length was told
 */
export function dropped(
  w: Worksheet,
  r: CircuitRequest,
  circuit: Circuit,
  wire: Wire,
  findings: Findings,
): Dropped | undefined {
  if (!r.length) return undefined;
  const { volts, phases } = circuit.supply;
  if (!volts) throw need("volts", "At what voltage? The drop depends on it.", "240 V");
  w.part("Voltage drop");
  const length = w.given("length, one way", convert(asQuantity(r.length), "ft"));
  const run: Omit<Run, "size"> = {
    material: wire.material,
    conduit: conduitOf(w, r.conduit),
    current: circuit.load.current,
    length,
    volts: dropVoltage(w, volts, r.volts && asQuantity(r.volts)),
    phases,
    powerFactor: r.powerFactor === undefined
      ? w.assume<"1">("power-factor")
      : w.given("power factor", { n: exact(r.powerFactor).toFraction(), unit: "1" }),
  };
  const limit = w.take("voltage drop limit", r.limit && asQuantity(r.limit), "voltage-drop-limit");
  const done = wire.isPlanned ? planned(w, run, wire, limit, findings) : upsized(w, run, wire, limit);
  w.figure("voltage-drop-volts", done.volts);
  w.figure("voltage-drop", done.percent, "voltage drop");
  return { ...done, length, limit };
}

function planned(
  w: Worksheet,
  run: Omit<Run, "size">,
  wire: Wire,
  limit: Known<"%">,
  findings: Findings,
): Drop & { size: Known<"word"> } {
  const size = wire.chosen.size;
  const drop = dropOf(w, { ...run, size });
  const enough = w.choose("drop against the limit", [drop.percent, "≤", limit], ["kept", () => true], [
    "above it",
    () => false,
  ], "voltage-drop-branch");
  if (enough) return { ...drop, size };
  const better = w.scratch(() => {
    const found = smallestFor(w, run, wire, limit);
    return found && sizeInWords(w.word(found.size));
  });
  findings.conditions.push(
    w.say`${drop.percent} of voltage drop will do (the recommendation is ${limit}, no rule${
      better ? `; ${better} keeps it` : ""
    })`,
  );
  return { ...drop, size };
}

function upsized(w: Worksheet, run: Omit<Run, "size">, wire: Wire, limit: Known<"%">): Drop & { size: Known<"word"> } {
  const found = smallestFor(w, run, wire, limit);
  if (!found) {
    throw new NotCovered(
      cableEnds(w, wire) ??
        "no single listed conductor keeps the drop within the limit over this length: allow more drop, or a higher voltage",
      w.edition.id,
    );
  }
  w.choose(
    "drop against the limit",
    [found.percent, "≤", limit],
    ["kept", () => {}],
    ["", () => {}],
    "voltage-drop-branch",
  );
  return found;
}

/** The smallest size, from the wire's own on, that keeps the limit. */
const smallestFor = (w: Worksheet, run: Omit<Run, "size">, wire: Wire, limit: Known<"%">) => {
  const all = sizesMade(w, wire);
  return w.first(all.slice(all.indexOf(w.word(wire.chosen.size))), (each) => {
    const size = w.lookUp<"word">("conductor for the drop", "conductor-ampacity", "size", each);
    const drop = dropOf(w, { ...run, size });
    return w.holds(drop.percent, "≤", limit) ? { ...drop, size } : undefined;
  });
};
