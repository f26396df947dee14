/** How deep wiring lies in the earth, and how often a raceway or a cable is held. */
import { convert } from "../../../core/quantity.ts";
import { need, NotCovered } from "../../../core/outcome.ts";
import type { Known, Reasoned, Told } from "../../../core/worked.ts";
import type { Worksheet } from "../../../core/worksheet.ts";
import { ledBy } from "../../parts/verdict.ts";
import { tradeInches } from "../../parts/sizes.ts";
import { question } from "../../question.ts";
import { asQuantity } from "../../parts/quantities.ts";
import { input, type LayingRequest, type Method, METHODS } from "./request.ts";
import { takes } from "./takes.ts";
import { write } from "./write.ts";

export default question({
  id: "burial-and-support",
  title: "Burial depth and supports",
  about: "How deep cables and conduits lie in the earth, and how often they are fastened.",
  input,
  figures: {
    "burial-cover": "least cover",
    "burial-cover-direct": "least cover, direct burial",
    "burial-cover-rigid": "least cover, rigid or intermediate conduit",
    "burial-cover-pvc": "least cover, PVC conduit",
    "support-spacing": "distance between supports, at most",
    "support-from-box": "first support from a box, at most",
  },
  examples: [
    "how deep do I bury UF cable to the shed",
    "burial depth of PVC conduit under the driveway of a house, is 18 inches ok?",
    "how far apart are the straps of 3/4 EMT",
  ],
  manner: { asked: "goal:burial-depth" },
  takes,
  minds: ["above"],
  write,
  answer(r, w) {
    return (r.find === "supports" ? supports : cover)(w, r);
  },
});

type Column = NonNullable<typeof METHODS[Method]> | "residential branch circuit" | "low voltage";
const FIGURES: readonly (readonly [Column, string, string])[] = [
  ["direct burial", "burial-cover-direct", "direct-buried cable"],
  ["nonmetallic raceway", "burial-cover-pvc", "PVC conduit"],
  ["rigid or intermediate conduit", "burial-cover-rigid", "rigid or intermediate conduit"],
];

/** Cover by the place and by what lies there; of a kind that was not told, all three. */
function cover(w: Worksheet, r: LayingRequest): Told {
  const { method, circuit, location: told } = r;
  const column: Column | undefined = circuit ?? (method && METHODS[method]);
  if (method && !column) {
    throw new NotCovered(
      `${method} is not made to lie in the earth: take UF cable, PVC or rigid conduit`,
      w.edition.id,
    );
  }
  if (!told) {
    w.suppose(
      "place",
      "open ground",
      "nothing was said of what lies above",
      "under the driveway of a house",
      "burial-cover",
    );
  }
  const location = told ?? "elsewhere";
  w.part("Cover");
  const of = (each: Column) => w.lookUp<"in">(`least cover, ${each}, ${location}`, "burial-cover", each, location);
  if (!column) {
    const all = FIGURES.map(([each, id, name]) => {
      const least = of(each);
      w.figure(id, least, `least cover, ${name}`);
      return w.say`${least} for ${name}`;
    });
    if (r.told) throw need("method", "What lies there: UF cable, PVC conduit or rigid conduit?", "UF cable");
    cautions(w, r, column, location);
    return { headline: `Cover of ${all.join(", ")}${places(location)}.` };
  }
  const least = of(column);
  w.figure("burial-cover", least, "least cover");
  const verdict = judge(w, r, least, "cover", "≥");
  cautions(w, r, column, location);
  return ledBy(verdict, w.say`Cover of ${least} for ${names(column, method)}${places(location)}.`);
}

const names = (column: Column, method: Method | undefined): string =>
  column === "residential branch circuit"
    ? "a 120 V branch circuit of 20 A at most behind a ground-fault device"
    : column === "low voltage"
    ? "lighting or irrigation of 30 V at most"
    : method ?? column;
const places = (location: NonNullable<LayingRequest["location"]>): string =>
  location === "elsewhere" ? "" : ` ${location}`;

