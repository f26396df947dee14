/** Fault currents, and whether a breaker trips on a fault. */
import type { FaultRequest as FaultRead } from "../../../src/questions/fault/fault-current/request.ts";
import type { PathRequest as PathRead } from "../../../src/questions/fault/fault-path/request.ts";
import { fact, type Said } from "./compose.ts";
import type { Draw } from "./draw.ts";
import type { Pen } from "./pen.ts";
import { methodWords } from "./wiring.ts";
import type { AsJson } from "../as-json.ts";

type FaultRequest = AsJson<FaultRead>;
type PathRequest = AsJson<PathRead>;

const SYSTEMS = ["120/240", "208Y/120", "480Y/277"] as const;
/** Where a stretch ends, and how else that is said. */
const ENDS = { panel: ["panel"], "meter main": ["meter main"], subpanel: ["sub panel"], garage: ["garage"] } as const;
const IMPEDANCES = [1.5, 1.6, 2, 2.5, 3, 4, 5.75];

export const faultCurrent = {
  draw(d: Draw): FaultRequest {
    const ends = d.shuffle(Object.keys(ENDS) as (keyof typeof ENDS)[]);
    const count = d.pick([0, 1, 1, 1, 2]);
    const byPower = d.chance(0.6);
    const system = d.pick(SYSTEMS);
    const run = Array.from({ length: count }, (_, i) => ({
      length: { value: d.stepped(20, 240, 5), unit: "ft" as const },
      size: d.pick(["4/0", "2", "1/0", "6", "250 kcmil", "3/0"]),
      material: d.pick(["copper", "aluminum"] as const),
      to: ends[i]!,
    }));
    return {
      ...(byPower
        ? {
          power: {
            value: d.pick(system === "120/240" ? [25, 37.5, 50, 100] : [75, 150, 300, 750]),
            unit: "kVA" as const,
          },
          impedance: { value: d.pick(IMPEDANCES), unit: "%" as const },
          ...(d.chance(0.3) && { tolerance: { value: d.pick([0, 10]), unit: "%" as const } }),
        }
        : { source: { value: d.pick([10, 14, 22, 30, 42]), unit: "kA" as const } }),
      system,
      ...(system === "120/240" && d.chance(0.4) && { fault: d.pick(["line-to-line", "line-to-neutral"] as const) }),
      ...(count > 0 && { run }),
      ...(count > 0 && d.chance(0.3) && { conduit: d.pick(["steel", "PVC"] as const) }),
      ...(d.chance(0.2) && { rating: { value: d.pick([10, 14, 22, 42]), unit: "kA" as const } }),
    };
  },

  say(r: FaultRequest, pen: Pen): Said {
    const transformer = pen.short("transformer", "xfmr");
    const stretches = (r.run ?? []).map(({ length, size, material, to }) => {
      const wire = `${pen.amount(length!)} of ${pen.size(size!)} ${pen.material(material!)}`;
      return to === undefined ? wire : `${wire} to the ${pen.one(to, ...ENDS[to as keyof typeof ENDS] ?? [])}`;
    });
    const asked = pen.one("available fault current", "fault current", "short circuit current");
    return {
      head: fact(r.power ? pen.a(`${pen.amount(r.power, true)} ${transformer}`) : `${pen.amount(r.source!)} available`),
      rest: [
        r.impedance && fact(pen.one(`${pen.amount(r.impedance)} impedance`, `${pen.amount(r.impedance)} Z`)),
        r.tolerance && fact(r.tolerance.value === 0 ? "no tolerance" : `${pen.amount(r.tolerance)} tolerance`),
        fact(pen.one(`${r.system} V`, `${r.system} volts`, r.system!)),
        r.fault && fact(`${r.fault.replaceAll("-", " ")} fault`),
        // One stretch goes on from the other: their order says so.
        stretches.length > 0 ? fact(stretches.join(", ")) : undefined,
        r.conduit &&
        fact(r.conduit === "steel" ? pen.one("in steel conduit", "in EMT") : pen.one("in PVC conduit", "in PVC")),
        r.rating &&
        fact(`${pen.one("is", "would")} ${r.rating.value} ${pen.one("kAIC", "kA AIC")} ${pen.one("ok", "enough")}`),
      ],
      asks: (head) => `${asked} for ${head}`,
      asksAfter: `${asked}?`,
    };
  },
};

const WIRES = { 15: "14", 20: "12", 30: "10", 40: "8", 60: "6" } as const;

export const faultPath = {
  draw(d: Draw): PathRequest {
    const rating = d.pick([15, 20, 20, 30, 40, 60] as const);
    const isCable = d.chance(0.5);
    const volts = isCable ? d.pick([undefined, 120, 240] as const) : d.pick([undefined, 120, 240, 277] as const);
    const far = d.chance(0.2);
    return {
      breaker: { value: rating, unit: "A" },
      size: WIRES[rating],
      ...(far ? { find: "longest run" as const } : { length: { value: d.stepped(40, 400, 10), unit: "ft" as const } }),
      ...(volts && { volts: { value: volts, unit: "V" as const } }),
      ...(isCable
        ? { method: d.pick(["NM cable", "UF cable"] as const) }
        : { material: "copper" as const, ...(d.chance(0.6) && { ground: d.pick(["12", "10"]) }) }),
      ...(d.chance(0.3) && { source: { value: d.pick([2, 5, 8, 10]), unit: "kA" as const } }),
      ...(d.chance(0.15) && { trips: d.pick([5, 8, 10]) }),
    };
  },

  say(r: PathRequest, pen: Pen): Said {
    const wire = r.method
      ? pen.one(`${r.size}/2 ${methodWords(pen, r)}`, `${r.size}-2 ${methodWords(pen, r)}`)
      : pen.wire(r.size!, r.material);
    const trips = r.find
      ? pen.one(
        "how far can it go and still trip on a fault to the case",
        "longest run for a fault to the case to trip it instantly",
      )
      : pen.one(
        "will it trip on a fault to the case",
        "does it trip on a ground fault",
        "will it trip on a dead short to ground",
      );
    return {
      head: fact(pen.a(`${pen.amount(r.breaker!, true)} ${pen.short("breaker", "brkr", "bkr")}`)),
      rest: [
        fact(wire),
        r.ground === undefined
          ? undefined
          : fact(pen.one(`${pen.size(r.ground)} ${r.material ?? "copper"} ground`, `${pen.size(r.ground)} EGC`)),
        r.length &&
        fact(pen.one(pen.amount(r.length), `${pen.amount(r.length)} run`, `${pen.amount(r.length)} one way`)),
        r.volts && fact(pen.volts(r.volts.value)),
        r.source &&
        fact(pen.one(`${pen.amount(r.source)} available at the panel`, `${pen.amount(r.source)} available`)),
        r.trips === undefined ? undefined : fact(`${r.trips} times ${pen.one("its rating", "the breaker rating")}`),
      ],
      asks: (head) => `${trips}: ${head}`,
      asksAfter: `${trips}?`,
    };
  },
};
