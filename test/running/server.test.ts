/** The service as it is really started: the start task's own command and permissions, real sockets. */
import { createConnection } from "node:net";
import { assert, assertEquals, assertMatch, assertStringIncludes } from "@std/assert";

const root = new URL("../../", import.meta.url);
const { tasks } = JSON.parse(await Deno.readTextFile(new URL("deno.json", root)));
const [, ...args] = (tasks.start.command as string).split(" ");
const line = (chunk: Uint8Array) => new TextDecoder().decode(chunk);

type Running = { port: number; greeting: string; stop: () => Promise<number> };

/** Starts it on a free port. `open` is how many descriptors it may have. */
async function start(open = 256, env: Record<string, string> = {}): Promise<Running> {
  const child = new Deno.Command("sh", {
    args: ["-c", `ulimit -n ${open}; exec "$0" "$@"`, Deno.execPath(), ...args],
    cwd: root,
    env: { PORT: "0", NO_COLOR: "1", ...env },
    stdout: "piped",
    stderr: "inherit",
  }).spawn();
  let greeting = "";
  const reader = child.stdout.getReader();
  while (greeting.split("\n").length < 6) {
    const { value, done } = await reader.read();
    if (done) break;
    greeting += line(value);
  }
  const port = Number(/:(\d+)\n/.exec(greeting)?.[1]);
  const stop = async () => {
    child.kill("SIGTERM");
    const { code } = await child.status;
    await reader.cancel();
    return code;
  };
  return { port, greeting, stop };
}

const connect = (port: number) => Deno.connect({ hostname: "127.0.0.1", port });
const send = (to: Deno.Conn, text: string) => to.write(new TextEncoder().encode(text));

/** Reads until the other side closes; tells what came and how long that took, in ms. */
async function untilClosed(from: Deno.Conn): Promise<{ said: string; after: number }> {
  const began = performance.now();
  let said = "";
  const buffer = new Uint8Array(16_384);
  try {
    for (let n = await from.read(buffer); n !== null; n = await from.read(buffer)) said += line(buffer.subarray(0, n));
  } catch (error) {
    if (!(error instanceof Deno.errors.ConnectionReset)) throw error;
  }
  from.close();
  return { said, after: performance.now() - began };
}

Deno.test("the started server", async (t) => {
  const { port, greeting, stop } = await start();
  const at = `http://127.0.0.1:${port}`;

  await t.step("says where it is and what to try", () => {
    assertMatch(greeting, /^Deadfront is at http:\/\/127\.0\.0\.1:\d+\n/);
    assertEquals(greeting.trimEnd().split("\n").length, 5);
  });

  await t.step("answers the questions it tells one to try", async () => {
    for (const question of greeting.trimEnd().split("\n").slice(2)) {
      const reply = await fetch(`${at}/answer?as=json&q=${encodeURIComponent(question.trim())}`);
      assertEquals((await reply.json()).outcome, "answered", question);
    }
  });

  await t.step(
    "makes PDFs with the permissions it kept, one after the other, and answers others meanwhile",
    async () => {
      const link = `${at}/answer?as=pdf&q=${encodeURIComponent(greeting.trimEnd().split("\n")[2]!.trim())}`;
      const papers = [1, 2, 3].map(() =>
        fetch(link).then(async (reply) => [reply.status, await reply.bytes()] as const)
      );
      assertEquals((await fetch(`${at}/health`)).status, 200);
      const made = await Promise.all(papers);
      for (const [status, bytes] of made) {
        assertEquals(status, 200);
        assertEquals(line(bytes.subarray(0, 5)), "%PDF-");
        assertEquals(bytes, made[0]![1]);
      }
    },
  );

  await t.step("refuses headers beyond the limit", async () => {
    const long = await connect(port);
    await send(long, `GET /health HTTP/1.1\r\nHost: x\r\nX: ${"x".repeat(20_000)}\r\n\r\n`);
    assertStringIncludes((await untilClosed(long)).said, "431");
  });

  await t.step("closes slow and idle connections by itself", async () => {
    const slow = await connect(port);
    await send(slow, "GET /health HTTP/1.1\r\nHost: x\r\n");
    const idle = await connect(port);
    await send(idle, "GET /health HTTP/1.1\r\nHost: x\r\n\r\n");
    const [half, kept] = await Promise.all([untilClosed(slow), untilClosed(idle)]);
    assertStringIncludes(half.said, "408");
    assertStringIncludes(kept.said, '"status":"ok"');
    assert(half.after < 12_000 && kept.after < 12_000, `${half.after} ms, ${kept.after} ms`);
  });

  await t.step("survives more connections than it has descriptors, and answers afterwards", async () => {
    const crowd: Deno.Conn[] = [];
    for (let i = 0; i < 600; i++) {
      const each = await connect(port);
      crowd.push(each);
      await send(each, "GET / HTTP/1.1\r\n").catch(() => {});
    }
    for (const each of crowd) each.close();
    const health = await retry(() => fetch(`${at}/health`, { signal: AbortSignal.timeout(1_000) }));
    assertEquals((await health.json()).status, "ok");
  });

  await t.step("answers another address while one holds all connections it can get", async () => {
    const crowd: Deno.Conn[] = [];
    for (let i = 0; i < 200; i++) {
      const each = await connect(port);
      crowd.push(each);
      await send(each, "GET / HTTP/1.1\r\n").catch(() => {});
    }
    await new Promise((done) => setTimeout(done, 200));
    for (let i = 0; i < 100; i++) {
      const other = await fromAnotherAddress(port, "GET /health HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n");
      assertStringIncludes(other, '"status":"ok"');
    }
    // So does it the same address: what it held idle for longest makes room.
    assertEquals((await fetch(`${at}/health`)).status, 200);
    for (const each of crowd) each.close();
  });

  await t.step("answers many requests in one call, and others between", async () => {
    const dryers = { kind: "dryer-demand", dryers: [{ count: 10, rating: { value: 5.5, unit: "kW" } }] };
    const many = 5_000;
    const batch = fetch(`${at}/api/answers?steps=none`, {
      method: "POST",
      headers: { "Content-Type": "application/x-ndjson" },
      body: `${JSON.stringify(dryers)}\n`.repeat(many),
    }).then((reply) => reply.text());
    assertEquals((await fetch(`${at}/health`)).status, 200);
    const lines = (await batch).trimEnd().split("\n").map((each) => JSON.parse(each));
    assertEquals(lines.length, many);
    assert(lines.every(({ line, outcome }, i) => line === i + 1 && outcome === "answered"));
  });

  await t.step("gives links to where the call came in, whatever its Host header says", async () => {
    const call = await connect(port);
    await send(
      call,
      "GET /answer?q=demand+of+10+dryers+5.5+kW&as=text HTTP/1.1\r\nHost: foreign.example\r\n" +
        "Connection: close\r\n\r\n",
    );
    const { said } = await untilClosed(call);
    assertStringIncludes(said, `http://127.0.0.1:${port}/answer?q=`);
    assert(!said.includes("foreign.example"));
  });

  await t.step("stops when asked", async () => {
    assertEquals(await stop(), 0);
    assertEquals(await fetch(`${at}/health`).then(() => "answered", () => "closed"), "closed");
  });
});