function cautions(w: Worksheet, r: LayingRequest, column: Column | undefined, location: string): void {
  w.caution("Cover is measured from the top of the cable or conduit to the finished grade; the trench is deeper.");
  w.caution("Where it comes out of the ground it is protected, from below grade on.", "burial-protection");
  if (location === "under a building" && column === "direct burial") {
    w.caution("Under a building it lies in a raceway.", "burial-cover");
  }
  if (r.method === "EMT") {
    w.caution("EMT in the earth wants approved protection against corrosion: PVC is the usual way.");
  }
  if (r.method && IF_MARKED.includes(r.method)) {
    w.caution(`${r.method} lies in the earth only where it is listed and marked for direct burial.`, "burial-cover");
  }
  if (column === "direct burial" && location !== "under a building") {
    w.suggest("20 A 120 V GFCI circuit", "in PVC conduit");
  } else w.suggest("UF cable", "under the driveway of a house");
}

/** Made for the earth only where they say so. */
const IF_MARKED: readonly Method[] = ["LFMC", "LFNC", "MC cable"];

/** Distances by the article of the raceway or cable; PVC and straight threaded rigid conduit by their size. */
function supports(w: Worksheet, r: LayingRequest): Told {
  const { method, size } = r;
  if (!method || method === "direct-buried conductors") {
    throw need("method", "Of which raceway or cable: EMT, PVC, rigid, NM, MC?", "3/4 EMT");
  }
  w.part("Supports");
  const inches = size && w.given("trade size", { n: tradeInches(size), unit: "in" });
  if (method === "PVC" && !inches) throw need("size", "Which trade size of PVC?", "1 in PVC");
  const most = method === "PVC"
    ? w.lookUp<"ft">("distance between supports", "pvc-supports", "supports at most", inches!)
    : w.lookUp<"ft">("distance between supports", "wiring-supports", "supports at most", method);
  const first = method === "PVC"
    ? w.lookUp<"ft">("first support from a box", "pvc-supports", "from a box at most", inches!)
    : w.lookUp<"ft">("first support from a box", "wiring-supports", "from a box at most", method);
  w.figure("support-spacing", most, "distance between supports, at most");
  w.figure("support-from-box", first, "first support from a box, at most");
  const straight = inches && (method === "RMC" || method === "IMC")
    ? w.lookUp<"ft">("straight runs with threaded couplings", "rigid-conduit-supports", "supports at most", inches)
    : undefined;
  // By its armour one is taken for the other, and the distances differ.
  const armored = method === "MC cable"
    ? w.lookUp<"ft">("distance between supports, AC (BX) cable", "wiring-supports", "supports at most", "AC cable")
    : undefined;
  const more = straight
    ? w.say`; straight runs with threaded couplings up to ${straight}`
    : armored
    ? w.say`; AC (BX) cable every ${armored}`
    : "";
  const verdict = judge(w, r, most, "distance", "≤");
  w.caution("Straps hold the raceway, not another one; cables are not hung from raceways.", "supports");
  w.suggest("3/4 EMT", "NM cable");
  const of = `${size ? `${size} in ` : ""}${method}`;
  return ledBy(verdict, w.say`${of}: held every ${most} at most, and within ${first} of a box${more}.`);
}
/** A figure that was put up, against its bound. */
function judge(
  w: Worksheet,
  { told }: LayingRequest,
  bound: Known<"in" | "ft">,
  what: string,
  fits: "≥" | "≤",
): Reasoned | undefined {
  if (!told) return undefined;
  w.part("Check");
  const unit = w.value(bound) as { unit: "in" | "ft" };
  const put = w.given(`${what} as told`, convert(asQuantity(told), unit.unit));
  const is = w.choose(what, [put, fits, bound], ["enough", () => true], ["not enough", () => false]);
  return { is: is ? "ok" : "not ok", because: w.say`${put} against ${bound}` };
}
