/** What of a headline is taken in at a glance: parted where a thought ends, never within brackets. */
import type { Page } from "./page.ts";

/** The dot of `in.` ends no sentence. */
const END = /(?:(?<!\bin)\.(?= [\p{Lu}\d])|[;,](?= ))/gu;

/** Where the thoughts of a headline end: behind the mark that ends each. */
export function thoughts(headline: string): { end: number; mark: "." | ";" | "," }[] {
  const open = (text: string) => text.split("(").length > text.split(")").length;
  return [...headline.matchAll(END)]
    .filter(({ index }) => !open(headline.slice(0, index)))
    .map(({ 0: mark, index }) => ({ end: index + 1, mark: mark as "." | ";" | "," }));
}

/** What the largest line has room for, what makes a sentence worth standing there alone, and half of one worth parting. */
const [GLANCE, ALONE, LEAST_REST] = [120, 40, 35];

/** What stands largest: the sizes, as far as a glance takes them in. A verdict and its reason stand beside their stamp. */
export function firstLine({ headline, verdict }: Page): { first: string; rest: string; isTold: boolean } {
  const reason = verdict ? headline.indexOf(verdict.because) : -1;
  const behind = reason < 0 ? "" : headline.slice(reason + verdict!.because.length).replace(/^[.:;,\s]+/, "");
  const isTold = behind !== "";
  const said = capital(isTold ? behind : headline);
  const end = endOfGlance(said);
  return { first: said.slice(0, end).replace(/[;,]$/, ""), rest: capital(said.slice(end).trim()), isTold };
}

/** A whole sentence stands better than a whole one and half of the next, and so does what a semicolon parts. */
function endOfGlance(said: string): number {
  if (said.length <= GLANCE) return said.length;
  const fitting = thoughts(said).filter(({ end }) => end <= GLANCE);
  const sentence = fitting.findLast(({ mark, end }) => mark === "." && end >= ALONE);
  const parts = fitting.filter(({ end }) => said.length - end >= LEAST_REST);
  const part = parts.findLast(({ mark, end }) => mark === ";" && end >= ALONE) ?? parts.at(-1);
  return (sentence ?? part)?.end ?? said.length;
}

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Keeps a number and its unit on one line. */
export const unbroken = (text: string): string =>
  text.replace(/(\d) (?=(?:[kM]?VA|AWG|A|V|k?W|hp|ft|kcmil|%)(?!\w))/g, "$1\u00a0");
