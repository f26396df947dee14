/**
 * Runs tests over changed tables, a line of JSON in and a line out, until it is stopped. The test files are evaluated anew
 * each time, what they import is not: the engine is built over the changed tables by `useTables`.
 */
import { stdin, stdout } from "node:process";
import { createInterface } from "node:readline";
import { readTableFiles } from "../../read-tables.ts";
import { useTables } from "../../../test/support/engine.ts";
import { collected } from "../collected.ts";

/** Which tests to run over which file changed to what. */
export type Job = { file: string; changed: unknown; tests: readonly string[] };
/** The test that noticed, or null. */
export type Report = { by: string | null };

const files = readTableFiles();
/** What noticed last is asked first: the cells of one column mostly fall to one test. */
const noticed: string[] = [];
let round = 0;

async function notices({ file, changed, tests }: Job): Promise<string | null> {
  round++;
  try {
    useTables({ ...files, [file]: changed });
  } catch (error) {
    return `refused at the start: ${(error as Error).message}`;
  }
  for (const path of tests) {
    try {
      await import(new URL(`../../../test/${path}?${round}`, import.meta.url).href);
    } catch (error) {
      collected();
      return `${path} does not load: ${(error as Error).message}`;
    }
    const rank = (name: string) => noticed.indexOf(name) >= 0 ? noticed.indexOf(name) : Infinity;
    const order = collected().sort((a, b) => rank(a.name) - rank(b.name) || 0);
    for (const { name, run } of order) {
      try {
        await run();
      } catch {
        if (noticed.includes(name)) noticed.splice(noticed.indexOf(name), 1);
        noticed.unshift(name);
        return `${path}: ${name}`;
      }
    }
  }
  return null;
}

for await (const line of createInterface({ input: stdin })) {
  const report: Report = { by: await notices(JSON.parse(line)) };
  stdout.write(`${JSON.stringify(report)}\n`);
}
