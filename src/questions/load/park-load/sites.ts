/** The sites of a park, kind by kind: what each counts as, and what all of them put on the heaviest line. */
import { calc } from "../../../core/formula.ts";
import { need, NotCovered } from "../../../core/outcome.ts";
import { exact } from "../../../core/quantity.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { nameplate } from "../../../rules/nameplate.ts";
import { apparentPower } from "../../../rules/power.ts";
import type { Voltages } from "../../../rules/systems.ts";
import { asQuantity, plain } from "../../parts/quantities.ts";
import type { Park, Receptacle, Site } from "./request.ts";

type Wires = "line to neutral" | "line to line" | "three-phase";
/** Supply points of one kind, before the demand of the table. */
export type Group = {
  /** As they enter the table. */
  count: Known<"1">;
  /** What one counts as, and all of them. */
  one: Known<"VA">;
  load: Known<"VA">;
  /** On the heaviest line. */
  line: Known<"A">;
  kind: Kind;
};
/** Supply points of one kind as told, those of one kind added up: so that it does not matter how a list was split. */
type Kind = { count: number; name: string; key: string; wires: Wires; rating?: Receptacle["rating"]; site: Site };

/** @throws Unclear where a site tells nothing that it could be counted by */
export function workSites(w: Worksheet, park: Park, sites: readonly Site[], system: Voltages): Group[] {
  w.part(park === "marina" ? "Receptacles" : park === "mobile home park" ? "Lots" : "Sites");
  const told = sites.flatMap((site) => kindsOf(park, site, system));
  const kinds = [...new Set(told.map(({ key }) => key))].toSorted().map((key): Kind => {
    const same = told.filter((each) => each.key === key);
    return { ...same[0]!, count: same.reduce((sum, { count }) => sum + count, 0) };
  });
  return kinds.map((kind) => {
    const count = w.given(kind.name, { n: String(kind.count), unit: "1" });
    const { load, each } = OF_PARK[park](w, kind, system);
    return {
      count,
      one: load,
      load: w.work(`${kind.name}, connected`, "VA", calc`${count} × ${load}`),
      line: heaviestLine(w, kind, count, each, system),
      kind,
    };
  });
}

const NOUNS: Readonly<Record<Park, string>> = {
  "recreational vehicle park": "sites",
  "mobile home park": "lots",
  marina: "receptacles",
};

function kindsOf(park: Park, site: Site, system: Voltages): Kind[] {
  const { count = 1 } = site;
  if (park === "mobile home park") {
    const own = site.load ? ` of ${site.load.value} ${site.load.unit}` : "";
    return [{ count, name: `lots${own}`, key: `lots${own}`, wires: "line to line", site }];
  }
  if (site.tent) {
    return [{ count, name: "tent sites", key: "tent site", wires: "line to neutral", site }];
  }
  if (!site.receptacles) throw askReceptacles(park);
  return countedOf(park, site.receptacles).map((receptacle): Kind => {
    const wires = wiresOf(receptacle);
    if (wires === "three-phase" && system.phases === 1) {
      throw need(
        "system",
        "Three-phase receptacles need a three-phase supply. Is it 208Y/120 V?",
        "208Y/120 V three phase",
      );
    }
    const { rating } = receptacle;
    const name = `${rating.value} A ${WIRES[wires]}${NOUNS[park]}`;
    // Sorted by the rating, largest first, whatever the order they were told in.
    const key = `${String(1e6 - plain(rating)).padStart(9, "0")} ${wires}`;
    return { count: count * receptacle.count, name, key, wires, rating, site };
  });
}
const WIRES: Readonly<Record<Wires, string>> = {
  "line to neutral": "120 V ",
  "line to line": "",
  "three-phase": "three-phase ",
};

export const askReceptacles = (park: Park) =>
  need(
    "sites",
    park === "marina"
      ? "How many shore power receptacles are there, and what are they rated?"
      : "How many sites are there, and what is the largest receptacle of each: 20, 30 or 50 A?",
    park === "marina" ? "20 slips with 30 A and 10 slips with 50 A" : "24 sites with 50 A and 10 sites with 30 A",
  );

/**
 * What counts of the receptacles of one site: of a recreational vehicle's the largest alone; of a slip's all, but of several
 * voltages, of which a boat uses one, that of the most power.
 */
