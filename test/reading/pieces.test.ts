/** Neighbours that are one thing, and shapes that must not be taken for one. */
import { assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import { piecesOf } from "../../src/reading/pieces.ts";
import { senseInWords } from "../../src/reading/print.ts";
import { tokenize } from "../../src/reading/tokens.ts";

/** What the facts of a text are, one string a piece; a piece of several senses parts them by a bar. */
const senses = (text: string): string[] =>
  piecesOf(tokenize(text)).filter(({ is }) => is === "fact").map((piece) => piece.senses.map(senseInWords).join(" | "));

const CASES: Record<string, [string, string[]][]> = {
  "figures with units": [
    ["48A 240v 12kw", ["48 A", "240 V", "12 kW"]],
    ["60-amp", ["60 A"]],
    ["two oh eight volts", ["208 V"]],
    ["2,400 sq. ft.", ["2400 ft2"]],
    ["600 sf", ["600 ft2"]],
    ["100' of 85 feet", ["100 ft", "85 ft"]],
    ["10k furnace", ["10 kW", "appliance:furnace"]],
    ["a half horse", ["0.5 hp"]],
    ["one third hp", ["1/3 hp"]],
    ["105F", ["105 °F"]],
    ["-20 °C", ["-20 °C"]],
    ["1-1/4 in EMT", ["1.25 in", "raceway:emt"]],
    ["480 and 112.5", ["480", "112.5"]],
  ],
  "labels before their numbers": [
    ["HP 10 VOLTS 460 AMPS 14 RPM 1750", ["10 hp", "460 V", "14 A", "1750 rpm"]],
    ["HP 28 A", ["appliance:heat-pump", "28 A"]],
    ["amps: 28/14", ["pair 28 14 A"]],
    ["10 hp 28 A 240 V", ["10 hp", "28 A", "240 V"]],
  ],
  "conductors": [
    ["#6", ["size 6"]],
    ["no. 8", ["size 8"]],
    ["no.8", ["size 8"]],
    ["#8 to two ground rods", ["size 8", "electrode:rod"]],
    ["a pair of 10 ft rods", ["electrode:rod"]],
    ["4/0", ["size 4/0"]],
    ["500 kcmil", ["size 500 kcmil"]],
    ["350 MCM", ["size 350 kcmil"]],
    ["six gauge", ["size 6"]],
    ["four aught", ["size 4/0"]],
    ["12 THHN", ["size 12", "insulation:THHN"]],
    ["350 AL", ["size 350 kcmil", "metal:aluminum"]],
    ["12/2 w/g", ["cable 12 2"]],
    ["6-3 romex", ["cable 6 3", "method:NM cable"]],
    ["2-2-2-4 SER", ["sizes 2 2 2 4", "method:SE cable"]],
    ["4/0-4/0-2/0", ["sizes 4/0 4/0 2/0"]],
    ["from 8 to 6", ["8", "6"]],
    ["3/4 hp", ["0.75 hp"]],
    ["3/4 in", ["0.75 in"]],
    ["4 wire", ["connection:four-wire"]],
  ],
  "voltages": [
    ["120/240", ["system 120 240 false"]],
    ["208Y/120", ["system 120 208 true"]],
    ["208y", ["system 120 208 true"]],
    ["480/277V", ["system 277 480 true"]],
    ["460/3/60", ["460 V | phase:three-phase"]],
    ["480/3", ["480 V | phase:three-phase"]],
    ["125/3 breaker", ["pair 125 3", "device:breaker"]],
    ["240/1", ["240 V | phase:single-phase"]],
    ["480/3 amps", ["480 V | phase:three-phase", "goal:current"]],
    ["LP-4", ["device:panel"]],
    ["DP2B", ["device:panel"]],
    ["9 hr/day", ["hours:continuous"]],
    ["2 hours a night", ["hours:noncontinuous"]],
    ["2/0 copper at 75", ["size 2/0", "metal:copper", "75 °C"]],
    ["loaded at 75", ["75"]],
    ["208-230/1/60", ["system 208 230 false | phase:single-phase"]],
    ["3ph", ["phase:three-phase"]],
    ["three phase", ["phase:three-phase"]],
  ],
  "counts, floors, ranges and sums": [
    ["3x 1.5kw", ["count 3", "1.5 kW"]],
    ["(12) 150w", ["count 12", "150 W"]],
    ["lamps x8", ["appliance:lighting", "count 8"]],
    ["28x44", ["1232 ft2 (28 × 44 ft)"]],
    ["24' x 30'", ["720 ft2 (24 × 30 ft)"]],
    ["180-200 ft", ["200 ft (from 180)"]],
    ["90 to 100 feet", ["100 ft (from 90)"]],
    ["50 or 60 amp", ["choice 50,60 A"]],
    ["1200 + 900 W", ["2100 W (1200 + 900 W)"]],
    ["a 40 hp and two 15s", ["40 hp", "2", "15 hp (15s)"]],
    ["50+25+10 hp", ["50 hp", "25 hp", "10 hp"]],
    ["two twenty amp circuits", ["count 2", "20 A", "circuit:circuit"]],
    ["two twenty volts", ["220 V"]],
  ],
  "receptacles": [
    ["14-50", ["pattern 14 50"]],
    ["NEMA 6-20R", ["pattern 6 20"]],
    ["L6-30", ["pattern 6 30"]],
  ],
  "of no consequence": [
    ["$450", ["aside a price"]],
    ["at 7:30 pm", ["aside a time of day"]],
    ["a 1987 house", ["aside a year", "building:dwelling"]],
    ["model JT955", ["aside no figure of the calculation"]],
    ["M/N XY20-77", ["aside no figure of the calculation"]],
    ["MFD 06/2017", ["aside a date"]],
    ["R-454B 4 lb 11 oz", ["aside no figure of the calculation", "aside no figure of the calculation"]],
    ["R-30 A", ["30 A"]],
    ["1500 sq ft x 3 = 4500", ["1500 ft2", "aside somebody's own working: worked out here"]],
    ["10000 + 40% of 9000 = 13600 VA", ["aside somebody's own working: worked out here"]],
    ["2 x 1500 = 3000", ["count 2", "1500", "aside somebody's own working: worked out here"]],
    ["2 x 1500 = 4000", ["count 2", "1500", "4000"]],
    ["8 ft ceilings", ["aside a height is no floor area"]],
    ["+/- 10 feet", ["aside a tolerance"]],
  ],
  "editions and sections": [
    ["2020 NEC", ["edition 2020"]],
    ["under the 2017 code", ["edition 2017"]],
    ["220.83", ["section 220.83"]],
    ["table 310.16", ["section 310.16"]],
  ],
};

for (const [what, cases] of Object.entries(CASES)) {
  describe(what, () => {
    for (const [text, expected] of cases) it(text, () => assertEquals(senses(text), expected));
  });
}
