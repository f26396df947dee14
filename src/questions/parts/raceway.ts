/** The raceway that a circuit's own conductors need, told beside them. */
import type { Known } from "../../core/worked.ts";
import type { Worksheet } from "../../core/worksheet.ts";
import type { Insulation } from "../../rules/conditions.ts";
import type { Material } from "../../rules/conductors.ts";
import { racewayFor, TUBES } from "../../rules/raceways.ts";
import { type Conduit, conduitOf } from "../../rules/voltage-drop.ts";
import type { Method } from "../../rules/wiring-methods.ts";

/** The figure that it is. */
export const RACEWAY_FIGURES = { "raceway-size": "raceway trade size" } as const;

/** What lies in one raceway. */
export type InRaceway = {
  readonly lines: { readonly count: number; readonly size: Known<"size"> };
  readonly neutral?: { readonly count: number; readonly size: Known<"size"> } | undefined;
  readonly ground?: Known<"size"> | undefined;
  readonly material: Material;
};

type Laid = {
  conduit?: Conduit | undefined;
  insulation?: Insulation | undefined;
  /** Current-carrying conductors in it, where that was told. */
  conductors?: number | undefined;
};
/**
 * The trade size and the raceway, as they are said: `2 in PVC schedule 40`. Its figure is `raceway-size`.
 * @returns absent where no listed trade size does, a size has no printed dimensions, or other conductors lie in it
 */
export function racewayHint(
  w: Worksheet,
  { conduit: said, insulation, conductors = 0 }: Laid,
  { lines, neutral, ground, material }: InRaceway,
): string | undefined {
  // What else lies in it is not known by size.
  if (conductors > lines.count + (neutral?.count ?? 0)) return undefined;
  w.part("Raceway");
  const filling = [
    { ...lines, what: "ungrounded conductors" },
    ...(neutral ? [{ ...neutral, what: "neutral" }] : []),
    ...(ground ? [{ count: 1, size: ground, what: "equipment ground" }] : []),
  ];
  const conduit = conduitOf(w, said);
  const size = w.ifCovered(() => racewayFor(w, conduit, filling, insulation, material));
  if (!size) return undefined;
  w.figure("raceway-size", size, `${TUBES[conduit].name} trade size`);
  return `${w.word(size)} ${TUBES[conduit].name}`;
}

/** The raceway of a circuit that was told to run in one, as its first line tells it; nothing otherwise. */
export function inRaceway(w: Worksheet, r: Laid & { method?: Method | undefined }, filling: InRaceway): string {
  const hint = r.method === "conductors in conduit" ? racewayHint(w, r, filling) : undefined;
  return hint === undefined ? "" : `, about ${hint}`;
}
