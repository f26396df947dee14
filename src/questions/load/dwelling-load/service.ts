/** The service or feeder of the dwelling, and the sentence that says it. */
import { calc } from "../../../core/formula.ts";
import type { Known, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { type Material, MATERIALS } from "../../../rules/conductors.ts";
import { dwellingConductor, serviceRating, supplyColumn } from "../../../rules/dwelling-service.ts";
import { equipmentGround, type Supply } from "../../../rules/grounding.ts";
import {
  leastFeederNeutral,
  leastServiceNeutral,
  type LineConductor,
  neutralByColumn,
  neutralConductor,
} from "../../../rules/neutral.ts";
import { checkRating, tellServed } from "../../parts/load-service.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { groundService } from "../../parts/service-grounding.ts";
import type { Neutral } from "../../../rules/dwelling/neutral.ts";
import type { DwellingRequest } from "./request.ts";

type Found = {
  load: Known<"VA">;
  current: Known<"A">;
  neutral: Neutral;
  method: "standard" | "optional";
  standard: Known<"VA">;
  optional: Known<"VA">;
  network: boolean;
};

export function service(w: Worksheet, request: DwellingRequest, found: Found): Told {
  const isFeeder = request.panel === "after the service disconnect";
  const what = isFeeder ? "feeder" : "service";
  w.part(isFeeder ? "Feeder" : "Service");
  // The optional method itself asks for conductors of a least rating, on a feeder too.
  const least = isFeeder
    ? found.method === "optional" ? w.constant<"A">("optional-least-conductors") : undefined
    : w.constant<"A">("one-family-minimum-service");
  const needed = serviceRating(w, found.current, least);
  const because = w.say`the load is ${found.current}, ${found.load} by the ${found.method} method`;
  const { rating, verdict } = checkRating(w, request, { current: found.current, because }, needed, what);
  w.figure("service-rating", rating, `${what} rating`);
  // The fraction that was dropped to pick the rating is no lack either.
  const isWithin = w.holds(found.current, "≤", rating);
  const used = isWithin ? found.current : w.work("of it used", "A", calc`min(${rating}, ${found.current})`);
  const spare = w.work("spare up to that rating", "A", calc`${rating} − ${used}`);
  w.figure("spare-current", spare);

  const chosen: Material = request.material ?? (w.word(w.assume("conductor-material")) as Material);
  const other = MATERIALS.find((each) => each !== chosen)!;
  w.part("Conductors");
  const supplied = { rating, isFeeder, isNetwork: found.network, terminals: terminalsOf(request) };
  const column = supplyColumn(w, supplied);
  const line = dwellingConductor(w, supplied, column, found.current, chosen);
  w.figure("ungrounded-conductor", line.size, `ungrounded conductor, ${chosen}`);
  if (line.sets) w.figure("parallel-sets", line.sets);
  const instead = dwellingConductor(w, supplied, column, found.current, other);
  const supply: Supply = { size: line.size, material: chosen, ...(line.sets && { sets: line.sets }) };
  const floor = isFeeder ? leastFeederNeutral(w, rating, chosen, line.sets) : leastServiceNeutral(w, supply);
  // Of a network's three wires the neutral is as large as the lines.
  const neutral = found.network
    ? line.size
    : neutralConductor(w, neutralByColumn(w, found.neutral.current, line, column, chosen), floor, line, {
      clause: isFeeder ? "feeder-neutral-minimum" : "grounded-conductor-minimum",
    });
  if (isFeeder) feederGrounding(w, request, rating, line);
  else groundService(w, supply, request.electrode);
  w.figure("neutral-conductor", neutral, `neutral conductor, ${chosen}`);
  editionNotes(w, isFeeder);
  if (chosen === "aluminum") {
    w.caution(
      "Aluminum: terminals marked for it, oxide inhibitor where their maker asks, and the torque they are marked with.",
    );
  }
  w.suggest(
    chosen === "copper" ? "use aluminum" : "use copper",
    found.method === "optional" ? "standard method" : "optional method",
    "add a 48 A EV charger",
  );
  const sets = (of: LineConductor) => of.sets ? w.say`${of.sets} sets of ` : "";
  return tellServed(w, { what, rating, verdict }, {
    load: w.say`${found.load}, ${found.current} by the ${found.method} method`,
    words: w.say`${sets(line)}${line.size} ${chosen} (or ${sets(instead)}${instead.size} ${other}), neutral ${neutral}`,
  });
}

const terminalsOf = ({ terminals }: DwellingRequest) => terminals && asQuantity(terminals);

function feederGrounding(w: Worksheet, request: DwellingRequest, rating: Known<"A">, { sets }: LineConductor): void {
  w.part("Grounding");
  w.figure(
    "equipment-grounding-conductor",
    equipmentGround(w, rating, "copper"),
    "copper equipment grounding conductor",
  );
  w.figure(
    "neutral-bond",
    w.given("neutral at this panel", "isolated", "it is bonded at the service disconnect only", "neutral-bond-once"),
    "neutral bond",
  );
  if (sets) {
    w.caution("Parallel raceways: this ground in each of them, at its full size.", "equipment-grounding-parallel");
  }
  if (request.electrode) {
    w.caution(
      `The ${request.electrode} electrode belongs to the service, or to a separate building: not to this panel.`,
    );
  }
  w.caution(
    "Leave the bonding screw or strap out of this panel: neutral bar isolated, grounds on their own bar.",
    "neutral-bond-once",
  );
}

function editionNotes(w: Worksheet, isFeeder: boolean): void {
  if (w.edition.rule(isFeeder ? "surge-protection-feeders" : "surge-protection") !== "not required") {
    const where = isFeeder ? "The panel a feeder supplies in a dwelling" : "A dwelling's service equipment";
    w.caution(
      `${where}, new or replaced, takes a type 1 or 2 surge-protective device.`,
      isFeeder ? "surge-protection-feeders" : "surge-protection",
    );
  }
  if (!isFeeder && w.edition.rule("emergency-disconnect") !== "not required") {
    w.caution("One- and two-family dwellings need a disconnect outdoors, readily accessible.", "emergency-disconnect");
  }
}
