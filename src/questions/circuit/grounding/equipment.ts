/** The equipment ground: by the device, grown with the conductors, one for several circuits, full in each raceway. */
import { need } from "../../../core/outcome.ts";
import { calc } from "../../../core/formula.ts";
import type { Known } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { wiringOf } from "../../../rules/conditions.ts";
import { areaOf, chooseConductor, type Material } from "../../../rules/conductors.ts";
import { equipmentGround, isLarger } from "../../../rules/grounding.ts";
import { asQuantity } from "../../parts/quantities.ts";
import type { GroundingRequest } from "./request.ts";

export function equipmentGroundOf(w: Worksheet, r: GroundingRequest, of: Material): Known<"size"> {
  if (!r.devices) {
    throw need(
      "breaker",
      "An equipment ground is sized by the breaker or fuse ahead of the circuit, not by the wire. What is its rating?",
      "on a 100 A breaker",
    );
  }
  w.part("Equipment ground");
  const devices = r.devices.map((each) => w.given("overcurrent device", asQuantity(each)));
  const device = devices.length === 1 ? devices[0]! : w.work(
    "largest device of the circuits that share the ground",
    "A",
    calc`max(${devices})`,
    "equipment-grounding-several-circuits",
  );
  const installed = r.size === undefined ? undefined : w.given("ungrounded conductors", r.size);
  // In parallel sets the ground of one raceway may be larger than one conductor: the circuit's conductors are all of them.
  const cap = r.sets !== undefined && r.sets > 1 ? undefined : installed;
  const size = equipmentGround(w, device, of, cap, upsizing(w, r, device, installed));
  if (r.sets !== undefined && r.sets > 1) {
    w.caution("Parallel raceways: this ground in each of them, at its full size.", "equipment-grounding-parallel");
  }
  w.caution(
    "A metal raceway listed for it may be the equipment ground instead; aluminum stays clear of earth and masonry.",
    "equipment-grounding",
  );
  return size;
}

/** The increase that makes the ground grow; undefined where there is none, or where this edition lets it pass. */
function upsizing(
  w: Worksheet,
  r: GroundingRequest,
  device: Known<"A">,
  installed: Known<"size"> | undefined,
): { installed: Known<"size">; needed: Known<"size"> } | undefined {
  if (r.needed === undefined) {
    const needed = installed && neededByDevice(w, r, device, installed);
    if (installed && needed) return { installed, needed };
    return undefined;
  }
  if (!installed) {
    throw need(
      "size",
      `To what size were the conductors raised from ${r.needed}?`,
      `raised from ${r.needed} to 350 kcmil`,
    );
  }
  const needed = w.given("size needed for ampacity", r.needed);
  const [area, least] = [areaOf(w, installed, "area installed"), areaOf(w, needed, "area needed for ampacity")];
  if (w.holds(area, "<", least)) {
    throw need(
      "size",
      `${r.size} is smaller than ${r.needed}: from which size to which were they raised?`,
      "from 3 AWG to 1 AWG",
    );
  }
  if (r.upsizedFor !== "ampacity corrections") return { installed, needed };
  const name = "increase for temperature or for conductors together";
  const why = "only what goes beyond it makes the ground grow";
  // The 2017 words leave it open whether that increase is one; from 2020 they say that it is not.
  if (w.edition.rule("equipment-grounding-upsizing") === "beyond the ampacity the installation needs") {
    if (r.anyIncrease) {
      w.given(name, "counts", "as asked: the words of this edition leave it open", "equipment-grounding-upsized");
      return { installed, needed };
    }
    w.suppose(
      name,
      "does not count",
      `${why}: the size that is enough for the installation is the one after correction and adjustment`,
      "any increase counts",
      "equipment-grounding-upsized",
    );
  } else w.given(name, "does not count", why, "equipment-grounding-upsized");
  return undefined;
}

/**
 * What the device's full rating needs here, where larger conductors were told without a word why: an increase, as in a
 * plan of a circuit. Undefined where they are no larger.
 */
function neededByDevice(
  w: Worksheet,
  r: GroundingRequest,
  device: Known<"A">,
  installed: Known<"size">,
): Known<"size"> | undefined {
  const least = () => {
    const sets = r.sets !== undefined && r.sets > 1
      ? w.given("parallel sets", { n: String(r.sets), unit: "1" })
      : undefined;
    const wiring = wiringOf(w, { ...(r.material && { material: r.material }) }, device);
    const duty = { design: device, load: device, device, ...(sets && { sets }) };
    return chooseConductor(w, duty, wiring, "smallest conductor that the device needs").size;
  };
  const isMore = w.scratch(() => {
    const found = w.ifCovered(least);
    return found !== undefined && isLarger(w, installed, found);
  });
  if (!isMore) return undefined;
  const needed = least();
  w.suppose(
    "ungrounded conductors",
    `raised from ${w.size(needed)}`,
    "they are larger than the device needs, and nothing was said of heat or of other conductors beside them",
    `raised from ${w.size(needed).name} to ${r.size!.name} for temperature`,
    "equipment-grounding-upsized",
  );
  return needed;
}
