/** `and in the service panel?`, after the bond of another one: what was told of that one's place does not count for it. */
import type { Fact, Free } from "../../reading/facts.ts";
import type { Merging } from "./state.ts";

const PANELS = new Set(["panel", "subpanel", "main", "service", "disconnect"]);
const SORTS = ["place", "space", "finish", "room", "end", "panelKind", "panelState"];
/** Words that tell which panel it is, where no panel is named. */
const ELSEWHERE = new Set(["place:separate-structure", "place:after-disconnect", "place:at-disconnect"]);

const isPanel = ({ family, id }: Fact): boolean => family === "device" && PANELS.has(id ?? "");
const isSource = ({ family }: Fact): boolean => family === "transformer";
/** Whether the panel is told by more than that word: which one it is. */
const isTold = (fact: Fact): boolean =>
  isPanel(fact) && (fact.id !== "panel" || (fact.others ?? []).some((each) => each.startsWith("panelKind:")));

export function anotherPanel(m: Merging): void {
  if (m.known.kind !== "panel-checks" || m.adds || m.removes) return;
  const { facts, free } = m.news;
  // `bathroom`, after the laundry: the room that is asked about now.
  const isRoom = ({ key }: Free) => key.startsWith("room:") || key.startsWith("space:");
  const isOfRoom = ({ others = [] }: Fact) => others.some((each) => each.startsWith("room:"));
  if (free.some(isRoom) && facts.length === 0 || facts.some(isOfRoom)) {
    m.free = m.free.filter((each) => !isRoom(each));
    for (const fact of m.facts.filter(isOfRoom)) m.facts.splice(m.facts.indexOf(fact), 1);
  }
  // `it's fed from the main panel`: where its feeder begins.
  const isFed = free.some(({ key }) => key === "end:from");
  const isOther = facts.some((fact) => isTold(fact) || isSource(fact)) || free.some(({ key }) => ELSEWHERE.has(key));
  if (isFed || !isOther) return;
  // `what if it's the main panel`: the same bars, in another panel.
  const isSame = m.says("it", "its", "it's", "that", "that's", "thats", "this");
  const isOfPlace = ({ key }: Free) => SORTS.includes(key.split(":")[0]!) && !(isSame && key.startsWith("panelState:"));
  m.free = m.free.filter((each) => !isOfPlace(each));
  for (const fact of m.facts.filter((each) => isPanel(each) || isSource(each))) {
    m.facts.splice(m.facts.indexOf(fact), 1);
  }
}
