import type { GroundingRequest } from "./request.ts";

const ELECTRODE = {
  "water pipe": "to a water pipe",
  "building steel": "to building steel",
  rod: "to ground rods only",
  "concrete-encased": "to a concrete-encased electrode",
  "ground ring": "to a ground ring",
};

/** The request as it would be typed. */
export function write(r: GroundingRequest): string {
  // The metal of the supply stands with its size, or with the service where none is told.
  const ofService = r.size === undefined && r.needed === undefined ? r.material : undefined;
  return [
    r.earthReturn ? "earth as the fault path" : undefined,
    r.find?.length ? r.find.map((each) => [r.groundMaterial, each].filter(Boolean).join(" ")).join(" and ") : undefined,
    r.devices && `on ${r.devices.map((each) => `a ${each.value} A breaker`).join(" and ")}`,
    r.service && `${r.service.value} A ${ofService ?? ""} service`.replace("  ", " "),
    r.sets === undefined ? undefined : r.sets === 1 ? "one set" : `${r.sets} parallel sets`,
    r.jumpers === undefined
      ? undefined
      : r.jumpers === "one for all"
      ? "one jumper for all"
      : "one jumper in each raceway",
    r.needed === undefined
      ? r.size && `${[r.size, r.material].filter(Boolean).join(" ")} conductors`
      : r.size === undefined
      ? `needed size ${r.needed}`
      : `raised from ${r.needed} to ${r.size}`,
    r.upsizedFor && `for ${r.upsizedFor}`,
    r.anyIncrease && "any increase counts",
    r.material && r.needed ? `${r.material} conductors` : undefined,
    r.groundMaterial && !r.find?.length ? `${r.groundMaterial} ground` : undefined,
    r.electrode && ELECTRODE[r.electrode],
    r.ground && `${r.ground} ${r.find?.at(-1) ?? "ground"} put up`,
    r.check ? "ok?" : undefined,
  ].filter((part): part is string => typeof part === "string").join(", ");
}
