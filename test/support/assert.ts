/**
 * `@std/assert` where JSR cannot be reached: the same names and meaning over `node:assert/strict`, which Deno ships.
 * Where JSR is reachable, point the import in deno.json at it and nothing else changes.
 */
import nodeAssert, { AssertionError } from "node:assert/strict";

export { AssertionError };

/** Fails unless `condition` is truthy. */
export function assert(condition: unknown, message?: string): asserts condition {
  nodeAssert.ok(condition, message);
}

/** Fails unless both are deeply and strictly equal. */
export function assertEquals<T>(actual: T, expected: T, message?: string): void {
  nodeAssert.deepStrictEqual(actual, expected, message);
}

/** Fails if both are deeply and strictly equal. */
export function assertNotEquals<T>(actual: T, expected: T, message?: string): void {
  nodeAssert.notDeepStrictEqual(actual, expected, message);
}

/** Fails unless both are the same value or object. */
export function assertStrictEquals<T>(actual: unknown, expected: T, message?: string): asserts actual is T {
  nodeAssert.strictEqual(actual, expected, message);
}

/** Fails unless the two numbers differ by no more than `tolerance` (default: one ten-millionth of `expected`). */
export function assertAlmostEquals(actual: number, expected: number, tolerance?: number, message?: string): void {
  const allowed = tolerance ?? Math.abs(expected) * 1e-7;
  if (!(Math.abs(actual - expected) <= allowed)) {
    throw new AssertionError({
      message: message ?? `${actual} is not within ${allowed} of ${expected}`,
      actual,
      expected,
    });
  }
}

/** Fails unless `actual` contains `expected`. */
export function assertStringIncludes(actual: string, expected: string, message?: string): void {
  if (!actual.includes(expected)) {
    throw new AssertionError({ message: message ?? `expected to find "${expected}" in: ${actual}`, actual, expected });
  }
}

/** Fails unless `actual` matches. */
export function assertMatch(actual: string, expected: RegExp, message?: string): void {
  nodeAssert.match(actual, expected, message);
}

/** Fails if `actual` is null or undefined. */
export function assertExists<T>(actual: T, message?: string): asserts actual is NonNullable<T> {
  if (actual === null || actual === undefined) {
    throw new AssertionError({ message: message ?? "expected a value", actual });
  }
}

// deno-lint-ignore no-explicit-any
type ErrorClass<E extends Error> = abstract new (...args: any[]) => E;

function checkThrown<E extends Error>(thrown: unknown, errorClass?: ErrorClass<E>, includes?: string): E {
  if (!(thrown instanceof (errorClass ?? Error))) {
    throw new AssertionError({ message: `expected ${errorClass?.name ?? "Error"}, got: ${thrown}`, actual: thrown });
  }
  if (includes !== undefined) assertStringIncludes((thrown as Error).message, includes);
  return thrown as E;
}

const NOTHING_THROWN = "expected it to throw, and it did not";

/** Fails unless `run` throws (an `errorClass`, with `includes` in its message); returns what was thrown. */
export function assertThrows<E extends Error = Error>(
  run: () => unknown,
  errorClass?: ErrorClass<E>,
  includes?: string,
): E {
  try {
    run();
  } catch (thrown) {
    return checkThrown(thrown, errorClass, includes);
  }
  throw new AssertionError({ message: NOTHING_THROWN });
}

/** Fails unless the promise of `run` rejects (an `errorClass`, with `includes` in its message). */
export async function assertRejects<E extends Error = Error>(
  run: () => Promise<unknown>,
  errorClass?: ErrorClass<E>,
  includes?: string,
): Promise<E> {
  try {
    await run();
  } catch (thrown) {
    return checkThrown(thrown, errorClass, includes);
  }
  throw new AssertionError({ message: NOTHING_THROWN });
}
