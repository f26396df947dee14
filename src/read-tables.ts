/** Reads the folder `tables/` from disk: for the server, the tools and the tests. The engine itself opens no file. */
import type { TableFiles } from "./core/edition.ts";

/** The project's own tables. */
export const TABLES = new URL("../tables/", import.meta.url);

/**
 * Every JSON file of a tables folder, parsed, by its path in the folder: `sources.json`, `2023/edition.json`.
 * @param folder a path, or a `file:` URL
 * @throws SyntaxError naming the file that is not JSON; what `Deno.readTextFileSync` throws for one that cannot be read
 */
export function readTableFiles(folder: URL | string = TABLES): TableFiles {
  const at = (path: string): URL | string =>
    typeof folder === "string" ? `${folder}/${path}` : new URL(path, `${folder.href.replace(/\/+$/, "")}/`);
  const files: Record<string, unknown> = {};
  const read = (path: string) => {
    const text = Deno.readTextFileSync(at(path));
    try {
      files[path] = JSON.parse(text);
    } catch (error) {
      throw new SyntaxError(`tables/${path} is not JSON: ${(error as Error).message}`);
    }
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
