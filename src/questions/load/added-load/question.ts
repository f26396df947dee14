/** Load added to an existing service: does it fit, how much is left, and what is the largest that does fit. */
import type { Known } from "../../../core/worked.ts";
import { need, Unclear } from "../../../core/outcome.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { calc } from "../../../core/formula.ts";
import { CATALOGUE } from "../../../loads/catalogue.ts";
import { loadName } from "../../../rules/loads.ts";
import { question } from "../../question.ts";
import { cautions, supposeNotTold } from "./beside.ts";
import { judge } from "./judge.ts";
import { fits, loadWith, partOf, type Service } from "./methods.ts";
import { missing } from "./missing.ts";
import { type AddedLoad, type AddedRequest, input, type Method } from "./request.ts";
import { serviceOf, supplyOf, workAdded } from "./service.ts";
import { takes } from "./takes.ts";
import { roomFor } from "./turned.ts";
import { write } from "./write.ts";

/** Ids of what the load comes to by each method. */
const BY_METHOD: Readonly<Record<Method, string | undefined>> = {
  "existing dwelling": "existing-dwelling-method-load",
  optional: "optional-method-load",
  standard: "standard-method-load",
  "measured demand": "measured-demand-load",
  "as calculated": undefined,
};

export default question({
  id: "added-load",
  title: "Load added to an existing service",
  about:
    "Whether an existing service takes more load, what is left on it, and the largest charger or the like that fits.",
  input,
  figures: {
    "existing-load": "existing load",
    "total-load": "total load",
    "total-current": "total current",
    "spare-current": "spare current",
    "largest-added-load": "largest load that may be added",
    "existing-dwelling-method-load": "existing-dwelling method load",
    "optional-method-load": "optional method load",
    "standard-method-load": "standard method load",
    "measured-demand-load": "measured-demand load",
    "largest-that-fits": "largest that fits",
    "circuit-rating": "circuit of the largest charger that fits",
    "managed-setpoint": "setting at which the charger fits",
    "service-setpoint": "setting that holds the whole service",
    "service-rating": "service rating for all of it",
  },
  examples: [
    "100 A service, 1400 sq ft, 12 kW range, 5 kW dryer, gas heat, no AC, can I add a 48 A EV charger?",
    "200 A service, peak demand 18 kW over the last 12 months, adding a 9.6 kW charger",
    "biggest charger a 100 A panel takes: 1800 sq ft, AC 24 A, 8 kW range, everything else is gas",
  ],
  manner: { traits: ["lists", "one supply"] },
  takes,
  minds: ["building"],
  write,
  answer(request, w) {
    const needs = missing(w, request);
    if (needs.length > 0) throw new Unclear(needs);
    const { rated, open } = addedOf(request);
    const supply = supplyOf(w, request);
    const { service, added } = serviceOf(w, request, supply, () => workAdded(w, rated, supply, request.setpoint));
    if (service.methods.length === 0) throw new Unclear(missing(w, { ...request, demand: undefined }));
    const suffix = added.length > 0 ? ", with the addition" : "";
    const found = loadWith(w, service, added, suffix);
    // The methods that do not decide are worked in full, and shown in short where space is short.
    w.aside(...service.methods.filter((each) => each !== found.method).map((each) => partOf(each, suffix)));
    const does = fits(w, service, found.current, added);
    for (const { method, load } of found.all) if (BY_METHOD[method]) w.figure(BY_METHOD[method], load);
    const now = added.length === 0 ? found : loadWith(w, { ...service, methods: [found.method] }, [], ", now");
    w.figure("existing-load", now.load, "existing load");
    w.figure("total-load", found.load, "total load");
    w.figure("total-current", found.current, "total current");
    w.figure("spare-current", spareOf(w, service, found.current, suffix), "spare current");
    w.figure("largest-added-load", roomFor(w, service, now), "largest load that may be added");
    const answer = judge(w, request, { service, supply, added, rated, open, found, now, does });
    supposeNotTold(w, request, service, supply, found);
    cautions(w, request, service, found, answer.verdict);
    return answer;
  },
});

/** What is to be added: loads of a known size, and the one that is looked for. */
function addedOf({ added = [] }: AddedRequest): { rated: AddedLoad[]; open: AddedLoad | undefined } {
  const electric = added.filter(({ fuel, rating }) => fuel !== "gas" || rating);
  const rated = electric.filter(({ rating }) => rating);
  const open = electric.filter(({ rating }) => !rating);
  if (open.length > 1) {
    throw new Unclear(open.map((load) => ({
      field: `added.${load.kind}.rating`,
      ask: `How large is the ${loadName(load)}? One size can be looked for at a time.`,
      example: `${loadName(load)} ${CATALOGUE[load.kind].group === "ev" ? "48 A" : "5 kW"}`,
    })));
  }
  if (open[0] && open[0].count > 1) {
    throw need(
      `added.${open[0].kind}.rating`,
      `How large is each of the ${open[0].count}?`,
      `${loadName(open[0])} 5 kW`,
    );
  }
  return { rated, open: open[0] };
}

function spareOf(w: Worksheet, { rating }: Service, current: Known<"A">, suffix: string): Known<"A"> {
  w.part(`Load${suffix}`);
  const used = w.holds(current, "≤", rating) ? current : w.work("of it used", "A", calc`min(${rating}, ${current})`);
  return w.work("spare current", "A", calc`${rating} − ${used}`);
}
