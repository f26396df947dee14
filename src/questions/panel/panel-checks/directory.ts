/** What the directory and the labels of a panel must say. */
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Finding } from "./finding.ts";
import type { PanelRequest } from "./request.ts";

/** What is written, where, and by which rule; the last ones not in one- and two-family dwellings. */
const ENTRIES: readonly (readonly [what: string, wanted: string, clause: string, isElsewhere?: true])[] = [
  ["every circuit", "its purpose, clear and told apart", "panel-directory"],
  ["spare breakers", "named as spare, in their position", "panel-directory"],
  ["words", "nothing that depends on who lives there now", "panel-directory"],
  ["place", "on the face of the door, inside it or beside it", "panel-directory"],
  ["disconnects", "what each one disconnects", "disconnect-marking"],
  ["source", "where the panel is fed from, not handwritten", "panel-source", true],
];

export function directory(w: Worksheet, r: PanelRequest): Finding {
  w.part("Directory");
  for (const [what, wanted, clause, isElsewhere] of ENTRIES) {
    if (isElsewhere && r.dwelling) continue;
    const step = w.given(
      what,
      wanted,
      isElsewhere && r.dwelling === undefined ? "not in one- and two-family dwellings" : undefined,
      clause,
    );
    w.enter(`${what}: ${wanted}`);
    if (what === "every circuit") w.figure("directory", step, "directory");
  }
  return {
    says:
      "the directory names every circuit by its clear, specific purpose, each told apart, spares as spares, legible at the door, nothing that depends on who lives there",
    judged: [],
  };
}
