/** What a kind of question is: the one shape every folder of `questions/` fills. */
import * as z from "zod";
import { exact, type Quantity, type Unit } from "../core/quantity.ts";
import type { Worksheet } from "../core/worksheet.ts";
import type { Takes } from "../reading/take.ts";

/** A request object as a kind reads it. Facts are optional where asking back is kinder than refusing. */
export interface Question<In extends z.ZodType = z.ZodType> {
  /** Contract id, e.g. `dwelling-load`. */
  readonly id: string;
  readonly title: string;
  /** One line for the list of what can be asked. */
  readonly about: string;
  readonly input: In;
  /** Contract ids of the figures it may give, with their names. */
  readonly figures: Readonly<Record<string, string>>;
  /** Questions that can be typed as they stand; tests ask them. */
  readonly examples: readonly string[];
  /** What it takes of the facts of a text; nothing where they are none of its own. */
  readonly takes: Takes;
  /** Sorts of terms that make a difference to it, where most questions do not care: what building, which place. */
  readonly minds?: readonly string[];
  /** The request as a person would type it; reading it back gives the same request. */
  readonly write: (request: z.output<In>) => string;
  /** Works the answer out. Throws Unclear or NotCovered where it cannot. */
  readonly answer: (request: z.output<In>, worksheet: Worksheet) => void;
}

/** A question of any request. */
// deno-lint-ignore no-explicit-any
export type AnyQuestion = Question<any>;

/** Gives a question its types without naming them twice. */
export const question = <In extends z.ZodType>(q: Question<In>): Question<In> => q;

/** What a decimal says exactly as a JSON number, otherwise the fraction. */
const toJson = (text: string): number | string => {
  const fraction = exact(text);
  const number = fraction.valueOf();
  return exact(number).equals(fraction) ? number : fraction.toFraction();
};

const number = z.union([
  z.number().meta({ description: "a finite JSON number" }),
  // What a decimal says exactly is kept as one, so that `480/2` is the 240 V that methods know.
  z.string().regex(/^\d{1,9}\/[1-9]\d{0,8}$/, { abort: true }).transform(toJson)
    .meta({ description: "a fraction such as 1/3" }),
], { error: 'a number such as 12 or 7.5 is needed, or a fraction such as "1/3"' });

/** Beyond these no figure of the trade lies, and a sum may leave what JSON can state. */
const [LEAST, MOST] = [1e-9, 1e12];

/**
 * Schema of a quantity in a request, `{ "value": 12, "unit": "kW" }`: finite, above 0 (or from `least` on, which may be
 * below) and not above `most` of its unit.
 * The limits are about sense, not about the code: they catch slips of the keyboard.
 */
export function quantity<const U extends readonly Unit[]>(
  units: U,
  most: Partial<Record<U[number], number>> & { any?: number } = {},
  least: "above 0" | "0 or more" | number = "above 0",
) {
  return z.strictObject({ value: number, unit: z.enum(units as unknown as [U[number], ...U[number][]]) })
    .check((ctx) => {
      const { value, unit } = ctx.value;
      const n = exact(value).valueOf();
      const limit = most[unit as U[number]] ?? most.any ?? MOST;
      if (typeof least === "number" ? n < least : n < 0 || (n === 0 && least === "above 0")) {
        ctx.issues.push({
          code: "custom",
          path: ["value"],
          input: value,
          message: `${value} ${unit} is not possible here: give a value ${
            typeof least === "number" ? `from ${least} ${unit} on` : "above 0"
          }`,
        });
      } else if (n > 0 && n < LEAST) {
        ctx.issues.push({
          code: "custom",
          path: ["value"],
          input: value,
          message: `${value} ${unit} is less than this service takes (${LEAST} ${unit}): check the figure`,
        });
      } else if (n > limit) {
        ctx.issues.push({
          code: "custom",
          path: ["value"],
          input: value,
          message: `${value} ${unit} is beyond what this service takes (${limit} ${unit}): check the figure`,
        });
      }
    });
}

/** A request's quantity as the worksheet takes it. */
export const asQuantity = <U extends Unit>(said: { value: number | string; unit: U }): Quantity<U> => ({
  n: exact(said.value).toFraction(),
  unit: said.unit,
});

/** A request's quantity as a plain number, for choices that are made by it and not for sums. */
export const plain = (said: { value: number | string }): number => exact(said.value).valueOf();
