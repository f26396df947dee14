/**
 * One tree, both evaluated and printed, so the shown formula is the computed one.
 *
 * A formula is written as a template, calc`${area} × ${unitLoad}`, read once, kept as plain JSON in the step it made, and
 * evaluated with its units checked. It may hold no number but 0, 1, 2 and 100: every other number is a step of its own,
 * with its source. In tests, mathjs computes what is printed again.
 */
import {
  combine,
  describeDimensions,
  exact,
  type Fraction,
  type Measure,
  NO_DIMENSIONS,
  sameDimensions,
  squareRoot,
} from "./quantity.ts";
import { type Compare, type Expr, type FunctionName, FUNCTIONS, type Known, type Sign, type StepId } from "./worked.ts";

const LITERALS = ["0", "1", "2", "100"];

/** A parsed template: `holes` stand where steps go in. */
type Shape = { lit: string } | { hole: number } | { op: Sign; args: [Shape, Shape] } | {
  fn: FunctionName;
  args: Shape[];
};
const shapes = new WeakMap<TemplateStringsArray, Shape>();

const TOKEN = /\s*(?:(?<lit>\d+(?:\.\d+)?)|(?<name>[A-Za-z]+)|(?<mark>[+−×÷(),]))/y;
type TemplateToken = { hole: number } | { lit: string } | { name: string } | { mark: string };

function tokensOf(text: TemplateStringsArray): TemplateToken[] {
  return text.flatMap((part, i) => {
    const tokens: TemplateToken[] = i === 0 ? [] : [{ hole: i - 1 }];
    for (let at = 0; part.slice(at).trim() !== ""; at = TOKEN.lastIndex) {
      TOKEN.lastIndex = at;
      const token = TOKEN.exec(part)?.groups;
      if (!token) throw new TypeError(`a formula may not hold "${part.slice(at).trim()}"`);
      const { lit, name, mark } = token;
      tokens.push(lit !== undefined ? { lit } : name !== undefined ? { name } : { mark: mark! });
    }
    return tokens;
  });
}

/** Reads sums of products of parts, a part being a step, a number, a function or a formula in brackets. */
function read(text: TemplateStringsArray): Shape {
  const seen = shapes.get(text);
  if (seen) return seen;
  const tokens = tokensOf(text);
  const takes = (...marks: string[]): string | undefined => {
    const next = tokens[0];
    if (next === undefined || !("mark" in next) || !marks.includes(next.mark)) return undefined;
    tokens.shift();
    return next.mark;
  };
  const needs = (mark: string) => {
    if (takes(mark) === undefined) throw new TypeError(`a formula lacks "${mark}" in: ${text.join("…")}`);
  };
  const chain = (part: () => Shape, ...signs: Sign[]): Shape => {
    let so = part();
    for (let op = takes(...signs); op !== undefined; op = takes(...signs)) so = { op: op as Sign, args: [so, part()] };
    return so;
  };
  const sum = (): Shape => chain(product, "+", "−");
  const product = (): Shape => chain(part, "×", "÷");
  const part = (): Shape => {
    const next = tokens.shift();
    if (next === undefined) throw new TypeError(`a formula ends too early: ${text.join("…")}`);
    if ("hole" in next) return next;
    if ("lit" in next) {
      if (!LITERALS.includes(next.lit)) {
        throw new TypeError(`a formula may not hold the number ${next.lit}: look it up`);
      }
      return next;
    }
    if ("mark" in next && next.mark !== "(") throw new TypeError(`a formula may not have "${next.mark}" there`);
    if ("name" in next) {
      if (!FUNCTIONS.includes(next.name as FunctionName)) throw new TypeError(`a formula may not use ${next.name}()`);
      needs("(");
    }
    const args = [sum()];
    while ("name" in next && takes(",") !== undefined) args.push(sum());
    needs(")");
    return "name" in next ? { fn: next.name as FunctionName, args } : args[0]!;
  };
  const whole = sum();
  if (tokens.length > 0) throw new TypeError(`a formula goes on after its end: ${text.join("…")}`);
  shapes.set(text, whole);
  return whole;
}

/** What may stand in a template: a step, or in `sum`, `min` and `max` a list of steps. */
type Hole = Known | readonly Known[];

function fill(part: Shape, holes: readonly Hole[]): Expr {
  if ("lit" in part) return part;
  if ("op" in part) return { op: part.op, args: [fill(part.args[0], holes), fill(part.args[1], holes)] };
  if ("fn" in part) {
    const args = part.args.flatMap((arg) => {
      const hole = "hole" in arg ? holes[arg.hole] : undefined;
      return Array.isArray(hole) ? (hole as Known[]).map((known): Expr => ({ ref: known.id })) : [fill(arg, holes)];
    });
    if (args.length === 0) throw new TypeError(`${part.fn}() of nothing`);
    return args.length === 1 && ["sum", "min", "max"].includes(part.fn) ? args[0]! : { fn: part.fn, args };
  }
  const hole = holes[part.hole];
  if (hole === undefined || Array.isArray(hole)) {
    throw new TypeError("a list of steps may stand only in sum, min or max");
  }
  return { ref: (hole as Known).id };
}

