/** `@std/testing/bdd` for `nudge` and `mutants`: collects the tests instead of running them, so that a tool runs them itself. */
type Collected = { name: string; run: () => unknown };

const path: string[] = [];
let tests: Collected[] = [];

/** The tests collected since the last call. */
export function collected(): Collected[] {
  const all = tests;
  tests = [];
  return all;
}
export function describe(name: string, body: () => void): void {
  path.push(name);
  body();
  path.pop();
}
export function it(name: string, run: () => unknown): void {
  tests.push({ name: [...path, name].join(": "), run });
}
/** What comes after the tests prints or tidies up; it decides nothing. */
export function afterAll(_: () => unknown): void {}
