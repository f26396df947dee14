/** Reads a list of loads: the part of the text reader that every kind of question about appliances shares. */
import type { Reading, Scan } from "../text/phrases.ts";
import { CATALOGUE, type LoadKind } from "./catalogue.ts";
import { itemsOf } from "./items.ts";
import { lex, VOCABULARY } from "./lexemes.ts";
import type { Item, ReadLoad } from "./load.ts";

export type { ReadLoad } from "./load.ts";

/** Reads the loads of the kinds asked for into the draft; the words of other loads stay unused and are shown back. */
export function loadList(
  wanted: (kind: LoadKind) => boolean,
  take: (items: readonly Item[], reading: Reading) => void,
): Scan {
  return {
    name: "loads",
    pattern: VOCABULARY,
    scan(left, text, reading) {
      const mentioned = itemsOf(lex(left, text)).filter(({ load }) => wanted(load.kind));
      const items = mentioned.filter((item) => !isMention(item, mentioned));
      for (const { ask, notes, how, load } of items) {
        notes.forEach(reading.readAs);
        if (ask !== undefined && how !== "removed") {
          reading.ask({ field: `loads.${load.kind}`, ask, example: exampleOf(load.kind) });
        }
      }
      take(items, reading);
      return mentioned.flatMap(({ used }) => used.map(({ from, to }) => [from, to] as const));
    },
  };
}

/** `35 ranges of 8.85 kW … range demand?`: a kind named again with nothing said of it is the same load. */
const isMention = (item: Item, items: readonly Item[]): boolean =>
  item.how === "said" && Object.keys(item.load).length === 1 &&
  items.some((other) =>
    other !== item && (item.heading || other.load.kind === item.load.kind) && other.how === "said" &&
    (Object.keys(other.load).length > 1 || items.indexOf(other) < items.indexOf(item))
  );

const exampleOf = (kind: LoadKind): string =>
  CATALOGUE[kind].group === "ev" ? "EV charger 40 A" : `${CATALOGUE[kind].name} 4.5 kW`;

const same = (a: ReadLoad, b: ReadLoad): boolean => a.kind === b.kind && a.name === b.name;

/**
 * A list after what was said of it: a new one, or an earlier one with loads added (`add a 9.6 kW EV charger`), taken out
 * (`without the dryer`) and changed (`14 kW range`).
 */
export function changed(earlier: readonly ReadLoad[], items: readonly Item[], amending: boolean): ReadLoad[] {
  let loads = [...earlier];
  const replaced = new Set<string>();
  for (const { load, how } of items) {
    if (how === "removed") {
      loads = loads.filter(({ kind }) => kind !== load.kind);
      continue;
    }
    const key = `${load.kind} ${load.name ?? ""}`;
    const at = loads.findIndex((one) => same(one, load));
    if (!amending || how === "added" || at < 0 || replaced.has(key)) loads.push(load);
    else loads[at] = mended(loads[at]!, load);
    if (amending) replaced.add(key);
  }
  return loads;
}

/** What is said anew wins; what is not said again stays, except that gas has no rating and a rating is not gas. */
function mended(before: ReadLoad, now: ReadLoad): ReadLoad {
  if (now.fuel === "gas") return now;
  const { fuel: _, ...kept } = before;
  return { ...kept, ...now };
}
