/**
 * Two copies behind the proxy of `hosting/`, one killed under load. Needs nginx, and is skipped where there is none.
 */
import { assert, assertEquals } from "@std/assert";

const root = new URL("../../", import.meta.url);
const { tasks } = JSON.parse(await Deno.readTextFile(new URL("deno.json", root)));
const [, ...args] = (tasks.start.command as string).split(" ");
const has = async (program: string): Promise<boolean> =>
  (await new Deno.Command("sh", { args: ["-c", `command -v ${program}`], stdout: "null" }).output()).success;

const freePort = (): number => {
  const listener = Deno.listen({ hostname: "127.0.0.1", port: 0 });
  const { port } = listener.addr as Deno.NetAddr;
  listener.close();
  return port;
};
const copy = (port: number): Deno.ChildProcess =>
  new Deno.Command(Deno.execPath(), {
    args,
    cwd: root,
    env: { PORT: `${port}`, LIMIT: "1000000", ADDRESS_HEADER: "x-forwarded-for", METRICS: "on", LOG: "json" },
    stdout: "null",
    stderr: "inherit",
  }).spawn();

async function answers(at: string): Promise<void> {
  for (let left = 100; left > 0; left--) {
    const isUp = await fetch(`${at}/health`).then((reply) => reply.body?.cancel().then(() => reply.ok), () => false);
    if (isUp) return;
    await new Promise((done) => setTimeout(done, 100));
  }
  throw new Error(`nothing answers at ${at}`);
}

Deno.test({
  name: "two copies behind a proxy: one is killed under load, and no call fails",
  ignore: !(await has("nginx")),
  async fn() {
    const [front, ...ports] = [freePort(), freePort(), freePort()] as const;
    const folder = await Deno.makeTempDir();
    const conf = (await Deno.readTextFile(new URL("hosting/nginx.conf", root)))
      .replace(":8000", `:${front}`).replace(":8001", `:${ports[0]}`).replace(":8002", `:${ports[1]}`);
    await Deno.writeTextFile(
      `${folder}/nginx.conf`,
      `daemon off;\npid ${folder}/pid;\nerror_log ${folder}/error.log;\n${conf}`
        .replace(
          "http {",
          `http {\n  access_log off;\n  client_body_temp_path ${folder}/body;\n  proxy_temp_path ${folder}/proxy;`,
        ),
    );
    const copies = ports.map(copy);
    const proxy = new Deno.Command("nginx", { args: ["-p", folder, "-c", `${folder}/nginx.conf`], stderr: "null" })
      .spawn();
    const at = `http://127.0.0.1:${front}`;
    try {
      await Promise.all([...ports.map((port) => answers(`http://127.0.0.1:${port}`)), answers(at)]);
      const statuses = new Map<number, number>();
      let running = true;
      const client = async (k: number) => {
        for (let i = 0; running; i++) {
          const reply = await fetch(`${at}/api/ask?steps=none`, {
            method: "POST",
            headers: { "Content-Type": "application/json" },
            body: JSON.stringify({ question: `demand of ${2 + (k * 100 + i) % 30} dryers 5.5 kW each` }),
          });
          const { outcome } = await reply.json();
          const status = outcome === "answered" ? reply.status : 0;
          statuses.set(status, (statuses.get(status) ?? 0) + 1);
        }
      };
      const clients = Array.from({ length: 8 }, (_, k) => client(k));
      const until = async (calls: number) => {
        while ([...statuses.values()].reduce((sum, n) => sum + n, 0) < calls) {
          await new Promise((done) => setTimeout(done, 20));
        }
      };
      await until(200);
      copies[0]!.kill("SIGKILL");
      await until(600);
      running = false;
      await Promise.all(clients);
      assertEquals([...statuses.keys()], [200]);
      // What is counted is for whoever runs it, and not for the street.
      const counted = await (await fetch(`http://127.0.0.1:${ports[1]}/metrics`)).text();
      assert(/deadfront_outcomes_total\{kind="dryer-demand",outcome="answered"\} \d+/.test(counted), counted);
      assertEquals(await fetch(`${at}/metrics`).then(async (reply) => (await reply.text(), reply.status)), 404);
    } finally {
      proxy.kill("SIGTERM");
      for (const each of copies) {
        try {
          each.kill("SIGKILL");
        } catch { /* it was killed before */ }
      }
      await Promise.all([proxy.status, ...copies.map(({ status }) => status)]);
      await Deno.remove(folder, { recursive: true });
    }
  },
});
