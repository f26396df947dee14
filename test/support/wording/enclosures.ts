/** Boxes and raceways, and what is put into them. */
import type { BoxRequest as BoxRead } from "../../../src/questions/enclosure/box-fill/request.ts";
import type { FillRequest as FillRead } from "../../../src/questions/enclosure/raceway-fill/request.ts";
import { fact, type Said } from "./compose.ts";
import type { Draw } from "./draw.ts";
import type { Pen } from "./pen.ts";
import type { AsJson } from "../as-json.ts";

type BoxRequest = AsJson<BoxRead>;
type FillRequest = AsJson<FillRead>;

type Box = NonNullable<BoxRequest["box"]>;
const BOXES: readonly Box[] = [
  { shape: "square", across: "4", depth: "1-1/2" },
  { shape: "square", across: "4", depth: "2-1/8" },
  { shape: "square", across: "4-11/16", depth: "2-1/8" },
  { shape: "octagonal", across: "4", depth: "1-1/2" },
  { shape: "octagonal", across: "4", depth: "2-1/8" },
  { volume: { value: 18, unit: "in3" } },
  { volume: { value: 20.3, unit: "in3" } },
  { volume: { value: 22.5, unit: "in3" } },
  { volume: { value: 34, unit: "in3" } },
];
const CABLES = [["14", 2], ["12", 2], ["14", 3], ["12", 3], ["10", 2]] as const;

const boxWords = ({ shape, across, depth, volume }: Box, pen: Pen): string =>
  volume ? `${volume.value} ${pen.one("cubic inch", "cu in", "cu. in.")} box` : pen.one(
    `${across} x ${depth} ${shape} box`,
    `${across} inch ${shape} box, ${depth} deep`,
    `${across}" ${shape} ${depth}" deep box`,
  );

export const boxFill = {
  draw(d: Draw): BoxRequest {
    const kinds = d.shuffle([...CABLES]).slice(0, d.pick([1, 1, 2]));
    return {
      ...(d.chance(0.8) && { box: d.pick(BOXES) }),
      cables: kinds.map(([size, wires]) => ({ size, wires, count: d.pick([2, 2, 3, 4]) })),
      ...(d.chance(0.3) && { cableGrounds: true }),
      ...(d.chance(0.5) && { clamps: d.chance(0.6) }),
      ...(d.chance(0.5) && { devices: [{ count: d.pick([2, 3]) }] }),
    };
  },

  say(r: BoxRequest, pen: Pen): Said {
    const ground = r.cableGrounds ? pen.one(" with ground", " w/g") : "";
    const cables = r.cables!.map(({ size, wires, count }) =>
      `${pen.number(count!)} ${size}${pen.one("/", "-")}${wires}${ground}`
    );
    const asked = pen.one("box fill", "required box volume");
    return {
      head: fact(cables.join(pen.one(" and ", ", "))),
      rest: [
        r.box && fact(boxWords(r.box, pen)),
        r.clamps === undefined
          ? undefined
          : fact(r.clamps ? pen.one("internal clamps", "clamps inside") : pen.one("no clamps", "no internal clamps")),
        r.devices && fact(`${pen.number(r.devices[0]!.count!)} ${pen.one("receptacles", "switches", "dimmers")}`),
      ],
      asks: (head) => `${asked} for ${head}`,
      asksAfter: `${asked}?`,
    };
  },
};

const PIPES = {
  EMT: ["EMT"],
  RMC: ["rigid", "RMC"],
  IMC: ["IMC"],
  "PVC schedule 40": ["schedule 40 PVC", "sch 40 PVC"],
  "PVC schedule 80": ["schedule 80 PVC", "sch 80 PVC"],
} as const;

export const racewayFill = {
  draw(d: Draw): FillRequest {
    const sizes = d.shuffle(["12", "10", "8", "6", "2", "1/0", "4/0"]).slice(0, d.pick([1, 1, 2]));
    const size = d.pick(["3/4", "1", "1-1/4", "1-1/2", "2", "3"] as const);
    return {
      raceway: d.pick(Object.keys(PIPES) as (keyof typeof PIPES)[]),
      ...(d.chance(0.5) && { size }),
      conductors: sizes.map((each) => ({ size: each, count: d.pick([3, 4, 6, 9]) })),
      insulation: d.pick(["THHN", "THWN-2", "XHHW"] as const),
      ...(d.chance(0.2) && { material: d.pick(["copper", "aluminum"] as const) }),
    };
  },

  say(r: FillRequest, pen: Pen): Said {
    const wires = r.conductors!.map(({ size, count }) =>
      `${pen.number(count!)} ${pen.one(`#${size}`, size.includes("/") ? size : `${size} AWG`)} ${r.insulation}`
    );
    const [plain, ...others] = PIPES[r.raceway as keyof typeof PIPES];
    const pipe = pen.one(plain, ...others);
    const asked = pen.one("conduit fill", "raceway fill");
    return {
      head: fact(wires.join(pen.one(" and ", " + "))),
      rest: [
        fact(r.size ? `in ${r.size}${pen.one(" in ", " inch ", '" ')}${pipe}` : `in ${pipe}`),
        r.material && fact(pen.material(r.material)),
      ],
      asks: (head) => `${asked} for ${head}`,
      asksAfter: `${asked}?`,
    };
  },
};
