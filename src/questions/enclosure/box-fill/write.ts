import type { BoxRequest } from "./request.ts";

const NUMBERS = "zero one two three four five six seven eight nine ten".split(" ");
const many = (n: number, one: string, all = `${one}s`): string => n === 1 ? `1 ${one}` : `${n} ${all}`;
/** The box by its trade size or its marked volume. */
function writeBox({ shape, across, depth, gangs, volume }: NonNullable<BoxRequest["box"]>): string[] {
  const isHandy = across === "4 x 2-1/8" && depth === undefined;
  const size = isHandy ? "handy" : across !== undefined && depth !== undefined ? `${across} x ${depth}` : across;
  const kind = isHandy ? undefined : shape;
  const parts = [gangs !== undefined && `${gangs} gang`, size, kind].filter(Boolean);
  const deep = depth !== undefined && across === undefined ? ` ${depth} deep` : "";
  return [
    ...(parts.length > 0 || deep ? [`${[...parts, "box"].join(" ")}${deep}`] : []),
    ...(volume ? [`${volume.value} cu in box`] : []),
  ];
}

/** The request as it would be typed. */
export function write(r: BoxRequest): string {
  if (r.pull !== undefined || r.raceways !== undefined) {
    return [
      "pull box",
      r.pull && `${r.pull === "straight" ? "straight" : r.pull === "angle" ? "angle" : "U"} pull`,
      ...(r.raceways ?? []).map(({ size, count = 1 }) =>
        count === 1 ? `${size} in conduit` : `${NUMBERS[count] ?? count} ${size} in conduits`
      ),
    ].filter(Boolean).join(", ");
  }
  if (r.free) {
    const { opening, length, outside } = r.free;
    return [
      "free conductor in a box",
      opening && `opening ${opening.value} inches`,
      length && `${length.value} inches left`,
      outside && `${outside.value} inches outside the opening`,
    ].filter(Boolean).join(", ");
  }
  const ground = r.cableGrounds ? " with ground" : "";
  const parts = [
    "box fill",
    ...(r.box ? writeBox(r.box) : []),
    r.ring && `ring ${r.ring.value} cu in`,
    ...(r.conductors ?? []).map(({ size, count }) =>
      `${count === undefined ? r.find ? "how many " : "" : `${count} × `}${size} wires`
    ),
    r.looped && "looped",
    ...(r.cables ?? []).map(({ size, wires, count }) =>
      `${count === undefined ? r.find ? "how many " : "" : `${count} × `}${size.name}/${wires}${ground}`
    ),
    r.cableGrounds === false && "cables without ground",
    r.isolatedGrounds &&
    `${r.isolatedGrounds.count} × ${r.isolatedGrounds.size ? `${r.isolatedGrounds.size} ` : ""}isolated grounds`,
    r.grounds && `${r.grounds.count} × ${r.grounds.size ? `${r.grounds.size} ` : ""}equipment grounds`,
    r.clamps === undefined ? undefined : r.clamps ? "internal clamps" : "no clamps",
    ...(r.supports ?? []).map((each) => each === "stud" ? "fixture stud" : each),
    // A device of two gangs is mostly a receptacle for a range.
    ...(r.devices ?? []).map(({ count = 1, gangs = 1 }) =>
      many(count, gangs > 1 ? "50 A receptacle" : "wiring device")
    ),
    r.deviceSize && `${r.deviceSize} on the device`,
    r.terminalBlocks === undefined ? undefined : many(r.terminalBlocks, "terminal block"),
    r.check && "will it fit",
  ];
  return parts.filter(Boolean).join(", ");
}
