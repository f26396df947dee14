/** Conductors beyond the circuit's own: from a reduced-voltage controller to the motor, and of a wound rotor's secondary. */
import { calc } from "../../../core/formula.ts";
import { need } from "../../../core/outcome.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { chooseConductor, type Wiring } from "../../../rules/conductors.ts";
import type { Motor } from "../../parts/motors.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { MotorRequest } from "./request.ts";

export function extraConductors(w: Worksheet, r: MotorRequest, motor: Motor, wiring: Wiring): void {
  if (r.reducedStart) reducedStart(w, r.reducedStart, motor, wiring);
  if (motor.type === "wound rotor" && r.secondary) secondary(w, r.secondary, wiring);
}

function conductorFor(w: Worksheet, ampacity: Known<"A">, wiring: Wiring, id: string, name: string): void {
  w.figure(`${id}-ampacity`, ampacity);
  const duty = { design: ampacity, load: ampacity, smallLimits: false };
  w.figure(`${id}-conductor`, chooseConductor(w, duty, wiring, name).size, name);
}

function reducedStart(w: Worksheet, how: "wye-delta" | "part-winding", motor: Motor, wiring: Wiring): void {
  w.part("From the controller to the motor");
  const share = w.constant<"%">(`motor-${how}-factor`);
  const name = `ampacity from the ${how} controller to the motor`;
  const ampacity = w.work(name, "A", calc`${motor.current} × ${share}`, "motor-conductors");
  conductorFor(w, ampacity, wiring, "motor-lead", "conductors from the controller to the motor");
}

function secondary(w: Worksheet, { current, resistor }: NonNullable<MotorRequest["secondary"]>, wiring: Wiring): void {
  if (!current) {
    throw need("secondary.current", "What full-load secondary current does the nameplate say?", "secondary 40 A");
  }
  w.part("Secondary");
  const full = w.given("full-load secondary current", asQuantity(current));
  const share = resistor
    ? w.lookUp<"%">(`share for a resistor of ${resistor} duty`, "motor-secondary-resistor", "conductors", resistor)
    : w.constant<"%">("motor-secondary-factor");
  const ampacity = w.work("ampacity of the secondary conductors", "A", calc`${full} × ${share}`, "motor-conductors");
  conductorFor(w, ampacity, wiring, "secondary", "secondary conductors");
}
