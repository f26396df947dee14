/** A plan put up for checking: a device, an overload setting, a conductor. */
import { calc } from "../../core/formula.ts";
import type { Known, Verdict } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import { sizeInWords } from "../../rules/conductors.ts";
import type { Device, Protection } from "../../rules/motor-protection.ts";
import { asQuantity } from "../question.ts";
import { dropLimit, type Lines } from "./conductors.ts";
import type { Devices } from "./devices.ts";
import type { MotorRequest } from "./request.ts";

export type Found = {
  design: Known<"A">;
  devices: Devices;
  disconnect: Known<"A">;
  overload: Protection | undefined;
  stated: Lines | undefined;
  lines: Lines;
};
type Finding = { is: Verdict; because: string };

/** Whether anything was put up for checking. */
export const isCheck = (r: MotorRequest): boolean => [r.breaker, r.fuse, r.overload, r.size].some((each) => each);

/** The worst finding decides; every finding is told. */
export function check(w: Worksheet, r: MotorRequest, found: Found): void {
  w.part("Plan check");
  const findings = [
    ...(r.size && found.stated ? [checkSize(w, r, found.stated, found)] : []),
    ...(r.breaker ? [checkDevice(w, "inverse-time breaker", w.given("breaker", asQuantity(r.breaker)), found)] : []),
    ...(r.fuse ? [checkFuse(w, r.fuse, found)] : []),
    ...(r.overload ? [checkOverload(w, w.given("overload device put up", asQuantity(r.overload)), found)] : []),
  ];
  const worst = (["not ok", "ok if", "ok"] as const).find((is) => findings.some((each) => each.is === is));
  if (!worst) return;
  const told = worst === "ok" ? findings : findings.filter(({ is }) => is !== "ok");
  w.verdict = { is: worst, because: told.map(({ because }) => because).join("; ") };
}

function checkSize(w: Worksheet, r: MotorRequest, stated: Lines, { design, lines }: Found): Finding {
  const size = sizeInWords(r.size!);
  const enough = w.choose(
    "conductor put up for checking",
    [stated.ampacity, "≥", design],
    ["large enough", () => true],
    ["too small", () => false],
    "motor-conductors",
  );
  if (!enough) {
    return {
      is: "not ok",
      because: w.say`${size} ${stated.material} carries ${stated.ampacity} here and ${design} is needed: ${
        sizeInWords(w.word(lines.needed))
      } at least`,
    };
  }
  const carries = w.say`${size} ${stated.material} carries ${stated.ampacity} here, ${design} is needed`;
  if (!stated.drop) return { is: "ok", because: carries };
  const limit = dropLimit(w, r);
  return w.choose<Finding>(
    "drop on the conductor put up",
    [stated.drop.percent, "≤", limit],
    ["within the limit", () => ({ is: "ok", because: w.say`${carries}, drop ${stated.drop!.percent}` })],
    [
      "over the limit",
      () => ({
        is: r.dropLimit ? "not ok" : "ok if",
        because: w.say`${carries}; but the drop is ${stated.drop!.percent}, over ${limit}: ${
          sizeInWords(w.word(lines.size))
        } would keep it`,
      }),
    ],
    "voltage-drop-branch",
  );
}

const plain: Record<Device, string> = {
  "inverse-time breaker": "breaker",
  "dual-element fuse": "dual-element fuse",
  "nontime-delay fuse": "nontime-delay fuse",
};

function checkDevice(w: Worksheet, device: Device, said: Known<"A">, { devices, disconnect }: Found): Finding {
  const { normal, highest } = devices[device];
  const name = w.say`${said} ${plain[device]}`;
  const fits = (): Finding =>
    w.choose<Finding>("device against the ordinary one", [said, "≤", normal], [
      "ordinary",
      () => ({ is: "ok", because: w.say`the ${name} is within the ordinary ${normal}` }),
    ], ["larger than ordinary", () =>
      larger()], "motor-protection");
  const larger = (): Finding =>
    w.choose<Finding>("device against the highest", [said, "≤", highest], [
      "allowed where the motor will not start on the ordinary one",
      () => ({
        is: "ok if",
        because: w
          .say`the ${name} is over the ordinary ${normal}, and allowed up to ${highest} only if the motor will not start on less`,
      }),
    ], [
      "too large",
      () => ({ is: "not ok", because: w.say`the ${name} is more than ${highest}, the most this motor may have` }),
    ], "motor-protection");
  // A breaker is the disconnect too; below that rating it would trip on the running current.
  const least = device === "inverse-time breaker" ? disconnect : calc`1 × ${disconnect}`;
  return w.choose<Finding>(
    "device against the running current",
    [said, "<", least],
    [
      "too small",
      () => ({
        is: "not ok",
        because: w.say`the ${name} is too small to let the motor start and run: ${normal} is ordinary`,
      }),
    ],
    ["carries it", fits],
    "motor-disconnect",
  );
}

function checkFuse(w: Worksheet, { rating, type }: NonNullable<MotorRequest["fuse"]>, found: Found): Finding {
  if (type === undefined) {
    w.suppose(
      "fuse",
      "dual-element time-delay",
      "the kind was not told; motor circuits are mostly fused so, and it is the smaller one",
      "nontime-delay fuse",
    );
  }
  const device = type === "nontime-delay" ? "nontime-delay fuse" : "dual-element fuse";
  return checkDevice(w, device, w.given("fuse", asQuantity(rating)), found);
}

function checkOverload(w: Worksheet, said: Known<"A">, { overload }: Found): Finding {
  if (!overload) {
    return { is: "ok if", because: w.say`the overload at ${said} goes by the nameplate current, which was not told` };
  }
  const { normal, highest } = overload;
  const larger = (): Finding =>
    w.choose<Finding>("overload against the highest", [said, "≤", highest], [
      "allowed where the motor will not start or carry its load on the ordinary one",
      () => ({
        is: "ok if",
        because: w
          .say`the overload at ${said} is over ${normal}, and allowed up to ${highest} only if the motor trips on less`,
      }),
    ], [
      "too large",
      () => ({
        is: "not ok",
        because: w.say`the overload at ${said} is more than ${highest}, the most for this motor`,
      }),
    ], "motor-overload");
  return w.choose<Finding>(
    "overload put up for checking",
    [said, "≤", normal],
    [
      "ordinary",
      () => ({ is: "ok", because: w.say`the overload at ${said} is within ${normal}` }),
    ],
    ["larger than ordinary", larger],
    "motor-overload",
  );
}
