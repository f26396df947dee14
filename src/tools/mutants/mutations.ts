/** What a mistake of programming can make of a module: one place of its code changed, everything else as it was. */
import { parse } from "@babel/parser";

/** A change of one place: its code from `at` to `end` replaced. */
export type Mutation = {
  readonly at: number;
  readonly end: number;
  readonly line: number;
  readonly was: string;
  readonly is: string;
};

/** A node of the syntax tree, as far as it is looked at here. */
type Node = {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly loc: { readonly start: { readonly line: number } };
  readonly [field: string]: unknown;
};
const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && typeof (value as Node).type === "string";

/** Each operator and what is written in its place: the bound moved over, the test turned round, the sum the other way. */
const OPERATORS: Readonly<Record<string, string>> = {
  "<": "<=",
  "<=": "<",
  ">": ">=",
  ">=": ">",
  "===": "!==",
  "!==": "===",
  "&&": "||",
  "||": "&&",
  "+": "-",
  "-": "+",
  "*": "/",
  "/": "*",
};

/** Every place of a module that can be changed so that it still compiles, in the order of the text. */
export function mutationsOf(source: string): Mutation[] {
  const found: Mutation[] = [];
  const put = (node: Node, at: number, end: number, is: string) => {
    found.push({ at, end, line: node.loc.start.line, was: source.slice(at, end), is });
  };
  const look = (node: Node): void => {
    const [left, right, test] = [node.left, node.right, node.test];
    if (/^(Binary|Logical)Expression$/.test(node.type) && isNode(left) && isNode(right)) {
      const is = OPERATORS[node.operator as string];
      const at = source.indexOf(node.operator as string, left.end);
      const isText = node.operator === "+" && [left, right].some(({ type }) => /^(String|Template)Literal$/.test(type));
      if (is !== undefined && !isText) put(node, at, at + (node.operator as string).length, is);
    }
    const [yes, no] = [node.consequent, node.alternate];
    if (node.type === "ConditionalExpression" && isNode(yes) && isNode(no)) {
      put(node, yes.start, no.end, `${source.slice(no.start, no.end)} : ${source.slice(yes.start, yes.end)}`);
    }
    if (node.type === "IfStatement" && isNode(test)) {
      put(node, test.start, test.end, `!(${source.slice(test.start, test.end)})`);
    }
    if (node.type === "UnaryExpression" && node.operator === "!") put(node, node.start, node.start + 1, "");
    if (node.type === "BooleanLiteral") put(node, node.start, node.end, `${!node.value}`);
    if (node.type === "NumericLiteral") put(node, node.start, node.end, `${(node.value as number) + 1}`);
    // What is called for what it does, as a caution that is given.
    if (node.type === "ExpressionStatement" && isNode(node.expression) && node.expression.type === "CallExpression") {
      put(node, node.start, node.end, ";");
    }
  };
  visit(programOf(source), look);
  return found.sort((a, b) => a.at - b.at || a.end - b.end);
}

/** The module with its relative imports made whole, so that it may stand anywhere. */
export function standingAnywhere(source: string, module: URL): string {
  const paths: Node[] = [];
  visit(programOf(source), ({ source: path }) => isNode(path) && paths.push(path));
  return paths.toReversed().filter(({ value }) => /^\.{1,2}\//.test(value as string)).reduce(
    (text, { start, end, value }) =>
      text.slice(0, start) + JSON.stringify(new URL(value as string, module).href) + text.slice(end),
    source,
  );
}

export const changed = (source: string, { at, end, is }: Mutation): string =>
  source.slice(0, at) + is + source.slice(end);

const programOf = (source: string): Node =>
  parse(source, { sourceType: "module", plugins: ["typescript", "jsx"] }).program as unknown as Node;

/** Calls `look` for every node of code; types, and the values that types are made of, are none. */
function visit(node: Node, look: (node: Node) => void): void {
  if (/^TS(?!As|NonNull|Satisfies)/.test(node.type)) return;
  look(node);
  for (const value of Object.values(node)) {
    for (const child of Array.isArray(value) ? value : [value]) if (isNode(child)) visit(child, look);
  }
}
