/** Grounding of a service, wherever one is answered: electrode conductor, main bonding jumper, the one neutral bond. */
import type { Worksheet } from "../../core/worksheet.ts";
import { bondingJumper, type Electrode, electrodeConductor, type Supply } from "../../rules/grounding.ts";

/** Works the grounding and gives its figures; the electrode is assumed where none was told. */
export function groundService(w: Worksheet, supply: Supply, told: Electrode | undefined): void {
  w.part("Grounding");
  const electrode = told ? w.given("grounding electrode", told) : w.assume<"word">("electrode");
  const toElectrode = electrodeConductor(w, supply, "copper", w.word(electrode) as Electrode);
  const name = `copper grounding electrode conductor to the ${w.word(electrode)}`;
  w.figure("grounding-electrode-conductor", toElectrode, name);
  const jumper = bondingJumper(w, supply, "copper", "main bonding jumper", "main-bonding-jumper");
  w.figure("main-bonding-jumper", jumper, "copper main bonding jumper");
  const where = "neutral and ground at the service disconnect";
  w.figure("neutral-bond", w.given(where, "bonded", "here, and nowhere after it", "neutral-bond-once"), "neutral bond");
  w.caution("The line side of the main stays live when the main is off.");
}
