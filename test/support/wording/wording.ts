/**
 * Requests put into words and read back. A request is drawn by seed, answered as it is, said as a person of the trade would
 * type it, and asked: a reader that understands gives the same figures and the same verdict.
 *
 * Whoever writes here does not read the reader's own words (`src/text`, `src/loads`, the kinds' phrases): words that were
 * copied from it would prove nothing.
 */
import { EDITIONS, engine } from "../engine.ts";
import type { Outcome } from "../../../src/outcomes.ts";
import type { WorkedAnswer } from "../../../src/core/worked.ts";
import type { Request } from "../../../src/engine.ts";
import { type Axes, type Level, LEVELS } from "./axes.ts";
import { branch, feeder } from "./circuits.ts";
import { compose, type Said } from "./compose.ts";
import { ampacity, drop } from "./conductors.ts";
import { Draw } from "./draw.ts";
import { boxFill, racewayFill } from "./enclosures.ts";
import { added, backfeed } from "./existing.ts";
import { faultCurrent, faultPath } from "./faults.ts";
import { cooking, dryers, dwelling } from "./household.ts";
import { cooling, motor, motorFeeder } from "./motors.ts";
import { panels } from "./panels.ts";
import { Pen } from "./pen.ts";
import { conversion, grounding, transformer } from "./supply.ts";

/** A kind's own part: requests that fit its schema, and their words. */
type Wording<R> = {
  /** @param metric how often a length or a temperature is metric, 0 to 1 */
  draw(d: Draw, metric: number): R;
  say(request: R, pen: Pen): Said;
};
// Each kind draws and says its own requests; from outside they are all alike.
// deno-lint-ignore no-explicit-any
const WORDINGS: Readonly<Record<string, Wording<any>>> = {
  "dwelling-load": dwelling,
  "added-load": added,
  "busbar-backfeed": backfeed,
  "cooking-demand": cooking,
  "dryer-demand": dryers,
  "branch-circuit": branch,
  feeder,
  "conductor-ampacity": ampacity,
  "voltage-drop": drop,
  "motor-circuit": motor,
  "motor-feeder": motorFeeder,
  "cooling-circuit": cooling,
  transformer,
  grounding,
  conversion,
  "panel-checks": panels,
  "fault-current": faultCurrent,
  "fault-path": faultPath,
  "box-fill": boxFill,
  "raceway-fill": racewayFill,
};
export const KINDS: readonly string[] = Object.keys(WORDINGS);

export type Paraphrase = { request: Request; edition: string | undefined; text: string; answer: WorkedAnswer };

/** Draws until a request can be answered: the draws of this number differ from those of any other. */
const MOST_DRAWS = 200;

/**
 * One request in words.
 * @param number which of the seed's texts
 * @param axes in place of the level's own, to try one axis alone
 * @throws RangeError where none of many requests can be answered
 */
export function paraphrase(
  kind: string,
  level: Level,
  { seed = 1, number = 0, axes = LEVELS[level] }: { seed?: number; number?: number; axes?: Axes } = {},
): Paraphrase {
  const wording = WORDINGS[kind];
  if (!wording) throw new RangeError(`no wording for the kind "${kind}": there are ${KINDS.join(", ")}`);
  const d = new Draw(`${kind} ${seed} ${number}`);
  for (let tries = 0; tries < MOST_DRAWS; tries++) {
    const drawn = withoutGaps(wording.draw(d, axes.metric));
    const words = new Draw(`${kind} ${level} ${seed} ${number} ${tries}`);
    const edition = words.perhaps(axes.edition, () => words.pick(EDITIONS));
    const request: Request = { kind, ...drawn };
    const outcome = engine.answer(request, edition === undefined ? {} : { edition });
    if (outcome.outcome !== "answered") continue;
    const pen = new Pen(words, axes);
    const text = compose(wording.say(drawn, pen), pen, edition);
    return { request, edition, text, answer: outcome.answer };
  }
  throw new RangeError(`of ${MOST_DRAWS} requests of the kind "${kind}" none could be answered`);
}

/** Fields that were left undefined are left out, as in a request that came over the wire. */
const withoutGaps = <T>(request: T): T => JSON.parse(JSON.stringify(request));

export const RESULTS = ["same", "other", "asked back", "not covered"] as const;
export type Result = typeof RESULTS[number];

/** What became of a text, and the outcome itself. */
export function readBack({ text, answer }: Pick<Paraphrase, "text" | "answer">): { result: Result; outcome: Outcome } {
  const outcome = engine.ask(text);
  if (outcome.outcome === "unclear") return { result: "asked back", outcome };
  if (outcome.outcome === "not covered") return { result: "not covered", outcome };
  return { result: differences(answer, outcome.answer).length === 0 ? "same" : "other", outcome };
}

/** Figures are the same to this part of themselves: watts said as kilowatts may differ in the last digit of a float. */
const CLOSE = 1e-9;

/** Where the answer to a text differs from the answer to the request it says. */
export function differences(wanted: WorkedAnswer, got: WorkedAnswer): string[] {
  if (wanted.kind !== got.kind) return [`kind ${wanted.kind}, got ${got.kind}`];
  const said: string[] = [];
  for (const id of new Set([...Object.keys(wanted.figures), ...Object.keys(got.figures)])) {
    const [a, b] = [wanted.figures[id]?.value, got.figures[id]?.value];
    if (!isClose(a, b)) said.push(`${id} ${a}, got ${b}`);
  }
  if (wanted.verdict !== got.verdict) said.push(`verdict ${wanted.verdict}, got ${got.verdict}`);
  return said;
}

const isClose = (a: unknown, b: unknown): boolean =>
  typeof a === "number" && typeof b === "number" ? Math.abs(a - b) <= CLOSE * Math.max(1, Math.abs(a)) : a === b;

export type Tally = Record<Result, number> & { texts: number };
export type Differing = Paraphrase & { result: Result; outcome: Outcome };

/** Reads many texts back. `onDiffering` is told of each that is not the same. */
export function tally(
  kind: string,
  level: Level,
  { texts, seed, axes, onDiffering }: {
    texts: number;
    seed: number;
    axes?: Axes;
    onDiffering?: (it: Differing) => void;
  },
): Tally {
  const counts: Tally = { texts, same: 0, other: 0, "asked back": 0, "not covered": 0 };
  for (let number = 0; number < texts; number++) {
    const said = paraphrase(kind, level, { seed, number, ...(axes && { axes }) });
    const { result, outcome } = readBack(said);
    counts[result]++;
    if (result !== "same") onDiffering?.({ ...said, result, outcome });
  }
  return counts;
}
