import type { BackfeedRequest, Source } from "./request.ts";

const said = ({ value, unit }: { value: number | string; unit: string }): string => `${value} ${unit}`;

function writeSource({ kind, count, breaker, output }: Source): string {
  const many = count > 1 ? `${count} × ` : "";
  if (!breaker && !output) return `largest ${kind} breaker`;
  if (!breaker) return `${many}${output ? `${said(output)} ` : ""}${kind}`;
  return `${many}${said(breaker)} ${kind} breaker${output ? `, output ${said(output)}` : ""}`;
}

/** The request as it would be typed. */
export function write({ bus, main, sources = [], ...r }: BackfeedRequest): string {
  return [
    "backfeed on a busbar",
    bus ? `${said(bus)} bus` : "",
    main ? `${said(main)} main` : "",
    ...sources.map(writeSource),
    r.position === "opposite the main" ? "at the opposite end" : r.position ? "next to the main" : "",
    r.centerFed ? "center fed" : "",
    r.supplySide ? "supply side connection" : "",
    r.loadBreakers ? `load breakers add up to ${said(r.loadBreakers)}` : "",
    r.setting ? `power control setting ${said(r.setting)}` : "",
    r.volts ? said(r.volts) : "",
    r.supply ?? "",
  ].filter((part) => part !== "").join("; ");
}
