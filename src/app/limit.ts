/** A fair share for each address: one script in a loop must not keep a crew waiting. */
import { getConnInfo } from "@hono/node-server/conninfo";
import type { MiddlewareHandler } from "hono";
import { rateLimiter } from "hono-rate-limiter";
import { Problem } from "./problem.ts";

const MINUTE = 60_000;

/** @param most calls a minute from one address. Behind a proxy all callers share its address: limit there instead. */
export const perAddress = (most = 300): MiddlewareHandler =>
  rateLimiter({
    windowMs: MINUTE,
    limit: most,
    // Whoever watches the service must hear from it, also from an address that asks too much.
    skip: (c) => c.req.path === "/health",
    keyGenerator: (c) => getConnInfo(c).remote.address ?? "",
    handler: () => {
      const detail = `More than ${most} calls in a minute came from this address. Wait a minute and try again.`;
      throw new Problem(429, detail, { headers: { "Retry-After": "60" } });
    },
  });
