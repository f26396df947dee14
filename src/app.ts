/** The service as a value: an engine in, a hono app out. Routes live in app/; here are the rules every call lives under. */
import { type Context, Hono, type MiddlewareHandler } from "hono";
import { bodyLimit } from "hono/body-limit";
import { compress } from "hono/compress";
import { cors } from "hono/cors";
import { secureHeaders } from "hono/secure-headers";
import { timeout } from "hono/timeout";
import { type Engine, InvalidRequest } from "./engine.ts";
import { api } from "./app/api.ts";
import { FILES } from "./app/files.ts";
import { openapi } from "./app/openapi.ts";
import { withPasted } from "./app/pasted.ts";
import { pages, troublePage } from "./app/pages.tsx";
import { makePress, type Press } from "./app/press.ts";
import { Problem, refused } from "./app/problem.ts";
import type { Watch } from "./app/watch.ts";

const LARGEST_BODY = 64 * 1024;
const LONGEST_WAIT = 10_000;

/** Each path with the methods it takes, for the answer to any other. */
const METHODS: Record<string, string> = {
  "/api/ask": "POST",
  "/api/answers": "POST",
  "/api/answers/:kind": "POST",
  "/turn": "POST",
  ...Object.fromEntries(
    ["/", "/embed", "/answer", "/health", "/openapi.json", "/api/questions", "/api/editions"].map((
      path,
    ) => [path, "GET, HEAD"]),
  ),
};

type AppOptions = {
  /** Where the service is reached, for the links it gives: fixed, or by call. Without it links are relative. */
  origin?: string | ((c: Context) => string);
  /** Runs before everything else: limits per address. */
  guard?: MiddlewareHandler;
  /** Counts and times calls. */
  watch?: Watch;
  /** Whether the counts stand at /metrics. */
  metrics?: boolean;
  /** Makes the PDFs. */
  press?: Press;
};

export function makeApp(
  plain: Engine,
  { origin = "", guard, watch, metrics, press = makePress() }: AppOptions = {},
): Hono {
  const engine = withPasted(watch ? watch.watched(plain) : plain);
  const originOf = (c: Context) => typeof origin === "string" ? origin : origin(c);
  const app = new Hono();
  const tell = (c: Context, problem: Problem) =>
    !c.req.path.startsWith("/api/") && wantsPage(c)
      ? c.html(
        troublePage(engine, problem, c),
        problem.status,
        problem.more.headers,
      )
      : problem.json(c);

  if (watch) app.use(watch.calls);
  app.use(compressed);
  app.use((c, next) => (c.req.path === "/embed" ? framed : FILES.has(c.req.path) ? lent : unframed)(c, next));
  app.use(async (c, next) => {
    await next();
    c.res.headers.set("Cache-Control", "no-cache");
  });
  app.use(fromAnywhere);
  if (guard) app.use(guard);
  app.use(single(timeout(
    LONGEST_WAIT,
    () => new Problem(503, "This took too long. Try again in a moment.", { headers: { "Retry-After": "5" } }),
  )));
  app.use(single(bodyLimit({
    maxSize: LARGEST_BODY,
    onError: () => {
      throw new Problem(413, `The body is larger than ${LARGEST_BODY / 1024} kB. Send one question at a time.`);
    },
  })));

  app.route("/", pages(engine, originOf, press));
  app.route("/api", api(engine));
  let description: ReturnType<typeof openapi> | undefined;
  app.get("/openapi.json", (c) => c.json(description ??= openapi(engine)));
  app.get(
    "/health",
    (c) => c.json({ status: "ok", questions: engine.questions.length, editions: [...engine.editions.keys()] }),
  );

  if (watch && metrics) app.get("/metrics", watch.page);

  for (const [path, allow] of Object.entries(METHODS)) {
    app.all(path, (c) => {
      const detail = `${c.req.path} takes ${allow}, not ${c.req.method}.`;
      return tell(c, new Problem(405, detail, { headers: { Allow: allow } }));
    });
  }
  app.notFound((c) =>
    tell(c, new Problem(404, `There is nothing at ${c.req.path}. GET /openapi.json lists every call; / is the page.`))
  );
  app.onError((error, c) => {
    if (error instanceof Problem) return tell(c, error);
    if (error instanceof InvalidRequest) return tell(c, refused(error));
    // Our own mistake: the caller learns that it is ours, the log learns what it is.
    console.error(error);
    return tell(c, new Problem(500, "This is a fault of the service, not of the question. Nothing was answered."));
  });
  return app;
}

/** Holds for every call but the one that takes any number of requests, which bounds each of its lines itself. */
const single = (limit: MiddlewareHandler): MiddlewareHandler => (c, next) =>
  c.req.path === "/api/answers" ? next() : limit(c, next);

/*
 * A reply that nobody asked to be changed goes out as the text it is made of: touching its body, as these two of hono's do
 * even where there is nothing to do, makes a stream of it, which takes as long as a small answer.
 */
const compressing = compress();
const compressed: MiddlewareHandler = async (c, next) => {
  if (/gzip|deflate|\*/i.test(c.req.header("Accept-Encoding") ?? "")) return await compressing(c, next);
  await next();
  c.res.headers.append("Vary", "Accept-Encoding");
};
const preflight = cors();
const fromAnywhere: MiddlewareHandler = async (c, next) => {
  if (c.req.method === "OPTIONS") return await preflight(c, next);
  await next();
  c.res.headers.set("Access-Control-Allow-Origin", "*");
};

/** A browser that followed a link reads a page; programs get the problem itself. */
const wantsPage = (c: Context): boolean => (c.req.header("Accept") ?? "").includes("text/html");

/** Only our own files run and nothing else loads. */
const policy = {
  defaultSrc: ["'none'"],
  scriptSrc: ["'self'"],
  styleSrc: ["'self'"],
  imgSrc: ["'self'"],
  connectSrc: ["'self'"],
  formAction: ["'self'"],
  baseUri: ["'none'"],
};
const unframed = secureHeaders({
  contentSecurityPolicy: { ...policy, frameAncestors: ["'none'"] },
  xFrameOptions: "DENY",
});
/** A page in a sandboxed frame has no origin, and may have our style all the same. */
const lent = secureHeaders({
  contentSecurityPolicy: { ...policy, frameAncestors: ["'none'"] },
  xFrameOptions: "DENY",
  crossOriginResourcePolicy: "cross-origin",
});
/** `/embed` alone may stand in someone's frame. */
const framed = secureHeaders({
  contentSecurityPolicy: { ...policy, frameAncestors: ["*"] },
  xFrameOptions: false,
  crossOriginResourcePolicy: "cross-origin",
  crossOriginOpenerPolicy: false,
});
