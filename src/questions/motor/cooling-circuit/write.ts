/** The request as it would be typed. */
import { writeWiring } from "../../parts/wiring.ts";
import type { CoolingRequest } from "./request.ts";

type Amperes = { value: number | string; unit: "A" };
const each = (count: number) => count === 1 ? "" : " each";
const counted = (count: number, one: string) => count === 1 ? one : `${count} ${one}s`;

export function write(r: CoolingRequest): string {
  const said = (name: string, figure: Amperes | undefined) => figure && `${name} ${figure.value} A`;
  const maximum = r.markedFor === "fuse" ? "max fuse" : r.markedFor ? "max fuse or breaker" : "MOCP";
  return [
    r.room ? undefined : "cooling equipment circuit: heat pump",
    said("MCA", r.minimumCircuitAmpacity),
    said(maximum, r.maximumProtection),
    said("minimum breaker", r.minimumProtection),
    ...(r.compressors ?? []).map(({ count, ratedLoad, selection }) =>
      [
        selection && `branch-circuit selection current ${selection.value} A`,
        ratedLoad && `${counted(count, "compressor")} RLA ${ratedLoad.value} A${each(count)}`,
      ].filter(Boolean).join(", ")
    ),
    ...(r.fans ?? []).map(({ count, current }) =>
      `${counted(count, "fan")} ${current ? `${current.value} A${each(count)}` : ""}`
    ),
    r.heat && `${r.heat.value} ${r.heat.unit} of electric heat on the same circuit`,
    r.interlocked ? "heat and compressor never run together" : undefined,
    r.hardStarting ? "it will not start" : undefined,
    r.percent && `at ${r.percent.value} %`,
    ...writeRoom(r),
    r.capacity && `${r.capacity.value} ${r.capacity.unit}`,
    r.volts && `${r.volts.value} V`,
    r.phases && (r.phases === 3 ? "three phase" : "single phase"),
    ...writeWiring(r),
    r.conduit && `${r.conduit} conduit`,
    r.length && `${r.length.value} ft`,
    r.dropLimit && `${r.dropLimit.value} % drop`,
    r.powerFactor && `power factor ${r.powerFactor}`,
    r.breakers && `is ${list(r.breakers)} breaker ok`,
    r.fuses && `is ${list(r.fuses)} fuse ok`,
    r.disconnect && `${r.disconnect.value} A disconnect`,
    r.size && `is ${r.size} ok`,
  ].filter((part): part is string => typeof part === "string" && part !== "").join(", ");
}

const list = (all: readonly Amperes[]) => all.map(({ value }) => `${value} A`).join(" or ");

function writeRoom({ room, unitCurrent }: CoolingRequest): (string | undefined)[] {
  const current = unitCurrent && `${unitCurrent.value} A`;
  if (!room) return [current && `heat pump ${current}`];
  const sharing = {
    alone: "alone on its circuit",
    shared: "with other outlets on the same circuit",
    "not told": undefined,
  };
  return [`room air conditioner ${current ?? ""}`.trim(), sharing[room]];
}
