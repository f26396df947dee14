/** The permitted ways to connect a source to a busbar, each held against what was told. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Verdict } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { BackfeedRequest } from "./request.ts";
import type { Counted } from "./sources.ts";

export type Panel = { bus: Known<"A">; main: Known<"A"> };
export type Way = { is: Verdict; because: string };

/** Every way that can be judged with what was told, in the order of the book. */
export function waysOf(w: Worksheet, request: BackfeedRequest, panel: Panel, counted: Counted | undefined): Way[] {
  if (!counted) return [];
  const { position, centerFed, loadBreakers, setting } = request;
  const { bus, main } = panel;
  const { current, breakers } = counted;
  w.part("Ways");
  const within = (name: string, sum: Known<"A">, most: Known<"A">, clause: string): boolean =>
    w.choose(name, [sum, "≤", most], ["yes", () => true], ["no", () => false], clause);
  const ways: Way[] = [];
  const judge = (fits: boolean, is: Verdict, because: string) => void ways.push({ is: fits ? is : "not ok", because });

  const together = w.work("source and main", "A", calc`${current} + ${main}`, "busbar-sum");
  judge(
    within("within the busbar", together, bus, "busbar-sum"),
    "ok",
    w.say`source ${current} and main ${main} come to ${together}, within the ${bus} busbar wherever it stands`,
  );
  const share = w.work("share of the busbar", "A", calc`${bus} × ${w.constant("busbar-share")}`, "busbar-opposite");
  const opposite = within("within that share", together, share, centerFed ? "busbar-center-fed" : "busbar-opposite");
  if (centerFed) {
    judge(
      opposite,
      "ok if",
      w.say`it is a dwelling's panel and the source stands at one end only: ${together} of ${share}`,
    );
  } else if (position !== "beside the main") {
    judge(
      opposite,
      position ? "ok" : "ok if",
      position
        ? w
          .say`source ${current} and main ${main} come to ${together} of ${share} at opposite ends of the ${bus} busbar`
        : w.say`the source stands at the end opposite the main: ${together} of ${share}`,
    );
  }
  if (loadBreakers && breakers) {
    const all = w.work(
      "all devices but the main",
      "A",
      calc`${w.given("load breakers", asQuantity(loadBreakers))} + ${breakers}`,
      "busbar-all-devices",
    );
    judge(
      within("all devices within the busbar", all, bus, "busbar-all-devices"),
      "ok if",
      w.say`no breaker is added later, and a label says so: all of them come to ${all} of ${bus}`,
    );
  }
  if (setting && w.edition.rule("busbar-power-control") === "the setting counts") {
    const held = w.work(
      "setting and main",
      "A",
      calc`${w.given("setting", asQuantity(setting))} + ${main}`,
      "busbar-power-control",
    );
    judge(
      within("held within the busbar", held, bus, "busbar-power-control"),
      "ok if",
      w.say`a listed power control system holds the sources at its setting: ${held} of ${bus}`,
    );
  }
  return ways;
}
