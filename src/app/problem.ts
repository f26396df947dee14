/** Errors of a call, told as RFC 9457 problem details: what, where, and what to do next. */
import type { Context } from "hono";
import { HTTPException } from "hono/http-exception";
import type { InvalidRequest } from "../engine.ts";
import type { ContentfulStatusCode } from "hono/utils/http-status";

const TITLES = {
  400: "Bad request",
  404: "Not found",
  405: "Method not allowed",
  413: "Content too large",
  415: "Unsupported media type",
  422: "Unprocessable content",
  429: "Too many requests",
  500: "Internal error",
  503: "Service unavailable",
} as const satisfies Partial<Record<ContentfulStatusCode, string>>;
type ProblemStatus = keyof typeof TITLES;

/** The same as a person reads it above the detail. */
const PLAIN: Record<ProblemStatus, string> = {
  400: "That could not be taken up",
  404: "Nothing is here",
  405: "That could not be taken up",
  413: "Too much at once",
  415: "That could not be taken up",
  422: "That does not fit",
  429: "Too many questions at once",
  500: "A fault of ours",
  503: "Too busy just now",
};

/** One field that does not fit. `pointer` is a JSON pointer into the body. */
type FieldError = { pointer: string; detail: string };

/** A call that cannot be served; thrown anywhere below the routes, told in one place. */
export class Problem extends HTTPException {
  constructor(
    override readonly status: ProblemStatus,
    readonly detail: string,
    readonly more: { errors?: readonly FieldError[]; headers?: Record<string, string> } = {},
  ) {
    super(status, { message: detail });
    this.name = "Problem";
  }

  get title(): string {
    return TITLES[this.status];
  }

  /** The title for a page. */
  get plainly(): string {
    return PLAIN[this.status];
  }

  /** The members of the problem. */
  told(): { type: string; title: string; status: number; detail: string; errors?: readonly FieldError[] } {
    const { status, title, detail, more: { errors } } = this;
    return { type: "about:blank", title, status, detail, ...(errors && { errors }) };
  }

  /** As `application/problem+json`. */
  json(c: Context): Response {
    const body = JSON.stringify({ ...this.told(), instance: c.req.path });
    return c.body(body, this.status, { ...this.more.headers, "Content-Type": "application/problem+json" });
  }
}

/** `loads.0.rating` as a JSON pointer, so that a caller can find the field. */
const pointer = (path: string): string =>
  path === "request" ? "" : `/${path.split(".").map((key) => key.replace(/~/g, "~0").replace(/\//g, "~1")).join("/")}`;

const SCHEMAS = "GET /openapi.json has the schema of every body.";

/** All fields of a body that do not fit, in one problem. */
export function unfit(problems: readonly { field: string; message: string }[]): Problem {
  const told = problems.map(({ field, message }) => `${field}: ${message}`).join("; ");
  return new Problem(422, `The body does not fit: ${told}. ${SCHEMAS}`, {
    errors: problems.map(({ field, message }) => ({ pointer: pointer(field), detail: message })),
  });
}

/** A request refused by its schema. */
export const refused = (error: InvalidRequest): Problem => unfit(error.problems);
