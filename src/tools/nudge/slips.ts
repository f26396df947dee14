/** The numeric cells of `tables/`, and the slips a hand makes when it copies one from print. */
import type { TableFiles } from "../../editions/read.ts";

type Value = number | string;
/** A numeric cell: where it stands, what it says, and what a slip could make of it. */
export type Cell = {
  file: string;
  /** `row 10, copper` or the id of a single value. */
  place: string;
  was: Value;
  slips: { slip: string; value: Value }[];
  /** The file with the cell changed. */
  changed: (value: Value) => unknown;
};

const isNumeric = (value: unknown): value is Value =>
  typeof value === "number" || (typeof value === "string" && /^\d/.test(value));
/** What a number comes to; for comparing only. */
function amount(value: Value): number {
  const [over, under = "1"] = String(value).split("/");
  return Number(over) / Number(under);
}
const like = (value: Value, text: string): Value => typeof value === "number" ? Number(text) : text;

/** The first two neighbouring digits that can change places: 1.25 gives 2.15, 100 gives none. */
function swapped(value: Value): Value[] {
  const text = String(value);
  for (const { index } of text.matchAll(/\d(?=\.?\d)/g)) {
    if (text.startsWith("0.") && index === 0) continue;
    const next = text[index + 1] === "." ? index + 2 : index + 1;
    const digits = [...text];
    [digits[index], digits[next]] = [digits[next]!, digits[index]!];
    const other = digits.join("");
    if (other !== text && !/^0\d/.test(other) && amount(other) > 0) return [like(value, other)];
  }
  return [];
}

/** A slip of less changes no answer by more than this, and is within what a print rounds away. */
const MATTERS = 0.005;

/** The last digit that matters, struck one key off: 1.25 gives 1.26, 120 gives 130, 1001 gives 1011. */
function mistyped(value: Value): Value[] {
  const text = String(value);
  const filling = /[./]/.test(text) ? 0 : text.length - text.replace(/(?<=\d)0+$/, "").length;
  for (let i = text.length - 1 - filling; i >= 0; i--) {
    if (!/\d/.test(text[i]!)) continue;
    const digit = Number(text[i]);
    const other = text.slice(0, i) + (digit === 9 ? 8 : digit + 1) + text.slice(i + 1);
    if (Math.abs(amount(other) - amount(text)) >= MATTERS * amount(text)) return [like(value, other)];
  }
  return [];
}

/** What a slip can make of a cell, each value once. A word, such as a conductor size, has no digits to swap. */
function slipsOf(value: Value, isWord: boolean, neighbours: readonly (readonly [string, unknown])[]): Cell["slips"] {
  const slips: (readonly [string, unknown])[] = [
    ...neighbours,
    ...(isWord ? [] : swapped(value).map((other) => ["digits swapped", other] as const)),
    ...(isWord ? [] : mistyped(value).map((other) => ["mistyped", other] as const)),
  ];
  const seen = new Set([isWord ? value : amount(value)]);
  return slips.flatMap(([slip, other]) => {
    if (!isNumeric(other) || seen.has(isWord ? other : amount(other))) return [];
    seen.add(isWord ? other : amount(other));
    return [{ slip, value: other }];
  });
}

type Table = { key: { kind: string }; columns: Record<string, string>; rows: unknown[][] };
type Constants = Record<string, { value?: unknown; unit?: string }>;

/** Every numeric cell that a plausible slip could change. A row's own name, such as a conductor size, is no number. */
export function cellsOf(files: TableFiles): Cell[] {
  const sizes = (files["2017/conductor-properties.json"] as Table).rows.map(([size]) => String(size));
  return Object.keys(files).filter((path) => path.includes("/") && !path.endsWith("/edition.json")).flatMap((file) => {
    const data = files[file] as Table | Constants;
    return file.endsWith("/constants.json")
      ? constantsOf(file, data as Constants, sizes)
      : "rows" in data
      ? tableOf(file, data as Table)
      : [];
  });
}

function constantsOf(file: string, data: Constants, sizes: readonly string[]): Cell[] {
  return Object.entries(data).flatMap(([id, { value, unit }]) => {
    if (!isNumeric(value)) return [];
    const at = sizes.indexOf(String(value));
    const neighbours = [["next size", sizes[at + 1]], ["size before", sizes[at - 1]]] as const;
    const isWord = unit === "word" || unit === "size";
    const slips = slipsOf(value, isWord, isWord && at >= 0 ? neighbours : []);
    const changed = (other: Value) => ({ ...data, [id]: { ...data[id], value: other } });
    return [{ file, place: id, was: value, slips, changed }];
  });
}

function tableOf(file: string, data: Table): Cell[] {
  const columns = ["key", ...Object.keys(data.columns)];
  const kinds = [data.key.kind, ...Object.values(data.columns)];
  const isWord = (at: number) => kinds[at] === "word" || kinds[at] === "size";
  return data.rows.flatMap((row, i) =>
    row.flatMap((value, j): Cell[] => {
      if (!isNumeric(value) || (j === 0 && isWord(0))) return [];
      const beside = [j + 1, j - 1].filter((k) => k > 0 && kinds[k] === kinds[j]);
      const slips = slipsOf(value, isWord(j), [
        ["one row off", data.rows[i + 1]?.[j]],
        ["one row off", data.rows[i - 1]?.[j]],
        ...(j === 0 ? [] : beside.map((k) => ["one column off", row[k]] as const)),
      ]);
      const changed = (other: Value) => ({ ...data, rows: data.rows.map((r, n) => n === i ? r.with(j, other) : r) });
      return [{ file, place: `row ${row[0]}, ${columns[j]}`, was: value, slips, changed }];
    })
  );
}
