/** The cable to buy: how many wires, and the jacket's customary colour. A convenience, not a rule. */
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import type { Method } from "../../rules/wiring-methods.ts";
import type { Findings } from "./check.ts";
import { nameOf, WITH_NEUTRAL } from "./loads.ts";
import type { CircuitRequest } from "./request.ts";
import { isLineToNeutral, type Supply } from "./supply.ts";

const LETTERS: Partial<Record<Method, string>> = { "NM cable": "NM-B", "UF cable": "UF-B", "MC cable": "MC" };

/** Insulated wires of the cable, or undefined where the voltage is not known. */
export function wiresOf(r: CircuitRequest, { nominal, phases }: Supply): number | undefined {
  if (nominal === undefined) return undefined;
  if (phases === 3) return r.neutral ? 4 : 3;
  if (isLineToNeutral(nominal)) return 2;
  const usual = (r.loads ?? []).some(({ kind }) => WITH_NEUTRAL.includes(kind));
  return r.neutral ?? usual ? 3 : 2;
}

/** The cable as a step, or undefined where none of that size and make is sold by colour or wires. */
export function cableOf(
  w: Worksheet,
  r: CircuitRequest,
  supply: Supply,
  size: Known<"word">,
): Known<"word"> | undefined {
  const wires = wiresOf(r, supply);
  const { phases } = supply;
  const letters = LETTERS[r.method ?? "NM cable"];
  const isSingle = r.method === undefined && (r.insulation !== undefined || phases === 3 || r.wet);
  if (wires === undefined || wires > 3 || !letters || isSingle || r.material === "aluminum") return undefined;
  const word = w.word(size);
  if (!w.has("nm-cable-jackets", "jacket", word)) return undefined;
  const jacket = letters === "NM-B"
    ? `, ${w.word(w.lookUp<"word">("customary jacket", "nm-cable-jackets", "jacket", word))} jacket`
    : "";
  return w.given(
    "cable",
    `${word}/${wires} ${letters} with ground${jacket}`,
    "common practice, no source: read the printed legend",
  );
}

/** The plan's cable has the wires that the load usually wants, or hangs on its wanting fewer. */
export function checkWires(r: CircuitRequest, supply: Supply, findings: Findings): void {
  const wires = wiresOf(r, supply);
  if (r.wires === undefined || wires === undefined || r.wires >= wires) return;
  const load = r.loads?.[0] ? `the ${nameOf(r.loads[0].kind)}` : "the load";
  findings.conditions.push(
    supply.phases === 3
      ? `${r.wires} wires are enough, which three phases do not allow`
      : `${load} takes no neutral (most do: then ${r.size}/${wires})`,
  );
}
