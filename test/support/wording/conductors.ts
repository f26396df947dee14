/** What conductors carry, and what drops along them. */
import type { AmpacityRequest as AmpacityRead } from "../../../src/questions/circuit/conductor-ampacity/request.ts";
import type { DropRequest as DropRead } from "../../../src/questions/circuit/voltage-drop/request.ts";
import { aside, fact, type Said } from "./compose.ts";
import type { Draw } from "./draw.ts";
import type { Amount, Pen } from "./pen.ts";
import { drawLength, drawRun, lengthWords, methodWords, runFacts } from "./wiring.ts";
import type { AsJson } from "../as-json.ts";

type AmpacityRequest = AsJson<AmpacityRead>;
type DropRequest = AsJson<DropRead>;

const SIZES = [
  "14",
  "12",
  "10",
  "8",
  "6",
  "4",
  "3",
  "2",
  "1",
  "1/0",
  "2/0",
  "3/0",
  "4/0",
  "250 kcmil",
  "350 kcmil",
  "500 kcmil",
];

export const ampacity = {
  draw(d: Draw, metric: number): AmpacityRequest {
    const { conduit: _, ...run } = drawRun(d, metric, {
      material: 0.8,
      method: 0.3,
      insulation: 0.7,
      terminals: 0.4,
      ambient: 0.4,
      conductors: 0.4,
    });
    const size = d.pick(SIZES);
    const check = d.chance(0.25) ? d.pick(["breaker", "load"] as const) : undefined;
    return {
      size,
      ...run,
      ...(check && { [check]: { value: d.pick([15, 20, 30, 40, 50, 60, 70, 90, 100, 125, 150, 200]), unit: "A" } }),
    };
  },

  say(r: AmpacityRequest, pen: Pen): Said {
    const wire = [pen.wire(r.size!, r.material), r.insulation].filter(Boolean).join(" ");
    const cable = r.insulation === undefined && r.method !== undefined && r.method !== "conductors in conduit";
    const breaker = r.breaker && pen.a(`${pen.amount(r.breaker, true)} breaker`);
    return {
      head: fact(cable ? `${wire} ${methodWords(pen, r)}` : wire, [
        "Wire",
        cable ? `${wire} ${methodWords(pen, r)}` : wire,
      ]),
      rest: runFacts(pen, r, ["material", "insulation", ...(cable ? ["method" as const] : [])]),
      ...(breaker
        ? {
          asks: (head: string) =>
            pen.one(
              `ampacity of ${head}, and is ${breaker} ok on it`,
              `is the ampacity of ${head} enough for ${breaker}`,
            ),
          asksAfter: pen.one(`ampacity, and is ${breaker} ok?`, `is the ampacity enough for ${breaker}?`),
        }
        : r.load
        ? {
          asks: (head: string) =>
            pen.one(
              `is ${head} ok for a load of ${pen.amount(r.load!)}`,
              `will ${head} carry ${pen.amount(r.load!)}`,
              `can ${head} carry ${pen.amount(r.load!)}`,
            ),
          asksAfter: pen.one(
            `will it carry ${pen.amount(r.load)}?`,
            `can it carry ${pen.amount(r.load)}?`,
            `good for a load of ${pen.amount(r.load)}?`,
          ),
        }
        : {
          asks: (head: string) =>
            `${
              pen.one(
                "what is the ampacity of",
                "ampacity of",
                "how many amps is good for",
                "how many amps for",
                "what's the ampacity of",
              ).replace("how many amps is good for", "how many amps can I put on")
            } ${head}`,
          asksAfter: pen.one(
            "what is the ampacity?",
            "ampacity?",
            "how many amps will it carry?",
            "how much current can it carry?",
            "what's it good for?",
          ),
        }),
    };
  },
};

const VOLTS: readonly { value: number; circuit?: DropRequest["circuit"] }[] = [
  { value: 120 },
  { value: 120, circuit: "single-phase" },
  { value: 240 },
  { value: 240, circuit: "single-phase" },
  { value: 208, circuit: "three-phase" },
  { value: 208, circuit: "single-phase" },
  { value: 480, circuit: "three-phase" },
  { value: 277 },
];

