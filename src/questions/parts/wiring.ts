/**
 * How a request says where and how conductors run, and how it is written back: shared by the kinds
 * that ask what a conductor carries.
 */
import * as z from "zod";
import { INSULATIONS } from "../../rules/conditions.ts";
import { MATERIALS } from "../../rules/conductors.ts";
import { METHODS } from "../../rules/wiring-methods.ts";
import { quantity } from "./quantities.ts";

/** Rating of the terminations at both ends, as marked. */
export const terminals = z.strictObject({
  value: z.literal([60, 75, 90], "terminations are rated 60, 75 or 90 °C"),
  unit: z.literal("°C"),
}).optional();

/** Fields of a request on the wiring. */
export const wiring = {
  material: z.enum(MATERIALS).optional(),
  method: z.enum(METHODS).optional(),
  insulation: z.enum(INSULATIONS).optional(),
  wet: z.boolean().optional(),
  terminals,
  ambient: quantity(["°C", "°F"], { "°C": 85, "°F": 185 }, -100).optional(),
  rooftop: z.boolean().optional(),
  /** Of a raceway or cable over a roof. */
  aboveRoof: quantity(["in", "ft"], { in: 1200, ft: 100 }).optional(),
  inInsulation: z.boolean().optional(),
  conductors: z.int().min(1).max(1000).optional(),
};
export type WiringFields = z.output<z.ZodObject<typeof wiring>>;

/** Conductors alone would be asked for; where the conduit's metal is named, that says it all. */
const methodText = ({ method, conduit }: { method?: string | undefined; conduit?: string | undefined }) =>
  method !== "conductors in conduit" ? method : conduit === undefined ? "in conduit" : undefined;

/** The wiring as it would be typed. */
export function writeWiring(r: WiringFields & { conduit?: string | undefined }): string[] {
  return [
    r.material,
    // "use" alone would be read as a verb.
    r.insulation === "USE" ? "USE insulation" : r.insulation,
    methodText(r),
    r.wet ? "wet location" : undefined,
    r.terminals && `${r.terminals.value} °C terminals`,
    r.ambient && `ambient ${r.ambient.value} ${r.ambient.unit}`,
    r.aboveRoof ? `${r.aboveRoof.value} ${r.aboveRoof.unit} above the roof` : r.rooftop ? "on the roof" : undefined,
    r.inInsulation ? "in thermal insulation" : undefined,
    r.conductors === undefined ? undefined : `${r.conductors} current-carrying conductors`,
  ].filter((part): part is string => typeof part === "string");
}
