/** Bond or isolate: which jumper and how large, how many wires feed the panel, what electrodes it wants. */
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { bondingJumper, type Supply } from "../../../rules/grounding.ts";
import type { Material } from "../../../rules/conductors.ts";
import type { Judgement } from "../../parts/verdict.ts";
import { type Finding, judge } from "./finding.ts";
import { type Bond, type Installed, installed, inWords, isOldThreeWire, panelOf } from "./panel.ts";
import type { PanelRequest } from "./request.ts";

export function bonding(w: Worksheet, r: PanelRequest, { bond, phases }: Installed = installed(w, r)): Finding {
  const panel = panelOf(r);
  const wires = feedOf(w, r, phases);
  const electrodes = electrodesOf(w, r);
  const jumper = jumperOf(w, r, bond);
  cautions(w, r, bond);
  const where = `in the ${inWords(panel)}`;
  const how = bond.bonded ? bondedBy(r) : "grounds on a bar of their own, bonding screw or strap left out";
  return {
    says: w.say`neutral ${bond.step} ${where}: ${how}${
      jumper === undefined ? "" : w.say`, at least ${jumper} copper`
    }; fed by ${wires.step} wires, electrodes ${electrodes}`,
    judged: [...judgeBond(w, r, bond), ...judgeFeed(w, r, wires)],
  };
}

const bondedBy = (r: PanelRequest): string =>
  isOldThreeWire(r)
    ? "only because this feeder is an existing one without an equipment ground"
    : r.panel === "service panel"
    ? "by the main bonding jumper, here and nowhere after it"
    : "by the system bonding jumper, here and not at the transformer as well";

type Feed = { readonly count: number; readonly step: Known<"1"> };
/** Wires that feed the panel: lines, neutral, and the equipment ground or jumper that comes with them. */
function feedOf(w: Worksheet, r: PanelRequest, phases: 1 | 3): Feed {
  const lines = phases === 3 ? 3 : 2;
  const isService = r.panel === "service panel";
  const isWithout = isService || isOldThreeWire(r);
  const count = lines + 1 + (isWithout ? 0 : 1);
  const ground = r.panel === "after a transformer" ? "supply-side bonding jumper" : "equipment ground";
  const words = `${lines} lines, a neutral${isWithout ? "; no equipment ground on the line side" : `, an ${ground}`}`
    .replace("an supply", "a supply");
  const clause = isService ? "service-bonding" : isWithout ? "existing-three-wire-feeder" : "feeder-equipment-ground";
  const step = w.given("wires that feed the panel", { n: String(count), unit: "1" }, words, clause);
  w.figure("feed-wires", step, "wires that feed the panel");
  return { count, step };
}

function electrodesOf(w: Worksheet, r: PanelRequest): Known<"word"> {
  const say = (word: string, note: string, clause: string) => {
    const step = w.given("electrodes at this panel", word, note, clause);
    w.figure("electrodes", step, "grounding electrodes");
    return step;
  };
  switch (r.panel) {
    case "service panel":
      return say("required", "every electrode that is there, joined", "electrodes");
    case "separate structure": {
      const step = say(
        "required",
        "joined to the ground bar, not to the isolated neutral",
        "separate-structure-grounding",
      );
      const [spacing, limit] = [w.constant("rod-spacing"), w.constant("rod-resistance-limit")];
      w.caution(
        w.say`Two ground rods at least ${spacing} apart, unless one alone is ${limit} or less.`,
        "rod-electrodes",
      );
      return step;
    }
    case "after a transformer":
      return say("required", "the new system goes to the building's electrodes", "separately-derived");
    default:
      return say(
        "none of its own",
        "the service's electrodes serve it; more are allowed, on the ground bar",
        "electrodes",
      );
  }
}

/** The jumper's size, where the supply conductors were told; otherwise how to have it. */
function jumperOf(w: Worksheet, r: PanelRequest, { bonded }: Bond): ReturnType<typeof bondingJumper> | undefined {
  if (!bonded || isOldThreeWire(r)) return undefined;
  const isService = r.panel === "service panel";
  const [name, clause] = isService
    ? ["main bonding jumper", "main-bonding-jumper"] as const
    : ["system bonding jumper", "system-bonding-jumper"] as const;
  if (r.size === undefined) {
    w.caution(
      `The ${name} is the screw or strap that comes with the panel; a wire one is sized by the supply conductors.`,
      clause,
    );
    w.suggest("4/0 aluminum service conductors");
    return undefined;
  }
  const material = r.material ?? w.word(w.assume<"word">("conductor-material")) as Material;
  const supply: Supply = {
    size: w.given(`ungrounded ${material} conductors`, r.size),
    material,
    ...(r.sets !== undefined && r.sets > 1 && { sets: w.given("parallel sets", { n: String(r.sets), unit: "1" }) }),
  };
  const jumper = bondingJumper(w, supply, "copper", name, clause);
  w.figure(clause, jumper, `copper ${name}`);
  return jumper;
}

function cautions(w: Worksheet, r: PanelRequest, { bonded }: Bond): void {
  if (r.panel === "service panel") w.caution("Conductors ahead of the main stay live with the main off.");
  if (!bonded) {
    w.caution("A second bond puts normal current on grounds, raceways and cases.", "objectionable-current");
    w.caution("The ground bar is fastened to the case; a neutral bar stands on insulators.", "panel-ground-bar");
  }
  if (r.panel === "behind a transfer switch") {
    w.caution(
      r.switchedNeutral
        ? "Neutral switched: the generator is a source of its own, bonded at the generator."
        : "Neutral not switched: the generator's own bond is taken out.",
      "separately-derived",
    );
  }
}

/** Whether what was found there is as it has to be. */
function judgeBond(w: Worksheet, r: PanelRequest, { bonded, step }: Bond): Judgement[] {
  if (r.bonded === undefined) return [];
  const found = w.given("found in the panel", r.bonded ? "bonded" : "isolated");
  const what = "neutral and ground";
  if (r.bonded !== bonded) {
    return [judge(what, "not ok", w.say`neutral and ground are ${found} and have to be ${step} here`)];
  }
  return [judge(what, "ok", w.say`neutral and ground are ${found}, as they have to be here`)];
}

/** Whether the feeder told has an equipment ground. */
function judgeFeed(w: Worksheet, r: PanelRequest, { count, step }: Feed): Judgement[] {
  if (r.feederWires === undefined) return [];
  const told = w.given("wires told", { n: String(r.feederWires), unit: "1" });
  const what = "feeder";
  if (isOldThreeWire(r)) {
    const because = "no metal path joins the buildings, and the feeder was right when it was put in";
    return [judge(what, "ok if", because)];
  }
  if (r.feederWires >= count) return r.check ? [judge(what, "ok", w.say`${told} wires bring all that it wants`)] : [];
  const isService = r.panel === "service panel";
  return [judge(
    what,
    "not ok",
    w.say`${told} wires feed it and ${step} are wanted${
      isService ? "" : ": the equipment ground is a wire, or a metal raceway that may stand for it"
    }`,
  )];
}
