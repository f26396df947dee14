/** The house keeps its order: imports, of types too, go one way; nothing below main touches Deno; every question has its line. */
import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { HEADS } from "../src/reading/families.ts";
import { SORTS } from "../src/reading/lexicon/lexicon.ts";

const root = new URL("../src/", import.meta.url);

function* sources(folder: URL): Generator<string> {
  for (const entry of Deno.readDirSync(folder)) {
    const url = new URL(entry.name + (entry.isDirectory ? "/" : ""), folder);
    if (entry.isDirectory) yield* sources(url);
    else if (/\.tsx?$/.test(entry.name)) yield url.pathname.slice(root.pathname.length);
  }
}
const files = [...sources(root)].sort();
const text = (file: string) => Deno.readTextFileSync(new URL(file, root));
const imports = (file: string): { path: string; typeOnly: boolean }[] =>
  [...text(file).matchAll(/^(?:import|export)\s+(type\s)?[^;]*?from\s+"(\.[^"]+)"/gms)].map((m) => ({
    path: new URL(m[2]!, new URL(file, root)).pathname.slice(root.pathname.length),
    typeOnly: m[1] !== undefined,
  }));

/** Each layer and those it may import from, besides itself. */
const MAY_IMPORT: Record<string, string[]> = {
  core: [],
  outcomes: ["core"],
  editions: ["core"],
  loads: ["core"],
  rules: ["core", "loads"],
  // It knows facts, and no question.
  reading: ["core", "loads"],
  conversation: ["core", "outcomes", "loads", "reading"],
  // What kinds share: rules, data and words; no kind, and not what a kind is.
  parts: ["core", "loads", "rules", "reading"],
  questions: ["core", "loads", "rules", "reading", "parts"],
  request: ["reading"],
  asking: ["core", "outcomes", "editions", "questions", "reading", "conversation", "request"],
  checks: ["core", "editions"],
  engine: ["core", "outcomes", "editions", "questions", "reading", "asking", "request", "checks"],
  render: ["core", "outcomes"],
  // It makes sheets of what it is handed, and may be read alone: the worker's process reads no other folder.
  paper: ["render"],
  page: ["core"],
  app: ["core", "outcomes", "editions", "engine", "render", "paper", "questions", "page", "conversation", "request"],
  main: ["editions", "app", "engine", "questions", "read-tables"],
  "read-tables": ["editions"],
  tools: ["core", "editions", "app", "engine", "questions", "read-tables", "render", "reading"],
};
/** Of the reading a question knows the types of facts, and how a figure stands in a request. */
const ONLY_TYPES: [from: string, to: string, but: string][] = [
  ["questions", "reading", "reading/take.ts"],
  ["parts", "reading", "reading/take.ts"],
];
/** Lines of code, without blanks and comments, that a folder may have. */
const BUDGETS: Record<string, number> = { core: 900 };
/** `circuit/feeder` and so on: a kind's folder in its group's. */
const kinds = [
  ...new Set(files.map((file) => /^questions\/([^/]+\/[^/]+)\//.exec(file)?.[1]).filter(Boolean)),
] as string[];
const layerOf = (file: string) =>
  file.startsWith("questions/parts/") ? "parts" : file.split("/")[0]!.replace(/\.tsx?$/, "");

describe("the house", () => {
  it("imports one way only", () => {
    const wrong = files.flatMap((file) =>
      imports(file).filter(({ path }) => {
        const [from, to] = [layerOf(file), layerOf(path)];
        return files.includes(path) && from !== to && !MAY_IMPORT[from]?.includes(to);
      }).map(({ path }) => `${file} → ${path}`)
    );
    assertEquals(wrong, []);
  });

  it("lets no question look into the reader", () => {
    const wrong = ONLY_TYPES.flatMap(([from, to, but]) =>
      files.filter((file) => layerOf(file) === from).flatMap((file) =>
        imports(file).filter(({ path, typeOnly }) => layerOf(path) === to && !typeOnly && path !== but)
          .map(({ path }) => `${file} → ${path}`)
      )
    );
    assertEquals(wrong, []);
  });

  it("lets no question hold a pattern over an asked text", () => {
    const takes = files.filter((file) => /^questions\/.*takes/.test(file));
    assertEquals(takes.filter((file) => /RegExp|\.match\(|\.test\(|\/[a-z]*\.exec/.test(text(file))), []);
  });

  it("lets no question ask for a term that the lexicon lacks", () => {
    // A head is named by its family as well: `load:range`.
    const sortsOf = (word: string) =>
      (Object.keys(SORTS) as (keyof typeof SORTS)[]).filter((sort) => sort === word || HEADS[sort] === word);
    const lacks = (word: string, id: string) =>
      sortsOf(word).length > 0 && !sortsOf(word).some((sort) => id in SORTS[sort]);
    const asked = files.filter((file) => file.startsWith("questions/")).flatMap((file) =>
      [...text(file).matchAll(/"([a-zA-Z]+):([^"]+)"/g)].filter(([, sort, id]) => lacks(sort!, id!))
        .map(([key]) => `${file}: ${key}`)
    );
    assertEquals(asked, []);
  });

  it("has no import cycle", () => {
    const cycles: string[] = [];
    const done = new Set<string>();
    const walk = (file: string, chain: string[]) => {
      const seen = chain.indexOf(file);
      if (seen >= 0) return void cycles.push([...chain.slice(seen), file].join(" → "));
      if (done.has(file)) return;
      for (const { path } of imports(file)) {
        if (files.includes(path)) walk(path, [...chain, file]);
      }
      done.add(file);
    };
    for (const file of files) walk(file, []);
    assertEquals(cycles, []);
  });

  it("touches Deno in main, read-tables and tools only, so that the engine runs in a browser", () => {
    const touching = files.filter((file) =>
      /\bDeno\./.test(text(file)) && !["main", "read-tables", "tools"].includes(layerOf(file))
    );
    assertEquals(touching, []);
  });

  it("keeps clock and chance out of the engine", () => {
    const layers = [
      "core",
      "editions",
      "loads",
      "rules",
      "reading",
      "conversation",
      "parts",
      "questions",
      "asking",
      "engine",
      "render",
    ];
    assertEquals(
      files.filter((file) =>
        layers.includes(layerOf(file)) && /\bDate\.|new Date|Math\.random|performance\./.test(text(file))
      ),
      [],
    );
  });

  it("lists every question folder in all.ts", () => {
    const listed = text("questions/all.ts");
    assertEquals(kinds.filter((kind) => !listed.includes(`"./${kind}/question.ts"`)), []);
  });

  it("lets no kind of question import another: what they share is in parts", () => {
    const kindOf = (file: string) => kinds.find((kind) => file.startsWith(`questions/${kind}/`));
    const wrong = files.filter(kindOf).flatMap((file) =>
      imports(file).filter(({ path }) => kindOf(path) && kindOf(path) !== kindOf(file))
        .map(({ path }) => `${file} → ${path}`)
    );
    assertEquals(wrong, []);
  });

  it("keeps no list of kinds outside their folders: what several have in common is a trait of each", () => {
    const kinds = files.flatMap((file) => /^questions\/\w+\/([\w-]+)\/question\.ts$/.exec(file)?.[1] ?? []);
    assertEquals(kinds.length > 20, true);
    const lists = files.filter((file) => ["conversation", "asking"].includes(layerOf(file))).flatMap((
      file,
    ) =>
      [...text(file).matchAll(/\[[^[\]]*\]/g)].map(([list]) => ({
        file,
        named: kinds.filter((kind) => list.includes(`"${kind}"`)),
      }))
    );
    assertEquals(lists.filter(({ named }) => named.length > 1), []);
  });
  it("keeps within its budgets", () => {
    const over = Object.entries(BUDGETS).flatMap(([layer, most]) => {
      const lines = files.filter((file) => layerOf(file) === layer).flatMap((file) => text(file).split("\n"))
        .filter((line) => !/^\s*(\/\/|\/?\*|$)/.test(line)).length;
      return lines > most ? [`${layer} has ${lines} lines of code, and may have ${most}`] : [];
    });
    assertEquals(over, []);
  });

  it("writes no number of the book into a formula", () => {
    const bad = files.flatMap((file) =>
      [...text(file).matchAll(/calc`([^`]*)`/g)].filter(([, formula]) =>
        [...formula!.replace(/\$\{[^}]*\}/g, "").matchAll(/\d+(\.\d+)?/g)].some(([n]) =>
          !["0", "1", "2", "100"].includes(n)
        )
      ).map(([formula]) => `${file}: ${formula}`)
    );
    assertEquals(bad, []);
  });
});
