/**
 * Which numeric cells of `tables/` no test guards: each is changed by the slips a hand makes, and the tests that use it are
 * run over it. What was found stands in `nudge.log`, so a run that was stopped goes on; what no test noticed is tried again.
 *
 *     deno task nudge                               # all of tables/
 *     deno task nudge 2017/conductor-ampacity.json  # some files
 *     deno task nudge --again                       # forget what was found before
 *     deno task nudge --tables                      # ask the tests of the tables only: quick, while writing them
 *
 * Fails while a cell that no test notices is not in `test/unguarded.json`, where the reason stands.
 */
import { createInterface } from "node:readline";
import { Readable } from "node:stream";
import { readTableFiles } from "../../read-tables.ts";
import { type Cell, cellsOf } from "./slips.ts";
import { TABLE_TESTS, testsOf } from "./tests-of.ts";
import type { Job, Report } from "./worker.ts";

const ROOT = new URL("../../../", import.meta.url);
const FOUND = new URL("nudge.log", ROOT);
/** A test that runs longer over a changed table has noticed it: it found no end. */
const PATIENCE = 120_000;
/** Test files evaluated anew stay in memory, so a process is let go after so many. */
const ROUNDS = 300;

type Finding = { file: string; place: string; slip: string; was: Cell["was"]; value: Cell["was"]; by: string | null };
type Unguarded = { file: string; place: string; reason: string };
const nameOf = ({ file, place, slip, was, value }: Omit<Finding, "by">) =>
  `${file}, ${place}: ${value} for ${was} (${slip})`;

/** One process that runs tests, started anew when it is used up. */
class Runner {
  #child?: Deno.ChildProcess;
  #lines?: AsyncIterator<string>;
  #input?: WritableStreamDefaultWriter<Uint8Array>;
  #rounds = 0;

