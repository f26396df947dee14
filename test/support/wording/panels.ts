/** Checks at a panel: requests, and how somebody at the panel would say them. */
import type { PanelRequest as PanelRead } from "../../../src/questions/panel/panel-checks/request.ts";
import { fact, type Said } from "./compose.ts";
import type { Draw } from "./draw.ts";
import type { Pen } from "./pen.ts";
import type { AsJson } from "../as-json.ts";

type PanelRequest = AsJson<PanelRead>;

type Reading = NonNullable<PanelRequest["readings"]>[number];
const PANELS = ["service panel", "feeder panel", "separate structure"] as const;
const PAIRS = [["neutral bar", "ground bar"], ["neutral bar", "case"], ["ground bar", "case"]] as const;

/** One topic a request: they are asked one at a time. */
export const panels = {
  draw(d: Draw): PanelRequest {
    return d.pick([
      (): PanelRequest => ({ about: ["bonding"], panel: d.pick(PANELS) }),
      (): PanelRequest => {
        const [from, to] = d.pick(PAIRS);
        const reads = d.pick(["closed", "open"] as const);
        return { about: ["continuity"], panel: d.pick(PANELS), readings: [{ from, to, reads }] };
      },
      (): PanelRequest => ({ about: ["torque"], connector: "slotted screw", size: d.pick(["1/0", "2/0", "4/0"]) }),
      (): PanelRequest => ({
        about: ["torque"],
        connector: d.pick(["hex head", "split bolt"] as const),
        size: d.pick(["6", "4", "2", "1/0", "2/0", "250 kcmil"]),
        ...(d.chance(0.5) && { material: d.pick(["copper", "aluminum"] as const) }),
      }),
      (): PanelRequest => ({
        about: ["working space"],
        toGround: { value: d.pick([120, 277]), unit: "V" },
        facing: d.pick(["grounded surface", "live parts"] as const),
      }),
      (): PanelRequest => ({
        about: ["handle height"],
        handle: { value: d.pick([60, 72, 78, 79, 80, 84]), unit: "in" },
        check: true,
      }),
      (): PanelRequest => ({
        about: ["room protection"],
        room: d.pick(["bedroom", "kitchen", "bathroom", "laundry area", "living room", "hallway"] as const),
      }),
      (): PanelRequest => ({ about: ["record"], panel: d.pick(PANELS) }),
    ])();
  },

  say(r: PanelRequest, pen: Pen): Said {
    const [topic] = r.about!;
    return SAID[topic!]!(r, pen);
  },
};

const panelOf = (r: PanelRequest, pen: Pen): string =>
  ({
    "service panel": pen.one("service panel", "main service panel"),
    "feeder panel": pen.one("subpanel in the same building", "subpanel in the basement", "sub panel inside the house"),
    "separate structure": pen.one("subpanel in a detached garage", "barn subpanel", "panel in the shed"),
  } as Record<string, string>)[r.panel!]!;

const POINTS: Readonly<Record<string, readonly string[]>> = {
  "neutral bar": ["neutral bar", "neutral"],
  "ground bar": ["ground bar", "ground"],
  "case": ["the case", "the enclosure"],
};
function readingOf({ from, to, reads }: Reading, pen: Pen): string {
  const [a, b] = [from, to].map((point) => pen.one(POINTS[point]![0]!, ...POINTS[point]!));
  const closed = reads === "closed";
  return pen.one(
    `${a} to ${b} reads ${reads}`,
    closed ? `${a} to ${b} beeps` : `no continuity between ${a} and ${b}`,
    `${a} to ${b} ${closed ? "has continuity" : "doesn't beep"}`,
  );
}

const SAID: Readonly<Record<string, (r: PanelRequest, pen: Pen) => Said>> = {
  bonding: (r, pen) => ({
    head: fact(panelOf(r, pen)),
    rest: [],
    asks: (head) =>
      pen.one(`is the neutral bonded or isolated in ${pen.a(head)}`, `bond or isolate the neutral, ${head}`),
    asksAfter: "bond the neutral?",
  }),
  continuity: (r, pen) => ({
    head: fact(`${panelOf(r, pen)}, ${readingOf(r.readings![0]!, pen)}`),
    rest: [],
    asks: (head) => `what does it mean: ${head}`,
    asksAfter: "what does that mean?",
    bare: true,
  }),
  torque: (r, pen) => ({
    head: fact(
      `${pen.size(r.size!)}${r.material ? ` ${pen.short(r.material, r.material === "copper" ? "cu" : "al")}` : ""}`,
    ),
    rest: [fact(pen.one(r.connector!, r.connector === "slotted screw" ? "slotted lug" : `${r.connector} connector`))],
    asks: (head) => pen.one(`what torque for ${head}`, `tightening torque for ${head}`),
    asksAfter: "torque?",
  }),
  "working space": (r, pen) => ({
    head: fact(r.toGround!.value === 277 ? "480Y/277 V panel" : pen.one("120/240 V panel", "120/240V load center")),
    rest: [fact(
      r.facing === "grounded surface"
        ? pen.one("concrete wall opposite", "facing a brick wall")
        : pen.one("live parts on both sides", "another panel opposite"),
    )],
    asks: (head) =>
      pen.one(`how deep is the working space in front of ${pen.a(head)}`, `working space for ${pen.a(head)}`),
    asksAfter: pen.one("working space?", "working clearance?"),
  }),
  "handle height": (r, pen) => ({
    head: fact(`top breaker at ${pen.d.chance(0.3) ? `${r.handle!.value} inches` : `${r.handle!.value}"`}`),
    rest: [],
    asks: (head) => `is the ${head} ok`,
    asksAfter: "ok?",
  }),
  "room protection": (r, pen) => ({
    head: fact(r.room === "laundry area" ? "laundry room" : r.room!),
    rest: [],
    asks: (head) => pen.one(`does ${pen.a(head)} need arc fault protection`, `afci or gfci in ${pen.a(head)}`),
    asksAfter: pen.one("arc fault protection?", "afci?"),
  }),
  record: (r, pen) => ({
    head: fact(panelOf(r, pen)),
    rest: [],
    asks: (head) => pen.one(`check record for ${pen.a(head)}`, `continuity and torque record for ${pen.a(head)}`),
    asksAfter: "give me the check record",
  }),
};
