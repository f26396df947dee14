/** Which test files can notice a changed cell: those of the tables, and those of the kinds of question that read it. */
import { readdirSync } from "node:fs";
import { basename } from "node:path";
import { pathToFileURL } from "node:url";
import type { Cell } from "./slips.ts";

const ROOT = new URL("../../../", import.meta.url);
const QUESTIONS = new URL("src/questions/", ROOT);
const TESTS = readdirSync(new URL("test/", ROOT)).filter((name) => name.endsWith(".test.ts"));
/** The tests of the tables themselves. */
export const TABLE_TESTS = TESTS.filter((name) => name.startsWith("tables"));
/** Each kind's folder, by its id; kinds stand in groups. */
const FOLDERS = new Map(
  readdirSync(QUESTIONS, { withFileTypes: true, recursive: true })
    .filter((each) => each.isFile() && each.name === "question.ts")
    .map(({ parentPath }) => [basename(parentPath), pathToFileURL(`${parentPath}/`)] as const)
    .filter(([kind]) => TESTS.includes(`${kind}.test.ts`)),
);
const KINDS = [...FOLDERS.keys()];

/** The text of a module and of all that it imports. */
function reading(module: URL, into = new Map<string, string>()): Map<string, string> {
  if (into.has(module.href)) return into;
  const text = Deno.readTextFileSync(module);
  into.set(module.href, text);
  for (const [, path] of text.matchAll(/from "(\.[^"]+\.tsx?)"/g)) reading(new URL(path!, module), into);
  return into;
}

const READ = new Map(KINDS.map((kind) => {
  const modules = reading(new URL("question.ts", FOLDERS.get(kind)!));
  return [kind, {
    own: [...modules].filter(([path]) => path.includes(`/${kind}/`)).map(([, text]) => text).join(),
    all: [...modules.values()].join(),
  }];
}));

/** Names of test files, those likeliest to notice first. A table that no module names is read under a name put together. */
export function testsOf({ file, place }: Pick<Cell, "file" | "place">): string[] {
  const id = file.endsWith("/constants.json") ? place : file.slice(file.indexOf("/") + 1, -".json".length);
  const named = (text: string) => text.includes(`"${id}"`);
  const all = KINDS.filter((kind) => named(READ.get(kind)!.all));
  const own = all.filter((kind) => named(READ.get(kind)!.own));
  const kinds = all.length === 0 ? KINDS : [...own, ...all.filter((kind) => !own.includes(kind))];
  return [...TABLE_TESTS, ...kinds.map((kind) => `${kind}.test.ts`)];
}
