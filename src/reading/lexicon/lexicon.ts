/** All terms of the trade in one tree of words: the longest term that stands at a place is what is read there. */
import { isNumberWord } from "../numbers.ts";
import { type Token, tokenize } from "../tokens.ts";
import { appliances } from "./appliances.ts";
import { changes, ends, goals, stories } from "./asking.ts";
import {
  above,
  buildings,
  circuits,
  coverings,
  finishes,
  fuels,
  hours,
  legs,
  methodsOfLoad,
  motorTypes,
  motorWords,
  places,
  shares,
  spaces,
} from "./circumstances.ts";
import { boxes, boxParts, boxWords } from "./boxes.ts";
import { COMMON } from "./common.ts";
import { devices, sources } from "./devices.ts";
import type { Entry, Lexicon } from "./entry.ts";
import { faults } from "./faults.ts";
import { labels } from "./labels.ts";
import { loads, machines } from "./machines.ts";
import { bars, connectors, facings, meterReadings, panelKinds, panelStates, rooms, transfers } from "./panels.ts";
import { connections, electrodes, insulations, metals, methods, phases, raceways, roles } from "./wiring.ts";

/** Every sort of term with its entries. */
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
  facing: facings,
  room: rooms,
} as const satisfies Record<string, Lexicon>;

export type Sort = keyof typeof SORTS;
export type Id<S extends Sort> = keyof (typeof SORTS)[S] & string;
/** A term: what sort it is and which. */
export type Term = { readonly sort: Sort; readonly id: string };

type Node = { next?: Map<string, Node>; terms?: Term[] };
const root: Node = {};
/** A slip of one letter is mended in words at least as long. */
const SHORTEST_MENDED = 5;
/** Words that a slip of one letter may be mended to. */
const mendable = new Set<string>(["edition"]);
const known = new Set<string>(COMMON);

function put(words: readonly string[], term: Term): void {
  let node = root;
  for (const word of words) {
    node.next ??= new Map();
    let next = node.next.get(word);
    if (!next) node.next.set(word, next = {});
    node = next;
  }
  node.terms ??= [];
  if (!node.terms.some(({ sort, id }) => sort === term.sort && id === term.id)) node.terms.push(term);
}

/** The words of a spelling, hyphens inside it left out: a hyphen is a space where terms are looked up. */
const wordsOf = (spelling: string): string[] =>
  tokenize(spelling).filter(({ text }) => text !== "-").map(({ text }) => text);

function plural(word: string): string[] {
  if (/[^aeiou]y$/.test(word)) return [`${word.slice(0, -1)}ies`];
  if (/(s|x|z|ch|sh)$/.test(word)) return [`${word}es`];
  return [`${word}s`];
}

function enter(term: Term, { says = [], short = [] }: Entry): void {
  for (const spelling of says) {
    const words = wordsOf(spelling);
    const last = words.at(-1)!;
    const many = [last, ...(/^\p{L}{3,}$/u.test(last) ? plural(last) : [])];
    for (const word of many) {
      const form = [...words.slice(0, -1), word];
      put(form, term);
      // `subpanel` for "sub panel".
      if (form.length === 2 && form.every((w) => /^\p{L}{3,}$/u.test(w))) put([form.join("")], term);
      for (const w of form) {
        known.add(w);
        // `heatr` is a heater, not several heats: of a short word the plural is no candidate.
        const isPlural = w === word && word !== last && last.length < SHORTEST_MENDED;
        if (w.length >= SHORTEST_MENDED && !isPlural && (!COMMON.has(w) || w.length > 6) && !isNumberWord(w)) {
          mendable.add(w);
        }
      }
    }
  }
  for (const spelling of short) {
    const words = wordsOf(spelling);
    put(words, term);
    // `evses`, `ahus`
    if (words.length === 1 && /^\p{L}{3,}$/u.test(spelling) && !spelling.endsWith("s")) {
      put([`${spelling}s`], term);
      known.add(`${spelling}s`);
    }
    for (const word of words) known.add(word);
  }
}
for (const [sort, entries] of Object.entries(SORTS)) {
  for (const [id, entry] of Object.entries(entries as Lexicon)) enter({ sort: sort as Sort, id }, entry);
}

/** The longest term at token `i`, with all its senses. Hyphens between words are passed over. */
export function termAt(tokens: readonly Token[], i: number): { terms: readonly Term[]; next: number } | undefined {
  let node: Node | undefined = root;
  let best: { terms: readonly Term[]; next: number } | undefined;
  for (let at = i; at < tokens.length; at++) {
    const { text, is } = tokens[at]!;
    if (is === "line") break;
    if (text === "-" && at > i && !node.next?.has("-")) continue;
    node = node.next?.get(text);
    if (!node) break;
    // `furnace with A/C`: the letter is the air conditioner's.
    const isCut = text === "a" && at > i && tokens[at + 1]?.text === "/" && tokens[at + 1]!.glued;
    if (node.terms && !isCut) best = { terms: node.terms, next: at + 1 };
  }
  return best;
}

export const isKnown = (word: string): boolean => known.has(word) || isNumberWord(word);
/** Whether a word is a term by itself. */
export const isTerm = (word: string): boolean => root.next?.get(word)?.terms !== undefined;
/** Words of the trade that a mistyped word may have meant. */
export const MENDABLE: ReadonlySet<string> = mendable;
