/** Prints what the reader makes of each text: its pieces, its facts. `deno task read "12 kW range, what wire?"` */
import { factsInWords, piecesInWords } from "../reading/print.ts";
import { readText } from "../reading/read.ts";

for (const asked of Deno.args) {
  const text = readText(asked);
  const { facts, free } = factsInWords(text.facts);
  console.log(`» ${asked}`);
  for (const { said, read } of text.mended) console.log(`  mended ${said} → ${read}`);
  console.log(`  ${piecesInWords(text)}`);
  for (const fact of facts) console.log(`  ${fact}`);
  console.log(`  free: ${free.join(", ")}`);
}
