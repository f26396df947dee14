/** Where and how conductors run: drawn and said alike for every kind that asks about them. */
import type { WiringFields } from "../../../src/questions/parts/wiring.ts";
import { aside, type Fact, fact } from "./compose.ts";
import type { Draw } from "./draw.ts";
import type { Amount, Pen } from "./pen.ts";

export type Run = WiringFields & { conduit?: "PVC" | "aluminum" | "steel" | undefined };
const WIRES = ["THHN", "THHN", "THWN-2", "THWN", "XHHW", "XHHW-2", "RHW-2", "THW", "TW"] as const;

/** What a run may say of itself; each part is left out more often than not. */
export type Parts = {
  material?: number;
  method?: number;
  insulation?: number;
  terminals?: number;
  ambient?: number;
  conductors?: number;
  place?: number;
};

export function drawRun(d: Draw, metric: number, { material = 0.4, method = 0.3, ...p }: Parts = {}): Run {
  const how = d.perhaps(
    method,
    () => d.pick(["conduit", "PVC", "steel", "NM cable", "NM cable", "UF cable", "MC cable", "SE cable"] as const),
  );
  const inPipe = how === undefined || how === "conduit" || how === "PVC" || how === "steel";
  const insulation = inPipe ? d.perhaps(p.insulation ?? 0.25, () => d.pick(WIRES)) : undefined;
  return {
    ...(d.chance(material) && { material: d.pick(["copper", "copper", "aluminum"] as const) }),
    ...(how !== undefined && { method: inPipe ? "conductors in conduit" : how as "NM cable" }),
    ...((how === "PVC" || how === "steel") && { conduit: how }),
    ...(insulation && { insulation }),
    ...(d.chance(p.terminals ?? 0.15) &&
      { terminals: { value: d.pick([60, 75, 75, 90] as const), unit: "°C" as const } }),
    ...(d.chance(p.ambient ?? 0.08) && {
      ambient: d.chance(metric)
        ? { value: d.pick([35, 38, 40, 45, 50]), unit: "°C" as const }
        : { value: d.pick([95, 100, 105, 110, 115, 120]), unit: "°F" as const },
    }),
    ...(inPipe && d.chance(p.conductors ?? 0.06) && { conductors: d.pick([4, 6, 9, 12, 20]) }),
    ...(d.chance(p.place ?? 0.04) && (inPipe && d.chance(0.5) ? { rooftop: true } : { wet: true })),
  };
}

/** All that was drawn, each as a fact of its own; `skip` what was said with the size. */
export function runFacts(pen: Pen, r: Run, skip: readonly (keyof Run)[] = []): (Fact | undefined)[] {
  const has = (field: keyof Run) => r[field] !== undefined && !skip.includes(field);
  return [
    has("material") ? aside(pen.material(r.material!)) : undefined,
    has("insulation") && has("method")
      ? aside(`${r.insulation} ${methodWords(pen, r)}`)
      : has("insulation")
      ? aside(pen.one(r.insulation!, `${r.insulation} wire`))
      : has("method")
      ? aside(methodWords(pen, r))
      : undefined,
    has("terminals") ? aside(terminalWords(pen, r.terminals!)) : undefined,
    has("ambient") ? fact(ambientWords(pen, r.ambient!)) : undefined,
    has("conductors") ? fact(countWords(pen, r.conductors!, r.method === "conductors in conduit")) : undefined,
    has("rooftop") ? fact(pen.one("on the roof", "on a rooftop", "run across the roof")) : undefined,
    has("wet") ? fact(pen.one("wet location", "in a wet location")) : undefined,
  ];
}

export function methodWords(pen: Pen, { method, conduit }: Run): string {
  switch (method) {
    case "NM cable":
      return pen.one("NM cable", "NM-B", "romex", "NM");
    case "UF cable":
      return pen.one("UF cable", "UF-B", "UF");
    case "MC cable":
      return pen.one("MC cable", "MC");
    case "SE cable":
      return pen.one("SE cable", "SER cable", "SER");
    default:
      return conduit === "PVC"
        ? pen.one("in PVC conduit", "in PVC", "in PVC pipe")
        : conduit === "steel"
        ? pen.one("in steel conduit", "in EMT", "in rigid steel conduit")
        : pen.one("in conduit", "in a raceway", "in pipe");
  }
}

function terminalWords(pen: Pen, terminals: Amount): string {
  const degrees = pen.amount(terminals, true);
  const ends = pen.one("terminals", "lugs", "terminations");
  return pen.one(`${degrees} ${ends}`, `${ends} rated ${degrees}`);
}

const ambientWords = (pen: Pen, ambient: Amount): string => {
  const degrees = pen.amount(ambient);
  return pen.one(
    `${degrees} ambient`,
    `ambient ${degrees}`,
    `ambient temperature of ${degrees}`,
    `${degrees} ambient temp`,
  );
};

const countWords = (pen: Pen, n: number, inRaceway: boolean): string =>
  pen.one(
    `${pen.number(n)} current-carrying conductors`,
    `${n} ${pen.short("current carrying conductors", "CCCs", "ccc", "CCC")}`,
    `${pen.number(n)} current carrying conductors${inRaceway ? " in the same raceway" : " all together"}`,
  );

/** How far it is, one way. */
export const lengthWords = (pen: Pen, length: Amount): Fact =>
  fact(
    pen.one(
      `${pen.amount(length)} run`.replace(/(feet|meters|metres|yards) run$/, "$1"),
      `${pen.amount(length)} one way`,
      `${pen.amount(length)} long`,
      `${pen.amount(length)} from the panel`,
      `run of ${pen.amount(length)}`,
      pen.amount(length),
    ),
    [pen.one("Length", "Distance", "Run"), pen.amount(length)],
  );

export const drawLength = (d: Draw, metric: number, most: number): { value: number; unit: "ft" | "m" } =>
  d.chance(metric)
    ? { value: d.stepped(10, Math.round(most / 3.5), 5), unit: "m" }
    : { value: d.stepped(20, most, 5), unit: "ft" };

/** "10/2 NM with ground", "12-3 romex". */
export function cableWords(pen: Pen, size: string, wires: number, r: Run): string {
  const name = methodWords(pen, r);
  return `${size}${pen.one("/", "-")}${wires} ${name}${pen.one("", " with ground", " w/ground", " w/g")}`;
}
