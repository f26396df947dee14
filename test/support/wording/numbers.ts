/** Numbers in words: as they are written out, and as they are dictated. */

const SMALL = [
  ..."zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen".split(" "),
  ..."sixteen seventeen eighteen nineteen".split(" "),
];
const TENS = ["", "", ..."twenty thirty forty fifty sixty seventy eighty ninety".split(" ")];
/** All words that a number may be written with; no slip of the keyboard goes into one of them. */
export const NUMBER_WORDS: ReadonlySet<string> = new Set([
  ...SMALL,
  ...TENS,
  ..."hundred thousand point half quarter quarters oh aught number".split(" "),
]);

function belowHundred(n: number): string {
  if (n < 20) return SMALL[n]!;
  return TENS[Math.floor(n / 10)]! + (n % 10 === 0 ? "" : `-${SMALL[n % 10]}`);
}

function whole(n: number): string | undefined {
  if (n >= 1_000_000) return undefined;
  if (n >= 1000) {
    const rest = n % 1000;
    return `${whole(Math.floor(n / 1000))} thousand${rest === 0 ? "" : ` ${whole(rest)}`}`;
  }
  if (n < 100) return belowHundred(n);
  return `${SMALL[Math.floor(n / 100)]} hundred${n % 100 === 0 ? "" : ` ${belowHundred(n % 100)}`}`;
}

/** Written out: "twelve", "four and a half", "seven point two"; undefined where nobody would write it so. */
export function inWords(n: number): string | undefined {
  const ones = Math.floor(n);
  if (ones === n) return whole(n);
  if (n === 0.5) return "one half";
  if (n - ones === 0.5 && ones < 20) return `${whole(ones)} and a half`;
  const tenth = Math.round((n - ones) * 10);
  return Math.abs(n - ones - tenth / 10) < 1e-9 && ones < 100 ? `${whole(ones)} point ${SMALL[tenth]}` : undefined;
}

/** Spoken in haste: "two oh eight", "one twenty", "a hundred fifty", "twenty four hundred"; undefined where the words are the same. */
export function dictated(n: number): string | undefined {
  if (!Number.isInteger(n)) return undefined;
  const spoken = (below: number) => belowHundred(below).replace("-", " ");
  if (n > 100 && n < 1000) {
    const [hundreds, rest] = [Math.floor(n / 100), n % 100];
    if (rest === 0) return undefined;
    return `${SMALL[hundreds]} ${rest < 10 ? `oh ${SMALL[rest]}` : spoken(rest)}`;
  }
  if (n === 100) return "a hundred";
  if (n > 1000 && n < 10_000 && n % 100 === 0 && n % 1000 !== 0) return `${spoken(n / 100)} hundred`;
  return undefined;
}

/** "a hundred fifty": only of 101 to 199. */
export const aHundred = (n: number): string | undefined =>
  Number.isInteger(n) && n > 100 && n < 200 ? `a hundred ${belowHundred(n - 100).replace("-", " ")}` : undefined;

/** With a fraction of halves, quarters: "7 1/2", "3/4"; undefined where there is none. */
export function asFraction(n: number): string | undefined {
  const ones = Math.floor(n);
  const part = ({ 0.25: "1/4", 0.5: "1/2", 0.75: "3/4" } as Record<string, string>)[String(n - ones)];
  if (part === undefined) return undefined;
  return ones === 0 ? part : `${ones} ${part}`;
}
