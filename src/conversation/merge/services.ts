/** What is said of a service whose load is known. */
import type { Fact } from "../../reading/facts.ts";
import { RATINGS } from "../../reading/passes/services.ts";
import { is } from "../../reading/manner.ts";
import type { Merging } from "./state.ts";

const SERVICES: ReadonlySet<string> = new Set(["service", "panel", "main"]);
const isService = ({ family, id }: Fact): boolean => family === "device" && SERVICES.has(id ?? "");

/** `make it a 200`, of a load whose service was asked for: what is put up for it. */
export function serviceRated(m: Merging): void {
  const [number, ...others] = m.numbers();
  const n = number?.value.sense.is === "number" ? number.value.sense.n : NaN;
  const isChange = m.news.free.some(({ key }) => key === "change:make" || key === "change:decide");
  if (!is(m.known, "service") || !number || others.length > 0 || !RATINGS.has(n) || !isChange) return;
  if (m.news.facts.length > 0 || m.adds || m.removes || m.facts.some((fact) => isService(fact) && fact.slots.rating)) {
    return;
  }
  const service = m.facts.find(isService);
  const rating = [{ ...number.value, sense: { is: "quantity" as const, n, unit: "A" as const } }];
  if (service) m.fill(service, { rating });
  else {m.append({
      family: "device",
      id: "service",
      said: "service",
      pieces: [],
      sentence: number.sentence,
      slots: { rating },
    });}
  // As a voltage it was read as well.
  for (const each of m.news.free) if (each.value.pieces[0] === number.value.pieces[0]) m.placed.add(each);
}
