/** The drop allowed, and a drop held against it. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Drop } from "../../../rules/voltage-drop.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { DropRequest } from "./request.ts";
import type { Limit } from "./run.ts";

/** The drop allowed: what was said, or what the code's notes advise. */
export function limitOf(w: Worksheet, r: DropRequest, supply: Known<"V">): Limit {
  w.part("Limit");
  if (r.limit?.unit === "V") {
    const volts = w.given("drop allowed", asQuantity({ ...r.limit, unit: "V" }));
    return { volts, percent: w.work("drop allowed in percent", "%", calc`${volts} ÷ ${supply}`) };
  }
  const said = r.limit && asQuantity({ ...r.limit, unit: "%" });
  const percent = w.take<"%">("drop allowed", said, "voltage-drop-limit");
  return { percent, volts: w.work("drop allowed in volts", "V", calc`${supply} × ${percent}`, "voltage-drop-branch") };
}

/** A drop under its contract ids. */
export function figures(w: Worksheet, drop: Drop): void {
  w.figure("voltage-drop-volts", drop.volts, "voltage drop");
  w.figure("voltage-drop", drop.percent, "voltage drop in percent");
  w.figure("load-voltage", drop.atLoad);
}

/** Whether a drop is within the limit, shown. */
export function compareWithLimit(w: Worksheet, limit: Limit, drop: Drop, what = "drop"): boolean {
  return w.choose<boolean>(
    `${what} against the limit`,
    [drop.volts, "≤", limit.volts],
    ["within the limit", () => true],
    ["over the limit", () => false],
    "voltage-drop-branch",
  );
}
