/** A request as it travels, and what is wrong with one that does not fit its kind. */
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
