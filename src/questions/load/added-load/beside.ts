/** What was not told and so not counted, and the cautions that belong to a service that is already there. */
import { calc } from "../../../core/formula.ts";
import type { Reasoned } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { hasExistingMethod } from "../../../rules/dwelling/existing.ts";
import { type SaidLoad, workLoads } from "../../../rules/loads.ts";
import { capacity, currentOf, type Found, loadWith, type Service } from "./methods.ts";
import { notTold } from "./missing.ts";
import type { AddedRequest } from "./request.ts";
import type { Supply } from "./service.ts";

/** Lists the large loads of which nothing was said, and by how much one of usual size would move the current. */
export function supposeNotTold(
  w: Worksheet,
  request: AddedRequest,
  service: Service,
  { system }: Supply,
  { method, load, current }: Found,
): void {
  const { house } = service;
  if (!house || !system || method === "measured demand" || method === "as calculated") return;
  const open = notTold(request);
  if (open.length === 0) return;
  const moves = open.map(({ name, size, load: kind }) => {
    const by = w.scratch(() => {
      const usual = w.assume<"VA" | "A">(size);
      const value = w.value(usual);
      const rating = { value: "n" in value ? Number(value.n) : 0, unit: usual.kind };
      const one = workLoads(w, [{ ...kind, count: 1, rating } as SaidLoad], system);
      const more = loadWith(w, { ...service, house: { ...house, loads: [...house.loads, ...one] } }, [], "");
      const now = loadWith(w, service, [], "");
      return w.say`${w.work("more", "A", calc`(${more.load} − ${now.load}) ÷ ${load} × ${current}`)}`;
    });
    return `${name} (${by})`;
  });
  w.part("Load");
  w.suppose(
    "not told, so not counted",
    open.map(({ name }) => name).join(", "),
    `one of usual size would add: ${moves.join(", ")}`,
    "no AC, gas heat, everything else is gas",
  );
}

export function cautions(
  w: Worksheet,
  request: AddedRequest,
  service: Service,
  { method, all }: Found,
  verdict: Reasoned | undefined,
): void {
  if (method === "measured demand") {
    w.caution(
      "Recorded demand counts only without solar, storage or peak shaving on this service; a recording must cover the heavier season.",
      "measured-demand",
    );
  }
  const full = all.find((each) => each.method === "standard");
  const isCharging = request.added?.some(({ kind }) => kind === "ev-charger");
  const isInPart = method === "existing dwelling" ||
    (method === "optional" && w.edition.rule("ev-optional") === "with the general loads");
  if (isCharging && full && isInPart && verdict?.is !== "not ok" && w.holds(full.load, ">", capacity(w, service))) {
    const current = w.scratch(() => w.say`${currentOf(w, service, full.load)}`);
    w.caution(
      `Only part of the charger counts in that method; by the standard one, which has it in full, it is ${current}. It runs for hours: a managed one spares trips.`,
    );
  }
  if (request.areas && !hasExistingMethod(w)) {
    w.caution(
      "This edition has a table of its own for existing dwellings; it was not seen in print and is not used here.",
    );
  }
  w.caution("The rating is that of the weakest of service conductors, meter socket, main and busbar: read them all.");
}
