/** A slice of `deno task fuzz`: odd bodies under odd headers never end in a fault of ours. */
import { assertEquals } from "@std/assert";
import { fuzz } from "../../src/tools/fuzz.ts";

Deno.test(
  "what nobody would send is answered or refused",
  { sanitizeOps: false, sanitizeResources: false },
  async () => {
    assertEquals(await fuzz(1_500, 7), []);
  },
);
