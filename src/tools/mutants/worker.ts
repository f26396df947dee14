/** Runs test files one after the other in this process until one test fails, and says which: the name, or `null`. */
import { collected } from "../collected.ts";

async function failing(): Promise<string | null> {
  for (const path of Deno.args) {
    try {
      await import(new URL(`../../../test/${path}`, import.meta.url).href);
    } catch (error) {
      return `${path} does not load: ${(error as Error).message}`;
    }
    for (const { name, run } of collected()) {
      try {
        await run();
      } catch {
        return `${path}: ${name}`;
      }
    }
  }
  return null;
}

console.log(JSON.stringify(await failing()));
