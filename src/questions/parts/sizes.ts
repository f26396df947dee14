/** Sizes as a request writes them: of conductors, and the trade sizes of raceways. */
import * as z from "zod";
import { ConductorSize } from "../../core/conductor-size.ts";
import { exact } from "../../core/quantity.ts";

/** Of a power conductor. */
export const size = z.string().regex(
  /^(14|12|10|[1-8]|[1-4]\/0|\d{3,4} kcmil)$/,
  { abort: true, error: 'a conductor size is written like "12", "2/0" or "250 kcmil", from 14 AWG up' },
).transform(ConductorSize.of);

/** Any that may be named, made or not. */
export const namedSize = z.string().regex(
  /^(\d{1,2}|[1-4]\/0|\d{3,4} kcmil)$/,
  { abort: true, error: 'a conductor size is written like "12", "2/0" or "250 kcmil"' },
).transform(ConductorSize.of);

const GAUGES = ["18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0", "3/0", "4/0"] as const;
/** What may lie in a box or a raceway: from 18 AWG up. */
export const anySize = z.union([z.enum(GAUGES), z.string().regex(/^\d{3,4} kcmil$/)], {
  error: 'a conductor size is written like "12", "2/0" or "250 kcmil", from 18 AWG up',
}).transform(ConductorSize.of);

/** Trade sizes of raceways that are listed from 1/2 in on. */
export const TRADE_SIZES = [
  "1/2",
  "3/4",
  "1",
  "1-1/4",
  "1-1/2",
  "2",
  "2-1/2",
  "3",
  "3-1/2",
  "4",
  "5",
  "6",
] as const;

/** The trade size of so many inches, `1-1/4` of 1.25, where it is among those of a raceway. */
export const tradeSize = (inches: number, sizes: readonly string[] = TRADE_SIZES): string | undefined =>
  sizes.find((size) => exact(tradeInches(size)).valueOf() === inches);

/** A trade size as a number of inches, exactly: `1-1/4` is 5/4. */
export function tradeInches(size: string): string {
  const [whole, part] = size.includes("-") ? size.split("-") : size.includes("/") ? ["0", size] : [size, "0/1"];
  const [top, bottom] = part!.split("/").map(Number) as [number, number];
  return `${Number(whole) * bottom + top}/${bottom}`;
}
