/** Prints what the reader makes of a text: its pieces, its facts. `deno task read "12 kW range, what wire?"` */
import { type Value } from "../reading/facts.ts";
import type { Sense } from "../reading/pieces.ts";
import { readText } from "../reading/read.ts";

const sense = (s: Sense): string =>
  s.is === "term"
    ? `${s.sort}:${s.id}`
    : s.is === "quantity"
    ? `${s.n} ${s.unit}${s.low === undefined ? "" : ` (from ${s.low})`}${s.from ? ` (${s.from})` : ""}`
    : Object.values(s).join(" ");
const values = (list: readonly Value[]): string => list.map((v) => sense(v.sense)).join(" + ");

for (const asked of Deno.args) {
  const { tokens, pieces, facts, mended } = readText(asked);
  console.log(`» ${asked}`);
  for (const { said, read } of mended) console.log(`  mended ${said} → ${read}`);
  console.log(
    "  " + pieces.map(({ is, from, to, senses }) => {
      const words = asked.slice(tokens[from]!.at, tokens[to - 1]!.end).replace(/\s+/g, " ");
      return is === "fact"
        ? `[${words}: ${senses.map(sense).join(" | ")}]`
        : is === "unknown"
        ? `?${words}?`
        : is === "border"
        ? "■"
        : words;
    }).join(" "),
  );
  for (const { family, id, slots, said } of facts.facts) {
    const filled = Object.entries(slots).map(([slot, list]) => `${slot} ${values(list)}`).join(", ");
    console.log(`  ${family} ${id ?? "—"}${said ? ` “${said}”` : ""}${filled ? `: ${filled}` : ""}`);
  }
  console.log(`  free: ${facts.free.map(({ key, value }) => `${key}=${sense(value.sense)}`).join(", ")}`);
}
