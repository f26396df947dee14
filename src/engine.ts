/** The engine: no clock, no files, no network. Text or request in, outcome out. */
import * as z from "zod";
import type { Edition } from "./editions/edition.ts";
import { NotCovered, Unclear } from "./core/outcome.ts";
import { LONGEST_QUESTION, NOTICE, type Outcome } from "./outcomes.ts";

import type { WorkedAnswer } from "./core/worked.ts";
import { Worksheet } from "./core/worksheet.ts";
import { unsound } from "./checks.ts";
import type { AnyQuestion } from "./questions/question.ts";
import { makeAsk } from "./asking/ask.ts";
import type { AskOptions, Said } from "./asking/desk.ts";
import { inOurWords, InvalidRequest, type Request } from "./request.ts";
import type { Draft } from "./reading/facts.ts";
import type { Declined } from "./questions/declined.ts";

export { LONGEST_QUESTION } from "./outcomes.ts";
export { InvalidRequest, type Request } from "./request.ts";

export type Engine = {
  readonly questions: readonly AnyQuestion[];
  readonly editions: ReadonlyMap<string, Edition>;
  readonly defaultEdition: string;
  /** Reads a text and answers it. `after` is the thread of an earlier outcome, or the request of an earlier answer. */
  ask(asked: string, options?: AskOptions): Outcome;
  /** Answers a request. @throws InvalidRequest when it does not fit the kind's schema. */
  answer(request: Request, options?: { edition?: string; asked?: string }): Outcome;
};

/** The edition most places adopt now, used when none is named, and said. */
const DEFAULT_EDITION = "2023";

/** @param declined questions that are known by name and declined by it */
export function makeEngine(
  questions: readonly AnyQuestion[],
  editions: ReadonlyMap<string, Edition>,
  declined: readonly Declined[] = [],
): Engine {
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

  const work = (question: AnyQuestion, draft: Draft, edition: Edition, said: Said): WorkedAnswer => {
    const request = question.input.safeParse(draft, { error: inOurWords });
    if (!request.success) throw new InvalidRequest(problems(request.error));
    edition.mustCover(question.id);
    const sheet = new Worksheet(edition);
    const { headline, verdict } = question.answer(request.data, sheet);
    if (headline === "") throw new TypeError(`${question.id} answered without a headline`);
    const { followUps, ...written } = sheet.finish();
    // As JSON holds it, so that it can be sent again as it stands.
    const kept = JSON.parse(JSON.stringify({ kind: question.id, edition: edition.id, ...request.data }));
    const restated = question.write(request.data as never);
    const text = said.asked ?? restated;
    const answer: WorkedAnswer = {
      format: "worked-answer/1",
      kind: question.id,
      title: question.title,
      edition: edition.id,
      editionTitle: edition.title,
      ...(said.asked !== undefined && { asked: said.asked }),
      headline,
      ...(verdict && { verdict: verdict.is, verdictBecause: verdict.because }),
      ...written,
      readAs: said.readAs ?? [],
      unused: said.unused ?? [],
      restated,
      ...(said.account && { account: said.account }),
      followUps,
      request: kept,
      notice: NOTICE,
      link: linkTo(text, edition.id),
    };
    const wrong = unsound(answer, edition);
    if (wrong === undefined) return answer;
    // The log learns what it was; the asker gets no number that we cannot sign for.
    console.error(`withheld: ${wrong}`, answer.request);
    throw new NotCovered(`the answer failed a check of its own (${wrong}): I can't stand behind it, so none is given`);
  };

  return {
    questions,
    editions,
    defaultEdition: DEFAULT_EDITION,
    ask: makeAsk({
      questions,
      declined,
      work,
      editionOf,
      settle,
      defaultEdition: DEFAULT_EDITION,
      longest: LONGEST_QUESTION,
    }),
    answer(request, { edition: asOption, asked } = {}) {
      const question = questionOf(request.kind);
      const edition = asOption ?? (typeof request.edition === "string" ? request.edition : undefined);
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

/** The link that recomputes an answer: as readable, and so as short, as a query may be (RFC 3986, section 3.4). */
const linkTo = (text: string, edition: string): string => {
  const readable = encodeURIComponent(text.toWellFormed()).replace(/%20/g, "+")
    .replace(/%(2C|2F|3A|3B|3F|40)/g, (escaped) => decodeURIComponent(escaped));
  return `/answer?q=${readable}&edition=${edition}`;
};

const withoutKind = ({ kind: _, edition: __, ...rest }: Request): Draft => rest;

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
