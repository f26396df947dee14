/** What is varied in a wording, each by itself, and how much of it each level has. */

export const AXES = [
  "order", // of the facts
  "synonyms", // other names of the trade for the same thing
  "abbreviations", // w/h, cu, brkr
  "glued", // 48A, 120ft
  "unitSpelling", // kW or kw or kilowatt, A or amps
  "grouping", // 2,400
  "noCommas", // facts after each other with blanks alone
  "fractions", // 7 1/2 for 7.5
  "numberWords", // twelve
  "dictated", // two oh eight, a hundred fifty
  "counts", // 3x, (3), x3, three of them at … each
  "separators", // semicolons, lines, bullets, slashes
  "goalLast", // facts first, what is asked after them
  "noGoal", // facts alone, where they tell what is asked
  "slips", // one letter of a long word
  "letterCase", // all small, all large
  "parentheses", // around what is said beside
  "carriedUnit", // 8, 10 and 12 kW
  "metric", // lengths in metres, temperatures in degrees Celsius
  "edition", // named in the text
  "takenBack", // 40, no wait, 50 amps
  "story", // remarks that hold no fact, before, between and after
  "labelLines", // labels over or before values, each on its own line
] as const;
export type Axis = typeof AXES[number];
/** How often each axis is used where it could be, 0 (never) to 1. */
export type Axes = Readonly<Record<Axis, number>>;

const none = Object.fromEntries(AXES.map((axis) => [axis, 0])) as Axes;

export const LEVEL_NAMES = ["plain", "phone", "post"] as const;
export type Level = typeof LEVEL_NAMES[number];

/** Plain: as one would write it for a colleague. Phone: as it is typed on site. Post: as it is told to a group. */
export const LEVELS: Readonly<Record<Level, Axes>> = {
  plain: {
    ...none,
    order: 0.5,
    synonyms: 0.4,
    unitSpelling: 0.3,
    grouping: 0.2,
    fractions: 0.1,
    counts: 0.3,
    goalLast: 0.3,
    parentheses: 0.1,
    metric: 0.05,
    edition: 0.05,
  },
  phone: {
    ...none,
    order: 0.7,
    synonyms: 0.6,
    abbreviations: 0.6,
    glued: 0.6,
    unitSpelling: 0.6,
    noCommas: 0.3,
    fractions: 0.2,
    numberWords: 0.05,
    dictated: 0.06,
    counts: 0.7,
    separators: 0.3,
    goalLast: 0.5,
    noGoal: 0.25,
    slips: 0.12,
    letterCase: 0.5,
    parentheses: 0.15,
    carriedUnit: 0.3,
    metric: 0.08,
    edition: 0.08,
    takenBack: 0.05,
    labelLines: 0.08,
  },
  post: {
    order: 0.8,
    synonyms: 0.8,
    abbreviations: 0.4,
    glued: 0.35,
    unitSpelling: 0.7,
    grouping: 0.2,
    noCommas: 0.1,
    fractions: 0.3,
    numberWords: 0.2,
    dictated: 0.1,
    counts: 0.7,
    separators: 0.35,
    goalLast: 0.6,
    noGoal: 0.08,
    slips: 0.4,
    letterCase: 0.2,
    parentheses: 0.3,
    carriedUnit: 0.3,
    metric: 0.1,
    edition: 0.15,
    takenBack: 0.25,
    story: 0.8,
    labelLines: 0.2,
  },
};
