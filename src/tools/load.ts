/**
 * How many calls a second the service answers, beside an echo that checks the same body with zod and sends as many bytes:
 *
 *     deno task load [seconds]
 *
 * Both run in turn on the same machine under the same callers, 16 connections, each request one that was not sent before.
 * Read the ratios, not the rates.
 */
import { serve } from "@hono/node-server";
import { Hono } from "hono";
import process from "node:process";
import { askBody } from "../app/api.ts";
import { makeApp } from "../app.ts";
import { readEditions } from "../editions/read.ts";
import { makeEngine } from "../engine.ts";
import { questions } from "../questions/all.ts";
import { readTableFiles } from "../read-tables.ts";

const CONNECTIONS = 16;
const DWELLING = questions[0]!;

type Call = { path: string; body: (i: number) => unknown };
/** Houses that differ from call to call, so that nothing can be remembered. */
const CALLS: Record<string, Call> = {
  "an answer by request": {
    path: "/api/answers/dwelling-load",
    body: (i) => ({
      areas: [{ area: { value: 1200 + i % 3000 + i % 97 / 100, unit: "ft2" } }],
      loads: [
        { kind: "range", rating: { value: 8 + i % 9, unit: "kW" } },
        { kind: "dryer", rating: { value: 5, unit: "kW" } },
        { kind: "ev-charger", rating: { value: 16 + i % 33, unit: "A" } },
      ],
    }),
  },
  "the same without steps": {
    path: "/api/answers/dwelling-load?steps=none",
    body: (i) => Object.values(CALLS)[0]!.body(i),
  },
  "an answer by text": {
    path: "/api/ask",
    body: (i) => ({
      question: `${1200 + i % 3000}.${i % 97} sq ft, ${8 + i % 9} kW range, 5 kW dryer, ${
        16 + i % 33
      } A EV charger, what service?`,
    }),
  },
};

function serveOne(what: string): void {
  const app = what === "service" ? makeApp(makeEngine(questions, readEditions(readTableFiles()))) : echo();
  app.get("/used", (c) => c.json({ cpu: process.cpuUsage(), memory: Deno.memoryUsage().rss }));
  serve({ fetch: app.fetch, port: 0, hostname: "127.0.0.1" }, ({ port }) => console.log(port));
}

function echo(): Hono {
  const reply = (bytes: number, request: unknown) => {
    const bare = JSON.stringify({ request, filling: "" });
    return bare.replace('"filling":""', `"filling":"${"x".repeat(Math.max(0, bytes - bare.length))}"`);
  };
  return new Hono()
    .post("/api/ask", async (c) => {
      const body = askBody.parse(await c.req.json());
      return c.body(reply(Number(c.req.header("Bytes")), body), 200, { "Content-Type": "application/json" });
    })
    .post("/api/answers/:kind", async (c) => {
      const body = DWELLING.input.parse(await c.req.json());
      return c.body(reply(Number(c.req.header("Bytes")), body), 200, { "Content-Type": "application/json" });
    });
}

type Server = { at: string; stop: () => Promise<void> };

async function start(what: string): Promise<Server> {
  const child = new Deno.Command(Deno.execPath(), {
    args: ["run", "--no-prompt", "--allow-net=127.0.0.1", "--allow-read=.", import.meta.filename!, "serve", what],
    stdout: "piped",
    stderr: "inherit",
  }).spawn();
  const reader = child.stdout.pipeThrough(new TextDecoderStream()).getReader();
  const { value } = await reader.read();
  const stop = async () => {
    child.kill("SIGTERM");
    await child.status;
    await reader.cancel();
  };
  return { at: `http://127.0.0.1:${value!.trim()}`, stop };
}

type Used = { cpu: { user: number; system: number }; memory: number };
type Result = { rate: number; cpu: number; bytes: number; slowest: number; memory: number };
let sent = 0;

async function load({ at }: Server, { path, body }: Call, seconds: number, bytes: number): Promise<Result> {
  const used = async (): Promise<Used> => await (await fetch(`${at}/used`)).json();
  const waits: number[] = [];
  let received = 0;
  const caller = async (until: number) => {
    while (performance.now() < until) {
      const began = performance.now();
      const reply = await fetch(at + path, {
        method: "POST",
        headers: { "Content-Type": "application/json", Bytes: String(bytes), "Accept-Encoding": "identity" },
        body: JSON.stringify(body(sent++)),
      });
      const { byteLength } = await reply.arrayBuffer();
      received += byteLength;
      if (reply.status !== 200) throw new Error(`${at}${path} answered ${reply.status}`);
      waits.push(performance.now() - began);
    }
  };
  const callers = (until: number) => Promise.all(Array.from({ length: CONNECTIONS }, () => caller(until)));
  await callers(performance.now() + seconds * 250);
  waits.length = received = 0;
  const [before, began] = [await used(), performance.now()];
  await callers(performance.now() + seconds * 1000);
  const [after, took] = [await used(), performance.now() - began];
  const cpu = after.cpu.user + after.cpu.system - before.cpu.user - before.cpu.system;
  waits.sort((a, b) => a - b);
  return {
    rate: waits.length / took * 1000,
    cpu: cpu / 1000 / waits.length,
    bytes: received / waits.length,
    slowest: waits[Math.floor(waits.length * 0.99)]!,
    memory: after.memory / 2 ** 20,
  };
}

if (import.meta.main) {
  const [first = "5", what] = Deno.args;
  if (first === "serve") serveOne(what!);
  else {
    const [service, echoing] = [await start("service"), await start("echo")];
    for (const [name, call] of Object.entries(CALLS)) {
      const ours = await load(service, call, Number(first), 0);
      const theirs = await load(echoing, call, Number(first), Math.round(ours.bytes));
      const row = ({ rate, cpu, bytes, slowest, memory }: Result) =>
        `${rate.toFixed(0).padStart(6)} a second, ${cpu.toFixed(2)} ms CPU each, ${bytes.toFixed(0)} bytes, ` +
        `99 % in ${slowest.toFixed(0)} ms, ${memory.toFixed(0)} MB`;
      console.log(`${name}\n  service ${row(ours)}\n  echo    ${row(theirs)}`);
      console.log(`  ratio ${(ours.rate / theirs.rate).toFixed(2)}, by CPU ${(theirs.cpu / ours.cpu).toFixed(2)}`);
    }
    await Promise.all([service.stop(), echoing.stop()]);
  }
}
