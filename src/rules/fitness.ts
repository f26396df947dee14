/** What stands against a wiring method where it lies, whatever its conductors carry. */
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import type { Conditions, Insulation } from "./conditions.ts";
import { type Material, notMade } from "./conductors.ts";
import type { Method } from "./wiring-methods.ts";

/** Against it whatever else holds, or only where something is not as it has to be. */
type Unfit = { is: "not ok" | "ok if"; because: string; clause: string };

/** Where a method lies, as far as it matters to whether it may. */
export type Place = Pick<Conditions, "method" | "insulation" | "wet" | "rooftop"> & {
  /** Where a feeder ends: on the way to another building it mostly leaves the first one. */
  where?: "same building" | "separate structure" | undefined;
  /** What else it may go outdoors for. */
  way?: "to it" | undefined;
};

const CLAUSES: Partial<Record<Method, string>> = { "NM cable": "cable-nm", "UF cable": "cable-uf" };
const BURIED: readonly Insulation[] = ["USE", "USE-2"];
/** Rubber and cross-linked types are commonly marked for the earth too (common practice, no source). */
const OFTEN_BURIED: readonly Insulation[] = ["RHH", "RHW", "RHW-2", "XHHW", "XHHW-2"];

/** What stands against the method told, in the order it was told; empty where nothing does. */
export function unfit(
  w: Worksheet,
  { method, insulation, wet, rooftop, where, way }: Place,
  size: Known<"size">,
): Unfit[] {
  const found: Unfit[] = [];
  const unmade = notMade(w, size, { method });
  if (unmade) found.push({ is: "not ok", because: unmade, clause: CLAUSES[method!]! });
  if (method === "NM cable" && (wet || rooftop)) {
    const because = "NM cable is not for wet places, roofs or buried conduit: UF cable, or THWN-2 in conduit";
    found.push({ is: "not ok", because, clause: "cable-nm-wet" });
  } else if (method === "NM cable" && (where === "separate structure" || way)) {
    const because = `no part of the way ${
      way ?? "to the other building"
    } is outdoors or underground: NM cable is for dry places`;
    found.push({ is: "ok if", because, clause: "cable-nm-wet" });
  }
  if (method === "SE cable" && (wet || where === "separate structure")) {
    const because = "no part of it is underground, in conduit or not: SE cable is not for the earth";
    found.push({ is: "ok if", because, clause: "cable-se-underground" });
  }
  if (method === "direct-burial conductors" && insulation && !BURIED.includes(insulation)) {
    found.push(
      OFTEN_BURIED.includes(insulation)
        ? { is: "ok if", because: `the ${insulation} is marked USE-2 too, for direct burial`, clause: "direct-burial" }
        : {
          is: "not ok",
          because: `${insulation} is not for direct burial: USE-2, or THWN-2 in conduit`,
          clause: "direct-burial",
        },
    );
  }
  return found;
}

/**
 * The cautions that go with a conductor's metal, its marking and its method, each where it matters. `isJudged` where a
 * verdict already says what stands against the method.
 */
export function cautionWiring(
  w: Worksheet,
  said: Place,
  size: Known<"size">,
  material: Material,
  isJudged: boolean,
): void {
  if (material === "aluminum") w.caution("Terminals must be marked for aluminum; torque as marked.");
  for (const { is, because, clause } of isJudged ? [] : unfit(w, said, size)) {
    w.caution(is === "not ok" ? `${because[0]!.toUpperCase()}${because.slice(1)}.` : `Only where ${because}.`, clause);
  }
  if (said.insulation === "THHN" && said.wet) {
    w.caution("THHN alone is not for wet places: look for THWN-2 in the marking.");
  }
}