function countedOf(park: Park, receptacles: readonly Receptacle[]): readonly Receptacle[] {
  const [largest] = receptacles.toSorted((a, b) => sizeOf(b) - sizeOf(a));
  if (park !== "marina") return [{ ...largest!, count: 1 }];
  return new Set(receptacles.map(wiresOf)).size === 1 ? receptacles : [{ ...largest!, count: 1 }];
}
const STEPS: readonly Wires[] = ["line to neutral", "line to line", "three-phase"];
const sizeOf = (each: Receptacle): number => plain(each.rating) * (STEPS.indexOf(wiresOf(each)) + 1);

/** Receptacles up to this rating stand between a line and the neutral, unless another voltage was told. */
const LARGEST_OF_ONE_LINE = 30;
const LEAST_BETWEEN_LINES = 200;
function wiresOf({ rating, volts, phases }: Receptacle): Wires {
  if (phases === 3) return "three-phase";
  if (volts) return plain(volts) < LEAST_BETWEEN_LINES ? "line to neutral" : "line to line";
  return plain(rating) <= LARGEST_OF_ONE_LINE ? "line to neutral" : "line to line";
}

type Each = { load: Known<"VA">; each: Known<"A"> };
/** What one counts as, and the current of one. */
const OF_PARK: Readonly<Record<Park, (w: Worksheet, kind: Kind, system: Voltages) => Each>> = {
  "recreational vehicle park": (w, { name, wires, rating, site }, system) => {
    const row = site.tent ? "tent site" : `${plain(rating!)} A`;
    if (!w.has("recreational-vehicle-sites", "load", row)) {
      throw new NotCovered(
        `the table of recreational vehicle sites knows 20, 30 and 50 A receptacles, not ${row}`,
        w.edition.id,
      );
    }
    const load = w.lookUp<"VA">(`each of the ${name}`, "recreational-vehicle-sites", "load", row);
    return { load, each: currentOf(w, load, wires, system) };
  },
  "mobile home park": (w, { wires, site }, system) => {
    const least = w.constant<"VA">("mobile-home-lot-load");
    const load = site.load
      ? w.work(
        "each lot counts as",
        "VA",
        calc`max(${nameplate(w, "load of the largest home", site.load, system.lineToLine)}, ${least})`,
        "mobile-home-lots",
      )
      : least;
    return { load, each: currentOf(w, load, wires, system) };
  },
  marina: (w, { name, wires, rating }, system) => {
    const each = w.given(`rating of the ${name}`, asQuantity(rating!));
    const volts = wires === "line to neutral" ? system.lineToNeutral! : system.lineToLine;
    return { load: apparentPower(w, each, volts, wires === "three-phase" ? 3 : 1), each };
  },
};

const currentOf = (w: Worksheet, load: Known<"VA">, wires: Wires, { lineToLine, lineToNeutral }: Voltages) =>
  w.work("current of each", "A", calc`${load} ÷ ${wires === "line to neutral" ? lineToNeutral! : lineToLine}`);

/**
 * On the line that carries most of them, spread as evenly as their number allows. Between two lines of three the currents of two
 * pairs meet in a line 60° apart, a of one and b of the other: √(a² + a b + b²).
 */
function heaviestLine(
  w: Worksheet,
  { name, wires, count: n }: Kind,
  count: Known<"1">,
  each: Known<"A">,
  system: Voltages,
) {
  const of = `${name} on the heaviest line`;
  if (wires === "three-phase" || (wires === "line to line" && system.phases === 1)) {
    return w.work(of, "A", calc`${count} × ${each}`);
  }
  if (wires === "line to neutral") {
    const lines = w.given("lines", { n: system.phases === 3 ? "3" : "2", unit: "1" });
    return w.work(of, "A", calc`roundUp(${count} ÷ ${lines}) × ${each}`);
  }
  const pairs = w.given("pairs of lines", { n: "3", unit: "1" });
  const most = w.work(`most ${name} between two lines`, "1", calc`roundUp(${count} ÷ ${pairs})`);
  if (exact(n).equals(exact(1))) return w.work(of, "A", calc`${most} × ${each}`);
  const next = w.work("between the next two", "1", calc`roundUp((${count} − 1) ÷ ${pairs})`);
  return w.work(of, "A", calc`sqrt(${most} × ${most} + ${most} × ${next} + ${next} × ${next}) × ${each}`);
}
