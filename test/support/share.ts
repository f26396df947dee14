/**
 * Some of the engine's test files together. Each file by itself would load and warm up the engine again, which takes longer than
 * most of them; a few shares at a time keep all cores busy. A new file falls into one of the shares by itself.
 */
const FOLDER = new URL("../", import.meta.url);
const SHARES = 4;
/** Files that take longest, which are dealt out first. */
const LONG = [
  "reading",
  "any-text",
  "paraphrase",
  "metamorphic",
  "engine",
  "every-kind",
  "motor-circuit",
  "app",
  "one-rule",
];

function filesIn(folder: string): string[] {
  return [...Deno.readDirSync(new URL(folder, FOLDER))].map(({ name }) => name)
    .filter((name) => name.endsWith(".test.ts")).map((name) => `${folder}${name}`).sort();
}

/** Registers the tests of a share. @param number from 1 */
export async function share(number: number): Promise<void> {
  const all = [...filesIn("./"), ...filesIn("./reading/")];
  const long = LONG.map((name) => `./${name}.test.ts`);
  const dealt = [...long, ...all.filter((file) => !long.includes(file))];
  for (const file of dealt.filter((_, i) => i % SHARES === number - 1)) await import(new URL(file, FOLDER).href);
}
