/**
 * What holds of every kind of question, written once: requests of the examples, and random ones where somebody has put the
 * kind into words. Order and counts of lists are `metamorphic.test.ts`, texts that say the same `paraphrase.test.ts`.
 */
import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Request } from "../src/engine.ts";
import { answered, ask, EDITIONS, engine } from "./support/engine.ts";
import { sound } from "./support/sound.ts";
import { differences, KINDS, paraphrase } from "./support/wording/wording.ts";

const DRAWN = 12;
/** Requests that are answered in the edition that is taken where none is named. */
const requestsOf = (kind: string, examples: readonly string[]): Request[] =>
  [
    ...examples.map((example) => answered(example).request as Request),
    ...(KINDS.includes(kind) ? Array.from({ length: DRAWN }, (_, number) => drawn(kind, number)) : []),
  ].map(({ edition: _, ...request }) => request as Request);
const drawn = (kind: string, number: number) => paraphrase(kind, "plain", { seed: 7, number }).request;

/** The same object with its fields told in the other order, however deep. */
const turned = <T>(value: T): T =>
  Array.isArray(value)
    ? value.map(turned) as T
    : typeof value === "object" && value !== null
    ? Object.fromEntries(Object.entries(value).reverse().map(([key, inner]) => [key, turned(inner)])) as T
    : value;

for (const { id, examples } of engine.questions) {
  describe(id, () => {
    const requests = requestsOf(id, examples);

    it("ends in a whole outcome in every edition, answered where it was drawn so", () => {
      for (const request of requests) {
        for (const edition of EDITIONS) sound(ask(request, { edition }));
        assertEquals(ask(request).outcome, "answered", JSON.stringify(request));
      }
    });

    it("is written so that reading it gives the same answer", () => {
      for (const request of requests) {
        const first = answered(request);
        const again = ask(first.restated);
        assertEquals(again.outcome, "answered", first.restated);
        if (again.outcome === "answered") assertEquals(differences(first, again.answer), [], first.restated);
      }
    });

    it("is answered alike whatever the order of its fields", () => {
      for (const request of requests) {
        const [first, other] = [answered(request), answered(turned(request))];
        assertEquals(other, first, JSON.stringify(request));
      }
    });
  });
}
