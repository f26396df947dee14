/** Where a panel may not be. */
import { need } from "../../../core/outcome.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { type Finding, judge } from "./finding.ts";
import type { PanelRequest } from "./request.ts";

/** Places with a rule of their own, the rule, and what it says of them. */
const FORBIDDEN: Readonly<Record<string, readonly [clause: string, why: string]>> = {
  bathroom: ["panel-places-bathroom", "no breakers or fuses in a bathroom of a dwelling"],
  "clothes closet": ["panel-places-closet", "no breakers or fuses near what burns easily, as in a clothes closet"],
  stairs: ["panel-places-stairs", "no breakers or fuses over the steps of a stairway"],
};

export function location(w: Worksheet, { place, dwelling }: PanelRequest): Finding {
  w.part("Place");
  const forbidden = "bathroom of a dwelling, clothes closet, over the steps of stairs";
  const step = w.given(
    "no breakers or fuses in",
    forbidden,
    "nor a service disconnect in any bathroom",
    "panel-places",
  );
  w.figure("forbidden-places", step, "places where no panel may be");
  w.caution("Wherever it is, the clear working space goes with it.", "working-space");
  if (place === undefined) {
    return {
      says:
        "no panel in a dwelling's bathroom, in a clothes closet, over stair steps, nor where it is not readily reached",
      judged: [],
    };
  }
  if (place === "closet") {
    throw need("place", "What is kept in that closet: clothes and linen, or nothing that burns?", "clothes closet");
  }
  if (place === "bathroom" && dwelling === false) {
    const because = `it is no service disconnect (${
      w.cite("service-places").section
    }), and no bathroom of a dwelling or guest room`;
    return { says: "a service disconnect in no bathroom at all", judged: [judge(place, "ok if", because)] };
  }
  const rule = FORBIDDEN[place];
  w.given("place put up", place);
  if (rule) {
    return {
      says: `not in a ${place}`.replace("a stairs", "a stairway"),
      judged: [judge(place, "not ok", `${rule[1]} (${w.cite(rule[0]).section})`)],
    };
  }
  const because = `it has its clear working space, is readily reached and out of harm${
    place === "outdoors" ? ", and the enclosure is made for the weather" : ""
  }`;
  return { says: `a panel may be there`, judged: [judge(place, "ok if", because)] };
}
