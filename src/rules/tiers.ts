/** Demand tiers: so much of a load at one percentage, the next part at another. */
import { calc } from "../core/formula.ts";
import type { Known } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";

/**
 * Takes a load through a table of tiers, whose key is the upper end of each and whose last row is open.
 * @returns the demand in VA
 */
export function throughTiers(w: Worksheet, total: Known<"VA">, table: string, clause: string): Known<"VA"> {
  const { data } = w.edition.table(table);
  const parts: Known<"VA">[] = [];
  let below: Known<"VA"> | undefined;
  for (const row of data.rows) {
    const key = String(row[0]);
    const upTo = row[0] === null ? undefined : w.lookUp<"VA">("tier up to", table, data.key.name, key);
    const share = w.lookUp<"%">("at", table, "demand", key);
    const part = below
      ? upTo && w.holds(total, ">", upTo)
        ? w.work("next part", "VA", calc`(${upTo} − ${below}) × ${share}`, clause)
        : w.work("remainder", "VA", calc`(${total} − ${below}) × ${share}`, clause)
      : w.work("first part", "VA", upTo ? calc`min(${total}, ${upTo}) × ${share}` : calc`${total} × ${share}`, clause);
    parts.push(part);
    below = upTo;
    if (!upTo || w.holds(total, "≤", upTo)) break;
  }
  return parts.length === 1 ? parts[0]! : w.work("after the demand tiers", "VA", calc`sum(${parts})`, clause);
}
