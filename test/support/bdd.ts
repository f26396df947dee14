/**
 * `@std/testing/bdd` where JSR cannot be reached: the same names over Node's own test runner, which Deno ships.
 * Where JSR is reachable, point the import in deno.json at it and nothing else changes.
 */
export { after as afterAll, afterEach, before as beforeAll, beforeEach, describe, it } from "node:test";
