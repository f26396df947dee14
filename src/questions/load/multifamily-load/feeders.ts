/** The feeder to each dwelling unit: its own load by whichever method asks for less, and the conductors. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Material } from "../../../rules/conductors.ts";
import { dwellingConductor, serviceRating, supplyColumn } from "../../../rules/dwelling-service.ts";
import { type Method, workDwelling } from "../../../rules/dwelling/methods.ts";
import type { Units } from "../../../rules/dwelling/several.ts";
import { equipmentGround } from "../../../rules/grounding.ts";
import { leastFeederNeutral, neutralByColumn, neutralConductor } from "../../../rules/neutral.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { MOST_TYPES, type MultifamilyRequest } from "./request.ts";
import type { Supply } from "./supply.ts";

const FIGURES = {
  load: "load of one unit",
  current: "current of one unit",
  "feeder-rating": "feeder rating of one unit",
  "feeder-conductor": "feeder conductor of one unit",
  "feeder-neutral": "feeder neutral of one unit",
  "feeder-ground": "feeder equipment ground of one unit",
} as const;
/** Ids of a type's figures: `unit-feeder-rating`, and with `-2` behind it for a second type. */
const idOf = (what: keyof typeof FIGURES, type: number) => `unit-${what}${type === 0 ? "" : `-${type + 1}`}`;
export const UNIT_FIGURES: Readonly<Record<string, string>> = Object.fromEntries(
  Array.from({ length: MOST_TYPES }).flatMap((_, i) =>
    Object.entries(FIGURES).map(([what, name]) => [
      idOf(what as keyof typeof FIGURES, i),
      i === 0 ? name : `${name}, type ${i + 1}`,
    ])
  ),
);

/** Works the feeder of every type of unit. Returns what the headline says of each. */
export function feeders(
  w: Worksheet,
  request: MultifamilyRequest,
  types: readonly Units[],
  supply: Supply,
): { name: string; words: string }[] {
  return types.map((type, i) => {
    const title = type.name === "" ? "Feeder to each unit" : `Feeder to each ${type.name}`;
    return { name: type.name, words: w.under(title, () => feeder(w, request, type, supply, i, title)) };
  });
}

function feeder(
  w: Worksheet,
  request: MultifamilyRequest,
  { lighting, loads }: Units,
  { system, network }: Supply,
  i: number,
  title: string,
): string {
  const { method, load, current, neutral } = workDwelling(
    w,
    { lighting, loads, system, network, compressorLockedOut: request.compressorLockedOut },
    (_, currentBy) => {
      const [standard, optional] = [currentBy.standard(), currentBy.optional()];
      w.part("Which method");
      const least = w.constant<"A">("optional-least-conductors");
      const needed = w.work(
        "optional method, not below the least conductors it asks for",
        "A",
        calc`max(${optional}, ${least})`,
      );
      return w.choose<Method>(
        "the method that asks for the smaller feeder",
        [needed, "<", standard],
        ["the optional method", () => "optional"],
        ["the standard method", () => "standard"],
        "optional-dwelling",
      );
    },
  );
  w.aside(
    `${title}: ${method === "standard" ? "optional" : "standard"} method`,
    `${title}: standard method`,
    `${title}: legs`,
  );
  w.part("Rating and conductors");
  const rating = serviceRating(
    w,
    current,
    method === "optional" ? w.constant<"A">("optional-least-conductors") : undefined,
  );
  const material: Material = request.material ?? (w.word(w.assume("conductor-material")) as Material);
  const supplied = {
    rating,
    isFeeder: true,
    isNetwork: network,
    terminals: request.terminals && asQuantity(request.terminals),
  };
  const column = supplyColumn(w, supplied);
  const line = dwellingConductor(w, supplied, column, current, material);
  const ofNeutral = network ? line.size : neutralConductor(
    w,
    neutralByColumn(w, neutral.current, line, column, material),
    leastFeederNeutral(w, rating, material, line.sets),
    line,
    { clause: "feeder-neutral-minimum" },
  );
  const ground = equipmentGround(w, rating, "copper");
  const figure = (what: keyof typeof FIGURES, known: Known) => {
    const id = idOf(what, i);
    w.figure(id, known, UNIT_FIGURES[id]!);
  };
  figure("load", load);
  figure("current", current);
  figure("feeder-rating", rating);
  figure("feeder-conductor", line.size);
  figure("feeder-neutral", ofNeutral);
  figure("feeder-ground", ground);
  return w.say`${rating}, ${line.size} ${material} (${load}, ${current})`;
}
