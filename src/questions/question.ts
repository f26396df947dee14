/** What a kind of question is: the one shape every folder of `questions/` fills. */
import type * as z from "zod";
import type { Told } from "../core/worked.ts";
import type { Worksheet } from "../core/worksheet.ts";
import type { Manner } from "../reading/manner.ts";
import type { Takes } from "../reading/take.ts";

/** A request object as a kind reads it. Facts are optional where asking back is kinder than refusing. */
interface Question<In extends z.ZodType = z.ZodType> {
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
  /** How a further text of a conversation speaks of it. */
  readonly manner: Manner;
  /** The request as a person would type it; reading it back gives the same request. */
  readonly write: (request: z.output<In>) => string;
  /** Works the answer out, and tells it in a line. Throws Unclear or NotCovered where it cannot. */
  readonly answer: (request: z.output<In>, worksheet: Worksheet) => Told;
}

/** A question of any request. */
// deno-lint-ignore no-explicit-any
export type AnyQuestion = Question<any>;

/** Gives a question its types without naming them twice. */
export const question = <In extends z.ZodType>(q: Question<In>): Question<In> => q;
