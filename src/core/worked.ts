/** The worked answer: one plain, versioned JSON value that every renderer prints and the replay test recomputes. */
import type { Kind, LookUpRule, Verified } from "./edition.ts";
import type { Compare, Expr } from "./formula.ts";
import type { Account, Span } from "./outcome.ts";
import type { Value } from "./quantity.ts";

export type StepId = `s${number}`;
/** A handle on a recorded step. It carries no number, so nobody can do sums off the page. */
export type Known<K extends Kind = Kind> = { readonly id: StepId; readonly name: string; readonly kind: K };
/** Where the book says so. `verified` is told when it is weaker than two sources. */
export type Citation = { section: string; title: string; verified?: Verified };

type Line = { id: StepId; part: string; name: string; value: Value; cite?: Citation; note?: string };
export type Step =
  | Line & { kind: "given" }
  | Line & { kind: "assumed"; because: string; change: string }
  | Line & {
    kind: "looked up";
    table: string;
    column: string;
    row: string;
    by: LookUpRule | "at least" | "at most";
    key?: Expr;
  }
  | Line & { kind: "worked"; formula: Expr }
  | Line & { kind: "chosen"; test: Compare; held: boolean };

/** A result under its contract id, pointing at the step that made it. */
export type Figure = { value: number | string; unit: string; name: string; step: StepId };
export type Assumption = { name: string; value: string; because: string; change: string; step: StepId };
export type Caution = { text: string; cite?: Citation };
export type Verdict = "ok" | "not ok" | "ok if";
/**
 * A line of a record that is kept of a job: what is wanted, what was found and how it was judged; absent is left to fill. A line
 * of a list, such as a panel's directory, says what is there, and there is nothing to find or to judge.
 */
export type RecordLine = {
  part: string;
  what: string;
  wanted?: StepId;
  found?: StepId;
  verdict?: Verdict;
  isList?: true;
};

export type WorkedAnswer = {
  format: "worked-answer/1";
  kind: string;
  title: string;
  edition: string;
  editionTitle: string;
  asked?: string;
  headline: string;
  verdict?: Verdict;
  verdictBecause?: string;
  figures: Record<string, Figure>;
  /** Parts whose steps the short renderings leave to the longer ones. */
  asides: readonly string[];
  steps: readonly Step[];
  assumptions: readonly Assumption[];
  cautions: readonly Caution[];
  /** What is written down of the job, where the answer is one to be kept. */
  record?: readonly RecordLine[];
  /** What the reader understood differently from how it was written: corrected typing, other words. */
  readAs: readonly string[];
  unused: readonly Span[];
  /** The request in plain words: reading them gives the same request again. */
  restated: string;
  /** What became of every word of the asked text. */
  account?: Account;
  /** Why, or by which sections, where that was asked. */
  explanation?: string;
  /** What to ask next, as texts that can be sent. */
  followUps: readonly string[];
  request: unknown;
  /** Stands once on every answer, whatever prints it. */
  notice: string;
  link: string;
};

/** What no answer may go without. */
export const NOTICE =
  "A design check, not permission to work. Local amendments and the authority having jurisdiction decide; manufacturer " +
  "markings win. A licensed electrician verifies before anything is installed or energized.";

/** The same where there is room for a line. */
export const SHORT_NOTICE = "A design check, not permission to work; a licensed electrician verifies.";
