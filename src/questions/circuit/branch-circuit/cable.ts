/** The cable to buy: how many wires, and the jacket's customary colour. A convenience, not a rule. */
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { cableGroundTooSmall, isLarger } from "../../../rules/grounding.ts";
import type { Method } from "../../../rules/wiring-methods.ts";
import type { Findings } from "./check.ts";
import { type Circuit, sizeInCable } from "./conductor.ts";
import { nameOf, WITH_NEUTRAL } from "./loads.ts";
import type { CircuitRequest } from "./request.ts";
import { isLineToNeutral } from "../../../rules/power.ts";
import type { Supply } from "./supply.ts";

const LETTERS: Partial<Record<Method, string>> = { "NM cable": "NM-B", "UF cable": "UF-B", "MC cable": "MC" };

/** Insulated wires of the cable, or undefined where the voltage is not known. */
export function wiresOf(r: CircuitRequest, { nominal, phases }: Supply): number | undefined {
  if (nominal === undefined) return undefined;
  if (phases === 3) return r.neutral ? 4 : 3;
  if (isLineToNeutral(nominal)) return 2;
  const usual = (r.loads ?? []).some(({ kind }) => WITH_NEUTRAL.includes(kind));
  return r.neutral ?? usual ? 3 : 2;
}

/** The wire whose cable is wanted: its size, and the ground that has to go with it. */
type Wanted = { size: Known<"size">; ground: Known<"size"> };

/**
 * The cable as a step, or undefined where none of that size and make is sold by colour or wires. A cable that the user did
 * not name passes the same tests as the conductor: it is held to its own column, and its ground is made as it is made.
 */
export function cableOf(
  w: Worksheet,
  r: CircuitRequest,
  circuit: Circuit,
  { size, ground }: Wanted,
): Known<"word"> | undefined {
  const { supply } = circuit;
  const wires = wiresOf(r, supply);
  const { phases } = supply;
  const letters = LETTERS[r.method ?? "NM cable"];
  const isSingle = r.method === undefined && (r.insulation !== undefined || phases === 3 || r.wet);
  if (wires === undefined || wires > 3 || !letters || isSingle || r.material === "aluminum") return undefined;
  const own = w.size(size);
  if (!w.has("nm-cable-jackets", "jacket", own)) return undefined;
  const method = r.method ?? "NM cable";
  const raised = cableGroundTooSmall(w, method, size, "copper", ground);
  if (raised) {
    if (r.method === undefined) {
      w.caution(`In NM cable only where ${raised}; otherwise conduit.`, "equipment-grounding-upsized");
    }
    return undefined;
  }
  if (r.method === undefined && !fits(w, r, circuit, method, size)) return undefined;
  const jacket = letters === "NM-B"
    ? `, ${w.word(w.lookUp<"word">("customary jacket", "nm-cable-jackets", "jacket", own))} jacket`
    : "";
  return w.given(
    "cable",
    `${own.name}/${wires} ${letters} with ground${jacket}`,
    "common practice, no source: read the printed legend",
  );
}

/** Whether the circuit may be wired with this size of a cable that was not named; where not, the size it would take. */
function fits(w: Worksheet, r: CircuitRequest, circuit: Circuit, method: Method, size: Known<"size">): boolean {
  const least = w.scratch(() => {
    const found = sizeInCable(w, r, circuit, method);
    return found && { isLarger: isLarger(w, found, size), words: w.size(found) };
  });
  if (least && !least.isLarger) return true;
  const column = w.constant<"°C">("cable-nm-temperature");
  w.caution(
    least
      ? w.say`Not in NM cable of this size: that is held to its ${column} column and would have to be ${least.words}.`
      : w.say`Not in NM cable: that is held to its ${column} column.`,
    "cable-nm",
  );
  return false;
}

/** The plan's cable has the wires that the load usually wants, or hangs on its wanting fewer. */
export function checkWires(r: CircuitRequest, supply: Supply, findings: Findings): void {
  const wires = wiresOf(r, supply);
  if (r.wires === undefined || wires === undefined || r.wires >= wires) return;
  const load = r.loads?.[0] ? `the ${nameOf(r.loads[0].kind)}` : "the load";
  findings.conditions.push(
    supply.phases === 3
      ? `${r.wires} wires are enough, which three phases do not allow`
      : `${load} takes no neutral (most do: then ${r.size === undefined ? `${wires} wires` : `${r.size}/${wires}`})`,
  );
}
