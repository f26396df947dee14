/**
 * One tree, both evaluated and printed, so the shown formula is the computed one.
 *
 * A formula is written as a template, calc`${area} × ${unitLoad}`, read once, kept as plain JSON in the step it made, and
 * evaluated with its units checked. It may hold no number but 0, 1, 2 and 100: every other number is a step of its own,
 * with its source. In tests, mathjs computes what is printed again.
 */
import { exact, type Fraction, inWords, type Measure, PLAIN, product, squareRoot } from "./quantity.ts";
import {
  type Compare,
  type Expr,
  type Formula,
  type FunctionName,
  FUNCTIONS,
  type Known,
  type Sign,
} from "./worked.ts";

const LITERALS = ["0", "1", "2", "100"];

/** A template as it was read: a formula over its holes, by their place. */
type Template = Expr<number>;
const templates = new WeakMap<TemplateStringsArray, Template>();

const TOKEN = /\s*(?:(?<lit>\d+(?:\.\d+)?)|(?<name>[A-Za-z]+)|(?<mark>[+−×÷(),]))/y;
type TemplateToken = { ref: number } | { lit: string } | { name: string } | { mark: string };

function tokensOf(text: TemplateStringsArray): TemplateToken[] {
  return text.flatMap((part, i) => {
    const tokens: TemplateToken[] = i === 0 ? [] : [{ ref: i - 1 }];
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
function read(text: TemplateStringsArray): Template {
  const seen = templates.get(text);
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
  const chain = (part: () => Template, ...signs: Sign[]): Template => {
    let so = part();
    for (let op = takes(...signs); op !== undefined; op = takes(...signs)) so = { op: op as Sign, args: [so, part()] };
    return so;
  };
  const sum = (): Template => chain(product, "+", "−");
  const product = (): Template => chain(part, "×", "÷");
  const part = (): Template => {
    const next = tokens.shift();
    if (next === undefined) throw new TypeError(`a formula ends too early: ${text.join("…")}`);
    if ("ref" in next) return next;
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
  templates.set(text, whole);
  return whole;
}

/** What may stand in a template: a step, or in `sum`, `min` and `max` a list of steps. */
type Hole = Known | readonly Known[];

/** The same formula over other references. Where one stands alone in sum, min or max it may become a list of them. */
export function overRefs<A, B>(expr: Expr<A>, to: (ref: A) => B | readonly B[]): Expr<B> {
  if ("lit" in expr) return expr;
  if ("op" in expr) return { op: expr.op, args: [overRefs(expr.args[0], to), overRefs(expr.args[1], to)] };
  if ("fn" in expr) {
    const args = expr.args.flatMap((arg) => {
      const ref = "ref" in arg ? to(arg.ref) : undefined;
      return Array.isArray(ref) ? ref.map((each: B): Expr<B> => ({ ref: each })) : [overRefs(arg, to)];
    });
    if (args.length === 0) throw new TypeError(`${expr.fn}() of nothing`);
    return args.length === 1 && ["sum", "min", "max"].includes(expr.fn) ? args[0]! : { fn: expr.fn, args };
  }
  const ref = to(expr.ref);
  if (Array.isArray(ref)) throw new TypeError("a list of steps may stand only in sum, min or max");
  return { ref: ref as B };
}

/** Writes a formula over steps: calc`(${total} − ${first}) × ${share}`. */
export const calc = (text: TemplateStringsArray, ...holes: Hole[]): Formula => overRefs(read(text), (at) => holes[at]!);

const [ZERO, HALF] = [exact(0), exact("1/2")];

const toWhole: Partial<Record<FunctionName, (n: Fraction) => Fraction>> = {
  // Half goes up: 77.5 A is 78 A in the published examples.
  round: (n) => n.add(HALF).floor(),
  roundUp: (n) => n.ceil(),
  roundDown: (n) => n.floor(),
  abs: (n) => n.abs(),
};

function aligned(measures: readonly Measure[]): readonly Measure[] {
  const odd = measures.find((m) => m.dimensions !== measures[0]!.dimensions);
  if (odd) {
    const [one, other] = [odd, measures[0]!].map(({ dimensions }) => inWords(dimensions));
    throw new TypeError(`${one} cannot be put with ${other}`);
  }
  return measures;
}

/**
 * Evaluates a formula exactly, checking the units at every sign.
 * @throws TypeError where units disagree, RangeError on division by zero.
 */
export function evaluate<Ref>(expr: Expr<Ref>, value: (ref: Ref) => Measure): Measure {
  if ("lit" in expr) return { n: exact(Number(expr.lit)), dimensions: PLAIN };
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
        return { n: first.n.mul(second.n), dimensions: product(first.dimensions, second.dimensions) };
      case "÷":
        if (second.n.n === 0n) throw new RangeError("division by zero in a formula");
        return { n: first.n.div(second.n), dimensions: product(first.dimensions, second.dimensions, -1) };
    }
  }
  if (expr.fn === "sqrt") return { n: squareRoot(first.n), dimensions: product(PLAIN, first.dimensions, 1 / 2) };
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
export function holds<Ref>(test: Compare<Ref>, value: (ref: Ref) => Measure): boolean {
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
export function print<Ref>(expr: Expr<Ref>, name: (ref: Ref) => string): string {
  if ("lit" in expr) return expr.lit;
  if ("ref" in expr) return name(expr.ref);
  if ("fn" in expr) {
    const args = expr.args.map((arg) => print(arg, name));
    return expr.fn === "sum" ? args.join(" + ") : `${SPOKEN[expr.fn]}(${args.join(", ")})`;
  }
  const side = (arg: Expr<Ref>, right: boolean) => {
    const text = print(arg, name);
    const binds = "op" in arg ? BINDS[arg.op] : "fn" in arg && arg.fn === "sum" ? 1 : 3;
    const loose = binds < BINDS[expr.op] || (right && binds === BINDS[expr.op] && (expr.op === "−" || expr.op === "÷"));
    return loose ? `(${text})` : text;
  };
  return `${side(expr.args[0], false)} ${expr.op} ${side(expr.args[1], true)}`;
}

/** The steps a formula uses, in order of appearance. */
export function refs<Ref>(expr: Expr<Ref>): Ref[] {
  if ("lit" in expr) return [];
  return "ref" in expr ? [expr.ref] : expr.args.flatMap(refs);
}
