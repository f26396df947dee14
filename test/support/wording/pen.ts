/** The hand that writes: numbers, units, counts and names as one person would type them in one text. */
import type { Axes, Axis } from "./axes.ts";
import type { Draw } from "./draw.ts";
import { aHundred, asFraction, dictated, inWords } from "./numbers.ts";

export type Amount = { value: number | string; unit: string };

/** A unit beside a number, in the singular before a noun: as usual, other spellings, and the spellings written out. */
const UNITS: Readonly<Record<string, { usual: string; other: string[]; out: [one: string, many: string] }>> = {
  A: { usual: "A", other: ["a", "amps"], out: ["amp", "amps"] },
  kA: { usual: "kA", other: ["ka", "KA"], out: ["kA", "kA"] },
  V: { usual: "V", other: ["v", "volts"], out: ["volt", "volts"] },
  kV: { usual: "kV", other: ["KV", "kv"], out: ["kilovolt", "kilovolts"] },
  W: { usual: "W", other: ["w", "watts"], out: ["watt", "watts"] },
  kW: { usual: "kW", other: ["kw", "KW"], out: ["kilowatt", "kilowatts"] },
  VA: { usual: "VA", other: ["va", "volt-amps"], out: ["VA", "VA"] },
  kVA: { usual: "kVA", other: ["kva", "KVA"], out: ["kVA", "kVA"] },
  MVA: { usual: "MVA", other: ["MVA"], out: ["MVA", "MVA"] },
  hp: { usual: "hp", other: ["HP", "horse"], out: ["horsepower", "horsepower"] },
  ft: { usual: "ft", other: ["feet", "'", "ft."], out: ["foot", "feet"] },
  in: { usual: "in", other: ["inches"], out: ["inch", "inches"] },
  yd: { usual: "yd", other: ["yards"], out: ["yard", "yards"] },
  m: { usual: "m", other: ["meters", "metres"], out: ["meter", "meters"] },
  ft2: { usual: "sq ft", other: ["sqft", "sq. ft.", "sf"], out: ["square foot", "square feet"] },
  m2: { usual: "m²", other: ["m2", "sq m"], out: ["square meter", "square meters"] },
  mm2: { usual: "mm²", other: ["mm2", "sq mm"], out: ["square millimeter", "square millimeters"] },
  kcmil: { usual: "kcmil", other: ["MCM", "mcm"], out: ["kcmil", "kcmil"] },
  "%": { usual: "%", other: ["percent", "pct"], out: ["percent", "percent"] },
  "°C": { usual: "°C", other: ["C", "deg C", "degrees C"], out: ["degrees Celsius", "degrees Celsius"] },
  "°F": { usual: "°F", other: ["F", "deg F", "degrees F"], out: ["degrees Fahrenheit", "degrees Fahrenheit"] },
};
/** Units of which somebody takes a value back. */
const TAKEN_BACK = ["A", "kW", "ft", "hp", "kVA"];

export class Pen {
  readonly #usesGlue: boolean;
  readonly #usesWords: boolean;
  readonly #dictates: boolean;
  readonly #abbreviates: boolean;
  /** Whether articles are left out. */
  readonly terse: boolean;
  /**
   * Whether a rating follows its appliance, "range 12 kW": of one text all or none, because without commas a mixture could
   * be paired either way.
   */
  readonly nameFirst: boolean;
  #mayTakeBack: boolean;

  constructor(readonly d: Draw, readonly axes: Axes) {
    this.#usesGlue = d.chance(axes.glued);
    this.#dictates = d.chance(axes.dictated);
    this.#usesWords = this.#dictates || d.chance(axes.numberWords);
    this.#abbreviates = d.chance(axes.abbreviations);
    this.#mayTakeBack = d.chance(axes.takenBack);
    this.terse = d.chance(axes.abbreviations);
    this.nameFirst = this.terse && d.chance(0.5);
  }

