/**
 * Which mistakes of programming no test notices: modules of core, rules, questions and reading are changed in one place each,
 * and the tests that use them are run. What was found stands in `mutants/found.log`, so a run that was stopped goes on.
 *
 *     deno task mutants                     # 40 of them, for at most 20 minutes
 *     deno task mutants --n=200 --seed=7    # others, and more
 *     deno task mutants --minutes=60        # begins none after so many minutes
 *     deno task mutants --of=rules/cooking  # modules whose path in src/ begins so
 *     deno task mutants --again             # forget what was found before
 *
 * Fails while a mutant that no test notices is not in `test/survivors.json`, where the judgement stands: why it makes no
 * difference, or what it would take to notice it.
 */
import { readdirSync } from "node:fs";
import { changed, type Mutation, mutationsOf, standingAnywhere } from "./mutations.ts";
import { testsOf } from "./tests-of.ts";

const ROOT = new URL("../../../", import.meta.url);
const SRC = new URL("src/", ROOT);
const SCRATCH = new URL("mutants/", ROOT);
const FOUND = new URL("found.log", SCRATCH);
const FOLDERS = ["core", "rules", "questions", "reading"];
/** Longer than this nobody waits: the mutant found no end, or the machine has other work. It counts for neither. */
const PATIENCE = 600_000;

type Mutant = Mutation & { readonly file: string };
type Found = { file: string; code: string; was: string; is: string; by: string | null };
type Survivor = Pick<Found, "file" | "code" | "was" | "is"> & { because: string };

const options = new Map(Deno.args.map((arg) => {
  const [, name, value = ""] = /^--(n|seed|minutes|of|at-once|again)(?:=(.*))?$/.exec(arg) ?? [];
  if (name === undefined) throw new RangeError(`"${arg}" is no option: see src/tools/mutants/main.ts`);
  return [name, value] as const;
}));
function countOf(name: string, usual: number): number {
  const n = Number(options.get(name) ?? usual);
  if (!Number.isInteger(n) || n < 1) {
    throw new RangeError(`--${name} is a whole number from 1, not "${options.get(name)}"`);
  }
  return n;
}

const sources = new Map<string, string>();
const linesOf = new Map<string, string[]>();
for (const folder of FOLDERS) {
  for (const name of readdirSync(new URL(folder, SRC), { recursive: true, encoding: "utf8" })) {
    if (!/\.tsx?$/.test(name)) continue;
    const text = Deno.readTextFileSync(new URL(`${folder}/${name}`, SRC));
    sources.set(`${folder}/${name}`, text);
    linesOf.set(`${folder}/${name}`, text.split("\n"));
  }
}
const all = [...sources].sort().filter(([file]) => file.startsWith(options.get("of") ?? "")).flatMap(([file, source]) =>
  mutationsOf(source).map((mutation): Mutant => ({ file, ...mutation }))
);

/** Some of them, the same ones for the same seed (xorshift, Marsaglia 2003). */
function sample(n: number, seed: number): Mutant[] {
  let state = (seed * 2654435761) >>> 0 || 1;
  const next = () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>>= 0) / 2 ** 32;
  };
  const left = [...all];
  return Array.from({ length: Math.min(n, left.length) }, () => left.splice(Math.floor(next() * left.length), 1)[0]!);
}

/** What a mutant is known by when the lines around it move. */
const described = ({ file, line, was, is }: Mutant) => ({ file, code: linesOf.get(file)![line - 1]!.trim(), was, is });
const keyOf = ({ file, code, was, is }: Omit<Found, "by">) => JSON.stringify([file, code, was, is]);

Deno.mkdirSync(SCRATCH, { recursive: true });
if (options.has("again")) Deno.writeTextFileSync(FOUND, "");
const known = new Map<string, Found>();
try {
  for (const line of Deno.readTextFileSync(FOUND).split("\n").filter(Boolean)) {
    known.set(keyOf(JSON.parse(line)), JSON.parse(line));
  }
} catch (error) {
  if (!(error instanceof Deno.errors.NotFound)) throw error;
}
const judged: Survivor[] = JSON.parse(Deno.readTextFileSync(new URL("test/survivors.json", ROOT)));
const config = JSON.parse(Deno.readTextFileSync(new URL("deno.json", ROOT)));

