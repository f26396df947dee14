/** The engine: no clock, no files, no network. Text or request in, outcome out. */
import * as z from "zod";
import type { Edition } from "./core/edition.ts";
import { type Need, NotCovered, type Outcome, Unclear } from "./core/outcome.ts";
import { NoNumber } from "./core/quantity.ts";
import { NOTICE, type WorkedAnswer } from "./core/worked.ts";
import { Worksheet } from "./core/worksheet.ts";
import type { AnyQuestion } from "./questions/question.ts";
import { makeReader, type Named } from "./text/parse.ts";
import type { Draft } from "./text/phrases.ts";

/** A request as an answer carries it: the kind, and the kind's own fields. */
export type Request = { kind: string } & Draft;

export type Engine = {
  readonly questions: readonly AnyQuestion[];
  readonly editions: ReadonlyMap<string, Edition>;
  readonly defaultEdition: string;
  /** Reads a text and answers it. `after` is the request of an earlier answer that the text changes. */
  ask(asked: string, options?: { edition?: string; after?: Request }): Outcome;
  /** Answers a request. @throws InvalidRequest when it does not fit the kind's schema. */
  answer(request: Request, options?: { edition?: string; asked?: string }): Outcome;
};

/** A request that does not fit its schema, field by field. */
export class InvalidRequest extends Error {
  constructor(readonly problems: readonly { field: string; message: string }[]) {
    super(problems.map((p) => `${p.field}: ${p.message}`).join("; "));
    this.name = "InvalidRequest";
  }
}

/** Longest text that is read; a long post is pasted whole, a book is not. */
export const LONGEST_QUESTION = 2000;

/** The edition most places adopt now, used when none is named, and said. */
const DEFAULT_EDITION = "2023";

/** @param notYet questions that are known by name and declined by it */
export function makeEngine(
  questions: readonly AnyQuestion[],
  editions: ReadonlyMap<string, Edition>,
  notYet: readonly Named[] = [],
): Engine {
  const read = makeReader(questions, notYet);
  const byId = new Map(questions.map((q) => [q.id, q]));

  const editionOf = (id: string): Edition => {
    const found = editions.get(id);
    if (!found) {
      throw new NotCovered(`there is no data for edition "${id}" here; there is ${[...editions.keys()].join(", ")}`);
    }
    return found;
  };
  const questionOf = (kind: string): AnyQuestion => {
    const found = byId.get(kind);
    if (!found) {
      throw new InvalidRequest([{
        field: "kind",
        message: `"${kind}" is no kind of question here; there are ${[...byId.keys()].join(", ")}`,
      }]);
    }
    return found;
  };

  const work = (question: AnyQuestion, draft: Draft, edition: Edition, said: Partial<WorkedAnswer>): WorkedAnswer => {
    const request = question.input.safeParse(draft);
    if (!request.success) throw new InvalidRequest(problems(request.error));
    edition.mustCover(question.id);
    const sheet = new Worksheet(edition);
    question.answer(request.data, sheet);
    if (sheet.headline === "") throw new TypeError(`${question.id} answered without a headline`);
    const kept = { kind: question.id, ...(request.data as object) };
    const text = said.asked ?? question.write(request.data as never);
    return {
      format: "worked-answer/1",
      kind: question.id,
      title: question.title,
      edition: edition.id,
      editionTitle: edition.title,
      ...(said.asked !== undefined && { asked: said.asked }),
      headline: sheet.headline,
      ...(sheet.verdict && { verdict: sheet.verdict.is, verdictBecause: sheet.verdict.because }),
      figures: sheet.figures,
      asides: [...sheet.asides],
      steps: sheet.steps,
      assumptions: sheet.assumptions(),
      cautions: sheet.cautions,
      readAs: said.readAs ?? [],
      unused: said.unused ?? [],
      followUps: sheet.followUps,
      request: kept,
      notice: NOTICE,
      link: linkTo(text, edition.id),
    };
  };

  return {
    questions,
    editions,
    defaultEdition: DEFAULT_EDITION,
    ask(asked, { edition, after } = {}) {
      if (asked.length > LONGEST_QUESTION) {
        const long = {
          field: "question",
          ask: `That is longer than ${LONGEST_QUESTION} characters: what matters in it?`,
          example: "",
        };
        return { outcome: "unclear", needs: [long], understood: {}, unused: [] };
      }
      let parsed: ReturnType<typeof read>;
      try {
        parsed = read(asked, after && { kind: after.kind, request: withoutKind(after) });
      } catch (error) {
        if (!(error instanceof NoNumber)) throw error;
        const figure = { field: "question", ask: "One of its figures is no number I can compute with.", example: "" };
        return { outcome: "unclear", needs: [figure], understood: {}, unused: [] };
      }
      if (!parsed.question && parsed.declined !== undefined) {
        return {
          outcome: "not covered",
          because: `${parsed.declined}: understood, but not worked out by this service yet`,
        };
      }
      if (!parsed.question) return { outcome: "unclear", needs: parsed.needs, understood: {}, unused: parsed.unused };
      const understood = { kind: parsed.question.id, ...parsed.draft };
      return settle(understood, parsed.unused, () => {
        if (parsed.asks.length > 0) throw new Unclear(parsed.asks);
        const chosen = editionOf(parsed.edition ?? edition ?? DEFAULT_EDITION);
        // A changed question is linked by its whole meaning, not by the words of the change alone.
        const said = { readAs: parsed.readAs, unused: parsed.unused, ...(after === undefined && { asked }) };
        try {
          return work(parsed.question, parsed.draft, chosen, said);
        } catch (error) {
          // What a person typed is asked about; only a caller's request object is refused.
          if (!(error instanceof InvalidRequest)) throw error;
          throw new Unclear(
            error.problems.map((p): Need => ({
              field: p.field,
              ask: p.message,
              example: parsed.question.examples[0] ?? "",
            })),
          );
        }
      });
    },
    answer(request, { edition, asked } = {}) {
      const question = questionOf(request.kind);
      return settle(
        request,
        [],
        () =>
          work(question, withoutKind(request), editionOf(edition ?? DEFAULT_EDITION), {
            ...(asked !== undefined && { asked }),
          }),
      );
    },
  };
}

/** The link that recomputes an answer: as readable, and so as short, as a query may be. */
const linkTo = (text: string, edition: string): string => {
  const readable = encodeURIComponent(text.toWellFormed()).replace(/%20/g, "+").replace(/%2C/g, ",").replace(
    /%2F/g,
    "/",
  );
  return `/answer?q=${readable}&edition=${edition}`;
};

const withoutKind = ({ kind: _, ...rest }: Request): Draft => rest;

function settle(understood: unknown, unused: WorkedAnswer["unused"], answer: () => WorkedAnswer): Outcome {
  try {
    return { outcome: "answered", answer: answer() };
  } catch (error) {
    if (error instanceof Unclear) return { outcome: "unclear", needs: error.needs, understood, unused };
    if (error instanceof NotCovered) {
      return {
        outcome: "not covered",
        because: error.because,
        ...(error.edition !== undefined && { edition: error.edition }),
      };
    }
    throw error;
  }
}

function problems(error: z.ZodError): { field: string; message: string }[] {
  return error.issues.map((issue) => ({ field: issue.path.join(".") || "request", message: issue.message }));
}