  async run(job: Job): Promise<Report> {
    if (this.#rounds++ % ROUNDS === 0) await this.#start();
    await this.#input!.write(new TextEncoder().encode(`${JSON.stringify(job)}\n`));
    let timer: ReturnType<typeof setTimeout> | undefined;
    const late = new Promise<"late">((resolve) => timer = setTimeout(() => resolve("late"), PATIENCE));
    const line = await Promise.race([this.#lines!.next(), late]);
    clearTimeout(timer);
    if (line === "late") {
      this.#rounds = 0;
      return { by: "a test that found no end" };
    }
    if (line.done) throw new Error(`the tests of ${job.file} stopped the process that ran them`);
    return JSON.parse(line.value);
  }

  async #start() {
    await this.stop();
    const config = JSON.parse(await Deno.readTextFile(new URL("deno.json", ROOT)));
    const imports = Object.entries<string>({ ...config.imports, "@std/testing/bdd": "./src/tools/collected.ts" })
      .map(([name, at]) => [name, at.startsWith("./") ? new URL(at, ROOT).href : at]);
    const map = `data:application/json,${encodeURIComponent(JSON.stringify({ imports: Object.fromEntries(imports) }))}`;
    const worker = new URL("./worker.ts", import.meta.url).href;
    this.#child = new Deno.Command("deno", {
      args: ["run", "--frozen", "--no-check", "--no-prompt", "--allow-read=.", `--import-map=${map}`, worker],
      cwd: ROOT,
      stdin: "piped",
      stdout: "piped",
      stderr: "inherit",
    }).spawn();
    this.#input = this.#child.stdin.getWriter();
    // deno-lint-ignore no-explicit-any -- Node's and the web's streams are the same thing under two types
    const input = Readable.fromWeb(this.#child.stdout as any);
    this.#lines = createInterface({ input })[Symbol.asyncIterator]();
  }

  async stop() {
    const child = this.#child;
    this.#child = undefined;
    if (!child) return;
    child.kill();
    await child.status;
  }
}

function findings(): Map<string, Finding> {
  let text = "";
  try {
    text = Deno.readTextFileSync(FOUND);
  } catch (error) {
    if (!(error instanceof Deno.errors.NotFound)) throw error;
  }
  const lines: Finding[] = text.split("\n").filter(Boolean).map((line) => JSON.parse(line));
  return new Map(lines.map((each) => [nameOf(each), each]));
}

const wanted = Deno.args.filter((each) => !each.startsWith("--"));
if (Deno.args.includes("--again")) Deno.writeTextFileSync(FOUND, "");
const quick = Deno.args.includes("--tables");
const known = findings();
const cells = cellsOf(readTableFiles()).filter(({ file }) => wanted.length === 0 || wanted.includes(file));
const slips = cells.flatMap((cell) =>
  cell.slips.map(({ slip, value }) => ({ cell, file: cell.file, place: cell.place, was: cell.was, slip, value }))
);
const open = slips.filter((each) => (known.get(nameOf(each))?.by ?? null) === null);
console.log(`${cells.length} numeric cells, ${slips.length} slips, ${open.length} to try`);

/** Test files that pass over the tables as they are: one that does not would notice everything. */
const passed = new Set<string>();
async function mustPass(runner: Runner, cell: Cell, tests: readonly string[]) {
  const untried = tests.filter((each) => !passed.has(each));
  if (untried.length === 0) return;
  const { by } = await runner.run({ file: cell.file, changed: cell.changed(cell.was), tests: untried });
  if (by !== null) throw new Error(`fails over the tables as they are: ${by}`);
  for (const each of untried) passed.add(each);
}

const excused: Unguarded[] = JSON.parse(Deno.readTextFileSync(new URL("test/unguarded.json", ROOT)));
const reasonOf = ({ file, place }: { file: string; place: string }) =>
  excused.find((each) =>
    each.file === file && (each.place === "*" || place === each.place || place.endsWith(`, ${each.place}`))
  );

const runners = Array.from({ length: navigator.hardwareConcurrency }, () => new Runner());
// A file stays with one runner: what noticed its last cell is asked first.
const queue = [...Map.groupBy(open, ({ file }) => file).values()];
let done = 0;
await Promise.all(runners.map(async (runner) => {
  for (let batch = queue.shift(); batch; batch = queue.shift()) {
    if (batch.length > 20) queue.unshift(batch.splice(20));
    const given = new Set<Cell>();
    for (const { cell, ...slip } of batch) {
      if (++done % 200 === 0) console.log(`${done} of ${open.length}`);
      // One slip that nobody notices is enough to list the cell.
      if (given.has(cell)) continue;
      // A cell that is listed with a reason is asked about briefly, so that one that has become guarded is seen.
      const tests = quick || reasonOf(slip) ? TABLE_TESTS : testsOf(cell);
      await mustPass(runner, cell, tests);
      const { by } = await runner.run({ file: cell.file, changed: cell.changed(slip.value), tests });
      if (by === null) given.add(cell);
      known.set(nameOf(slip), { ...slip, by });
      Deno.writeTextFileSync(FOUND, `${JSON.stringify({ ...slip, by })}\n`, { append: true });
    }
  }
  await runner.stop();
}));

const unnoticed = slips.filter((each) => known.get(nameOf(each))?.by === null);
const unlisted = unnoticed.filter((each) => !reasonOf(each));
for (const each of unlisted) console.log(`no test notices ${nameOf(each)}`);
const needless = excused.filter((entry) =>
  (wanted.length === 0 || wanted.includes(entry.file)) && !unnoticed.some((each) => reasonOf(each) === entry)
);
for (const { file, place } of needless) console.log(`test/unguarded.json lists ${file}, ${place}, which is guarded`);
const cellsOfThem = (of: typeof slips) => new Set(of.map(({ file, place }) => `${file} ${place}`)).size;
console.log(
  `${cells.length - cellsOfThem(unnoticed)} of ${cells.length} cells guarded against every slip, ` +
    `${cellsOfThem(unnoticed) - cellsOfThem(unlisted)} listed with a reason, ${cellsOfThem(unlisted)} unlisted`,
);
Deno.exit(unlisted.length + needless.length > 0 ? 1 : 0);
