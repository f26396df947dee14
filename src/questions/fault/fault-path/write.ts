/** The request as it would be typed. */
import type { PathRequest } from "./request.ts";

type Quantity = { value: number | string; unit: string };
const text = ({ value, unit }: Quantity): string => `${value} ${unit}`;

export function write(r: PathRequest): string {
  const said = (value: Quantity | undefined, before: string, after = "") =>
    value ? `${before}${text(value)}${after}` : undefined;
  return [
    r.find ? "fault path, longest run:" : "fault path:",
    said(r.breaker, "", r.fuse ? " fuse" : " breaker"),
    !r.breaker && r.fuse ? "fuse" : undefined,
    said(r.volts, ""),
    r.system && `${r.system} V system`,
    r.phases && (r.phases === 3 ? "three phase" : "single phase"),
    said(r.length, "", " one way"),
    [r.size, r.material].filter(Boolean).join(" ") || undefined,
    r.method,
    r.conduit && `in ${r.conduit} conduit`,
    groundText(r),
    r.return === "earth" ? "the earth is the only fault return" : undefined,
    r.return === "raceway" ? `the ${r.flexible ?? "conduit"} is the ground` : undefined,
    said(r.returnImpedance, "raceway impedance "),
    said(r.earth, "", " to earth"),
    said(r.source, "available fault current "),
    r.ratio === undefined ? undefined : `X/R ratio ${r.ratio}`,
    said(r.temperature, "conductor temperature "),
    r.trips === undefined ? undefined : `trips at ${r.trips} times its rating`,
    r.groundFaultProtected ? "GFCI" : undefined,
    r.separate ? "to a separate structure" : undefined,
  ].filter((part) => part !== undefined).join(", ").replace(":,", ":");
}

function groundText({ ground, groundMaterial }: PathRequest): string | undefined {
  if (ground === undefined && groundMaterial === undefined) return undefined;
  return ["equipment ground", ground, groundMaterial].filter(Boolean).join(" ");
}
