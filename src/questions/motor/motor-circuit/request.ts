/** What a request on one motor holds. */
import { ConductorSize } from "../../../core/conductor-size.ts";
import * as z from "zod";
import { DEVICES } from "../../../rules/motor-protection.ts";
import { runFields } from "../../parts/motor-lines.ts";
import { amperes, motorFields } from "../../parts/motors.ts";
import { quantity } from "../../parts/quantities.ts";

/** Services that are not continuous duty, and what a motor may be rated for: the table's own words. */
export const SERVICES = ["short-time", "intermittent", "periodic", "varying"] as const;
const RATED_FOR = ["5-minute", "15-minute", "30-minute and 60-minute", "continuous"] as const;
/** How often a wound-rotor motor's secondary resistor is used. */
export const RESISTOR_DUTIES = [
  "light starting",
  "heavy starting",
  "extra-heavy starting",
  "light intermittent",
  "medium intermittent",
  "heavy intermittent",
  "continuous",
] as const;
/** What a control circuit tapped from the motor circuit is wired with, and whether it leaves the controller. */
const control = z.strictObject({
  size: z.enum(["18", "16", "14", "12", "10"]).transform(ConductorSize.of).optional(),
  leaves: z.boolean().optional(),
});

export const input = z.strictObject({
  ...motorFields,
  /** Its nameplate shows no power, amperes alone. */
  noPowerMarked: z.boolean().optional(),
  serviceFactor: z.number().min(1).max(2).optional(),
  temperatureRise: quantity(["°C"], { "°C": 180 }).optional(),
  codeLetter: z.string().regex(/^[A-HJ-NPR-V]$/, "a code letter is one of A to V, without I, O and Q").optional(),
  lockedRotor: quantity(["A"], { A: 20_000 }).optional(),
  /** Protected by a thermal protector inside it. */
  thermalProtector: z.boolean().optional(),
  duty: z.strictObject({ service: z.enum(SERVICES).optional(), rated: z.enum(RATED_FOR).optional() }).optional(),
  reducedStart: z.enum(["wye-delta", "part-winding"]).optional(),
  /** Secondary of a wound-rotor motor. */
  secondary: z.strictObject({ current: amperes.optional(), resistor: z.enum(RESISTOR_DUTIES).optional() }).optional(),
  capacitor: z.boolean().optional(),
  control: control.optional(),
  /** Fed through an adjustable-speed drive, with the drive's rated input current. */
  drive: z.strictObject({ input: amperes.optional() }).optional(),
  /** Share of the current that the device was asked for by. */
  percent: quantity(["%"], { "%": 2000 }).optional(),
  device: z.enum([...DEVICES, "instantaneous-trip breaker"]).optional(),
  /** Put up for checking. */
  breaker: quantity(["A"], { A: 6000 }).optional(),
  fuse: z.strictObject({
    rating: quantity(["A"], { A: 6000 }),
    type: z.enum(["dual-element", "nontime-delay"]).optional(),
  })
    .optional(),
  overload: amperes.optional(),
  ...runFields,
});
export type MotorRequest = z.output<typeof input>;
