/** Starts the service: reads the tables, builds the engine, listens. */
import { type HttpBindings, serve } from "@hono/node-server";
import type { Server } from "node:http";
import { share } from "./app/connections.ts";
import { CALLS_A_MINUTE, perAddress } from "./app/limit.ts";
import { makeApp } from "./app.ts";
import { readEditions } from "./editions/read.ts";
import { makeEngine } from "./engine.ts";
import { questions } from "./questions/all.ts";
import { declined } from "./questions/declined.ts";
import { readTableFiles } from "./read-tables.ts";

const fail = (what: string): never => {
  console.error(what);
  Deno.exit(1);
};
const FREE_PORT = "Set PORT to a free port from 0 to 65535, e.g. PORT=8080.";
const said = Deno.env.get("PORT") ?? "8000";
const port = /^\d+$/.test(said) && Number(said) <= 65535 ? Number(said) : fail(`PORT is "${said}". ${FREE_PORT}`);
/** An IPv6 address may stand in brackets, as it does in a link. */
const hostname = (Deno.env.get("HOST") ?? "127.0.0.1").replace(/^\[(.*)\]$/, "$1");
const inLink = (address: string) => address.includes(":") ? `[${address}]` : address;
const origin = Deno.env.get("ORIGIN")?.replace(/\/+$/, "");

const limit = Deno.env.get("LIMIT") ?? `${CALLS_A_MINUTE}`;
if (!/^[1-9]\d{0,8}$/.test(limit)) {
  fail(`LIMIT is "${limit}". Set it to the calls a minute that one address may make, e.g. LIMIT=${CALLS_A_MINUTE}.`);
}
const header = Deno.env.get("ADDRESS_HEADER");
if (header !== undefined && !/^[\w-]+$/.test(header)) {
  fail(`ADDRESS_HEADER is "${header}". Set it to the header your proxy sets, e.g. ADDRESS_HEADER=x-forwarded-for.`);
}

if (!mayListen()) {
  fail(
    `HOST is "${hostname}", and this process was not permitted to listen there. Write the address into the start task of ` +
      `deno.json, as --allow-net=${inLink(hostname)}.`,
  );
}
function mayListen(): boolean {
  try {
    return Deno.permissions.querySync({ name: "net", host: `${inLink(hostname)}:${port}` }).state === "granted";
  } catch {
    return fail(`HOST is "${hostname}". Set it to an address of this machine, e.g. HOST=127.0.0.1.`);
  }
}

const engine = makeEngine(questions, readEditions(readTableFiles()), declined);
/** Links lead to where the call came in, and never to where its Host header says: that is the caller's word. */
const reached = (c: { env: unknown }): string => {
  const { localAddress, localPort } = (c.env as HttpBindings).incoming.socket;
  return `http://${inLink((localAddress ?? hostname).replace(/^::ffff:/, ""))}:${localPort ?? port}`;
};
// Counted only where somebody looks: nobody else waits for it at the start.
const [metrics, lines] = [Deno.env.get("METRICS") === "on", Deno.env.get("LOG") === "json"];
const watched = metrics || lines
  ? (await import("./app/watch.ts")).watch(lines ? (line) => console.log(line) : undefined)
  : undefined;
const app = makeApp(engine, {
  guard: perAddress({ most: Number(limit), ...(header && { header }) }),
  origin: origin ?? reached,
  metrics,
  ...(watched && { watch: watched }),
});
// Slow and idle connections are closed. A batch may take its time to be sent; any other body has ten seconds in the app.
const serverOptions = {
  headersTimeout: 5_000,
  requestTimeout: 600_000,
  keepAliveTimeout: 5_000,
  connectionsCheckingInterval: 1_000,
  maxHeaderSize: 16_384,
};
const server = serve({ fetch: app.fetch, port, hostname, serverOptions }, ({ port }) => {
  // Whatever else runs in this process has nobody to call, and nothing more to read but the source of the worker for PDFs,
  // which starts when it is first needed.
  for (const each of [{ name: "net" }, { name: "env" }, { name: "read", path: "tables" }] as const) {
    Deno.permissions.revokeSync(each);
  }
  console.log(`Deadfront is at ${origin ?? `http://${inLink(hostname)}:${port}`}\nThree questions to try:`);
  for (const { examples } of engine.questions.slice(0, 3)) console.log(`  ${examples[0]}`);
}) as Server;
// Both stay well under the 256 descriptors some systems give a process.
const connections = share(server, 64);
server.maxConnections = 128;
server.on(
  "error",
  (error) => fail(`Port ${port} of ${hostname} cannot be listened on (${error.message}). ${FREE_PORT}`),
);
for (const signal of ["SIGTERM", "SIGINT"] as const) {
  Deno.addSignalListener(signal, async () => {
    await connections.end();
    Deno.exit();
  });
}
