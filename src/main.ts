/** Starts the service: reads the tables, builds the engine, listens. */
import { serve } from "@hono/node-server";
import type { Server } from "node:http";
import { perAddress } from "./app/limit.ts";
import { makeApp } from "./app.ts";
import { readEditions } from "./core/edition.ts";
import { makeEngine } from "./engine.ts";
import { questions } from "./questions/all.ts";
import { declined } from "./questions/declined.ts";
import { readTableFiles } from "./read-tables.ts";

const fail = (what: string): never => {
  console.error(`${what} Set PORT to a free port from 0 to 65535, e.g. PORT=8080.`);
  Deno.exit(1);
};
const said = Deno.env.get("PORT") ?? "8000";
const port = /^\d+$/.test(said) && Number(said) <= 65535 ? Number(said) : fail(`PORT is "${said}".`);
const hostname = Deno.env.get("HOST") ?? "127.0.0.1";
const origin = Deno.env.get("ORIGIN");

const engine = makeEngine(questions, readEditions(readTableFiles()), declined);
const app = makeApp(engine, { guard: perAddress(), ...(origin && { origin }) });
// Slow and idle connections are closed; the cap below stays well under the 256 descriptors some systems give a process.
const serverOptions = {
  headersTimeout: 5_000,
  requestTimeout: 15_000,
  keepAliveTimeout: 5_000,
  connectionsCheckingInterval: 1_000,
  maxHeaderSize: 16_384,
};
const server = serve({ fetch: app.fetch, port, hostname, serverOptions }, ({ port }) => {
  console.log(`Deadfront is at ${origin ?? `http://${hostname}:${port}`}\nThree questions to try:`);
  for (const { examples } of engine.questions.slice(0, 3)) console.log(`  ${examples[0]}`);
}) as Server;
server.maxConnections = 100;
server.on("error", (error) => fail(`Port ${port} of ${hostname} cannot be listened on (${error.message}).`));
for (const signal of ["SIGTERM", "SIGINT"] as const) {
  Deno.addSignalListener(signal, () => server.close(() => Deno.exit()));
}
