/** What the files of `tables/` may hold. */
import * as z from "zod";
import { isUnit } from "../core/quantity.ts";
import { type Kind, VERIFIED } from "../core/worked.ts";

const verified = z.enum(VERIFIED);
const kind = z.custom<Kind>(
  (text) => typeof text === "string" && (text === "word" || text === "size" || isUnit(text)),
  "not a known unit",
);
const cell = z.union([z.number(), z.string(), z.null()]);
/** Source ids of `tables/sources.json`. */
const sources = z.array(z.string()).min(1);

/** Some cells of a table: every row, or every column, where they are not named. */
const where = { rows: z.array(cell).optional(), columns: z.array(z.string()).optional() };
export const tableFile = z.strictObject({
  title: z.string(),
  section: z.string(),
  verified,
  seen: z.string().optional(),
  sources,
  key: z.strictObject({ name: z.string(), kind }),
  match: z.enum(["exact", "up to"]),
  columns: z.record(z.string(), kind),
  rows: z.array(z.array(cell)).min(1),
  weaker: z.array(z.strictObject({ ...where, verified })).optional(),
  /** Cells that another print gives otherwise, which the value here was preferred to. */
  differs: z.array(z.strictObject({ ...where, print: z.string() })).optional(),
  note: z.string().optional(),
});
export const sameTable = z.strictObject({
  "same as": z.string(),
  section: z.string(),
  verified,
  seen: z.string().optional(),
  sources: sources.optional(),
});
export const constant = z.strictObject({
  name: z.string(),
  value: z.union([z.number(), z.string()]),
  unit: kind,
  section: z.string(),
  verified,
  seen: z.string().optional(),
  sources,
});
export const sameConstant = z.strictObject({
  "same as": z.string(),
  section: z.string(),
  verified,
  seen: z.string().optional(),
});
const clause = z.strictObject({ section: z.string(), title: z.string() });
export const editionFile = z.strictObject({
  id: z.string().regex(/^\d{4}(-[a-z-]+)?$/),
  title: z.string(),
  from: z.iso.date(),
  over: z.string().optional(),
  clauses: z.record(z.string(), clause),
  rules: z.record(z.string(), z.string()),
  notCovered: z.record(z.string(), z.string()).optional(),
  note: z.string().optional(),
});
export const assumption = z.strictObject({
  name: z.string(),
  value: z.union([z.number(), z.string()]),
  unit: kind,
  because: z.string(),
  change: z.string(),
});
export const source = z.strictObject({ title: z.string(), url: z.string().optional() });

export type Constant = z.output<typeof constant>;
export type Clause = z.output<typeof clause>;
export type Assumption = z.output<typeof assumption>;
export type Source = z.output<typeof source>;
