/** All terms of the trade in one tree of words: the longest term that stands at a place is what is read there. */
import { isNumberWord } from "../numbers.ts";
import { type Token, tokenize } from "../tokens.ts";
import { appliances } from "./appliances.ts";
import { boxes, boxParts, boxWords } from "./boxes.ts";
import { buildings } from "./buildings.ts";
import { changes } from "./changes.ts";
import { circuits } from "./circuits.ts";
import { COMMON } from "./common.ts";
import { devices, sources } from "./devices.ts";
import { ends } from "./ends.ts";
import type { Lexicon } from "./entry.ts";
import { faults } from "./faults.ts";
import { goals } from "./goals.ts";
import { fuels, hours, legs, shares } from "./hours.ts";
import { labels } from "./labels.ts";
import { loads, machines } from "./machines.ts";
import { methodsOfLoad } from "./methods-of-load.ts";
import { motorTypes, motorWords } from "./motors.ts";
import {
  bars,
  connectors,
  facings,
  meterReadings,
  panelKinds,
  panelStates,
  rooms,
  torqueUnits,
  transfers,
} from "./panels.ts";
import { above, finishes, places, spaces } from "./places.ts";
import { requiredSystems } from "./required-systems.ts";
import { stories } from "./stories.ts";
import { connections, coverings, electrodes, insulations, metals, methods, phases, raceways, roles } from "./wiring.ts";

/** Every sort of term with its entries; the import above names the file of each. */
export const SORTS = {
  appliance: appliances,
  machine: machines,
  load: loads,
  device: devices,
  source: sources,
  label: labels,
  metal: metals,
  insulation: insulations,
  method: methods,
  raceway: raceways,
  box: boxes,
  boxPart: boxParts,
  boxWord: boxWords,
  role: roles,
  electrode: electrodes,
  phase: phases,
  connection: connections,
  hours: hours,
  fuel: fuels,
  place: places,
  space: spaces,
  above,
  covering: coverings,
  finish: finishes,
  share: shares,
  leg: legs,
  building: buildings,
  motorType: motorTypes,
  motorWord: motorWords,
  methodOfLoad: methodsOfLoad,
  circuit: circuits,
  fault: faults,
  goal: goals,
  change: changes,
  end: ends,
  story: stories,
  panelKind: panelKinds,
  panelState: panelStates,
  transfer: transfers,
  bar: bars,
  meter: meterReadings,
  connector: connectors,
  torqueUnit: torqueUnits,
  facing: facings,
  room: rooms,
  requiredSystem: requiredSystems,
} as const satisfies Record<string, Lexicon>;

export type Sort = keyof typeof SORTS;
export type Id<S extends Sort> = keyof (typeof SORTS)[S] & string;
/** A term: what sort it is and which. */
export type Term = { readonly sort: Sort; readonly id: string };

/** How one term is written: as an entry has it, in full or short. */
type Spelling = { readonly term: Term; readonly text: string; readonly isShort: boolean };
type Node = { next?: Map<string, Node>; terms?: Term[] };

/** Plain words are the tokens they are read as; anything else is taken apart as a text is. */
const PLAIN = /^[a-z]+(?: [a-z]+)*$/;
const LETTERS = /^\p{L}{3,}$/u;

/** The words of a spelling, hyphens inside it left out: a hyphen is a space where terms are looked up. */
const wordsOf = (spelling: string): string[] =>
  PLAIN.test(spelling)
    ? spelling.split(" ")
    : tokenize(spelling).filter(({ text }) => text !== "-").map(({ text }) => text);

function plural(word: string): string {
  if (/[^aeiou]y$/.test(word)) return `${word.slice(0, -1)}ies`;
  return /(s|x|z|ch|sh)$/.test(word) ? `${word}es` : `${word}s`;
}

/** A spelling in words, in the singular and in the plural. */
function numbersOf({ text, isShort }: Spelling): string[][] {
  const words = wordsOf(text);
  const last = words.at(-1)!;
  // `evses`, `ahus`
  if (isShort) return words.length === 1 && LETTERS.test(text) && !text.endsWith("s") ? [words, [`${text}s`]] : [words];
  return LETTERS.test(last) ? [words, words.with(-1, plural(last))] : [words];
}
/** Every way in which a spelling is written: `subpanel` for "sub panel", too. */
const formsOf = (spelling: Spelling): string[][] =>
  numbersOf(spelling).flatMap((form) =>
    !spelling.isShort && form.length === 2 && form.every((word) => LETTERS.test(word))
      ? [form, [form.join("")]]
      : [form]
  );

const spellings: Spelling[] = [];
for (const [sort, entries] of Object.entries(SORTS)) {
  for (const [id, { says = [], short = [] }] of Object.entries(entries as Lexicon)) {
    const term: Term = { sort: sort as Sort, id };
    for (const text of says) spellings.push({ term, text, isShort: false });
    for (const text of short) spellings.push({ term, text, isShort: true });
  }
}

