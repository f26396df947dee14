/** Where a figure belongs: which end, which side. */
import { each, type Lexicon } from "./entry.ts";

export const ends = {
  "primary": { says: ["primary", "primary side", "line side", "high side", "high voltage side"], short: ["pri", "hv"] },
  "secondary": {
    says: ["secondary", "secondary side", "load side", "low side", "low voltage side"],
    short: ["sec", "lv"],
  },
  "supply-side": {
    says: [
      "supply side",
      "line side of the service",
      "ahead of the main",
      "ahead of the main breaker",
      ...each(["supply side", "line side", "source side"], ["connection", "tap", "interconnection", "connected"]),
    ],
  },
  "from": {
    says: [
      "fed from",
      "fed off",
      "fed by",
      "supplied by",
      "supplied from",
      "comes from",
      "coming from",
      "comes off",
      "coming off",
      "starts from",
      "starting from",
      "starting with",
      "starting w",
      "starting at",
      "off of",
    ],
  },
  // Where a source stands on a busbar.
  "opposite": {
    says: [
      "opposite end",
      "far end",
      "other end",
      "opposite the main",
      "opposite end of the bus",
      "other end of the bus",
      "far end of the bus",
      "end of the bus",
      "bottom of the bus",
      "bottom of the panel",
      "away from the main",
      "farthest from the main",
      "at the bottom",
    ],
  },
  "beside-main": {
    says: [
      "next to the main",
      "beside the main",
      "right under the main",
      "right below the main",
      "next to its main",
      "beside its main",
      "adjacent to the main",
      "directly under the main",
      "directly below the main",
      "same end as the main",
      "near the main",
    ],
  },
  "center-fed": {
    says: ["center fed", "centre fed", "main in the middle", "main in the center", "center main", "middle fed"],
  },
  "there": { says: ["currently has", "currently have"] },
  "wanted": { says: ["would like"] },
  "primary-only": {
    says: [
      "primary only",
      ...each(["primary", "primary breaker", "primary fuse", "primary side"], [
        "only protected",
        "only protection",
        "protected only",
      ]),
      "the only protection",
      "only protection",
      "only protecting the primary",
      "only protect the primary",
      "only on the primary",
      "protecting the primary only",
      "protected on the primary only",
      "nothing on the secondary",
      "fused primary only",
      "primary protection only",
      "primary only protection",
      "no secondary protection",
      ...each([
        "no secondary",
        "without a secondary",
        "skip the secondary",
        "without secondary",
        "leave out the secondary",
      ], [
        ...["main", "breaker", "overcurrent", "overcurrent protection", "ocpd", "device", "fuse"],
      ]),
      "unprotected secondary",
      "only primary protection",
    ],
  },
  "primary-and-secondary": {
    says: ["primary and secondary protection", "both primary and secondary protection", "protection on both sides"],
  },
  "feeds": {
    says: ["feeds", "feeding"],
  },
} as const satisfies Lexicon;
