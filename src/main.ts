/** Starts the service: reads the tables, builds the engine, listens. */
import { serve } from "@hono/node-server";
import { perAddress } from "./app/limit.ts";
import { makeApp } from "./app.ts";
import { readEditions } from "./core/edition.ts";
import { makeEngine } from "./engine.ts";
import { questions } from "./questions/all.ts";
import { readTableFiles } from "./read-tables.ts";

const port = Number(Deno.env.get("PORT") ?? 8000);
const hostname = Deno.env.get("HOST") ?? "127.0.0.1";
const origin = Deno.env.get("ORIGIN");
if (!Number.isInteger(port) || port < 0 || port > 65535) {
  console.error(`PORT is "${Deno.env.get("PORT")}". Give a port number from 0 to 65535, e.g. PORT=8000.`);
  Deno.exit(1);
}

const engine = makeEngine(questions, readEditions(readTableFiles()));
const app = makeApp(engine, { guard: perAddress(), ...(origin && { origin }) });
const server = serve({
  fetch: app.fetch,
  port,
  hostname,
  // Slow and idle connections are closed, and the cap stays below what a process may open.
  serverOptions: {
    headersTimeout: 5_000,
    requestTimeout: 15_000,
    keepAliveTimeout: 5_000,
    connectionsCheckingInterval: 1_000,
    maxHeaderSize: 16_384,
  },
}, ({ port }) => {
  console.log(`Deadfront is at ${origin ?? `http://${hostname}:${port}`}\nQuestions to try:`);
  for (const { examples } of engine.questions.slice(0, 3)) console.log(`  ${examples[0]}`);
});
(server as unknown as { maxConnections: number }).maxConnections = 200;

const stop = () => server.close(() => Deno.exit());
for (const signal of ["SIGTERM", "SIGINT"] as const) Deno.addSignalListener(signal, stop);
