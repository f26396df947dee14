/** Methods of calculation, by name and by what belongs to one of them. */
import { each, type Lexicon } from "./entry.ts";

export const methodsOfLoad = {
  "existing dwelling": {
    says: ["existing dwelling method", "existing dwelling calculation", "existing dwelling calc"],
  },
  "measured demand": {
    says: ["measured demand method", "measured demand", "recorded demand method", "by measurement", "metered method"],
  },
  "as calculated": { says: ["as calculated method"] },
  // Loads of a farm's buildings.
  "already calculated": {
    says: [
      "already calculated",
      "computed",
      "computed load",
      "already computed",
      "already figured",
      "loads already calculated",
      "already by 220.102",
      "demand already taken",
      "after demand",
      "after demand factors",
      "after the factors",
      "after the building factors",
      ...each(["already at", "already", "already in"], ["demand", "demand load", "demand loads", "demand numbers"]),
    ],
  },
  "as connected": { says: ["loads as connected", "as connected"] },
  // Slips of a marina.
  "each metered": {
    says: [
      "each slip metered",
      "each slip is metered",
      "metered slip",
      "individually metered",
      "individual meter",
      "individual kwh meter",
      "own kwh meter",
      "kwh submeter",
      "submeter",
      "sub meter",
      "own submeter",
      "its own submeter",
      "its own kwh submeter",
      "own kwh submeter",
      "own meter",
      "its own kwh meter",
      "its own meter",
      "kwh meter",
      "kilowatt hour meter",
      "submetered",
      "sub metered",
      "separately metered",
      "a meter at each slip",
      "meter at every slip",
      "metered pedestal",
    ],
  },
  "not metered": {
    says: ["not metered", "unmetered", "no meters", "without meters", "not submetered", "not individually metered"],
  },
  // How long a demand was recorded for.
  "one-year": {
    says: [
      ...["over", "in", "for", "of", "from", "during"].flatMap((during) =>
        [
          "12 months",
          "the last 12 months",
          "the past 12 months",
          "one year",
          "1 year",
          "the last year",
          "the past year",
        ]
          .map((year) => `${during} ${year}`)
      ),
      "last 12 months",
      "past 12 months",
      "12 month record",
      ...["12 months of", "twelve months of", "one year of", "a year of", "1 year of", "year of"].flatMap((year) =>
        ["bills", "data", "utility data", "meter data", "demand data", "usage", "readings"].map((what) =>
          `${year} ${what}`
        )
      ),
      "one year record",
    ],
  },
  "thirty-days": {
    says: [
      "30 day recording",
      "logger",
      "load logger",
      "data logger",
      "recording meter",
      "30 day record",
      "30 days recording",
      "30 days of recording",
      "30 day study",
      "30 day load study",
      "30 day log",
      "30 day logging",
      "30 day metering",
      "30 day meter reading",
      "30 day measurement",
      "30 day peak",
      "30 day max",
      "30 days of logging",
      "thirty day recording",
      "thirty day study",
      ...each(["measured", "metered", "recorded", "logged"], ["30 days", "thirty days", "for 30 days", "over 30 days"]),
      ...each(["30 days", "thirty days"], ["measured", "metered", "recorded", "logged", "of metering", "of data"]),
      "over 30 days",
      "for 30 days",
    ],
  },
  "standard": {
    says: ["standard method", "standard calculation", "standard calc", "general method", "by the standard", "standard"],
    short: ["std", "std method", "std calc"],
  },
  "optional": {
    says: [
      "optional method",
      "optional calculation",
      "optional calc",
      "by the optional",
      "optional",
      "opt method",
      "opt calc",
    ],
    short: ["opt"],
  },
  "all dryers": {
    says: [
      "by the number of all dryers",
      "by the number of all",
      "by the actual number of dryers",
      "by the actual number",
      "for the actual number of dryers",
      "for the actual number",
      "factor for all dryers",
    ],
  },
  "two phases": { says: ["by twice the most between two phases", "twice the most between two phases"] },
  "column C": { says: ["column c", "by column c"] },
  "note 4": { says: ["note 4", "by note 4", "note four"] },
  "note 3": {
    says: ["note 3", "by note 3", "note three", "column b", "column a", "column a and b", "percentage column"],
  },
} as const satisfies Lexicon;
