/** Kitchen equipment by its count, never below the largest pieces. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { sumOf } from "../../../rules/loads.ts";
import { exact } from "../../../core/quantity.ts";
import type { Item } from "./loads.ts";
import { type Line, reducedLine } from "./lines.ts";

/** Kitchen equipment; a water heater is part of it where a kitchen was told. */
export function kitchenOf(items: readonly Item[]): Item[] {
  const kitchen = items.filter(({ group }) => group === "kitchen");
  return kitchen.length === 0 ? [] : items.filter(({ group }) => group === "kitchen" || group === "water heating");
}

export function kitchenLine(w: Worksheet, items: readonly Item[]): Line | undefined {
  if (items.length === 0) return undefined;
  w.part("Kitchen equipment");
  const connected = sumOf(w, "kitchen equipment connected", items.map((item) => item.all))!;
  const count = w.work("pieces of kitchen equipment", "1", calc`sum(${items.map((item) => item.count)})`);
  const share = w.lookUp<"%">("demand by their number", "kitchen-equipment-demand", "demand", count);
  const reduced = w.work("kitchen equipment, reduced", "VA", calc`${connected} × ${share}`, "kitchen-equipment");
  const floor = w.work("the largest pieces together", "VA", calc`sum(${largest(w, items)})`, "kitchen-equipment");
  const name = "kitchen equipment";
  const demand = w.work(
    name,
    "VA",
    calc`max(${reduced}, ${floor})`,
    "kitchen-equipment",
    "never below the two largest pieces",
  );
  w.caution(
    "Kitchen demand is for equipment that is thermostat-controlled or used now and then: hoods, fans, heating and cooling stay out of it.",
    "kitchen-equipment",
  );
  return reducedLine(w, name, items, demand, connected);
}

/** The largest pieces, as many as the rule names. */
function largest(w: Worksheet, items: readonly Item[]): Known<"VA">[] {
  const most = Number(exact((w.value(w.constant("kitchen-largest-count")) as { n: string }).n).toFraction());
  return [...items].sort((a, b) => w.measure(b.each).n.compare(w.measure(a.each).n))
    .flatMap((item) => Array.from({ length: Math.min(item.said.count, most) }, () => item.each))
    .slice(0, most);
}
