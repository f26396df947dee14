/** Quantities of a request: their schema, and how the worksheet and a choice take them. */
import * as z from "zod";
import { exact, type Quantity, type Unit } from "../../core/quantity.ts";

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

/** A request's quantity as it would be typed. */
export const amount = ({ value, unit }: { value: number | string; unit: string }): string => `${value} ${unit}`;

/** A request's quantity as a plain number, for choices that are made by it and not for sums. */
export const plain = (said: { value: number | string }): number => exact(said.value).valueOf();
