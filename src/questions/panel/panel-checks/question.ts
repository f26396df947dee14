/** Checks at a panel: bond or isolate, continuity, torque, space, terminals, directory, and the record of them. */
import type { Worksheet } from "../../../core/worksheet.ts";
import { need } from "../../../core/outcome.ts";
import { ledBy, verdictOf } from "../../parts/verdict.ts";
import { question } from "../../question.ts";
import { bendingSpace } from "./bending.ts";
import { bonding } from "./bonding.ts";
import { continuity } from "./continuity.ts";
import { directory } from "./directory.ts";
import { type Finding, sentence } from "./finding.ts";
import { handleHeight } from "./height.ts";
import { location } from "./location.ts";
import { record } from "./record.ts";
import { input, type PanelRequest, type Topic } from "./request.ts";
import { roomProtection } from "./rooms.ts";
import { cableSheath } from "./sheath.ts";
import { workingSpace } from "./space.ts";
import { takes } from "./takes.ts";
import { neutralTerminals } from "./terminals.ts";
import { torque } from "./torque.ts";
import { write } from "./write.ts";

/** A topic is its method. */
const METHODS: Readonly<Record<Topic, (w: Worksheet, r: PanelRequest) => Finding>> = {
  "bonding": bonding,
  "continuity": continuity,
  "torque": torque,
  "working space": workingSpace,
  "handle height": handleHeight,
  "location": location,
  "bending space": bendingSpace,
  "room protection": roomProtection,
  "neutral terminals": neutralTerminals,
  "cable sheath": cableSheath,
  "directory": directory,
  "record": record,
};

export default question({
  id: "panel-checks",
  title: "Panel checks",
  about:
    "Bond or isolate, expected continuity, torque, working space, highest handle, terminals, directory, and a record to print.",
  input,
  figures: {
    "neutral-bond": "neutral and ground in this panel",
    "feed-wires": "wires that feed the panel",
    "electrodes": "grounding electrodes",
    "main-bonding-jumper": "main bonding jumper",
    "system-bonding-jumper": "system bonding jumper",
    "tightening-torque": "tightening torque",
    "working-depth": "depth of working space",
    "working-width": "width of working space",
    "working-height": "height of working space",
    "highest-handle": "highest handle above the floor",
    "forbidden-places": "places where no panel may be",
    "bending-space": "bending space at the terminal",
    "arc-fault-protection": "arc-fault protection",
    "ground-fault-protection": "ground-fault protection for personnel",
    "neutrals-in-a-terminal": "neutrals in one terminal",
    "cable-sheath-inside": "cable sheath inside the enclosure, at least",
    "directory": "what the directory says",
  },
  examples: [
    "neutral and ground beep together in my subpanel",
    "torque for 2/0 aluminum on a slotted screw",
    "how high may the top breaker be",
    "working space in front of a 480Y/277 V panel, concrete wall opposite",
    "check record for a subpanel in a detached garage",
  ],
  manner: { pointers: { "goal:torque": ["tightening-torque"], "goal:feed-wires": ["feed-wires"] } },
  takes,
  write,
  minds: ["place", "room"],
  answer(r, w) {
    const topics = r.about ?? topicsOf(r);
    const found = [...new Set(topics)].map((topic) => METHODS[topic](w, r));
    const verdict = verdictOf(found.flatMap(({ judged }) => judged));
    // One value that was looked up is nothing to keep; what was found is.
    const isKept = topics.some((topic) => topic === "record" || topic === "continuity");
    if (!isKept && !w.record.some(({ found }) => found)) w.record.length = 0;
    return ledBy(verdict, found.map(({ says }) => sentence(says)).join(" "));
  },
});

/** What follows from what was told, where no topic was. */
function topicsOf(r: PanelRequest): Topic[] {
  if (r.readings) return ["continuity"];
  if (r.connector ?? r.marked ?? r.socket) return ["torque"];
  if (r.handle) return ["handle height"];
  if (r.room) return ["room protection"];
  if (r.neutrals ?? r.grounds) return ["neutral terminals"];
  if (r.facing ?? r.depth ?? r.toGround) return ["working space"];
  if (r.place) return ["location"];
  if (r.panel) return ["bonding"];
  throw need(
    "about",
    "What of the panel: bond or isolate, continuity, torque, working space, highest breaker, bending space, arc-fault and ground-fault protection, terminals, directory, or the whole record?",
    "check record for a subpanel in a detached garage",
  );
}