Deno.test("a stop under load cuts off no request that was sent", async () => {
  const { port, stop } = await start();
  const request = "GET /health HTTP/1.1\r\nHost: x\r\n\r\n";
  let answers = 0;
  const client = async (): Promise<string> => {
    const call = await connect(port);
    const buffer = new Uint8Array(16_384);
    try {
      while (true) {
        await send(call, request);
        let said = "";
        while (!said.includes('"status":"ok"')) {
          const read = await call.read(buffer);
          if (read === null) return "cut off";
          said += line(buffer.subarray(0, read));
        }
        answers++;
        if (/^connection: close/im.test(said)) return "told that it was the last";
      }
    } catch (error) {
      return (error as Error).name;
    } finally {
      call.close();
    }
  };
  const clients = Array.from({ length: 16 }, client);
  while (answers < 500) await new Promise((done) => setTimeout(done, 5));
  assertEquals(await stop(), 0);
  assertEquals(new Set(await Promise.all(clients)), new Set(["told that it was the last"]));
});

Deno.test("links follow ORIGIN", async () => {
  const { port, greeting, stop } = await start(256, { ORIGIN: "https://sizing.example/" });
  assertStringIncludes(greeting, "Deadfront is at https://sizing.example\n", "the port is told by ORIGIN alone");
  assertEquals(port, NaN);
  await stop();
});

Deno.test("an address it may not listen on, or that is none, is told with what to change", async () => {
  for (
    const [HOST, says] of [["192.0.2.1", "--allow-net=192.0.2.1"], ["::1", "--allow-net=[::1]"], [
      "no address",
      "HOST=127.0.0.1",
    ]]
  ) {
    const env = { PORT: "0", HOST: HOST! };
    const { code, stderr } = await new Deno.Command(Deno.execPath(), { args, cwd: root, env }).output();
    assertEquals(code, 1);
    assertStringIncludes(line(stderr), `HOST is "${HOST}"`);
    assertStringIncludes(line(stderr), says!);
  }
});

Deno.test("a port it cannot have is told before it ends", async () => {
  const taken = Deno.listen({ hostname: "127.0.0.1", port: 0 });
  const ports = [["eighty", 'PORT is "eighty"'], ["70000", 'PORT is "70000"'], [
    String((taken.addr as Deno.NetAddr).port),
    "cannot be listened on",
  ]] as const;
  for (const [PORT, says] of ports) {
    const { code, stderr } = await new Deno.Command(Deno.execPath(), { args, cwd: root, env: { PORT } }).output();
    assertEquals(code, 1);
    assertStringIncludes(line(stderr), says);
    assertStringIncludes(line(stderr), "Set PORT to a free port");
  }
  taken.close();
});

/** Sends from 127.0.0.2, another address of the same machine, and reads to the end. */
function fromAnotherAddress(port: number, text: string): Promise<string> {
  return new Promise((done, failed) => {
    let said = "";
    const socket = createConnection({ port, host: "127.0.0.1", localAddress: "127.0.0.2" }, () => socket.write(text));
    socket.setEncoding("utf8").on("data", (part) => said += part).on("end", () => done(said)).on("error", failed);
  });
}

/** Connections in closing may still count for a moment. */
async function retry<T>(attempt: () => Promise<T>): Promise<T> {
  for (let left = 20; left > 1; left--) {
    try {
      return await attempt();
    } catch {
      await new Promise((done) => setTimeout(done, 250));
    }
  }
  return attempt();
}
