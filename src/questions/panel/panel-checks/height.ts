/** How high the grip of the top breaker may be. */
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Judgement } from "../../parts/verdict.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Finding, judge } from "./finding.ts";
import type { PanelRequest } from "./request.ts";

export function handleHeight(w: Worksheet, { handle }: PanelRequest): Finding {
  w.part("Space");
  const most = w.constant<"in">("highest-handle");
  w.figure("highest-handle", most, "highest handle above the floor");
  const judged = handle === undefined ? [] : [judgeHandle(w, handle, most)];
  if (judged.length === 0) w.enter("highest handle", most);
  w.caution("To the middle of the grip in its highest position, from the floor or platform.", "handle-height");
  return { says: w.say`top breaker's handle at most ${most} (${feetAndInches(w, most)}) above the floor`, judged };
}

const INCHES = 12;
/** The way people say it. */
function feetAndInches(w: Worksheet, known: Known<"in">): string {
  const value = w.value(known);
  const inches = "n" in value ? Number(value.n) : NaN;
  return `${Math.floor(inches / INCHES)} ft ${inches % INCHES} in.`;
}

function judgeHandle(w: Worksheet, handle: NonNullable<PanelRequest["handle"]>, most: Known<"in">): Judgement {
  const told = w.given("handle put up", asQuantity(handle));
  const found = (is: "ok" | "not ok", because: string) => () => {
    w.enter("highest handle", most, told, is);
    return judge("handle", is, because);
  };
  return w.choose(
    "low enough",
    [told, "≤", most],
    ["yes", found("ok", w.say`${told} is not above ${most}`)],
    ["no", found("not ok", w.say`${told} is above ${most}`)],
    "handle-height",
  );
}
