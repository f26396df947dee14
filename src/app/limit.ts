/** A fair share for each address: one script in a loop must not keep a crew waiting. */
import { getConnInfo } from "@hono/node-server/conninfo";
import type { Context, MiddlewareHandler } from "hono";
import { rateLimiter, type RateLimitInfo } from "hono-rate-limiter";
import { FILES } from "./files.ts";
import { Problem } from "./problem.ts";

const MINUTE = 60_000;
export const CALLS_A_MINUTE = 300;

type Share = {
  /** Calls a minute from one address. */
  most?: number;
  /**
   * The header in which the proxy in front tells whom it calls for, e.g. `x-forwarded-for`. Only where nobody else can reach
   * the service: whoever can may write it. Without it a proxy's callers share one address.
   */
  header?: string;
};

/** What is asked for at each visit, or asks for nothing: not counted. Whoever watches the service must hear from it, too. */
const SPARED = new Set(["/health", "/metrics", ...FILES.keys()]);

export const perAddress = ({ most = CALLS_A_MINUTE, header }: Share = {}): MiddlewareHandler =>
  rateLimiter({
    windowMs: MINUTE,
    limit: most,
    skip: (c) => c.req.method === "OPTIONS" || SPARED.has(c.req.path),
    keyGenerator: (c) => addressOf(c, header),
    handler: (c) => {
      const { resetTime } = c.get("rateLimit") as RateLimitInfo;
      const wait = Math.max(1, Math.ceil(((resetTime?.getTime() ?? Date.now() + MINUTE) - Date.now()) / 1000));
      const detail = `More than ${most} calls in a minute came from this address. Wait ${wait} s and ask again.`;
      throw new Problem(429, detail, { headers: { "Retry-After": `${wait}` } });
    },
  });

/** A proxy adds the address it was called from behind what its caller wrote: the last one is its own word. */
function addressOf(c: Context, header: string | undefined): string {
  const told = header === undefined ? undefined : c.req.header(header)?.split(",").at(-1)?.trim();
  return told || (getConnInfo(c).remote.address ?? "");
}