/**
 * Runs test files in a process of their own, over other modules where `instead` names them.
 * @returns the test that fails, null where none does, nothing where it took too long
 */
async function failing(tests: readonly string[], instead: Readonly<Record<string, string>>) {
  const imports: Record<string, string> = { ...config.imports, "@std/testing/bdd": "./src/tools/collected.ts" };
  for (const [name, at] of Object.entries(imports)) if (at.startsWith("./")) imports[name] = new URL(at, ROOT).href;
  const map = `data:application/json,${encodeURIComponent(JSON.stringify({ imports: { ...imports, ...instead } }))}`;
  const signal = AbortSignal.timeout(PATIENCE);
  const { success, stdout } = await new Deno.Command("deno", {
    args: [
      ...["run", "--frozen", "--no-check", "--no-prompt", "--allow-read=.", `--import-map=${map}`],
      ...[new URL("./worker.ts", import.meta.url).href, ...tests],
    ],
    cwd: ROOT,
    stderr: "null",
    signal,
  }).output();
  if (signal.aborted) return undefined;
  if (!success) return "the process, which stopped";
  return JSON.parse(new TextDecoder().decode(stdout).trim().split("\n").at(-1)!) as string | null;
}

/** The test that fails over a mutant, as `failing`. @param number its place among those of this run, which names its file */
async function noticed(mutant: Mutant, number: number): Promise<string | null | undefined> {
  const { file } = mutant;
  const module = new URL(file, SRC);
  const copy = new URL(`${number}${file.endsWith("x") ? ".tsx" : ".ts"}`, SCRATCH);
  Deno.writeTextFileSync(copy, standingAnywhere(changed(sources.get(file)!, mutant), module));
  const by = await failing(testsOf(file), { [module.href]: copy.href });
  Deno.removeSync(copy);
  return by;
}

const [n, seed, minutes, atOnce] = [
  countOf("n", 40),
  countOf("seed", 1),
  countOf("minutes", 20),
  countOf("at-once", 1),
];
const chosen = sample(n, seed);
console.log(`${all.length} mutants of ${sources.size} modules; ${chosen.length} of them by seed ${seed}`);
const until = Date.now() + minutes * 60_000;
const queue = chosen.filter((mutant) => !known.has(keyOf(described(mutant)))).map((mutant, i) => ({ mutant, i }));
// A test that fails over the code as it is would notice everything.
const asItIs = await failing([...new Set(queue.flatMap(({ mutant }) => testsOf(mutant.file)))], {});
if (asItIs !== null) throw new Error(`fails over the code as it is: ${asItIs ?? "a test that found no end"}`);
await Promise.all(Array.from({ length: atOnce }, async () => {
  for (let next = queue.shift(); next && Date.now() < until; next = queue.shift()) {
    const { mutant, i } = next;
    const by = await noticed(mutant, i);
    if (by === undefined) {
      console.log(`${mutant.file}:${mutant.line} ${mutant.was} → ${mutant.is}: given up`);
      continue;
    }
    const found: Found = { ...described(mutant), by };
    known.set(keyOf(found), found);
    Deno.writeTextFileSync(FOUND, `${JSON.stringify(found)}\n`, { append: true });
    console.log(`${mutant.file}:${mutant.line} ${found.was} → ${found.is}: ${found.by ?? "NOT NOTICED"}`);
  }
}));

const tried = chosen.flatMap((mutant) => known.get(keyOf(described(mutant))) ?? []);
const survivors = tried.filter(({ by }) => by === null);
const isJudged = (found: Found) => judged.some((each) => keyOf(each) === keyOf(found));
const open = survivors.filter((each) => !isJudged(each));
for (const { file, code, was, is } of open) console.log(`no test notices ${file}: ${is} for ${was} in “${code}”`);
const percent = Math.round(100 * (tried.length - survivors.length) / Math.max(1, tried.length));
console.log(
  `${tried.length} of ${chosen.length} tried, ${tried.length - survivors.length} noticed (${percent} %), ` +
    `${survivors.length - open.length} survivors judged, ${open.length} not`,
);
Deno.exit(open.length > 0 ? 1 : 0);
