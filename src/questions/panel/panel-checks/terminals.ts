/** One neutral in each terminal; grounds as many as the bar is marked for. */
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Judgement } from "../../parts/verdict.ts";
import { type Finding, judge } from "./finding.ts";
import type { PanelRequest } from "./request.ts";

export function neutralTerminals(w: Worksheet, r: PanelRequest): Finding {
  w.part("Terminations");
  const most = w.constant("neutrals-in-a-terminal");
  w.figure("neutrals-in-a-terminal", most, "neutrals in one terminal");
  w.enter("neutrals in a terminal", most);
  w.caution(
    "Grounds may share a terminal as far as the panel's label says, and never with a neutral.",
    "panel-ground-bar",
  );
  const judged: Judgement[] = [];
  if (r.neutrals !== undefined) {
    const told = w.given("neutrals in the terminal", { n: String(r.neutrals), unit: "1" });
    judged.push(w.choose(
      "as many as allowed",
      [told, "≤", most],
      ["yes", () => judge("neutrals", "ok", w.say`${told} neutral has a terminal of its own`)],
      ["no", () => judge("neutrals", "not ok", w.say`${told} neutrals share a terminal, and each wants its own`)],
      "neutral-terminals",
    ));
  }
  if (r.grounds !== undefined) {
    const told = w.given("grounds in the terminal", { n: String(r.grounds), unit: "1" });
    judged.push(
      r.neutrals ? judge("grounds", "not ok", "a ground shares the terminal of a neutral") : judge(
        "grounds",
        r.grounds > 1 ? "ok if" : "ok",
        r.grounds > 1
          ? w.say`the panel's label allows ${told} grounds of that size in one terminal`
          : w.say`${told} ground has a terminal of its own`,
      ),
    );
  }
  return { says: "one neutral in each terminal; of grounds as many as the panel's label allows", judged };
}
