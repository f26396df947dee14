/** How much free conductor is left where it is spliced or lands on a device: its least length, and what reaches outside. */
import type { Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { type Judgement, ledBy, verdictOf } from "../../parts/verdict.ts";
import type { BoxRequest } from "./request.ts";

export function freeConductor(w: Worksheet, { opening, length, outside }: NonNullable<BoxRequest["free"]>): Told {
  w.part("Free conductor");
  const least = w.constant<"in">("free-conductor-length");
  w.figure("free-length", least);
  const small = w.constant<"in">("free-conductor-opening");
  const told = opening && w.given("opening of the box, where it is narrowest", asQuantity(opening));
  if (!told) {
    w.suppose("opening", w.say`less than ${small}`, "as of every standard box", "opening 10 in", "free-conductor");
  }
  const isSmall = told
    ? w.choose<boolean>(
      "opening against its limit",
      [told, "<", small],
      ["smaller: some of it reaches outside", () => true],
      ["not smaller: only the length counts", () => false],
      "free-conductor",
    )
    : true;
  const beyond = isSmall ? w.constant<"in">("free-conductor-outside") : undefined;
  if (beyond) w.figure("length-outside", beyond);
  const judged: Judgement[] = [];
  const judge = (what: string, { is, because }: Reasoned) => void judged.push({ what, is, because });
  if (length) {
    const left = w.given("free conductor left", asQuantity(length));
    judge(
      "length",
      w.holds(left, "<", least)
        ? { is: "not ok", because: w.say`${left} of free conductor are less than ${least}` }
        : beyond && !outside
        ? { is: "ok if", because: w.say`${beyond} of it reach outside the opening` }
        : { is: "ok", because: w.say`${left} of free conductor, ${least} are wanted` },
    );
  }
  if (outside && beyond) {
    const reach = w.given("free conductor outside the opening", asQuantity(outside));
    judge(
      "outside",
      w.holds(reach, "<", beyond)
        ? { is: "not ok", because: w.say`${reach} outside the opening are less than ${beyond}` }
        : length
        ? { is: "ok", because: w.say`${reach} of it outside the opening, ${beyond} are wanted` }
        : { is: "ok if", because: w.say`it has ${least} from where it leaves its sheath or raceway` },
    );
  } else if (outside && !length) {
    judge("outside", { is: "ok if", because: w.say`it has ${least} from where it leaves its sheath or raceway` });
  }
  w.caution(
    "Where it is spliced or lands on something; one that passes through unbroken needs none.",
    "free-conductor",
  );
  w.suggest("opening 10 in", "5 in of free wire");
  const where = "from where it leaves its sheath or raceway";
  return ledBy(
    verdictOf(judged),
    beyond
      ? w.say`At least ${least} of free conductor ${where}, so that ${beyond} of it reach outside the box's opening.`
      : w.say`At least ${least} of free conductor ${where}; of an opening of ${small} or more nothing more is wanted.`,
  );
}
