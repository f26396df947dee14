/** How much of a cable's sheath comes into the enclosure with it. */
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Finding } from "./finding.ts";

export function cableSheath(w: Worksheet): Finding {
  w.part("Terminations");
  const least = w.constant("cable-sheath-inside");
  w.figure("cable-sheath-inside", least, "cable sheath inside the enclosure, at least");
  w.enter("cable sheath inside, at least", least);
  w.caution("Each cable is held to the enclosure; the sheath is whole where the clamp grips it.", "cable-sheath");
  return { says: w.say`at least ${least} of a cable's sheath inside the enclosure, past its clamp`, judged: [] };
}
