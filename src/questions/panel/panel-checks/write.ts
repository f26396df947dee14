import type { PanelKind, PanelRequest, Topic } from "./request.ts";

const TOPIC: Readonly<Record<Topic, string>> = {
  "bonding": "bond or isolate",
  "continuity": "continuity",
  "torque": "tightening torque",
  "working space": "working space",
  "handle height": "highest handle",
  "location": "panel location",
  "bending space": "wire bending space",
  "room protection": "arc fault and ground fault protection",
  "neutral terminals": "in one terminal",
  "cable sheath": "cable sheath inside",
  "directory": "directory",
  "record": "check record",
};
const PANEL: Readonly<Record<PanelKind, string>> = {
  "service panel": "service panel",
  "feeder panel": "subpanel in the same building",
  "separate structure": "panel in a separate structure",
  "after a transformer": "panel after a transformer",
  "behind a transfer switch": "panel behind a transfer switch",
};
const FEEDER: Readonly<Record<number, string>> = {
  2: "2-wire feeder",
  3: "3-wire feeder",
  4: "4-wire feeder",
  5: "5 wires",
};
const amount = (said: { value: number | string; unit: string }): string =>
  `${said.value} ${UNITS[said.unit] ?? said.unit}`;
const UNITS: Readonly<Record<string, string>> = { "lbf-in": "in-lb", "lbf-ft": "ft-lb", in: "inch", ohm: "ohms" };
const when = (is: boolean | undefined, yes: string, no: string): string | undefined =>
  is === undefined ? undefined : is ? yes : no;

/** The request as it would be typed. */
export function write(r: PanelRequest): string {
  return [...installation(r), ...connector(r), ...space(r), ...rooms(r)]
    .filter((part): part is string => typeof part === "string").join("; ");
}

function installation(r: PanelRequest): (string | undefined)[] {
  return [
    ...r.about?.map((topic) => TOPIC[topic]) ?? [],
    r.panel && PANEL[r.panel],
    r.phases ? (r.phases === 3 ? "three-phase" : "single-phase") : undefined,
    r.feederWires ? FEEDER[r.feederWires] : undefined,
    r.existing ? "existing" : undefined,
    when(r.switchedNeutral, "switched neutral", "unswitched neutral"),
    r.jumperAt === "transformer" ? "bonded at the transformer" : undefined,
    when(r.bonded, "found bonded", "found isolated"),
    ...r.readings?.map(({ from, to, reads, resistance }) =>
      `${from} to ${to} ${resistance ? amount(resistance) : `reads ${reads}`}`
    ) ?? [],
    r.feederNeutral && (r.feederNeutral === "lifted" ? "feeder neutral lifted" : "feeder neutral connected"),
    r.energized ? "energized" : undefined,
  ];
}

function connector(r: PanelRequest): (string | undefined)[] {
  return [
    r.size && `${r.size} ${r.material ?? ""} conductor`.replace("  ", " "),
    r.size === undefined ? r.material : undefined,
    r.connector === "socket screw" && r.socket ? undefined : r.connector,
    r.slot && `${r.slot} slot`,
    r.slotLength && `${amount(r.slotLength)} slot length`,
    r.socket && `${amount(r.socket)} hex socket`,
    r.marked && `marked torque ${r.bareTorque ? r.marked.value : amount(r.marked)}`,
    r.set && `torqued to ${r.bareTorque && !r.marked ? r.set.value : amount(r.set)}`,
    r.wires ? `${r.wires} wires per terminal` : undefined,
    r.leaves && (r.leaves === "opposite wall" ? "through the opposite wall" : "through the side wall"),
    r.space && `${amount(r.space)} of room`,
  ];
}

function space(r: PanelRequest): (string | undefined)[] {
  return [
    r.volts && amount(r.volts),
    r.toGround && `${amount(r.toGround)} to ground`,
    r.facing && `${r.facing} opposite`,
    r.depth && `depth ${amount(r.depth)}`,
    r.width && `there is a width of ${amount(r.width)}`,
    r.height && `there is a height of ${amount(r.height)}`,
    r.equipmentWidth && `width ${amount(r.equipmentWidth)}`,
    r.equipmentHeight && `height ${amount(r.equipmentHeight)}`,
    r.rating && `${amount(r.rating)} panel`,
    r.handle && `top breaker at ${amount(r.handle)}`,
  ];
}

function rooms(r: PanelRequest): (string | undefined)[] {
  return [
    [...(r.otherRooms ?? []), r.room].filter((room) => room !== undefined).map((room) =>
      room === "library" ? "home library" : room
    ).join(" and ") || undefined,
    r.circuit && `${amount(r.circuit)} circuit`,
    r.place && `in the ${r.place}`,
    when(r.dwelling, "dwelling", "not a dwelling"),
    r.neutrals ? `${r.neutrals} neutrals` : undefined,
    r.grounds ? `${r.grounds} grounds` : undefined,
    r.check ? "ok?" : undefined,
  ];
}
