/** Appliances that are in no catalogue: a rating with a name. */
import { isFiller, type Said } from "../text/phrases.ts";
import type { Lexeme } from "./lexemes.ts";
import { has, isRating, isVolts, type Item, type RatingUnit, type ReadLoad } from "./load.ts";

/** Words that make a rating something other than an appliance: a part of the installation, or a load counted by a rule. */
export const NO_APPLIANCE = new Set(
  ("service panel panels subpanel breaker breakers main mains feeder feeders circuit circuits wire wires cable conduit " +
    "lighting lights light receptacle receptacles outlet outlets laundry small appliance appliances neutral transformer " +
    "meter demand load loads bus busbar fuse disconnect generator inverter solar pv battery total general existing amp " +
    "kitchen copper aluminum conductor conductors line leg phase system supply recorded peak drop").split(" "),
);
/** Words beside a rating that name no appliance. */
export const NO_NAMES = new Set(
  "same dwelling kitchen building apartment household nameplate nameplates electric existing".split(" "),
);
/** A name of an unknown appliance ends before these. */
const ENDS_A_NAME = new Set("in on at for by to from that which is are the of each rated nameplate i my we".split(" "));
const LONGEST_NAME = 3;

/** A rating with a name that is in no catalogue: `1.5 kW kiln`. */
export function unknown(lexemes: readonly Lexeme[]): Item | undefined {
  const rating = lexemes.find(isRating);
  if (!rating || has(lexemes, "protection")) return undefined;
  if (lexemes.some((l) => l.is === "word" && NO_APPLIANCE.has(l.text))) return undefined;
  const at = lexemes.indexOf(rating);
  const words = nameAfter(lexemes.slice(at + 1)) ?? nameBefore(lexemes.slice(0, at));
  if (!words) return undefined;
  const load: ReadLoad = {
    kind: "other",
    name: words.map(({ text }) => text).join(" "),
    rating: rating.said as Said<RatingUnit>,
  };
  const used: Lexeme[] = [rating, ...words];
  const count = lexemes.find((l) => l.is === "count");
  if (count?.is === "count" && count.n > 1 && Number.isInteger(count.n) && lexemes.indexOf(count) < at) {
    load.count = count.n;
    load.name = load.name!.replace(/s$/, "");
    used.push(count);
  }
  const volts = lexemes.find(isVolts);
  if (volts) {
    load.volts = volts.said as Said<"V">;
    used.push(volts);
  }
  const added = lexemes.find(({ is }) => is === "add");
  if (added) used.push(added);
  return { load, how: added ? "added" : "said", used, notes: [] };
}

const belongs = (l: Lexeme): boolean => l.is === "word" && !isFiller(l.text) && !ENDS_A_NAME.has(l.text);

function nameAfter(rest: readonly Lexeme[]): Lexeme[] | undefined {
  const from = rest.findIndex(({ is }) => is === "word");
  if (from < 0) return undefined;
  const skip = rest[from]!.text === "of" || rest[from]!.text === "for" ? 1 : 0;
  const words = rest.slice(from + skip);
  const end = words.findIndex((l) => !belongs(l));
  const name = words.slice(0, end < 0 ? undefined : end).slice(0, LONGEST_NAME);
  return name.length > 0 ? name : undefined;
}

function nameBefore(rest: readonly Lexeme[]): Lexeme[] | undefined {
  const end = rest.findLastIndex(belongs) + 1;
  let from = end;
  while (from > 0 && belongs(rest[from - 1]!)) from--;
  const name = rest.slice(from, end).slice(-LONGEST_NAME);
  return name.length > 0 ? name : undefined;
}
