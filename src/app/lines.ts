/** Many requests in one call: a request a line in, an outcome a line out, none of them kept. */
import { InvalidRequest } from "../engine.ts";
import { Problem, refused } from "./problem.ts";

/** Media types of JSON lines. */
export const JSON_LINES = "application/x-ndjson";
const LONGEST_LINE = 64 * 1024;
/** How long other callers may wait behind one batch, in ms. */
const LONGEST_TURN = 10;
const CHUNK = 16 * 1024;

type Line = { line: number; text: string } | { line: number; problem: Problem };

/** The lines of a body that are not blank, numbered from 1, each no longer than a single request may be. */
async function* linesOf(body: ReadableStream<Uint8Array>): AsyncGenerator<Line> {
  const decoder = new TextDecoder();
  let [line, rest, skips] = [1, "", false];
  const tooLong = (): Line => ({
    line,
    problem: new Problem(
      413,
      `The line is longer than ${LONGEST_LINE / 1024} kB. Give each request a line of its own.`,
    ),
  });
  for await (const chunk of body) {
    const parts = (rest + decoder.decode(chunk, { stream: true })).split("\n");
    rest = parts.pop()!;
    for (const text of parts) {
      if (text.length > LONGEST_LINE && !skips) yield tooLong();
      else if (!skips && text.trim() !== "") yield { line, text };
      skips = false;
      line++;
    }
    if (rest.length > LONGEST_LINE) {
      if (!skips) yield tooLong();
      [rest, skips] = ["", true];
    }
  }
  if (!skips && rest.trim() !== "") yield { line, text: rest };
}

/**
 * Answers a body of JSON lines as a stream of JSON lines, in their order: each line's number with its outcome, or with the
 * problem of that line alone. Reads on only as fast as the caller takes the answers.
 * @param answer what one parsed line comes to
 */
export function answerLines(
  body: ReadableStream<Uint8Array>,
  answer: (request: unknown) => object,
): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  const lines = linesOf(body);
  const one = (each: Line): object => {
    if ("problem" in each) return { line: each.line, problem: each.problem.told() };
    try {
      return { line: each.line, ...answer(parsed(each.text)) };
    } catch (error) {
      return { line: each.line, problem: problemOf(error).told() };
    }
  };
  return new ReadableStream<Uint8Array>({
    async pull(controller) {
      // Others get their turn before each stretch of work.
      await new Promise((done) => setTimeout(done, 0));
      const until = performance.now() + LONGEST_TURN;
      let text = "";
      while (text.length < CHUNK && performance.now() < until) {
        const { value, done } = await lines.next();
        if (done) {
          controller.enqueue(encoder.encode(text));
          controller.close();
          return;
        }
        text += `${JSON.stringify(one(value))}\n`;
      }
      controller.enqueue(encoder.encode(text));
    },
    async cancel() {
      await lines.return(undefined);
    },
  });
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new Problem(400, `The line is not JSON (${(error as Error).message}). Check its quotes, commas and braces.`);
  }
}

function problemOf(error: unknown): Problem {
  if (error instanceof Problem) return error;
  if (error instanceof InvalidRequest) return refused(error);
  console.error(error);
  return new Problem(500, "This is a fault of the service, not of the question. Nothing was answered.");
}
