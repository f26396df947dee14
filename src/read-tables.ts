/** Reads the folder `tables/` from disk: for the server, the tools and the tests. The engine itself opens no file. */
import type { TableFiles } from "./editions/read.ts";

/** The project's own tables. */
const TABLES = new URL("../tables/", import.meta.url);

/**
 * Every JSON file of a tables folder by its path in the folder: `sources.json`, `2023/edition.json`. All are read now, so
 * that they belong together; each is parsed when it is first looked at, because most questions look at few.
 * @param folder a path, or a `file:` URL
 * @throws what `Deno.readTextFileSync` throws for a file that cannot be read; when looked at, SyntaxError naming the file
 * that is not JSON
 */
export function readTableFiles(folder: URL | string = TABLES): TableFiles {
  const at = (path: string): URL | string =>
    typeof folder === "string" ? `${folder}/${path}` : new URL(path, `${folder.href.replace(/\/+$/, "")}/`);
  const files: Record<string, unknown> = {};
  const read = (path: string) => {
    const text = Deno.readTextFileSync(at(path));
    const parse = () => {
      try {
        return JSON.parse(text);
      } catch (error) {
        throw new SyntaxError(`tables/${path} is not JSON: ${(error as Error).message}`);
      }
    };
    // The parsed value takes the place of the text, which then goes.
    const get = () => {
      const value = parse();
      Object.defineProperty(files, path, { value, enumerable: true });
      return value;
    };
    Object.defineProperty(files, path, { get, enumerable: true, configurable: true });
  };
  const names = (path: string) => [...Deno.readDirSync(at(path))].sort((a, b) => a.name < b.name ? -1 : 1);
  for (const entry of names("")) {
    if (entry.isFile && entry.name.endsWith(".json")) read(entry.name);
    if (!entry.isDirectory) continue;
    for (const inner of names(entry.name)) {
      if (inner.isFile && inner.name.endsWith(".json")) read(`${entry.name}/${inner.name}`);
    }
  }
  return files;
}
