/** What the conductors of a motor must carry: 125 % of the table current, or by its duty. */
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import type { Motor } from "../../parts/motors.ts";
import type { MotorRequest } from "./request.ts";

/** What its conductors must carry: by the motor's duty, how it is started, or what rectifies its supply. */
export function conductorAmpacity(w: Worksheet, r: MotorRequest, motor: Motor): Known<"A"> {
  const name = "conductor ampacity needed";
  if (r.duty) return dutyAmpacity(w, r, motor, name);
  const share = w.constant<"%">("motor-conductor-factor");
  return w.work(name, "A", calc`${motor.current} × ${share}`, "motor-conductors");
}

function dutyAmpacity(w: Worksheet, { duty }: MotorRequest, motor: Motor, name: string): Known<"A"> {
  const { service, rated } = duty!;
  const current = motor.nameplate!;
  const column = rated === "continuous" ? "continuous rated" : `${rated} rated`;
  const share = w.lookUp<"%">(`share for ${service} duty, ${column}`, "motor-duty-cycle", column, service!);
  return w.work(name, "A", calc`${current} × ${share}`, "motor-duty", "by the nameplate current for such duty");
}