export const drop = {
  draw(d: Draw, metric: number): DropRequest {
    const find = d.pick(["drop", "drop", "conductor", "longest run"] as const);
    const { value, circuit } = d.pick(VOLTS);
    const size = find === "conductor" ? undefined : d.pick(SIZES);
    const run = drawRun(d, metric, {
      material: 0.7,
      method: 0,
      insulation: 0,
      terminals: 0,
      ambient: 0,
      conductors: 0,
      place: 0,
    });
    const base: DropRequest = {
      find,
      volts: { value, unit: "V" },
      ...(circuit && { circuit }),
      ...(run.material && { material: run.material }),
      ...(d.chance(0.2) && { method: "conductors in conduit" as const, conduit: d.pick(["PVC", "steel"] as const) }),
      ...(size !== undefined && { size }),
    };
    if (find === "drop" && d.chance(0.12)) {
      return {
        ...base,
        volts: { value: 120, unit: "V" },
        circuit: undefined,
        use: "lights",
        count: d.int(4, 15),
        load: { value: d.pick([50, 75, 100, 150]), unit: "W" },
        along: {
          first: { value: d.stepped(50, 300, 25), unit: "ft" },
          spacing: { value: d.stepped(20, 100, 10), unit: "ft" },
        },
        size: d.pick(["12", "10", "8", "6"]),
      };
    }
    const load: DropRequest["load"] = d.chance(0.75)
      ? { value: d.pick([5, 8, 10, 12, 15, 16, 20, 24, 30, 40, 50, 60, 80, 100, 150]), unit: "A" }
      : { value: d.pick([1.5, 2, 3, 5, 7.5, 10, 15]), unit: "kW" };
    return {
      ...base,
      ...(d.chance(0.1) && find === "conductor"
        ? { breaker: { value: d.pick([15, 20, 30, 50]), unit: "A" as const } }
        : { load }),
      ...(find !== "longest run" && { length: drawLength(d, metric, 500) }),
      ...(find === "drop"
        ? d.chance(0.15) && { check: true, limit: { value: d.pick([2, 3, 5]), unit: "%" as const } }
        : d.chance(0.6) && { limit: { value: d.pick([2, 3, 3, 5]), unit: "%" as const } }),
      ...(d.chance(0.1) && { powerFactor: d.pick([0.8, 0.85, 0.9, 0.95]) }),
      ...(d.chance(0.06) && size !== undefined && (size.includes("/") || size.includes("kcmil")) && { sets: 2 }),
    };
  },

  say(r: DropRequest, pen: Pen): Said {
    const { find } = r;
    const wire = r.size === undefined
      ? undefined
      : `${r.sets === undefined ? "" : `${r.sets} sets of `}${pen.wire(r.size, r.material)}`;
    const load = r.load && loadWords(pen, r);
    const facts = {
      volts: fact(voltsWords(pen, r), [pen.one("Voltage", "Volts"), voltsWords(pen, r)]),
      load: load === undefined ? undefined : fact(load, r.along ? undefined : ["Load", pen.amount(r.load!)]),
      length: r.length && lengthWords(pen, r.length),
      limit: r.limit && fact(limitWords(pen, r.limit)),
      conduit: r.conduit && aside(methodWords(pen, r)),
      powerFactor: r.powerFactor === undefined
        ? undefined
        : fact(`${pen.one("power factor", "pf", "PF")} ${r.powerFactor}`),
    };
    if (find === "conductor") {
      return {
        head: facts.load ?? fact(pen.a(`${pen.amount(r.breaker!, true)} ${pen.one("breaker", "circuit")}`)),
        rest: [
          r.material && aside(pen.material(r.material)),
          facts.volts,
          facts.length,
          facts.limit,
          facts.conduit,
          facts.powerFactor,
        ],
        asks: (head) =>
          `${
            pen.one(
              "what size wire for voltage drop for",
              "smallest wire for the voltage drop with",
              "wire size for voltage drop,",
            )
          } ${head}`,
        asksAfter: pen.one(
          "what size wire for voltage drop?",
          "what wire size keeps the voltage drop down?",
          "wire size for voltage drop?",
        ),
      };
    }
    const rest = [facts.volts, facts.load, facts.length, facts.limit, facts.conduit, facts.powerFactor];
    if (r.check) {
      const limit = pen.amount(r.limit!);
      return {
        head: fact(wire!, ["Wire", wire!]),
        rest: rest.filter((each) => each !== facts.limit),
        asks: (head) =>
          `${
            pen.one(
              `is the voltage drop within ${limit} on`,
              `is the voltage drop under ${limit} on`,
              `do I stay under ${limit} voltage drop on`,
            )
          } ${head}`,
        asksAfter: pen.one(
          `is the voltage drop within ${limit}?`,
          `is the voltage drop under ${limit}?`,
          `do I stay under ${limit} voltage drop?`,
        ),
      };
    }
    return find === "drop"
      ? {
        head: fact(wire!, ["Wire", wire!]),
        rest,
        asks: (head) =>
          `${
            pen.one("what is the voltage drop on", "voltage drop on", "what's my voltage drop on", "voltage drop of")
          } ${head}`.replace("voltage drop", pen.short("voltage drop", "VD", "volt drop")),
        asksAfter: pen.one(
          "what is the voltage drop?",
          "voltage drop?",
          "how much voltage drop?",
          "what's my voltage drop?",
        ),
      }
      : {
        head: fact(wire!, ["Wire", wire!]),
        rest,
        asks: (head) =>
          `${
            pen.one(
              "how far can I run",
              "how far can I go with",
              "longest run for",
              "max distance for",
              "what's the farthest I can run",
            )
          } ${head}`,
        asksAfter: pen.one("how far can I go?", "how far can I run it?", "longest run?", "max distance?"),
      };
  },
};

function voltsWords(pen: Pen, { volts, circuit }: DropRequest): string {
  const phases = circuit === "three-phase" ? 3 : circuit === "single-phase" ? 1 : undefined;
  return [pen.amount(volts!), phases && pen.phases(phases)].filter(Boolean).join(" ");
}

function loadWords(pen: Pen, { load, along, count }: DropRequest): string {
  if (!along) return pen.one(`${pen.amount(load!, true)} load`, `load of ${pen.amount(load!)}`, pen.amount(load!));
  const lights = `${count} ${pen.one("lights", "fixtures", "light poles")} ${pen.one("of", "at")} ${pen.amount(load!)}${
    pen.one("", " each")
  }`;
  const spacing = pen.one(
    `at ${pen.amount(along.spacing, true)} intervals`,
    `${pen.amount(along.spacing)} apart`,
    `spaced ${pen.amount(along.spacing)} apart`,
  );
  return `${lights} ${spacing} ${pen.one("starting at", "the first one at", "first at")} ${pen.amount(along.first!)}`;
}

const limitWords = (pen: Pen, limit: Amount): string =>
  pen.one(
    `max ${pen.amount(limit)} drop`,
    `${pen.amount(limit)} drop`,
    `keep it under ${pen.amount(limit)}`,
    `no more than ${pen.amount(limit)} drop`,
    `${pen.amount(limit)} max drop`,
  );
