/** Whether a text asks about a source on a busbar: other kinds leave it to that question. */
import type { Fact } from "../../reading/facts.ts";
import type { Taker } from "../../reading/take.ts";

const PANELS = ["main", "panel", "service", "subpanel"];
const FEEDING = ["solar", "inverter", "battery"];
const isRated = ({ slots }: Fact): boolean => (slots.rating ?? slots.current ?? slots.draw) !== undefined;

/** A source of its own beside a busbar, a main or a panel that is rated, and no wire or run of its circuit. */
export function asksBackfeed(t: Taker): boolean {
  const isOfCircuit = t.wants("role:wire", "goal:drop", "label:drop", "goal:longest-run") ||
    ["ft", "m", "yd"].some(t.has) || t.has("demand-recorded");
  if (isOfCircuit) return false;
  const bySection = t.facts.free.some(({ value: { sense } }) => sense.is === "section" && sense.section === "705.12");
  if (t.wants("goal:backfeed") || bySection) return true;
  const bus = t.all("transformer", "busbar").length > 0 || t.has("source:backfeed") || t.has("bus") ||
    t.has("label:bus");
  const panel = t.all("device", ...PANELS).some(isRated) || t.has("end:supply-side");
  const feeds = t.all("transformer", ...FEEDING).length > 0;
  // `can I land a 40 A solar breaker in my panel`
  const isOnPanel = feeds && t.all("device", "breaker").some(isRated) && t.all("device", ...PANELS).length > 0;
  // `can I add solar`, `how much solar can I put on a panel`: where, is asked.
  const isNowhere = t.all("device").every((device) => PANELS.includes(device.id ?? "") && !isRated(device));
  const isAddedAlone = feeds && t.wants("goal:add-load", "goal:check") && t.all("load").length === 0 && isNowhere &&
    (t.all("device").length > 0 || t.wants("goal:add-load"));
  return isAddedAlone || isOnPanel || (feeds && (bus || panel)) ||
    (t.all("transformer", "generator").length > 0 && bus) ||
    (t.has("source:backfeed") && (panel || t.all("transformer", "busbar").some(isRated)));
}
