/** Pull and junction boxes for 4 AWG and larger: by the raceways that enter, for straight, angle and U pulls. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { TRADE_SIZES, tradeInches } from "../../parts/sizes.ts";
import type { BoxRequest } from "./request.ts";

type Raceway = NonNullable<BoxRequest["raceways"]>[number];

export function pullBox(w: Worksheet, { pull, raceways = [] }: BoxRequest): Told {
  if (raceways.length === 0) {
    throw need("raceways", "Which raceways enter the pull box, by trade size?", "one 3 in and two 2 in raceways");
  }
  if (pull === undefined) {
    throw need("pull", "Is it a straight pull, an angle pull or a U pull?", "angle pull");
  }
  w.part("Raceways");
  const bySize = [...raceways].sort((a, b) => TRADE_SIZES.indexOf(b.size) - TRADE_SIZES.indexOf(a.size));
  const known = bySize.map((each): [Known<"in">, Raceway] => [
    w.given(`trade size ${each.size}`, { n: tradeInches(each.size), unit: "in" }),
    each,
  ]);
  const [largest] = known[0]!;
  w.part("Box");
  let headline: string;
  if (pull === "straight") {
    const times = w.constant<"1">("pull-box-straight");
    const length = w.work("least length", "in", calc`${largest} × ${times}`, "pull-boxes");
    w.figure("pull-box-length", length);
    headline = w.say`Pull box for a straight pull: at least ${length} long.`;
  } else {
    const times = w.constant<"1">("pull-box-angle");
    const away = w.work("distance for the largest", "in", calc`${largest} × ${times}`, "pull-boxes");
    const others = known.flatMap(([size, { count = 1 }], i) => {
      const left = i === 0 ? count - 1 : count;
      if (left === 0) return [];
      return [w.work(
        `other raceways of that size`,
        "in",
        calc`${size} × ${w.given("others of that size", { n: String(left), unit: "1" })}`,
        "pull-boxes",
      )];
    });
    const distance = others.length === 0
      ? away
      : w.work("to the opposite wall", "in", calc`${away} + sum(${others})`, "pull-boxes");
    w.figure("pull-box-length", distance, "least distance to the opposite wall");
    if (pull === "angle") w.figure("pull-box-width", distance, "least distance the other way");
    const spacing = w.work(
      "between the two entries of the same conductors",
      "in",
      calc`${largest} × ${times}`,
      "pull-boxes",
    );
    w.figure("entry-spacing", spacing);
    headline = pull === "angle"
      ? w
        .say`Pull box for an angle pull: at least ${distance} × ${distance}, entries of the same conductors ${spacing} apart.`
      : w
        .say`Pull box for a U pull: at least ${distance} from that wall to the opposite one, entries of the same conductors ${spacing} apart.`;
  }
  if (pull === "angle") {
    w.caution("The other wall was taken to have the same raceways: of two walls ask each.", "pull-boxes");
  }
  w.caution("Conductors of 4 AWG and larger; with smaller ones box fill decides.", "pull-boxes");
  w.caution("A raceway that enters opposite a removable cover has a distance of its own.", "pull-boxes");
  w.suggest(pull === "straight" ? "angle pull" : "straight pull");
  return { headline };
}
