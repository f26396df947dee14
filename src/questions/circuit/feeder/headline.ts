/** What a person would text about a feeder: the verdict if one was wanted, then the set from end to end. */
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Material } from "../../../rules/conductors.ts";
import { ledBy } from "../../parts/verdict.ts";
import type { Circuit } from "./circuit.ts";
import type { Lines } from "../../parts/lines.ts";
import type { SetOf } from "./material.ts";
import type { FeederRequest } from "./request.ts";

type Parts = {
  circuit: Circuit;
  set: SetOf;
  ground: { size: Known<"size">; material: Material } | undefined;
  raceway: string | undefined;
  instead: { other: Material; lines: Lines; copper?: Known<"lb">; aluminum?: Known<"lb"> } | undefined;
};

export function headline(
  w: Worksheet,
  r: FeederRequest,
  { circuit, set, ground, raceway, instead }: Parts,
  verdict: Reasoned | undefined,
): Told {
  const sets = (lines: Lines) => lines.sets ? w.say`${lines.sets} sets of ` : "";
  const { lines, neutral } = set;
  const pieces = [
    `${verdict?.is === "not ok" ? "Take " : ""}${sets(lines)}${w.size(lines.size)} ${lines.material}`,
    neutral ? `neutral ${w.size(neutral)}` : "no neutral",
    ground ? `ground ${w.size(ground.size)} ${ground.material}` : "",
    r.tappedFrom ? "" : w.say`${circuit.rating} ${r.supply === "service" ? "main" : "breaker at the source"}`,
    r.supply === "service" ? "neutral bonded at the main" : farEnd(r),
    lines.drop ? w.say`drop ${lines.drop.percent}` : "",
    raceway ? `about ${raceway}` : "",
  ].filter((piece) => piece !== "");
  return ledBy(verdict, `${pieces.join(", ")}.${besides(w, instead, sets)}`);
}

function farEnd(r: FeederRequest): string {
  const bond = r.neutral === false ? "" : "neutral isolated at the far panel";
  if (r.where !== "separate structure") return bond;
  return [bond, "main breaker and two ground rods there"].filter((each) => each !== "").join(", ");
}

function besides(
  w: Worksheet,
  instead: Parts["instead"],
  sets: (lines: Lines) => string,
): string {
  if (!instead) return "";
  const { other, lines, copper, aluminum } = instead;
  const metal = copper && aluminum ? w.say` (${copper} of copper against ${aluminum} of aluminum)` : "";
  return ` In ${other}: ${sets(lines)}${w.size(lines.size)}${metal}.`;
}
