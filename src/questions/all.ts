/** Every kind of question, one line each, in the order the page lists them. */
import type { AnyQuestion } from "./question.ts";
import addedLoad from "./load/added-load/question.ts";
import boxFill from "./enclosure/box-fill/question.ts";
import burialAndSupport from "./enclosure/burial-and-support/question.ts";
import busbarBackfeed from "./panel/busbar-backfeed/question.ts";
import branchCircuit from "./circuit/branch-circuit/question.ts";
import conductorAmpacity from "./circuit/conductor-ampacity/question.ts";
import cookingDemand from "./load/cooking-demand/question.ts";
import coolingCircuit from "./motor/cooling-circuit/question.ts";
import dryerDemand from "./load/dryer-demand/question.ts";
import faultCurrent from "./fault/fault-current/question.ts";
import faultPath from "./fault/fault-path/question.ts";
import farmLoad from "./load/farm-load/question.ts";
import feeder from "./circuit/feeder/question.ts";
import grounding from "./circuit/grounding/question.ts";
import dwellingLoad from "./load/dwelling-load/question.ts";
import mobileHomeLoad from "./load/mobile-home-load/question.ts";
import multifamilyLoad from "./load/multifamily-load/question.ts";
import occupancyLoad from "./load/occupancy-load/question.ts";
import parkLoad from "./load/park-load/question.ts";
import racewayFill from "./enclosure/raceway-fill/question.ts";
import standbyLoad from "./supply/standby-load/question.ts";
import transformer from "./supply/transformer/question.ts";
import motorCircuit from "./motor/motor-circuit/question.ts";
import motorFeeder from "./motor/motor-feeder/question.ts";
import voltageDrop from "./circuit/voltage-drop/question.ts";
import panelSchedule from "./panel/panel-schedule/question.ts";
import panelChecks from "./panel/panel-checks/question.ts";
import conversion from "./supply/conversion/question.ts";

export const questions: readonly AnyQuestion[] = [
  dwellingLoad,
  multifamilyLoad,
  mobileHomeLoad,
  occupancyLoad,
  parkLoad,
  farmLoad,
  addedLoad,
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
  panelSchedule,
  panelChecks,
  faultCurrent,
  faultPath,
  conversion,
  boxFill,
  burialAndSupport,
  busbarBackfeed,
  standbyLoad,
  racewayFill,
];