  /** Whether the axis is used here. */
  uses(axis: Axis): boolean {
    return this.d.chance(this.axes[axis]);
  }

  /** One of several names for the same thing, the first the plainest. */
  one(plain: string, ...others: string[]): string {
    return others.length > 0 && this.uses("synonyms") ? this.d.pick(others) : plain;
  }

  /** A word, or how it is shortened by those who shorten. */
  short(plain: string, ...shorter: string[]): string {
    return this.#abbreviates && this.d.chance(0.7) ? this.d.pick(shorter) : plain;
  }

  /** "a 12 kW range", "an 8 kW range"; terse hands leave the article out. */
  a(words: string): string {
    if (this.terse || /^(a|one) /.test(words)) return words;
    const isVowel =
      /^(8|11(?!\d)|18(?!\d)|[aeio]|AC|A\/C|AHU|EV|MCA|RLA|RHH|RHW|XHHW|NM|SE\b|MC\b|un(?!i))/.test(words) &&
      !/^one\b/.test(words);
    return `${isVowel ? "an" : "a"} ${words}`;
  }

  /** A bare number. */
  number(value: number | string): string {
    const n = Number(value);
    if (this.#dictates && this.d.chance(0.7)) {
      const said = (this.d.chance(0.5) ? aHundred(n) : undefined) ?? dictated(n) ?? inWords(n);
      if (said !== undefined) return said.replace("-", " ");
    } else if (this.#usesWords && this.d.chance(0.5)) {
      const said = n <= 1000 ? inWords(n) : undefined;
      if (said !== undefined) return said;
    }
    const fraction = this.uses("fractions") ? asFraction(n) : undefined;
    if (fraction !== undefined) return this.d.chance(0.3) ? fraction.replace(" ", "-") : fraction;
    if (n >= 1000 && Number.isInteger(n) && this.uses("grouping")) return n.toLocaleString("en-US");
    return String(value);
  }

  /** A number with its unit; `before` a noun it stands in the singular: "48 amp charger". */
  amount(of: Amount, before = false): string {
    const { value, unit } = this.#rescaled(of);
    // Hardly anybody writes half a horsepower as a decimal.
    const small = unit === "hp" && Number(value) < 1 && this.d.chance(8 * this.axes.fractions)
      ? asFraction(Number(value))
      : undefined;
    const said = small ?? this.number(value);
    const whole = `${said}${this.#unit(unit, said, Number(value), before)}`;
    if (!this.#mayTakeBack || !TAKEN_BACK.includes(unit) || !/^\d+$/.test(said) || !this.d.chance(0.5)) return whole;
    this.#mayTakeBack = false;
    const wrong = this.d.pick([Number(value) + 10, Number(value) * 2, Number(value) + 5]);
    return this.d.pick([
      `${wrong}, no wait, ${whole}`,
      `${wrong}, sorry, ${whole}`,
      `${wrong}${this.#unit(unit, String(wrong), wrong, before)}, scratch that, ${whole}`,
      `${wrong} no make that ${whole}`,
      `${wrong}, I mean ${whole}`,
    ]);
  }

  /** Kilowatts as watts and back: the same to the last digit. */
  #rescaled(of: Amount): Amount {
    const n = Number(of.value);
    if (of.unit === "kW" && n < 10 && !Number.isInteger(n) && this.d.chance(this.axes.unitSpelling / 3)) {
      return { value: Number((n * 1000).toFixed(3)), unit: "W" };
    }
    return of;
  }

