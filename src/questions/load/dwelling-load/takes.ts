/** What a house's load takes of the facts: all that a home's does, unless it is a mobile home. */
import type { Draft } from "../../../reading/facts.ts";
import type { Taker } from "../../../reading/take.ts";
import { isMobileHome, takeHome } from "../../parts/home-takes.ts";

export const takes = (t: Taker): Draft | undefined => isMobileHome(t) ? undefined : takeHome(t);
