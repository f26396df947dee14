import type { Conductor, FillRequest, Wireway } from "./request.ts";

const spelled = (insulation: string | undefined): string | undefined =>
  insulation === "USE" ? "USE insulation" : insulation;

const writeConductor = (r: FillRequest, { size, count, insulation = r.insulation, ground, bare }: Conductor): string =>
  [
    count === undefined ? r.find ? "how many" : undefined : `${count} ×`,
    String(size),
    bare ? "bare" : spelled(insulation),
    ground ? "equipment grounds" : undefined,
  ].filter(Boolean).join(" ");

const writeWireway = ({ is, width, height, nonmetallic }: Wireway): string =>
  [
    width && `${[width, height].flatMap((side) => side?.value ?? []).join(" x ")} in`,
    nonmetallic && "nonmetallic",
    is,
  ].filter(Boolean).join(" ");

/** The request as it would be typed. */
export const write = (r: FillRequest): string =>
  [
    "conduit fill",
    ...(r.conductors ?? []).map((each) => writeConductor(r, each)),
    ...(r.cables ?? []).map(({ count, diameter }) =>
      `${count === undefined ? "" : `${count} `}cables ${diameter.value} in wide`
    ),
    r.conductors?.length ? undefined : spelled(r.insulation),
    r.material,
    r.compact && "compact",
    r.wireway && writeWireway(r.wireway),
    (r.size || r.raceway || r.nipple) &&
    [r.size && `${r.size} in`, r.raceway ?? (r.nipple ? undefined : "conduit"), r.nipple && "nipple"].filter(Boolean)
      .join(" "),
    r.carrying === undefined ? undefined : `${r.carrying} current-carrying conductors`,
    r.terminals && `${r.terminals.value} °C terminals`,
    r.ambient && `ambient ${r.ambient.value} ${r.ambient.unit}`,
  ].filter(Boolean).join(", ");
