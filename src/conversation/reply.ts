/** A short reply takes the meaning that the question back gave an example of: `240` after “240 V”, `60 A` after “60 A breaker”. */
import type { Need } from "../core/outcome.ts";
import type { Fact, Facts, Free, Value } from "../reading/facts.ts";
import type { Sense } from "../reading/sense.ts";
import { readText } from "../reading/read.ts";

export function asReply(news: Facts, needs: readonly Need[] | undefined, earlier: Facts): Facts {
  if (!needs?.length) return news;
  // `back to 12`, `what about 12`, of a wire that is known: another size, and no landscape lights.
  const isOfWire = news.free.some(({ key }) => key.startsWith("change:")) &&
    earlier.facts.some(({ family, slots }) => family === "conductor" && slots.size);
  const figures = news.facts.filter(({ family, id }) => family === "load" && id === undefined);
  const numbers = news.free.filter(({ key }) => key === "number");
  if (figures.length + numbers.length !== 1) return news;
  for (const { field, example } of needs) {
    // A whole question as an example tells nothing of one figure.
    if (field === "question") continue;
    const model = readText(example).facts;
    // Nor does a list of loads: which of them it would be, nobody said.
    if (model.facts.filter(({ family }) => family === "load").length > 1) continue;
    const answer = figures.length === 1
      ? replyOfFigure(figures[0]!, model)
      : replyOfNumber(numbers[0]!, model, isOfWire);
    if (!answer) continue;
    return {
      facts: [...news.facts.filter((fact) => !figures.includes(fact)), ...("fact" in answer ? [answer.fact] : [])],
      free: [...news.free.filter((each) => !numbers.includes(each)), ...("free" in answer ? [answer.free] : [])],
    };
  }
  return news;
}
type Reply = { fact: Fact } | { free: Free };

function replyOfFigure(said: Fact, model: Facts): Reply | undefined {
  const [value] = Object.values(said.slots)[0] ?? [];
  const unit = unitOf(value);
  if (!value || unit === undefined) return undefined;
  for (const fact of model.facts) {
    for (const [slot, [like]] of Object.entries(fact.slots)) {
      if (unitOf(like) === unit) return { fact: { ...fact, pieces: [], slots: { [slot]: [value] } } };
    }
  }
  return undefined;
}

function replyOfNumber({ value }: Free, model: Facts, isOfWire: boolean): Reply | undefined {
  const { n } = value.sense as { n: number };
  for (const fact of model.facts) {
    for (const [slot, [like]] of Object.entries(fact.slots)) {
      const sense = slot === "count" ? undefined : like && renewed(like.sense, n);
      if (fact.family === "device" && SERVICES.has(fact.id ?? "") && n < LEAST_SERVICE) continue;
      if (sense && isUsual(sense, isOfWire)) {
        return { fact: { ...fact, pieces: [], slots: { [slot]: [{ ...value, sense }] } } };
      }
    }
  }
  for (const { key, value: like } of model.free) {
    const sense = key === "number" ? undefined : renewed(like.sense, n);
    if (sense && isUsual(sense, isOfWire)) return { free: { key, value: { ...value, sense }, sentence: 0 } };
  }
  return undefined;
}

/** `48`, where the rating of a service was asked for, is none. */
const [SERVICES, LEAST_SERVICE] = [new Set(["service", "main"]), 60];
/** Voltages below those of a supply that are spoken of. */
const LOW_VOLTS: ReadonlySet<number> = new Set([6, 12, 24, 32, 36, 48]);
/** No supply has fewer volts. */
export const LEAST_SUPPLY = 100;
/** `14`, where a voltage was asked for, is none. */
function isUsual(sense: Sense, isOfWire: boolean): boolean {
  if (sense.is !== "quantity") return true;
  if (sense.unit === "ft2") return sense.n >= LEAST_FLOOR;
  return sense.unit !== "V" || sense.n >= LEAST_SUPPLY || !isOfWire && LOW_VOLTS.has(sense.n);
}
/** No floor that a load is calculated of has fewer square feet. */
const LEAST_FLOOR = 100;

export const unitOf = (value: Value | undefined): string | undefined =>
  value?.sense.is === "quantity" ? value.sense.unit : undefined;

/** A figure, number or size with another number. */
export function renewed(like: Sense, n: number): Sense | undefined {
  switch (like.is) {
    case "quantity":
      return { is: "quantity", n, unit: like.unit };
    case "number":
    case "count":
      return { is: like.is, n };
    case "size":
      return { is: "size", size: n >= 250 ? `${n} kcmil` : String(n) };
    case "cable":
      return { ...like, size: String(n) };
    default:
      return undefined;
  }
}
