/**
 * `deno task paraphrase`: any number of texts, and the first that were read differently.
 *
 *     deno task paraphrase [--kinds=a,b] [--n=100] [--seed=1] [--level=plain,phone,post] [--show=10] [--only=axis,axis] [--texts]
 */
import { AXES, type Axes, type Axis, type Level, LEVEL_NAMES, LEVELS } from "./axes.ts";
import { differences, type Differing, KINDS, paraphrase, RESULTS, tally } from "./wording.ts";

const USAGE = `deno task paraphrase [options]
  --kinds=a,b     kinds of question (all: ${KINDS.join(", ")})
  --n=100         texts of each kind and level
  --seed=1        another seed, other texts
  --level=a,b     ${LEVEL_NAMES.join(", ")}
  --show=5        how many differing texts to show of each kind and level
  --only=a,b      these axes alone, each as far as the level has it (${AXES.join(", ")})
  --without=a,b   all axes of the level but these
  --texts         print the texts and their requests, and ask nothing`;

function listOf<T extends string>(said: string | undefined, all: readonly T[], what: string): T[] {
  if (said === undefined) return [...all];
  return said.split(",").map((name) => {
    const found = all.find((each) => each === name);
    if (found === undefined) throw new RangeError(`there is no ${what} "${name}": there are ${all.join(", ")}`);
    return found;
  });
}

function countOf(said: string | undefined, usual: number, what: string): number {
  const n = said === undefined ? usual : Number(said);
  if (!Number.isInteger(n) || n < 0) throw new RangeError(`${what} is a whole number, not "${said}"`);
  return n;
}

function axesOf(level: Level, only: string | undefined, without: string | undefined): Axes {
  const kept = new Set<Axis>(only === undefined ? AXES : listOf(only, AXES, "axis"));
  for (const axis of without === undefined ? [] : listOf(without, AXES, "axis")) kept.delete(axis);
  return Object.fromEntries(AXES.map((axis) => [axis, kept.has(axis) ? LEVELS[level][axis] : 0])) as Axes;
}

function show({ text, request, edition, answer, result, outcome }: Differing): void {
  console.log(`  [${result}] ${text.replaceAll("\n", "\n      ")}`);
  console.log(`      says ${JSON.stringify(request)}${edition === undefined ? "" : ` under ${edition}`}`);
  if (outcome.outcome === "answered") {
    console.log(`      read ${JSON.stringify(outcome.answer.request)}`);
    console.log(`      ${differences(answer, outcome.answer).join("; ")}`);
  } else if (outcome.outcome === "unclear") {
    console.log(`      asks ${outcome.needs.map(({ ask }) => ask).join(" ")}`);
  } else console.log(`      because ${outcome.because}`);
}

export function main(args: readonly string[]): void {
  if (args.includes("--help")) return console.log(USAGE);
  const options = new Map(args.map((arg) => {
    const [, name, value = ""] = /^--([a-z]+)(?:=(.*))?$/.exec(arg) ?? [];
    if (name === undefined) throw new RangeError(`"${arg}" is no option.\n${USAGE}`);
    return [name, value] as const;
  }));
  const levels = listOf(options.get("level"), LEVEL_NAMES, "level");
  const texts = countOf(options.get("n"), 100, "n");
  const seed = countOf(options.get("seed"), 1, "seed");
  const shown = countOf(options.get("show"), 5, "show");
  for (const kind of listOf(options.get("kinds"), KINDS, "kind")) {
    for (const level of levels) {
      const axes = axesOf(level, options.get("only"), options.get("without"));
      if (options.has("texts")) {
        for (let number = 0; number < texts; number++) {
          const said = paraphrase(kind, level, { seed, number, axes });
          console.log(
            `${said.text}\n    ${JSON.stringify(said.request)}${said.edition ? ` under ${said.edition}` : ""}`,
          );
        }
        continue;
      }
      const differing: Differing[] = [];
      const counts = tally(kind, level, { texts, seed, axes, onDiffering: (it) => void differing.push(it) });
      console.log(
        `${kind.padEnd(19)} ${level.padEnd(6)} ${RESULTS.map((result) => `${result} ${counts[result]}`).join(", ")}` +
          ` of ${texts} (${Math.round(100 * counts.same / Math.max(1, texts))} % same)`,
      );
      // Another answer is worse than a question back: it is shown first.
      const worstFirst = [
        ...differing.filter(({ result }) => result === "other"),
        ...differing.filter(({ result }) => result !== "other"),
      ];
      worstFirst.slice(0, shown).forEach(show);
    }
  }
}

if (import.meta.main) {
  try {
    main(Deno.args);
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    console.error(error.message);
    Deno.exit(2);
  }
}
