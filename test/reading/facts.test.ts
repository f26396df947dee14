/** Family corpora: text → facts, in any order of the attributes, with shapes that must not be taken for them. */
import { assert, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import fc from "fast-check";
import { factsInWords } from "../../src/reading/print.ts";
import { readText } from "../../src/reading/read.ts";

const facts = (text: string): string[] => factsInWords(readText(text).facts).facts;

/** Each family: texts that say the same, and the facts they say. */
const CORPORA: Record<string, [string[], string[]][]> = {
  load: [
    [
      [
        "12 kW range, 5 kW dryer",
        "range 12 kW, dryer 5 kW",
        "range 12kw dryer 5kw",
        "Range: 12 kW\nDryer: 5 kW",
        "range 12 kw; dryer 5",
      ],
      ["load range: rating 12 kW", "load dryer: rating 5 kW"],
    ],
    [
      ["three 1.5 kW heaters", "3x 1.5kw heaters", "heaters (3) 1.5 kW", "1.5 kw heaters x3", "3 heaters 1.5 kW each"],
      ["load space-heater: count 3, rating 1.5 kW"],
    ],
    [["range 9kw dryer 5kw ac 20a gas heat", "range 9kw, dryer 5kw, ac 20a, gas heat"], [
      "load range: rating 9 kW",
      "load dryer: rating 5 kW",
      "load air-conditioner: current 20 A",
      "load space-heater: fuel fuel:gas",
    ]],
    [["3 x 10HP + 8A lighting"], ["load —: count count 3, rating 10 hp", "load lighting: current 8 A"]],
    [["five of the 40 W lamps"], ["load lighting: count 5, rating 40 W, share share:each"]],
    [["6 kW dryer, scratch that, dryer is gas", "6 kW dryer, no wait, gas"], ["load dryer: fuel fuel:gas"]],
    [["20 units with a 5 kW dryer in each, no wait, 22"], ["building unit: count 22", "load dryer: rating 5 kW"]],
    [["AC MCA 19 max fuse/HACR bkr 30", "AC MCA 19, max fuse or circuit breaker 30"], [
      "load air-conditioner: maximum-protection 30, minimum-circuit-ampacity 19",
    ]],
    [["range 9000\ndryer 4500"], ["load range: rating 9000 VA", "load dryer: rating 4500 VA"]],
    [["7-plex", "7plex", "a 7 plex"], ["building multifamily: count 7"]],
    [["6 dryers at 5 kW", "dryers: six at 5 kW"], ["load dryer: count 6, rating 5 kW"]],
    [["two 3 hp pumps", "twin 3 hp pumps", "duplex 3 hp transfer pumps"], ["load pump: count 2, rating 3 hp"]],
    [["15 hp motor SF 1.15 nameplate 19 FLA"], ["load motor: full-load-current 19, rating 15 hp, service-factor 1.15"]],
    [["twin compressors RLA 11"], ["load compressor: count 2, rated-load-current 11"]],
    [["48 A EV charger", "ev charger 48A", "charger draws 48 A"], ["load ev-charger: current 48 A"]],
    [["gas dryer", "dryer gas", "dryer is gas"], ["load dryer: fuel fuel:gas"]],
    [["HP MCA 28 MOCP 45", "heat pump 28mca 45mocp", "heat pump\nMCA 28\nMOCP 45", "heat pump\nMCA MOCP\n28 45"], [
      "load heat-pump: maximum-protection 45, minimum-circuit-ampacity 28",
    ]],
    [["10 hp 208 V motor", "motor 10hp 208v", "208 V motor, 10 hp"], ["load motor: rating 10 hp, volts 208 V"]],
    [["a 5 kW dryer and a welder outlet"], ["load dryer: rating 5 kW", "load receptacles"]],
    [["cooktop ........ 8 kW\ndryer ____ 5 kW", "cooktop......8 kW\ndryer ... 5 kW"], [
      "load cooktop: rating 8 kW",
      "load dryer: rating 5 kW",
    ]],
    [["dryers in the laundry room: three at 5.5 kW and five at 4.8 kW"], [
      "load dryer: count 3, rating 5.5 kW",
      "load dryer: count 5, rating 4.8 kW",
    ]],
    [["3 motors, 25hp 10hp and 5hp", "three motors at 25 hp 10 hp 5 hp"], [
      "load motor: rating 25 hp",
      "load —: rating 10 hp",
      "load —: rating 5 hp",
    ]],
    [["two compressors RLA 16 and 21 A"], [
      "load compressor: rated-load-current 16",
      "load compressor: rated-load-current 21 A",
    ]],
    [["a 50 gallon 4.5 kW tank"], ["load water-heater: gallons 50 gal, rating 4.5 kW"]],
    [["building 7: 40 hp", "bldg 7: 40 hp"], ["load —: rating 40 hp"]],
    [["charger 32 amp, but it's 40"], ["load ev-charger: current 40 A"]],
    [["would a 125 hold it with a 40 A hot tub"], ["device breaker: rating 125", "load hot-tub: current 40 A"]],
  ],
  "what is taken back by no judgement": [
    [["it is on a 70. I told him that's wrong, he says 60"], ["device breaker: rating 70"]],
    [["it is on a 70. Wrong, a 60"], ["device breaker: rating 60"]],
  ],
  device: [
    [["two pole 60", "2 pole 60"], ["device breaker: poles poles 2, rating 60"]],
    [["60 A breaker", "breaker 60 A", "60 breaker", "breaker: 60", "60-amp breaker"], ["device breaker: rating 60 A"]],
    [["got a 40 on the truck"], ["device breaker: end end:there, rating 40"]],
    [["on a 60 A", "on a 60A"], ["device breaker: rating 60 A"]],
    [["a 125 on the secondary", "a 125 on its secondary"], ["device breaker: end end:secondary, rating 125"]],
    [["100 A subpanel", "sub panel 100 amp", "100a sub"], ["device subpanel: rating 100 A"]],
  ],
  conductor: [
    [["#6 copper", "6 AWG copper", "copper #6", "6 gauge cu"], ["conductor —: metal metal:copper, size size 6"]],
    [["4/0 aluminum neutral"], ["conductor neutral: metal metal:aluminum, size size 4/0"]],
    [["12/2 romex"], ["conductor —: insulation method:NM cable, size cable 12 2"]],
    [["copper ground"], ["conductor equipment-ground: metal metal:copper"]],
  ],
  building: [
    [["bldg 14 apartments", "lot 14 apartments"], ["building apartment: count 14"]],
    [["lot #14 apartments"], ["building apartment"]],
    [["triplex house, 10 kW range in each", "a triplex, in each a 10 kW range"], [
      "building three-family",
      "load range: rating 10 kW",
    ]],
    [["triplex size, 100 A"], ["conductor wire: metal metal:aluminum", "load —: current 100 A"]],
  ],
  "what another is compared with": [
    [["cooktop 7 kW, as big as my dryer", "7 kW cooktop, bigger than a dryer"], ["load cooktop: rating 7 kW"]],
  ],
  transformer: [
    [["45 kVA transformer 480 to 208Y/120", "transformer 45kva, 480 to 208y/120"], [
      "transformer transformer: rating 45 kVA, windings 480 V to 208/120 V wye",
    ]],
    [["45 kVA 480-208Y/120", "45kva 480:208y/120", "45 kVA 480V/208Y/120"], [
      "transformer transformer: rating 45 kVA, windings 480 V to 208/120 V wye",
    ]],
    [
      [
        "15 kVA transformer, primary 480 V, secondary 240 V",
        "transformer 15 kva 480 V primary, 240 V secondary",
        "15 kVA transformer\nprimary: 480 V\nsecondary: 240 V",
      ],
      ["transformer transformer: rating 15 kVA, windings primary 480 V + secondary 240 V"],
    ],
    [["15 kVA 480 V delta to 240 V delta"], [
      "transformer transformer: rating 15 kVA, windings 480 V delta to 240 V delta",
    ]],
  ],
  "what is no transformer": [
    [["300 ft 2/0 copper"], ["conductor —: length 300 ft, metal metal:copper, size size 2/0"]],
    [["the outlet goes from 120 to 240 V"], ["load receptacles"]],
    [["230/460 V motor"], ["load motor: volts system 230 460 false"]],
    [["2 hp motor 115-208-230 V", "2 hp motor 115-208-230"], [
      "load motor: rating 2 hp, volts system 115 208 false",
    ]],
  ],
  "a run's loads and stretches": [
    [["5 A at 100 ft, 3 A at 200 ft"], ["load —: current 5 A, length 100 ft", "load —: current 3 A, length 200 ft"]],
    [["100 ft of #6 then 80 ft of #10"], [
      "conductor —: length 100 ft, size size 6",
      "conductor —: length 80 ft, size size 10",
    ]],
    [["voltage drop of 16 A at 240 V"], ["load —: current 16 A, volts 240 V"]],
    [["wire at 60 °C"], ["conductor wire: temperature 60 °C"]],
  ],
};

/** Left out of the comparison: the unit of a device's rating, how a count was marked, whether "each" was said. */
const plain = (lines: string[]): string[] =>
  lines.map((line) =>
    line.replace(/rating (\d+) A\b/, "rating $1").replace(/draw (\d)/, "current $1").replace("count count", "count")
      .replace(/,? share share:each/, "")
  );

/** What stands in a list: its name, its figure and what of it is read. */
const LISTED: readonly [string, string, string, string][] = [
  ["range", "12kw", "range", "rating 12 kW"],
  ["dryer", "5kw", "dryer", "rating 5 kW"],
  ["dw", "1200", "dishwasher", "rating 1200 W"],
  ["disposal", "900", "disposer", "rating 900 W"],
  ["wh", "4500", "water-heater", "rating 4500 W"],
  ["ac", "24a", "air-conditioner", "current 24 A"],
  ["micro", "1500", "microwave", "rating 1500 W"],
];
/** How lists are joined, before or behind the names, and what follows them. */
const JOINED: readonly [head: string, join: string, isBefore: boolean, tail: string][] = [
  ["2000 sq ft house, ", " ", false, ", what service"],
  ["2000 sq ft house, ", ", ", false, ". what service"],
  ["2000 sq ft house, ", " and ", false, " what service"],
  ["2000 sq ft house gas heat, ", " ", false, " service?"],
  ["2000 sq ft house, ", ", ", true, ", what service"],
];
describe("a list of appliances", () => {
  it("is the same in whatever order it is told, bare watts beside kilowatts and amperes", () => {
    const pick = fc.tuple(
      fc.constantFrom(...JOINED),
      fc.shuffledSubarray([...LISTED], { minLength: 4, maxLength: 5 }),
    ).filter(([, items]) => items.some(([, figure]) => figure.endsWith("kw")));
    fc.assert(fc.property(pick, ([[head, join, isBefore, tail], items]) => {
      const text = head + items.map(([name, figure]) =>
        isBefore ? `${figure} ${name}` : `${name} ${figure}`
      ).join(join) +
        tail;
      const read = facts(text);
      for (const [, , id, figure] of items) {
        assert(read.includes(`load ${id}: ${figure}`), `${id} of ${text}: ${read.join("; ")}`);
      }
    }));
  });
});

/** What stands for itself, on no fact. */
const free = (text: string): string[] => factsInWords(readText(text).facts).free;

describe("free figures", () => {
  it("an area of each, whatever its size: no count of what stands before it", () => {
    for (const area of [150, 800]) assertEquals(free(`15 units x ${area} sq ft`), ["share:each", `ft2 ${area} ft2`]);
  });
  it("feet to a place", () => {
    for (const text of ["140 to the shed", "to the shed 140"]) {
      assertEquals(free(text).filter((each) => each.startsWith("ft ")).length, 1, text);
    }
  });
});

for (const [family, cases] of Object.entries(CORPORA)) {
  describe(family, () => {
    for (const [texts, expected] of cases) {
      for (const text of texts) {
        it(text.replaceAll("\n", " ⏎ "), () => assertEquals(plain(facts(text)), plain(expected)));
      }
    }
  });
}