/** Writes a formula over steps: calc`(${total} − ${first}) × ${share}`. */
export const calc = (text: TemplateStringsArray, ...holes: Hole[]): Expr => fill(read(text), holes);

const [ZERO, HALF] = [exact(0), exact("1/2")];

const toWhole: Partial<Record<FunctionName, (n: Fraction) => Fraction>> = {
  // Half goes up: 77.5 A is 78 A in the published examples.
  round: (n) => n.add(HALF).floor(),
  roundUp: (n) => n.ceil(),
  roundDown: (n) => n.floor(),
  abs: (n) => n.abs(),
};

function aligned(measures: readonly Measure[]): readonly Measure[] {
  const odd = measures.find((m) => !sameDimensions(m.dimensions, measures[0]!.dimensions));
  if (odd) {
    throw new TypeError(
      `${describeDimensions(odd.dimensions)} cannot be put with ${describeDimensions(measures[0]!.dimensions)}`,
    );
  }
  return measures;
}

/**
 * Evaluates a formula exactly, checking the units at every sign.
 * @throws TypeError where units disagree, RangeError on division by zero.
 */
export function evaluate(expr: Expr, value: (id: StepId) => Measure): Measure {
  if ("lit" in expr) return { n: exact(Number(expr.lit)), dimensions: NO_DIMENSIONS };
  if ("ref" in expr) return value(expr.ref);
  const args = expr.args.map((arg) => evaluate(arg, value));
  const [first, second] = args as [Measure, Measure];
  if ("op" in expr) {
    switch (expr.op) {
      case "+":
      case "−":
        aligned(args);
        return { n: expr.op === "+" ? first.n.add(second.n) : first.n.sub(second.n), dimensions: first.dimensions };
      case "×":
        return { n: first.n.mul(second.n), dimensions: combine(first.dimensions, second.dimensions, 1) };
      case "÷":
        if (second.n.n === 0n) throw new RangeError("division by zero in a formula");
        return { n: first.n.div(second.n), dimensions: combine(first.dimensions, second.dimensions, -1) };
    }
  }
  if (expr.fn === "sqrt") {
    const halves = Object.entries(first.dimensions).map(([name, exponent]) => [name, exponent / 2] as const);
    if (halves.some(([, half]) => !Number.isInteger(half))) {
      throw new TypeError(`no square root of ${describeDimensions(first.dimensions)}`);
    }
    return { n: squareRoot(first.n), dimensions: Object.fromEntries(halves) };
  }
  aligned(args);
  const pick = (better: (sign: number) => boolean) =>
    args.reduce((best, each) => better(each.n.compare(best.n)) ? each : best);
  switch (expr.fn) {
    case "sum":
      return { n: args.reduce((total, each) => total.add(each.n), ZERO), dimensions: first.dimensions };
    case "min":
      return pick((sign) => sign < 0);
    case "max":
      return pick((sign) => sign > 0);
    default:
      return { n: toWhole[expr.fn]!(first.n), dimensions: first.dimensions };
  }
}

/** Whether a test holds. @throws TypeError where the two sides' units disagree. */
export function holds(test: Compare, value: (id: StepId) => Measure): boolean {
  const [left, right] = aligned([evaluate(test.left, value), evaluate(test.right, value)]) as [Measure, Measure];
  const sign = left.n.compare(right.n);
  return { "<": sign < 0, "≤": sign <= 0, ">": sign > 0, "≥": sign >= 0, "=": sign === 0 }[test.is];
}

const BINDS: Record<Sign, number> = { "+": 1, "−": 1, "×": 2, "÷": 2 };
const SPOKEN: Record<FunctionName, string> = {
  sum: "sum",
  min: "smaller of",
  max: "larger of",
  round: "round",
  roundUp: "round up",
  roundDown: "round down",
  sqrt: "√",
  abs: "size of",
};

/** Prints a formula, each step as `name` says: by its name for the symbols, by its value for the numbers. */
export function print(expr: Expr, name: (id: StepId) => string): string {
  if ("lit" in expr) return expr.lit;
  if ("ref" in expr) return name(expr.ref);
  if ("fn" in expr) {
    const args = expr.args.map((arg) => print(arg, name));
    return expr.fn === "sum" ? args.join(" + ") : `${SPOKEN[expr.fn]}(${args.join(", ")})`;
  }
  const side = (arg: Expr, right: boolean) => {
    const text = print(arg, name);
    const binds = "op" in arg ? BINDS[arg.op] : "fn" in arg && arg.fn === "sum" ? 1 : 3;
    const loose = binds < BINDS[expr.op] || (right && binds === BINDS[expr.op] && (expr.op === "−" || expr.op === "÷"));
    return loose ? `(${text})` : text;
  };
  return `${side(expr.args[0], false)} ${expr.op} ${side(expr.args[1], true)}`;
}

/** Ids of the steps a formula uses, in order of appearance. */
export function refs(expr: Expr): StepId[] {
  if ("lit" in expr) return [];
  return "ref" in expr ? [expr.ref] : expr.args.flatMap(refs);
}
