/** Every kind of question, one line each, in the order the page lists them. */
import type { AnyQuestion } from "./question.ts";
import branchCircuit from "./branch-circuit/question.ts";
import conductorAmpacity from "./conductor-ampacity/question.ts";
import cookingDemand from "./cooking-demand/question.ts";
import coolingCircuit from "./cooling-circuit/question.ts";
import dryerDemand from "./dryer-demand/question.ts";
import feeder from "./feeder/question.ts";
import grounding from "./grounding/question.ts";
import dwellingLoad from "./dwelling-load/question.ts";
import transformer from "./transformer/question.ts";
import motorCircuit from "./motor-circuit/question.ts";
import motorFeeder from "./motor-feeder/question.ts";
import voltageDrop from "./voltage-drop/question.ts";
import conversion from "./conversion/question.ts";

export const questions: readonly AnyQuestion[] = [
  dwellingLoad,
  cookingDemand,
  dryerDemand,
  branchCircuit,
  feeder,
  grounding,
  coolingCircuit,
  conductorAmpacity,
  transformer,
  motorCircuit,
  motorFeeder,
  voltageDrop,
  conversion,
];
