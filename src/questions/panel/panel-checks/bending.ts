/** Room that a wire needs to bend to its terminal. */
import { need, NotCovered } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Judgement } from "../../parts/verdict.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Finding, judge } from "./finding.ts";
import type { PanelRequest } from "./request.ts";

const TABLES = { "opposite wall": "bending-space-opposite", "another wall": "bending-space-side" } as const;
/** The last column of each table: opposite the terminal it stands for that many and more. */
const LAST = { "opposite wall": 4, "another wall": 5 } as const;

export function bendingSpace(w: Worksheet, r: PanelRequest): Finding {
  w.part("Bending space");
  if (r.size === undefined) throw need("size", "What size of wire bends to the terminal?", "4/0 wire");
  const size = w.given("wire", r.size);
  const count = r.wires ?? 1;
  if (r.wires === undefined) {
    w.suppose("wires in the terminal", "one", "more in a terminal are unusual", "2 wires per terminal");
  } else w.given("wires in the terminal", { n: String(r.wires), unit: "1" });
  if (r.leaves === undefined) {
    const why = "through the wall that its terminal faces it wants the most room";
    w.suppose(
      "the wire leaves through",
      "the wall opposite its terminal",
      why,
      "leaves through the side wall",
      "bending-space",
    );
  }
  const leaves = r.leaves ?? "opposite wall";
  const last = LAST[leaves];
  if (count > last && leaves === "another wall") {
    const { section } = w.edition.table(TABLES[leaves]);
    throw new NotCovered(`${section} ends at ${last} wires in a terminal`, w.edition.id);
  }
  const listed = Math.min(count, last);
  const column = `${listed} ${listed === 1 ? "wire" : "wires"}`;
  const space = w.lookUp<"in">("bending space", TABLES[leaves], column, size);
  w.figure("bending-space", space, "bending space at the terminal");
  w.enter("bending space at the terminal", space);
  w.caution(
    "Measured straight from the end of the lug, the way the wire leaves it, to the wall or what stands in the way.",
    "bending-space",
  );
  if (leaves === "opposite wall") {
    w.caution("Lay-in or removable lugs may have less, by the notes of the table.", "bending-space");
  }
  return { says: w.say`${space} of bending space from lug to wall for ${size}`, judged: judgeSpace(w, r, space) };
}

function judgeSpace(w: Worksheet, { space: told }: PanelRequest, least: Known<"in">): Judgement[] {
  if (!told) return [];
  const found = w.given("space there is", asQuantity(told));
  const [yes, no] = [w.say`${found} is enough to bend it`, w.say`${found} is less than the ${least} it wants`];
  return w.choose(
    "enough to bend",
    [found, "≥", least],
    ["yes", () => [judge("bending space", "ok", yes)]],
    ["no", () => [judge("bending space", "not ok", no)]],
    "bending-space",
  );
}
