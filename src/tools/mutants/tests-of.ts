/** Which test files can notice a changed module, those likeliest to notice first. */
import { readdirSync } from "node:fs";
import { basename } from "node:path";
import { pathToFileURL } from "node:url";

const ROOT = new URL("../../../", import.meta.url);
const SRC = new URL("src/", ROOT);
const namesIn = (folder: string): string[] =>
  readdirSync(new URL(folder, ROOT)).filter((name) => name.endsWith(".test.ts"));
const TESTS: ReadonlySet<string> = new Set(namesIn("test/"));

/** Each kind of question with all modules that its four files import, by their path in `src/`. */
const MODULES: ReadonlyMap<string, ReadonlySet<string>> = new Map(
  readdirSync(new URL("questions/", SRC), { withFileTypes: true, recursive: true })
    .filter((each) => each.isFile() && each.name === "takes.ts")
    .map(({ parentPath }) => {
      const modules = new Set<string>();
      for (const file of ["question.ts", "takes.ts", "write.ts"]) {
        follow(new URL(file, pathToFileURL(`${parentPath}/`)), modules);
      }
      return [basename(parentPath), modules];
    }),
);
function follow(module: URL, into: Set<string>): void {
  const path = module.pathname.slice(SRC.pathname.length);
  if (into.has(path)) return;
  into.add(path);
  for (
    const [, other] of Deno.readTextFileSync(module).matchAll(/^(?:import|export) (?!type )[^;]*?from "(\.[^"]+)"/gm)
  ) {
    follow(new URL(other!, module), into);
  }
}

/** What holds over all kinds, cheap ones first. */
const OVER_KINDS = ["examples", "one-rule", "every-kind", "any-request", "round-trip", "metamorphic"];
const OVER_TEXTS = ["mending", "reading", "paraphrase", "conversation"];
/** The service whole, which few mutants come as far as. */
const OVER_CALLS = ["engine", "replay", "render", "pasted", "any-text"];
const OF_FOLDER: Readonly<Record<string, readonly string[]>> = {
  core: ["quantity", "formula", "worksheet", "engine", "replay"],
  reading: ["reading/numbers", "reading/pieces", "reading/lexicon", "reading/facts", "reading/account", "mending"],
};

/** @param path of the module in `src/`; @returns names of files in `test/` */
export function testsOf(path: string): string[] {
  const kinds = [...MODULES].filter(([, modules]) => modules.has(path)).map(([kind]) => kind);
  const own = kinds.filter((kind) => path.includes(`/${kind}/`));
  const folder = path.split("/")[0]!;
  // The reader knows no kind: each kind's phrasings may tell.
  const of = folder === "reading" ? [...MODULES.keys()] : [...own, ...kinds.filter((kind) => !own.includes(kind))];
  const over = folder === "reading" ? [...OVER_TEXTS, ...OVER_KINDS] : [...OVER_KINDS, ...OVER_TEXTS];
  const names = [...(OF_FOLDER[folder] ?? []), ...of, ...over, ...OVER_CALLS].map((name) => `${name}.test.ts`);
  return [...new Set(names)].filter((name) => name.includes("/") || TESTS.has(name));
}
