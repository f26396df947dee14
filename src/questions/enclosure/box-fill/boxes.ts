/** Standard boxes: which of them a description means, their volume, and the smallest that is large enough. */
import { calc } from "../../../core/formula.ts";
import { exact } from "../../../core/quantity.ts";
import type { Row } from "../../../core/book.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { BoxRequest, Shape } from "./request.ts";

const TABLE = "box-volumes";
/** Device boxes that can be set side by side. */
const GANGED = "3 x 2";
/** Boxes whose volume the table gives for one gang, or that are set side by side. */
const BY_GANG: ReadonlySet<string> = new Set(["device", "masonry", "FS", "FD"]);

type Box = NonNullable<BoxRequest["box"]>;
/** A box with its volume. */
type Standard = { name: Known<"word">; volume: Known<"in3"> };

/** Rows of the table that a description may mean, smallest first. */
export function candidates(w: Worksheet, { shape, across, depth, gangs = 1 }: Box): string[] {
  const table = w.edition.table(TABLE);
  /** A cover over one gang or over several; device boxes that can be set side by side. */
  const isOfGangs = (row: Row, gangs: number): boolean => {
    const [of, cover] = [table.cell(row, "shape"), table.cell(row, "across")];
    if (of === "FS" || of === "FD") return cover === (gangs > 1 ? "multiple cover" : "single cover");
    return gangs === 1 || of !== "device" || cover === GANGED;
  };
  return table.data.rows
    .filter((row) =>
      (shape === undefined || table.cell(row, "shape") === shape) &&
      (across === undefined || table.cell(row, "across") === across) && isOfGangs(row, gangs) &&
      (depth === undefined || table.number(row, "depth")!.equals(exact(inExact(depth))))
    )
    .sort((a, b) => table.number(a, "volume")!.compare(table.number(b, "volume")!))
    .map((row) => String(row[0]));
}
/** `2-1/8` as a fraction. */
function inExact(text: string): string {
  const [whole, part] = text.includes("-") ? text.split("-") : text.includes("/") ? ["0", text] : [text, undefined];
  if (part === undefined) return whole!;
  const [top, bottom] = part.split("/").map(Number) as [number, number];
  return `${Number(whole) * bottom + top}/${bottom}`;
}

const shapeOf = (w: Worksheet, key: string): Shape => {
  const table = w.edition.table(TABLE);
  return table.cell(table.row(key)!, "shape") as Shape;
};

/** A row's volume, of all its gangs; recorded. */
export function standard(w: Worksheet, key: string, gangs = 1): Standard {
  const name = w.lookUp<"word">("box", TABLE, "box", key);
  const one = w.lookUp<"in3">(`volume of the ${key} box`, TABLE, "volume", key);
  if (gangs === 1 || !BY_GANG.has(shapeOf(w, key))) return { name, volume: one };
  const count = w.given("gangs", { n: String(gangs), unit: "1" });
  return { name, volume: w.work(`volume of ${gangs} gangs`, "in3", calc`${one} × ${count}`, "box-volume") };
}

/** What a ring or cover adds to a volume. */
export function withRing(w: Worksheet, volume: Known<"in3">, ring: BoxRequest["ring"]): Known<"in3"> {
  if (!ring) return volume;
  const added = w.given("ring or cover, marked", asQuantity(ring));
  return w.work("box with its ring", "in3", calc`${volume} + ${added}`, "box-volume");
}

/** The smallest of some rows that holds so much; undefined where none does. Nothing is recorded. */
export const smallest = (
  w: Worksheet,
  keys: readonly string[],
  required: Known<"in3">,
  { gangs = 1, ring }: { gangs?: number | undefined; ring?: BoxRequest["ring"] },
): string | undefined =>
  keys.filter((key) => w.scratch(() => w.holds(withRing(w, standard(w, key, gangs).volume, ring), "≥", required))).sort(
    (a, b) => {
      const volume = (key: string) => w.scratch(() => Number(w.measure(standard(w, key, gangs).volume).n.valueOf()));
      return volume(a) - volume(b);
    },
  )[0];

/** Shapes to look among where none was told: those that hold a device, or those that hold a luminaire. */
export const shapesFor = (r: BoxRequest): readonly Shape[] =>
  r.devices?.length ? ["device", "square"] : r.supports?.length ? ["octagonal", "square"] : ["octagonal", "square"];
