/** The search for a conductor: by ampacity from below, by drop from there on. */
import type { ConductorSize } from "../../../core/conductor-size.ts";
import { NotCovered } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { sizesMade } from "../../../rules/conductors.ts";
import { fewestSets } from "../../../rules/parallel.ts";
import { firstThatKeeps, sizesFrom } from "../../../rules/size-for-drop.ts";
import type { Drop } from "../../../rules/voltage-drop.ts";
import { leastByAmpacity, whyNoneHere } from "./ampacity.ts";
import { compareWithLimit } from "./limit.ts";
import { dropAlong, OF_STATED_IMPEDANCE, runOf, type Setting, together, type Wiring, type Worked } from "./run.ts";

/** A told size as a step. */
export const sized = (
  w: Worksheet,
  { size }: { size?: ConductorSize | undefined },
  name = "conductor",
): Known<"size"> => size ? w.given(name, size) : w.given(name, OF_STATED_IMPEDANCE) as Known as Known<"size">;

/** One conductor, or the fewest sets of commonly pulled ones. */
export function anySets(
  w: Worksheet,
  s: Setting,
  { sets: _, ...wiring }: Wiring,
  part: string,
  everywhere = false,
): Found {
  try {
    return fewestSets(w, s.r.sets, (sets) => smallestFor(w, s, { ...wiring, ...(sets && { sets }) }, part, everywhere));
  } catch (error) {
    if (!(error instanceof NotCovered)) throw error;
    const because = "no listed conductor keeps this drop: shorten the run, raise the voltage or allow more drop";
    throw new NotCovered(whyNoneHere(w, s, wiring) ?? because, w.edition.id);
  }
}

type Found = { size: Known<"size">; drop: Drop; parts: Worked[]; byAmpacity: boolean; sets?: Known<"1"> };

/** The smallest that its ampacity allows and that holds the limit; shows that the next smaller one does not do. */
function smallestFor(
  w: Worksheet,
  s: Setting,
  wiring: Wiring,
  part: string,
  everywhere: boolean,
): Found | undefined {
  w.part(`Ampacity of ${wiring.material}`);
  w.aside(`Ampacity of ${wiring.material}`);
  const least = leastByAmpacity(w, s, wiring);
  if (!least) return undefined;
  const made = { material: wiring.material, method: s.r.method };
  const found = firstWithin(w, s, wiring, sizesFrom(w, made, least), part, everywhere);
  if (!found) return undefined;
  const listed = sizesMade(w, made);
  const smaller = listed[listed.indexOf(w.size(found.size)) - 1];
  if (smaller === undefined) return found;
  const title = `One size smaller, ${smaller} ${wiring.material}`;
  w.aside(title);
  const less = dropWith(w, s, wiring, smaller, title, everywhere);
  const byAmpacity = less !== undefined && compareWithLimit(w, s.limit, less.drop, onSize(smaller, wiring));
  return { ...found, byAmpacity };
}

const onSize = (size: ConductorSize, { material }: Wiring): string => `drop on ${size} ${material}`;

/** The first of the sizes, small to large, that holds the limit; the steps kept are those of that size. */
export function firstWithin(
  w: Worksheet,
  s: Setting,
  wiring: Wiring,
  candidates: readonly ConductorSize[],
  part: string,
  everywhere = false,
): Found | undefined {
  const found = firstThatKeeps(
    w,
    candidates,
    ["volts", s.limit.volts],
    (candidate) => dropWith(w, s, wiring, candidate, part, everywhere),
  );
  if (found) compareWithLimit(w, s.limit, found.drop, onSize(w.size(found.size), wiring));
  return found && { ...found, ...(wiring.sets && { sets: wiring.sets }) };
}

/** The drop with a size put where none was told, or everywhere; undefined where the tables have no such conductor. */
function dropWith(
  w: Worksheet,
  s: Setting,
  wiring: Wiring,
  candidate: ConductorSize,
  part: string,
  everywhere = false,
): Found | undefined {
  if (!w.has("conductor-properties", `${wiring.material} dc resistance`, candidate)) return undefined;
  w.part(part);
  const size = w.lookUp<"size">(`${wiring.material} conductor`, "conductor-ampacity", "size", candidate);
  const parts = s.load.stretches.map((stretch) => {
    const own = stretch.size === undefined || everywhere ? size : sized(w, stretch);
    return dropAlong(w, runOf(s.circuit, wiring, stretch, own), s.circuit.upToUnity, s);
  });
  return { size, parts, drop: together(w, parts, s.circuit.volts), byAmpacity: false };
}
