/** A request as it travels, and what is wrong with one that does not fit its kind. */
import type * as z from "zod";
import type { Draft } from "./reading/facts.ts";

/** A request as an answer carries it: the kind, and the kind's own fields. */
export type Request = { kind: string } & Draft;

/** A request that does not fit its schema, field by field. */
export class InvalidRequest extends Error {
  constructor(readonly problems: readonly { field: string; message: string }[]) {
    super(problems.map((p) => `${p.field}: ${p.message}`).join("; "));
    this.name = "InvalidRequest";
  }
}

const NAMED: Readonly<Record<string, string>> = {
  string: "a text",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  array: "a list",
  object: "an object",
  record: "an object",
};

/** For `schema.safeParse(value, { error: inOurWords })`. */
export function inOurWords(issue: z.core.$ZodRawIssue): string {
  switch (issue.code) {
    case "invalid_type": {
      const needed = `${NAMED[issue.expected] ?? issue.expected} is needed`;
      return issue.input === undefined ? needed : `${needed}, and this is ${kindOf(issue.input)}`;
    }
    case "invalid_value":
      return issue.values.length === 1
        ? `"${String(issue.values[0])}" is needed`
        : `one of ${issue.values.map((value) => `"${String(value)}"`).join(", ")} is needed`;
    case "too_small":
      return `${amount(issue.origin, issue.minimum)} or more ${issue.inclusive === false ? "than that " : ""}is needed`;
    case "too_big":
      return `${amount(issue.origin, issue.maximum)} at most`;
    case "not_multiple_of":
      return `a multiple of ${issue.divisor} is needed`;
    case "unrecognized_keys":
      return `there is no ${issue.keys.map((key) => `"${key}"`).join(" and no ")} here`;
    case "invalid_union":
      return "this has none of the forms that it may have";
    default:
      return "this is not written as it has to be";
  }
}

const kindOf = (value: unknown): string =>
  value === null ? "null" : NAMED[Array.isArray(value) ? "array" : typeof value] ?? typeof value;

const amount = (of: string, size: number | bigint): string =>
  of === "string"
    ? `${size} ${Number(size) === 1 ? "character" : "characters"}`
    : of === "array"
    ? `a list of ${size}`
    : `${size}`;
