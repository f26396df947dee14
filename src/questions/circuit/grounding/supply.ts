/** What the supply conductors decide: electrode conductor and bonding jumpers. */
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Material } from "../../../rules/conductors.ts";
import {
  bondingJumper,
  type Electrode,
  electrodeConductor,
  isByTable,
  largestTo,
  type Supply,
  supplyArea,
} from "../../../rules/grounding.ts";
import type { GroundingConductor, GroundingRequest } from "./request.ts";

/** The supply conductors. @throws Unclear where only a rating was told: their size decides. */
export function supplyOf(w: Worksheet, r: GroundingRequest): Supply {
  if (r.size === undefined) {
    const rated = r.service ? `the ${r.service.value} A service` : "the service or supply";
    throw need(
      "size",
      `What size and metal are the ungrounded conductors of ${rated}? Its rating alone does not decide.`,
      "4/0 aluminum service conductors",
    );
  }
  w.part("Supply conductors");
  const material = r.material ?? w.word(w.assume<"word">("conductor-material")) as Material;
  const size = w.given(`ungrounded ${material} conductors`, r.size);
  return r.sets === undefined || r.sets === 1
    ? { size, material }
    : { size, material, sets: w.given("parallel sets", { n: String(r.sets), unit: "1" }) };
}

/** By the supply conductors; where they were not told, the largest that the electrode ever asks for, if there is one. */
export function electrodeConductorOf(
  w: Worksheet,
  r: GroundingRequest,
  of: Material,
): { size: Known<"size">; electrode: Electrode; isLargest?: true } {
  const { electrode: told } = r;
  const supply = r.size === undefined && told !== undefined && !isByTable(told) ? undefined : supplyOf(w, r);
  w.part("Grounding electrode conductor");
  const electrode = told ?? w.word(w.assume<"word">("electrode")) as Electrode;
  const size = supply ? electrodeConductor(w, supply, of, electrode, r.ring) : largestTo(w, of, electrode, r.ring);
  if (electrode === "rod") {
    w.caution(
      "The rod limit holds while this conductor goes to rods, pipes or plates alone and on to nothing larger.",
      "electrode-conductor",
    );
  } else if (electrode === "ground ring") {
    w.caution("To a ground ring alone it need not be larger than the ring itself.", "electrode-conductor");
  } else if (electrode === "concrete-encased") {
    w.caution("This limit holds while it goes to the concrete-encased electrode alone.", "electrode-conductor");
  }
  if (of === "aluminum") {
    w.caution("Aluminum may not touch masonry or earth, nor end close to earth outdoors.", "electrode-conductor");
  }
  return { size, electrode, ...(!supply && { isLargest: true }) };
}

const CLAUSES = {
  "main bonding jumper": "main-bonding-jumper",
  "system bonding jumper": "system-bonding-jumper",
  "supply-side bonding jumper": "supply-side-bonding-jumper",
} as const;
type Jumper = keyof typeof CLAUSES;
export const isJumper = (each: GroundingConductor): each is Jumper => each in CLAUSES;

export function jumperOf(
  w: Worksheet,
  r: GroundingRequest,
  supply: Supply,
  of: Material,
  jumper: Jumper,
): Known<"size"> {
  w.part(jumper[0]!.toUpperCase() + jumper.slice(1));
  const inEach = jumper === "supply-side bonding jumper" && supply.sets && r.jumpers === "one for each raceway";
  if (jumper === "supply-side bonding jumper" && supply.sets && r.jumpers === undefined) {
    w.suppose(
      "supply-side bonding jumper",
      "one for all sets",
      "nothing was said of one in each raceway, and this is the larger",
      "one jumper in each raceway",
      "supply-side-bonding-jumper",
    );
  }
  const counted: Supply = inEach ? { size: supply.size, material: supply.material } : supply;
  if (of === supply.material) return bondingJumper(w, counted, of, jumper, CLAUSES[jumper]);
  mixedMetals(w, counted, jumper, of);
  return bondingJumper(w, counted, of, jumper, CLAUSES[jumper]);
}

/** Above the table's end a jumper of the other metal goes by supply conductors of its own metal, which must be told. */
function mixedMetals(w: Worksheet, supply: Supply, jumper: Jumper, of: Material): void {
  const isAbove = w.scratch(() => !w.has(`bonding-jumper-${supply.material}-supply`, of, supplyArea(w, supply)));
  if (!isAbove) return;
  throw need(
    "groundMaterial",
    `Above the table's end, ${jumper} in ${of}: it is sized as if the supply were ${of} too. Which ${of} sizes and sets would carry the same? Or should it be ${supply.material}?`,
    `${supply.material} ${jumper}`,
  );
}