/** What the forms of a spelling begin with, of most found without putting the forms together: it is asked of all of them. */
function firstsOf(spelling: Spelling): string[] {
  const [, first, second, isLong] = TWO_OR_MORE.exec(spelling.text) ?? [];
  // Of three words and more all forms begin alike.
  if (first !== undefined && (isLong || spelling.isShort)) return [first];
  if (first === undefined || !PLAIN.test(spelling.text)) return formsOf(spelling).map(([first]) => first!);
  return LETTERS.test(first) && LETTERS.test(second!) ? [first, first + second, first + plural(second!)] : [first];
}
const TWO_OR_MORE = /^([a-z]+) ([^ ]+)( )?/;

/** The spellings by the words that one of their forms begins with. */
const byFirst = new Map<string, Spelling[]>();
for (const spelling of spellings) for (const first of firstsOf(spelling)) file(spelling, first);
function file(spelling: Spelling, first: string): void {
  const others = byFirst.get(first);
  if (!others) byFirst.set(first, [spelling]);
  else if (others.at(-1) !== spelling) others.push(spelling);
}

/** The tree of all terms that begin with a word; it grows when a text first has the word, since most texts have few. */
const trees = new Map<string, Node>();
function treeOf(first: string): Node | undefined {
  const known = trees.get(first);
  if (known) return known;
  const listed = byFirst.get(first);
  if (!listed) return undefined;
  const tree: Node = {};
  trees.set(first, tree);
  for (const spelling of listed) {
    for (const [word, ...rest] of formsOf(spelling)) if (word === first) put(tree, rest, spelling.term);
  }
  return tree;
}
function put(tree: Node, words: readonly string[], term: Term): void {
  let node = tree;
  for (const word of words) {
    node.next ??= new Map();
    let next = node.next.get(word);
    if (!next) node.next.set(word, next = {});
    node = next;
  }
  node.terms ??= [];
  if (!node.terms.some(({ sort, id }) => sort === term.sort && id === term.id)) node.terms.push(term);
}

const INCHES = new Set(["inch", "inches", '"', "''"]);
/** The longest term at token `i`, with all its senses. Hyphens between words are passed over. */
export function termAt(tokens: readonly Token[], i: number): { terms: readonly Term[]; next: number } | undefined {
  let node: Node | undefined;
  let best: { terms: readonly Term[]; next: number } | undefined;
  for (let at = i; at < tokens.length; at++) {
    const { text, is } = tokens[at]!;
    if (is === "line") break;
    if (text === "-" && at > i) continue;
    node = at === i ? treeOf(text) : node?.next?.get(text);
    if (!node) break;
    // `furnace with A/C`: the letter is the air conditioner's.
    const isCut = text === "a" && at > i && tokens[at + 1]?.text === "/" && tokens[at + 1]!.glued;
    // `xhhw 2 inch emt`: the number is the raceway's.
    const isOfNext = is === "number" && at > i && tokens[at - 1]!.text !== "-" &&
      INCHES.has(tokens[at + 1]?.text ?? "");
    if (node.terms && !isCut && !isOfNext) best = { terms: node.terms, next: at + 1 };
  }
  return best;
}

/** A slip of one letter is mended in words at least as long. */
const SHORTEST_MENDED = 5;
type Words = { readonly known: ReadonlySet<string>; readonly mendable: ReadonlySet<string> };
let all: Words | undefined;
/** Every word of every spelling, put together where a text first has a word that begins none. */
function words(): Words {
  if (all) return all;
  const known = new Set(COMMON);
  const mendable = new Set(["edition"]);
  for (const spelling of spellings) {
    const [singular, ...many] = numbersOf(spelling);
    for (const form of [singular!, ...many]) {
      for (const word of form) {
        known.add(word);
        // `heatr` is a heater, not several heats: of a short word the plural is no candidate.
        const isPlural = form !== singular && word === form.at(-1) && singular!.at(-1)!.length < SHORTEST_MENDED;
        const isMendable = word.length >= SHORTEST_MENDED && (!COMMON.has(word) || word.length > 6) &&
          !isNumberWord(word);
        if (!spelling.isShort && !isPlural && isMendable) mendable.add(word);
      }
    }
  }
  return all = { known, mendable };
}

/** Whether it is a word of the trade, or of many a text. */
export const isKnown = (word: string): boolean =>
  byFirst.has(word) || COMMON.has(word) || isNumberWord(word) || words().known.has(word);
/** Whether a word is a term by itself. */
export const isTerm = (word: string): boolean => treeOf(word)?.terms !== undefined;
/** Words of the trade that a mistyped word may have meant. */
export const mendable = (): ReadonlySet<string> => words().mendable;
