/**
 * What a running service tells of itself: how many calls there were, how long they took and how their questions ended, as a page
 * for Prometheus and as a line of JSON a call. No question's text and nobody's address is in either.
 */
import type { Context, MiddlewareHandler } from "hono";
import { Counter, Histogram, Registry } from "prom-client";
import type { Outcome } from "../outcomes.ts";
import type { Engine } from "../engine.ts";

/** Upper ends of the histogram, in seconds: an answer takes milliseconds, the longest text some ten. */
const SECONDS = [0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.5, 2.5, 10];
const MILLISECONDS = 1000;

export type Watch = {
  /** The engine, with its outcomes counted. */
  readonly watched: (engine: Engine) => Engine;
  /** Times every call. */
  readonly calls: MiddlewareHandler;
  /** The page for Prometheus, in its text format. */
  readonly page: (c: Context) => Promise<Response>;
};

/** @param line takes a call's line of JSON, where lines are wanted */
export function watch(line?: (json: string) => void): Watch {
  const registry = new Registry();
  const registers = [registry];
  const calls = new Histogram({
    name: "deadfront_call_seconds",
    help: "Time from the head of a call to the head of its reply",
    labelNames: ["method", "path", "status"],
    buckets: SECONDS,
    registers,
  });
  const outcomes = new Counter({
    name: "deadfront_outcomes_total",
    help: "How questions ended, by the kind that they were taken for",
    labelNames: ["kind", "outcome"],
    registers,
  });
  const count = (outcome: Outcome): Outcome => {
    outcomes.inc({ kind: kindOf(outcome), outcome: outcome.outcome });
    return outcome;
  };
  return {
    watched: (engine) => ({
      ...engine,
      ask: (...args) => count(engine.ask(...args)),
      answer: (...args) => count(engine.answer(...args)),
    }),
    async calls(c, next) {
      const began = performance.now();
      await next();
      const took = performance.now() - began;
      // The route, not the path as it was called: whoever tries a thousand paths makes one row.
      const path = c.req.routePath;
      calls.observe({ method: c.req.method, path, status: c.res.status }, took / MILLISECONDS);
      const [status, ms] = [c.res.status, Math.round(took * 10) / 10];
      line?.(JSON.stringify({ time: new Date().toISOString(), method: c.req.method, path, status, ms }));
    },
    page: async (c) => c.body(await registry.metrics(), 200, { "Content-Type": registry.contentType }),
  };
}

const kindOf = (outcome: Outcome): string => {
  if (outcome.outcome === "answered") return outcome.answer.kind;
  const kind = outcome.outcome === "unclear" ? (outcome.understood as { kind?: unknown } | undefined)?.kind : undefined;
  return typeof kind === "string" ? kind : "";
};
