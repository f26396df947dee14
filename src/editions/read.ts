/** Reads `tables/` into editions, each file when it is first asked for. */
import * as z from "zod";
import { exact } from "../core/quantity.ts";
import { type Common, type Contents, Edition } from "./edition.ts";
import {
  assumption,
  type Constant,
  constant,
  editionFile,
  sameConstant,
  sameTable,
  source,
  tableFile,
} from "./files.ts";
import { Table } from "./table.ts";

/** The files of `tables/` by path (`2023/edition.json`), parsed; a file may be parsed when it is first looked at. */
export type TableFiles = Readonly<Record<string, unknown>>;

/** @param where the file, and the entry in it where only that is read */
function parse<T extends z.ZodType>(schema: T, value: unknown, where: string): z.output<T> {
  const read = schema.safeParse(value);
  if (!read.success) throw new TypeError(`tables/${where}: ${z.prettifyError(read.error)}`);
  return read.data;
}
const isSame = (value: unknown): boolean => typeof value === "object" && value !== null && "same as" in value;

/** Calls `make` once for each key. What it throws is not kept: asked again, it is tried again. */
function once<T>(make: (key: string) => T): (key: string) => T {
  const made = new Map<string, T>();
  return (key) => {
    const known = made.get(key);
    if (known !== undefined) return known;
    const value = make(key);
    made.set(key, value);
    return value;
  };
}

/**
 * Every edition found among the files. An edition is read when it is first used, and a table when it is first looked up:
 * what does not fit then throws, and nothing of it is answered. `checkEditions` reads all of it at once.
 */
export function readEditions(files: TableFiles): ReadonlyMap<string, Edition> {
  const tablesOf = new Map<string, string[]>();
  for (const path of Object.keys(files)) {
    const [folder, name] = path.split("/");
    if (name === undefined) continue;
    const ids = tablesOf.get(folder!) ?? [];
    tablesOf.set(folder!, ids);
    const id = name.slice(0, -".json".length);
    if (id !== "edition" && id !== "constants") ids.push(id);
  }
  const common = once((): Common => ({
    assumptions: parse(z.record(z.string(), assumption), files["assumptions.json"], "assumptions.json"),
    sources: parse(z.record(z.string(), source), files["sources.json"], "sources.json"),
  }));
  const mustBeListed = (folder: string, cited: readonly string[]) => {
    const missing = cited.find((id) => !Object.hasOwn(common("").sources, id));
    if (missing !== undefined) {
      throw new TypeError(`tables/${folder}: source "${missing}" is not in tables/sources.json`);
    }
  };

  const table: (path: string) => Table = once((path) => {
    if (!Object.hasOwn(files, path)) {
      throw new TypeError(`tables/${path} is named by another edition and does not exist`);
    }
    const [folder, name] = path.split("/") as [string, string];
    const id = name.slice(0, -".json".length);
    if (isSame(files[path])) {
      const { "same as": other, ...own } = parse(sameTable, files[path], path);
      mustBeListed(folder, own.sources ?? []);
      return new Table(id, { ...table(`${other}/${name}`).data, ...own });
    }
    const data = parse(tableFile, files[path], path);
    checkTable(path, data);
    mustBeListed(folder, data.sources);
    return new Table(id, data);
  });
  const constants: (folder: string) => ReadonlyMap<string, Constant> = once((folder) => {
    const path = `${folder}/constants.json`;
    if (!Object.hasOwn(files, path)) return new Map();
    const entries = parse(z.record(z.string(), z.unknown()), files[path], path);
    return new Map(
      Object.entries(entries).map(([id, entry]) => {
        const where = `${path}, ${id}`;
        if (!isSame(entry)) {
          const own = parse(constant, entry, where);
          mustBeListed(folder, own.sources);
          return [id, own];
        }
        const { "same as": other, ...own } = parse(sameConstant, entry, where);
        const base = constants(other).get(id);
        if (!base) throw new TypeError(`tables/${path}: "${id}" is the same as ${other}, which has none`);
        return [id, { ...base, ...own }];
      }),
    );
  });
  const layered: (folder: string) => ReadonlyMap<string, Constant> = once((folder) => {
    const { over } = contents(folder).file;
    return over === undefined ? constants(folder) : new Map([...layered(over), ...constants(folder)]);
  });
  const contents: (folder: string) => Contents = once((folder) => {
    const file = parse(editionFile, files[`${folder}/edition.json`], `${folder}/edition.json`);
    if (file.id !== folder) throw new TypeError(`tables/${folder}/edition.json calls itself "${file.id}"`);
    const own = tablesOf.get(folder) ?? [];
    const ownTable = (id: string) => own.includes(id) ? table(`${folder}/${id}.json`) : undefined;
    const base = file.over === undefined ? undefined : contents(file.over);
    return {
      file: {
        ...file,
        clauses: { ...base?.file.clauses, ...file.clauses },
        rules: { ...base?.file.rules, ...file.rules },
        notCovered: { ...base?.file.notCovered, ...file.notCovered },
      },
      tableIds: [...new Set([...base?.tableIds ?? [], ...own])],
      get constants() {
        return layered(folder);
      },
      table: (id) => ownTable(id) ?? base?.table(id),
    };
  });
  return new Map([...tablesOf.keys()].sort().map((id) => [id, new Edition(id, () => contents(id), () => common(""))]));
}

/**
 * Reads everything every edition holds.
 * @throws TypeError naming file and field when a file does not fit, a `same as` leads nowhere, a row is the wrong length,
 * a key is out of order or a source is unknown
 */
export function checkEditions(editions: ReadonlyMap<string, Edition>): void {
  for (const edition of editions.values()) {
    void [edition.assumptions, edition.sources, edition.title];
    edition.grades();
  }
}

function checkTable(path: string, data: z.output<typeof tableFile>): void {
  const width = Object.keys(data.columns).length + 1;
  const short = data.rows.find((row) => row.length !== width);
  if (short) {
    throw new TypeError(`tables/${path}: row "${short[0]}" has ${short.length} cells, the columns need ${width}`);
  }
  const keys = data.rows.map((row) => row[0] ?? null);
  if (new Set(keys).size !== keys.length) throw new TypeError(`tables/${path}: a key stands twice`);
  if (data.match === "exact") return;
  const falling = keys.findIndex((key, i) =>
    i > 0 && (keys[i - 1] === null || (key !== null && exact(key).compare(exact(keys[i - 1]!)) <= 0))
  );
  if (falling > 0) throw new TypeError(`tables/${path}: the keys do not rise at "${keys[falling]}"`);
}
