/** The numeric cells of `tables/`, and the slips a hand makes when it copies one from print. */
import type { TableFiles } from "../../core/edition.ts";

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
const isNumber = (value: Value) => typeof value === "number" || /^\d+(\.\d+)?$/.test(value);
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
    if (other !== text && !/^0\d/.test(other) && Number(other) !== 0) return [like(value, other)];
  }
  return [];
}

/** A slip of less changes no answer by more than this, and is within what a print rounds away. */
const MATTERS = 0.005;

/** The last digit that matters, struck one key off: 1.25 gives 1.26, 120 gives 130, 1001 gives 1011. */
function mistyped(value: Value): Value[] {
  const text = String(value);
  const filling = text.includes(".") ? 0 : text.length - text.replace(/0+$/, "").length;
  for (let i = text.length - 1 - filling; i >= 0; i--) {
    if (text[i] === ".") continue;
    const digit = Number(text[i]);
    const other = text.slice(0, i) + (digit === 9 ? 8 : digit + 1) + text.slice(i + 1);
    if (Math.abs(Number(other) - Number(text)) >= MATTERS * Number(text)) return [like(value, other)];
  }
  return [];
}

/** The same number, written one way: 15/2 and 7.5 are not two values. */
const same = (a: Value, b: Value) => String(a) === String(b) || (isNumber(a) && isNumber(b) && Number(a) === Number(b));

function slipsOf(value: Value, neighbours: readonly [string, unknown][]): Cell["slips"] {
  const all = [
    ...neighbours.filter((each): each is [string, Value] => isNumeric(each[1])),
    ...(isNumber(value)
      ? [
        ...swapped(value).map((v) => ["digits swapped", v] as const),
        ...mistyped(value).map((v) => ["mistyped", v] as const),
      ]
      : []),
  ];
  const seen: Value[] = [value];
  return all.flatMap(([slip, other]) => {
    if (seen.some((each) => same(each, other))) return [];
    seen.push(other);
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
  return Object.entries(data).flatMap(([id, { value }]) => {
    if (!isNumeric(value)) return [];
    const at = sizes.indexOf(String(value));
    const neighbours = typeof value === "string" && at >= 0
      ? [["next size", sizes[at + 1]], ["size before", sizes[at - 1]]] as const
      : [];
    const changed = (other: Value) => ({ ...data, [id]: { ...data[id], value: other } });
    return [{ file, place: id, was: value, slips: slipsOf(value, neighbours.map(([a, b]) => [a, b])), changed }];
  });
}

function tableOf(file: string, data: Table): Cell[] {
  const columns = ["key", ...Object.keys(data.columns)];
  const kinds = [data.key.kind, ...Object.values(data.columns)];
  return data.rows.flatMap((row, i) =>
    row.flatMap((value, j): Cell[] => {
      if (!isNumeric(value) || (j === 0 && kinds[0] === "word")) return [];
      const beside = [j + 1, j - 1].filter((k) => k > 0 && kinds[k] === kinds[j]);
      const slips = slipsOf(value, [
        ["one row off", data.rows[i + 1]?.[j]],
        ["one row off", data.rows[i - 1]?.[j]],
        ...(j === 0 ? [] : beside.map((k): [string, unknown] => ["one column off", row[k]])),
      ]);
      const changed = (other: Value) => ({ ...data, rows: data.rows.map((r, n) => n === i ? r.with(j, other) : r) });
      return [{ file, place: `row ${row[0]}, ${columns[j]}`, was: value, slips, changed }];
    })
  );
}
