import type { Draft } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
export function takes(_t: Taker): Draft | undefined {
  return undefined;
}
