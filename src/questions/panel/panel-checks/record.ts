/** The record of a panel's checks on one page: continuity, torque, space, directory, with room for what is read and set. */
import type { Worksheet } from "../../../core/worksheet.ts";
import { bonding } from "./bonding.ts";
import { continuity } from "./continuity.ts";
import { directory } from "./directory.ts";
import type { Finding } from "./finding.ts";
import { handleHeight } from "./height.ts";
import { installed, inWords, panelOf } from "./panel.ts";
import type { PanelRequest } from "./request.ts";
import { cableSheath } from "./sheath.ts";
import { workingSpace } from "./space.ts";
import { torque } from "./torque.ts";
import { neutralTerminals } from "./terminals.ts";

/** Terminations whose torque is set and written down, in the order of the work. */
const TERMINATIONS = [
  "line lugs",
  "neutral lug",
  "ground lug",
  "main breaker",
  "branch breakers",
  "neutral bar screws",
  "ground bar screws",
];

export function record(w: Worksheet, r: PanelRequest): Finding {
  const panel = panelOf(r);
  w.part("Who and when");
  for (const what of ["panel and place", "checked by", "date", "instrument and torque tool"]) w.enter(what);
  const known = installed(w, r);
  const found = [bonding(w, r, known), continuity(w, r, known)];
  w.part("Terminations");
  if (r.connector || r.marked) found.push(torque(w, r));
  for (const what of TERMINATIONS) {
    w.enter(what, w.given(what, "as marked", "write the maker's value and what was set", "torque"));
  }
  cableSheath(w);
  found.push(neutralTerminals(w, r), workingSpace(w, r), handleHeight(w, r), directory(w, r));
  return {
    says: `check record for the ${inWords(panel)}: neutral ${
      w.figures["neutral-bond"]!.value
    }; continuity, torque, space and directory to fill in`,
    judged: found.flatMap(({ judged }) => judged),
  };
}
