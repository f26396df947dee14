/** Text → facts. Each step is a pure function over the pieces; `deno task read` prints them all. */
import { withAmperes } from "./amperes.ts";
import { labelsOverValues } from "./columns.ts";
import { withoutCompared } from "./compared.ts";
import { withDepths } from "./depths.ts";
import { withDistances } from "./distances.ts";
import type { Fact, Facts } from "./facts.ts";
import { PASSES } from "./families.ts";
import { shareUnits } from "./lists.ts";
import { withoutMeanwhile } from "./meanwhile.ts";
import { type Mended, mendSlips } from "./mend.ts";
import { withoutDenied } from "./negated.ts";
import {
  attach,
  countsBeside,
  groupsOf,
  otherUnits,
  recount,
  shares,
  toldAgain,
  totals,
  unitsOfBuilding,
} from "./passes/counts.ts";
import { notOfDevices } from "./passes/devices.ts";
import { heads } from "./passes/heads.ts";
import { carryAreas, carryUnits, inLists } from "./passes/lists.ts";
import {
  added,
  connectedLoads,
  elsewhere,
  heaters,
  names,
  polesOfCircuits,
  shareFuel,
  standAlone,
  tanks,
} from "./passes/loads.ts";
import { farms } from "./passes/farms.ts";
import { schedules } from "./passes/panels.ts";
import { nameplates, partsOfPlate } from "./passes/plates.ts";
import { bindRows, currents, labelled, powers, unitsNotPumps } from "./passes/ratings.ts";
import { Reading } from "./passes/reading.ts";
import { checks, ownResults, rest } from "./passes/rest.ts";
import { ends, stretches } from "./passes/runs.ts";
import { changedMains, compressors, replaced } from "./passes/services.ts";
import { sites } from "./passes/sites.ts";
import { otherWay, sizes } from "./passes/wires.ts";
import { piecesOf } from "./pieces.ts";
import type { Piece } from "./sense.ts";
import { withoutTakenBack } from "./taken-back.ts";
import { type Token, tokenize } from "./tokens.ts";
import { withParts } from "./within.ts";

/** A text with all that was read of it. */
export type ReadText = {
  readonly asked: string;
  readonly tokens: readonly Token[];
  readonly pieces: readonly Piece[];
  readonly facts: Facts;
  /** Which sentence each piece stands in. */
  readonly sentences: readonly number[];
  readonly mended: readonly Mended[];
  /** Where words begin that may be slips of several terms. */
  readonly unsure: ReadonlySet<number>;
};

export function readText(asked: string): ReadText {
  const { tokens, mended, unsure } = mendSlips(labelsOverValues(tokenize(asked)));
  const read = withAmperes(
    withDistances(
      withoutMeanwhile(withoutCompared(withoutDenied(withDepths(piecesOf(tokens)), tokens), tokens), tokens),
      tokens,
    ),
    tokens,
  );
  const pieces = shareUnits(withoutTakenBack(read, tokens), tokens);
  const sentences: number[] = [];
  let sentence = 0;
  for (const piece of pieces) {
    sentences.push(sentence);
    if (piece.is === "border" && tokens[piece.from]!.is !== "line") sentence++;
  }
  return {
    asked,
    tokens,
    pieces,
    sentences,
    mended,
    unsure,
    facts: withParts(factsOf(new Reading(asked, tokens, pieces, sentences)), { tokens, pieces }),
  };
}

/** All passes, in the order in which each needs the one before. */
function factsOf(r: Reading): Facts {
  heads(r);
  sites(r);
  farms(r);
  schedules(r);
  bindRows(r);
  connectedLoads(r);
  ownResults(r);
  elsewhere(r);
  powers(r);
  currents(r);
  unitsNotPumps(r);
  labelled(r);
  standAlone(r);
  ends(r);
  sizes(r);
  nameplates(r);
  heaters(r);
  countsBeside(r, "count");
  for (const pass of PASSES) {
    // Before bare numbers become counts: `range 12 kW, dryer 5`.
    if (pass.slot === "count") {
      toldAgain(r);
      partsOfPlate(r);
      carryUnits(r);
    }
    attach(r, pass);
    if (pass.slot === "fuel") {
      shareFuel(r);
      replaced(r);
    }
  }
  polesOfCircuits(r);
  notOfDevices(r);
  otherWay(r);
  carryAreas(r);
  compressors(r);
  changedMains(r);
  tanks(r);
  stretches(r);
  shares(r);
  names(r);
  countsBeside(r, "number");
  totals(r);
  groupsOf(r);
  recount(r);
  otherUnits(r);
  unitsOfBuilding(r);
  checks(r);
  toldAgain(r);
  inLists(r);
  added(r);
  rest(r);
  const facts = r.facts.map(({ at: _, label: __, listed: ___, whole: ____, id, others, ...fact }): Fact => ({
    ...fact,
    ...(id !== undefined && { id }),
    ...(others.length > 0 && { others }),
  }));
  return { facts, free: r.free };
}