  #unit(unit: string, said: string, n: number, before: boolean): string {
    const spelling = UNITS[unit];
    if (!spelling) throw new TypeError(`no spelling for the unit "${unit}"`);
    const out = spelling.out[before || (n === 1 && unit !== "A") ? 0 : 1]!;
    if (!/^[\d.,\/ -]+$/.test(said)) return ` ${unit === "hp" && this.d.chance(0.5) ? "hp" : out}`;
    let word = this.uses("unitSpelling") ? this.d.pick([...spelling.other, out]) : spelling.usual;
    if (before && (word === "amps" || word === "volts" || word === "watts" || word === "feet")) word = out;
    if (word === "'" || word === "%") return word;
    // Apart from its number a small "a" is an article.
    if (word === "a" && !this.#usesGlue) word = "A";
    const isShort = word.length <= 4 && !word.includes(" ");
    return isShort && this.#usesGlue && !/^(deg|pct|inch|yard)/.test(word) ? word : ` ${word}`;
  }

  /**
   * Several of the same: "three 12 kW ranges", "(3) 12 kW ranges", "12 kW ranges x3", "3 ranges at 12 kW each".
   * @param each what each of them is rated, as it stands before the noun; none where it is not said
   */
  several(count: number, one: string, each?: Amount, many = plural(one)): string {
    const rated = each && this.amount(each, true);
    const noun = (name: string) => rated === undefined ? name : `${rated} ${name}`;
    if (count === 1) return this.a(noun(one));
    const words = inWords(count) ?? String(count);
    const style = this.uses("counts") ? this.d.pick(["(n)", "nx", "xn", "each", "three"] as const) : "plain";
    switch (style) {
      case "(n)":
        return `(${count}) ${noun(many)}`;
      case "nx":
        return this.d.chance(0.5) ? `${count}x ${noun(one)}` : `${count} x ${noun(many)}`;
      case "xn":
        return `${noun(many)} x${this.d.chance(0.5) ? "" : " "}${count}`;
      case "each":
        return each
          ? `${count} ${many} ${this.d.pick(["at ", "", "@ "])}${this.amount(each)} each`
          : `${count} ${many}`;
      case "three":
        return `${words} ${noun(many)}`;
      default:
        return rated !== undefined || count < 10 ? `${words} ${noun(many)}` : `${count} ${many}`;
    }
  }

  /** "10 AWG", "#10", "10 gauge"; "2/0"; "250 kcmil". */
  size(size: string): string {
    if (size.endsWith("kcmil")) {
      const n = size.split(" ")[0]!;
      return this.#usesGlue ? `${n}${this.one("kcmil", "MCM", "mcm")}` : `${n} ${this.one("kcmil", "MCM", "mcm")}`;
    }
    if (size.includes("/")) {
      const n = size.split("/")[0]!;
      if (this.#usesWords && this.d.chance(0.5)) return `${inWords(Number(n))} aught`;
      return this.one(size, `${size} AWG`, size, `#${size}`);
    }
    if (this.#usesWords && this.d.chance(0.5)) return `number ${inWords(Number(size))}`;
    return this.one(
      `${size} AWG`,
      `#${size}`,
      `${size} gauge`,
      `#${size}`,
      this.short(`No. ${size}`, `${size} ga`, `${size}ga`),
    );
  }

  material(material: string): string {
    return material === "copper" ? this.short("copper", "cu", "Cu", "CU") : this.short("aluminum", "al", "AL", "alum");
  }

  /** Size and metal together: "10 AWG copper", "#10 cu". */
  wire(size: string, material: string | undefined): string {
    return [this.size(size), material && this.material(material)].filter(Boolean).join(" ");
  }

  volts(value: number | string): string {
    return this.amount({ value, unit: "V" });
  }

  phases(phases: 1 | 3): string {
    return phases === 3
      ? this.short(this.one("three phase", "3 phase", "three-phase", "3-phase"), "3ph", "3Ø", "3 ph", "3-ph")
      : this.short(this.one("single phase", "1 phase", "single-phase"), "1ph", "1Ø", "1 ph", "1-ph");
  }
}

/** The plural of a noun of the trade. */
export const plural = (one: string): string =>
  /(s|x|ch|sh)$/.test(one) ? `${one}es` : /[^aeiou]y$/.test(one) ? `${one.slice(0, -1)}ies` : `${one}s`;
