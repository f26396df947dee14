/**
 * The worked answer: one plain, versioned JSON value that every renderer prints and the replay test recomputes. Its schema
 * stands here once: the types, OpenAPI and the replay test's check follow from it.
 */
import * as z from "zod";
import type { Unit } from "./quantity.ts";

/** A schema of texts whose type is narrower than what a reader of the JSON has to know. */
const narrowed = <T extends string>(schema: z.ZodString) => schema as unknown as z.ZodType<T, T>;
const text = z.string();
const list = <T extends z.ZodType>(item: T) => z.array(item).readonly();

/** What a table column, a value or a step gives: a unit, a conductor size, or a word such as `copper`. */
export type Kind = Unit | "size" | "word";
/** How well a value was checked in print. */
export const VERIFIED = ["two sources", "one source", "from memory"] as const;
export type Verified = typeof VERIFIED[number];

export type StepId = `s${number}`;
const stepId = narrowed<StepId>(text.regex(/^s\d+$/));
/** A handle on a recorded step. It shows no number, so nobody can do sums off the page. */
export type Known<K extends Kind = Kind> = { readonly name: string; readonly kind: K };
/** What becomes a part of an answer: it holds the handle where the answer has a step's number. */
export type Draft<T> = T extends StepId ? Known : T extends object ? { [K in keyof T]: Draft<T[K]> } : T;

const quantity = z.object({
  n: text.meta({ description: 'exact: "12", "0.35", "2800/3"' }),
  unit: narrowed<Unit>(text),
});
const value = z.union([quantity, z.object({ word: text })]);

const SIGNS = ["+", "−", "×", "÷"] as const;
export type Sign = typeof SIGNS[number];
export const FUNCTIONS = ["sum", "min", "max", "round", "roundUp", "roundDown", "sqrt", "abs"] as const;
export type FunctionName = typeof FUNCTIONS[number];
/** A formula: evaluated with its units checked, and printed, from the same tree. A step's number refers to the step. */
export type Expr<Ref = StepId> =
  | { lit: string }
  | { ref: Ref }
  | { op: Sign; args: readonly [Expr<Ref>, Expr<Ref>] }
  | { fn: FunctionName; args: readonly Expr<Ref>[] };
/** A formula as a method writes it. */
export type Formula = Expr<Known>;
const expr: z.ZodType<Expr, Expr> = z.lazy(() =>
  z.union([
    z.object({ lit: text }),
    z.object({ ref: stepId }),
    z.object({ op: z.enum(SIGNS), args: z.tuple([expr, expr]).readonly() }),
    z.object({ fn: z.enum(FUNCTIONS), args: list(expr) }),
  ])
);
const compare = z.object({ left: expr, is: z.enum(["<", "≤", ">", "≥", "="]), right: expr });
/** A test between two formulas. */
export type Compare<Ref = StepId> = { left: Expr<Ref>; is: z.output<typeof compare>["is"]; right: Expr<Ref> };

const citation = z.object({ section: text, title: text, verified: z.enum(VERIFIED).optional() });
/** Where the book says so. `verified` is told when it is weaker than two sources. */
export type Citation = z.output<typeof citation>;

const line = { id: stepId, part: text, name: text, value, cite: citation.optional(), note: text.optional() };
const step = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("given"), ...line }),
  z.object({ kind: z.literal("assumed"), ...line, because: text, change: text }),
  z.object({
    kind: z.literal("looked up"),
    ...line,
    table: text,
    column: text,
    row: text,
    by: z.enum(["exact", "up to", "at least", "at most"]),
    key: expr.optional(),
  }),
  z.object({ kind: z.literal("worked"), ...line, formula: expr }),
  z.object({ kind: z.literal("chosen"), ...line, test: compare, held: z.boolean() }),
]);
export type Step = z.output<typeof step>;
export type LookedUp = Extract<Step, { kind: "looked up" }>;

const figure = z.object({ value: z.union([z.number(), text]), unit: text, name: text, step: stepId });
/** A result under its contract id, pointing at the step that made it. */
export type Figure = z.output<typeof figure>;
const assumption = z.object({ name: text, value: text, because: text, change: text, step: stepId });
export type Assumption = z.output<typeof assumption>;
const caution = z.object({ text, cite: citation.optional() });
export type Caution = z.output<typeof caution>;
const verdict = z.enum(["ok", "not ok", "ok if"]);
export type Verdict = z.output<typeof verdict>;

/** A verdict with its reason; for `ok if`, on what condition. */
export type Reasoned = { is: Verdict; because: string };
/** What an answer leads with. */
export type Told = { headline: string; verdict?: Reasoned | undefined };

const recordLine = z.object({
  part: text,
  what: text,
  wanted: stepId.optional(),
  found: stepId.optional(),
  verdict: verdict.optional(),
  isList: z.literal(true).optional(),
});
/**
 * A line of a record that is kept of a job: what is wanted, what was found and how it was judged; absent is left to fill. A line
 * of a list, such as a panel's directory, says what is there, and there is nothing to find or to judge.
 */
export type RecordLine = z.output<typeof recordLine>;

const span = z.object({ at: z.int().min(0), text });
/** A stretch of the asked text, by position. */
export type Span = z.output<typeof span>;
const account = z.object({
  taken: list(span.extend({ as: text })),
  setAside: list(span.extend({ because: text })),
  unread: list(span),
});
/** What became of each stretch of an asked text. */
export type Account = Readonly<z.output<typeof account>>;

const answer = z.object({
  format: z.literal("worked-answer/1"),
  kind: text,
  title: text,
  edition: text,
  editionTitle: text,
  asked: text.optional(),
  headline: text,
  verdict: verdict.optional(),
  verdictBecause: text.optional(),
  figures: z.record(text, figure),
  asides: list(text).meta({ description: "parts whose steps the short renderings leave to the longer ones" }),
  steps: list(step),
  assumptions: list(assumption),
  cautions: list(caution),
  record: list(recordLine).optional().meta({
    description:
      "lines of a record to keep; `wanted` and `found` name steps, and what is absent is left to fill; of a list there is nothing to fill",
  }),
  readAs: list(text).meta({
    description: "what was read otherwise than it was written: corrected typing, other words",
  }),
  unused: list(span),
  restated: text.meta({ description: "the request in plain words; asked again it gives the same answer" }),
  account: account.optional(),
  explanation: text.optional().meta({ description: "why, or by which sections, where that was asked" }),
  followUps: list(text).meta({ description: "what to ask next, as texts that can be sent" }),
  request: z.looseObject({ kind: text }),
  notice: text.meta({ description: "stands once on every answer, whatever prints it" }),
  link: text,
});
export type WorkedAnswer = z.output<typeof answer>;
/** What a stored answer is checked by, and each part that OpenAPI names. */
export const SCHEMAS = { answer, step, span, formula: expr };
