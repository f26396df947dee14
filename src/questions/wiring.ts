/**
 * How a request says where and how conductors run, how people write it, and how it is written back: shared by the kinds
 * that ask what a conductor carries.
 */
import * as z from "zod";
import { INSULATIONS } from "../rules/conditions.ts";
import { MATERIALS } from "../rules/conductors.ts";
import { METHODS } from "../rules/wiring-methods.ts";
import type { Draft, Phrase } from "../text/phrases.ts";
import { plain, quantity } from "./question.ts";

export const size = z.string().regex(
  /^(14|12|10|[1-8]|[1-4]\/0|\d{3,4} kcmil)$/,
  'a conductor size is written like "12", "2/0" or "250 kcmil", from 14 AWG up',
);

/** Rating of the terminations at both ends, as marked. */
export const terminals = z.strictObject({
  value: z.literal([60, 75, 90], "terminations are rated 60, 75 or 90 °C"),
  unit: z.literal("°C"),
}).optional();

/** Fields of a request on the wiring. */
export const wiring = {
  material: z.enum(MATERIALS).optional(),
  method: z.enum(METHODS).optional(),
  insulation: z.enum(INSULATIONS).optional(),
  wet: z.boolean().optional(),
  terminals,
  ambient: quantity(["°C", "°F"], { "°C": 85, "°F": 185 }, -100).optional(),
  rooftop: z.boolean().optional(),
  inInsulation: z.boolean().optional(),
  conductors: z.int().min(1).max(1000).optional(),
};
export type WiringFields = z.output<z.ZodObject<typeof wiring>>;

const TERMINALS = "(terminals?|terminations?|lugs?|columns?|breaker terminals?|equipment)";
const DEGREES = "({°C}|{n}(( )?°| degrees?| deg))";
/** Above this a bare number of degrees can only be Fahrenheit: no wire is run through air that hot in Celsius. */
const SURELY_FAHRENHEIT = 65;
const RATED = [60, 75, 90];

const setTerminals = (draft: Draft, degrees: number | undefined): void | false => {
  if (degrees === undefined || !RATED.includes(degrees)) return false;
  draft.terminals = { value: degrees, unit: "°C" };
};
const METALS = { copper: "copper|cu|cooper", aluminum: "aluminum|aluminium|alumminium|alum|al" };
const METHOD_NAMES: Record<typeof METHODS[number], string> = {
  "NM cable": "nm b|nmb|nm|romex|non( )?metallic( sheathed)?",
  "UF cable": "uf b|uf",
  "SE cable": "ser|seu|se(?= cable)|service entrance(?= cable)",
  "MC cable": "mc|metal clad|armou?red(?= cable)",
  "direct-burial conductors": "direct buri(al|ed)( conductors| wires?)?|urd",
  "conductors in conduit":
    "conductors in conduit|conduits?|raceways?|pipe|pvc|emt|imc|rmc|rigid( metal)?|liquidtight|lfmc|lfnc|ent|fmc",
};

const phrase = (name: string, pattern: string, read: Phrase["read"]): Phrase => ({ name, pattern, read });

/** Reads the wiring. Put them after a kind's own phrases on breakers and loads. */
export const wiringPhrases: readonly Phrase[] = [
  phrase(
    "terminals",
    `(with )?(both )?${DEGREES}( c)?( rated)? ${TERMINALS}|{n}\\/({n}|{°C})( c| degrees?)?( rated)? ${TERMINALS}|` +
      `${TERMINALS}( are| is| marked| rated| listed| all| both| at| for| to| only|,|:)* (${DEGREES}|{n})( c)?|rated( for)? ${DEGREES}( c)?`,
    (m, { draft }) => {
      const said = [...m.numbers, ...m.quantities.map(plain)];
      return setTerminals(draft, said.length > 0 ? Math.max(...said) : undefined);
    },
  ),
  phrase(
    "ambient",
    `(${DEGREES}|{°F})( c| f)?( ambient| attic| air| outdoor| outside| summer| design| room)+( temperatures?| temp)?|` +
      `(ambient|attic|outdoor temperatures?|temperatures?|temp|air)( temperatures?| temp| of| is| at| that| gets| reach(es)?| hits| can| up| to| around| about|,|:|=| assumed| maximum| max)* (${DEGREES}|{°F})( ambient)?`,
    (m, { draft, readAs }) => {
      const said = m.quantity("°C", "°F");
      if (said) return void (draft.ambient = said);
      const bare = m.numbers[0];
      if (bare === undefined || bare < SURELY_FAHRENHEIT) return false;
      readAs(`took ${bare} degrees as °F`);
      draft.ambient = { value: bare, unit: "°F" };
    },
  ),
  phrase("degrees", "(at |@( )?|in )?({°C}|{°F})|(at|for|in) {n} degrees", (m, { draft, readAs }) => {
    const bare = m.numbers[0];
    if (bare !== undefined) {
      if (bare < SURELY_FAHRENHEIT || RATED.includes(bare)) return false;
      readAs(`took ${bare} degrees as °F around the conductors`);
      return void (draft.ambient ??= { value: bare, unit: "°F" });
    }
    const said = m.quantity("°C", "°F")!;
    const value = plain(said);
    if (said.unit === "°F" || !RATED.includes(value)) return void (draft.ambient ??= said);
    if (draft.terminals !== undefined) return false;
    readAs(`took ${value} °C as the rating of the terminations`);
    return setTerminals(draft, value);
  }),
  phrase("no roof", "not on (the |a )?roof", (_, { draft }) => void delete draft.rooftop),
  phrase(
    "rooftop",
    "(on |over |across |above )?(the |a )?(flat |hot )?roof( )?tops?|(on|over|across) (the |a )?(flat )?roof",
    (_, { draft }) => void (draft.rooftop = true),
  ),
  phrase(
    "thermal insulation",
    "(in|inside|through|under|buried in|covered (by|with|in)|surrounded by|touching|in contact with) (the |some )?((blown in|spray|thermal|attic|wall|batt|foam|fiberglass)( )?)*(insulation|foam|insulated walls?)",
    (_, { draft }) => void (draft.inInsulation = true),
  ),
  phrase(
    "wet place",
    "(in )?(a )?(wet|damp)( location| place)?|underground|buried|in the ground",
    (_, { draft }) => void (draft.wet = true),
  ),
  phrase(
    "equipment grounds",
    "{n} (egcs?|(equipment )?ground(s|ing)?( wires?| conductors?)?)",
    (_, { readAs }) => readAs("equipment grounds do not count as current-carrying"),
  ),
  phrase(
    "current-carrying",
    "((not|no) more than |up to |max(imum)? )?{n}(?=( {size}| copper| cu| aluminum| al| thhn| thwn| xhhw| conductors?| wires?| total| that| which| all| \\d+)* (current carrying|ccc|carry(ing)? current))( current carrying| ccc)?",
    (m, { draft }) => void (draft.conductors = m.numbers[0]!),
  ),
  phrase(
    "conductors together",
    "{n}( current carrying| ccc)*( conductors?| wires?)+( all| run| pulled| bundled| are| together)*( in| inside| through| sharing)( the| a| an| one| same| this)+|{n} (conductors|wires) (together|bundled)",
    (m, { draft }) => void (draft.conductors = m.numbers[0]!),
  ),
  phrase("that carry current", "(that |which )?(all )?carry(ing)? current|current carrying|cccs?", () => {}),
  phrase(
    "in one conduit",
    "in {n}(?= (conduit|pipe|raceway|emt|pvc|cable|rmc|imc))",
    (m) => m.numbers[0] === 1 ? undefined : false,
  ),
  ...insulationPhrases(),
  ...Object.entries(METHOD_NAMES).map(([method, names]) =>
    phrase(
      method,
      `(in |inside |using |with |of |the |a |one |same )*({in} )?${
        method === "conductors in conduit" ? "(steel |aluminum (?=conduit|raceway|rigid))?" : ""
      }(${names})( cable| conduit| tubing| raceway)*`,
      (m, { draft, amending }) => {
        draft.method = method;
        // Another wiring method brings its own insulation and no conduit: what was said of the former goes with it.
        if (amending && method.endsWith("cable")) {
          delete draft.insulation;
          delete draft.conduit;
        }
        if (/steel|emt|imc|rmc|rigid/.test(m.text)) draft.conduit = "steel";
        else if (/pvc/.test(m.text)) draft.conduit = "PVC";
        else if (/aluminum (conduit|raceway|rigid)/.test(m.text)) draft.conduit = "aluminum";
      },
    )
  ),
  // Both metals named: the answer shows one and names the other, so neither is taken as said.
  phrase(
    "either metal",
    `(${METALS.copper}) (or|vs\\.?|versus|and) (${METALS.aluminum})|(${METALS.aluminum}) (or|vs\\.?|versus|and) (${METALS.copper})`,
    () => {},
  ),
  ...Object.entries(METALS).map(([material, names]) =>
    phrase(
      material,
      `(use |make it |with |in )?(${names})(?! conduit)`,
      (_, { draft }) => void (draft.material = material),
    )
  ),
];

function insulationPhrases(): Phrase[] {
  const letters = INSULATIONS.filter((type) => !type.endsWith("-2"));
  const withTwo = letters.filter((type) => (INSULATIONS as readonly string[]).includes(`${type}-2`));
  // "use" alone is a verb.
  const bare = letters.filter((type) => type !== "USE");
  const any = (types: readonly string[]) =>
    types.map((type) => type.toLowerCase()).sort((a, b) => b.length - a.length).join("|");
  return [
    phrase("insulation, -2", `(thhn( )?\\/( )?)?(?<type>${any(withTwo)})( )?{n}`, (m, { draft }) => {
      if (m.numbers[0] !== 2) return false;
      draft.insulation = `${m.groups.type!.toUpperCase()}-2`;
    }),
    // Dual-marked wire has the better of its two ratings in a dry place.
    phrase(
      "insulation, dual",
      "thhn( )?\\/( )?thwn|thwn( )?\\/( )?thhn",
      (_, { draft }) => void (draft.insulation = "THHN"),
    ),
    phrase("insulation", `(?<type>${any(bare)})s?|use insulation`, (m, { draft }) => {
      draft.insulation = m.groups.type?.toUpperCase() ?? "USE";
    }),
  ];
}

/** The wiring as it would be typed. */
export function writeWiring(r: WiringFields): string[] {
  return [
    r.material,
    // "use" alone would be read as a verb.
    r.insulation === "USE" ? "USE insulation" : r.insulation,
    r.method,
    r.wet ? "wet location" : undefined,
    r.terminals && `${r.terminals.value} °C terminals`,
    r.ambient && `ambient ${r.ambient.value} ${r.ambient.unit}`,
    r.rooftop ? "on the roof" : undefined,
    r.inInsulation ? "in thermal insulation" : undefined,
    r.conductors === undefined ? undefined : `${r.conductors} current-carrying conductors`,
  ].filter((part): part is string => typeof part === "string");
}
