/** Conversations: replies, changes, other questions about the same facts, new ones, and the way back. */
import { assert, assertAlmostEquals, assertEquals } from "@std/assert";
import { describe, it } from "@std/testing/bdd";
import type { Outcome } from "../src/outcomes.ts";
import type { Handed } from "../src/conversation/thread.ts";
import { threadSchema } from "../src/conversation/thread.ts";
import { engine } from "./support/engine.ts";

/** Says the texts one after the other; the thread travels as JSON, as it does over HTTP. */
function talk(...texts: string[]): Outcome[] {
  let thread: Handed | undefined;
  return texts.map((text) => {
    const outcome = engine.ask(text, thread ? { after: thread } : {});
    if (outcome.thread !== undefined) {
      thread = threadSchema.parse(JSON.parse(JSON.stringify(outcome.thread))) as unknown as Handed;
    }
    return outcome;
  });
}
const last = (...texts: string[]): Outcome => talk(...texts).at(-1)!;
const figures = (outcome: Outcome): Record<string, number | string> => {
  assertEquals(outcome.outcome, "answered", JSON.stringify(outcome).slice(0, 400));
  const answer = (outcome as Extract<Outcome, { outcome: "answered" }>).answer;
  return {
    kind: answer.kind,
    ...Object.fromEntries(Object.entries(answer.figures).map(([id, { value }]) => [id, value])),
  };
};
const request = (outcome: Outcome): Record<string, unknown> =>
  outcome.outcome === "answered" ? outcome.answer.request as Record<string, unknown> : {};
const holds = (outcome: Outcome, expected: Record<string, number | string>) => {
  const found = figures(outcome);
  assertEquals(Object.fromEntries(Object.keys(expected).map((id) => [id, found[id]])), expected);
};

describe("a change of facts", () => {
  it("replaces the figure of the head that is named again", () =>
    holds(last("breaker and wire for a 32 A EV charger", "it's a 24 A charger"), { "breaker-rating": 30 }));
  it("takes a bare number as the figure told last", () =>
    holds(last("circuit for a 10 kW range?", "make that 18 kW", "no, 13"), { "load-current": 35 }));
  it("turns the metal", () =>
    holds(last("breaker and wire for a 40 A load at 240 V", "aluminum"), { "breaker-rating": 40, conductor: "6" }));
  it("says what is another than before", () => {
    const outcome = last("circuit for a 10 kW range?", "make that 18 kW");
    assert(outcome.changes?.some(({ figure, was, is }) => figure === "breaker-rating" && was === 40 && is === 45));
  });
  it("adds and takes away", () => {
    const house = "2000 sq ft house, 12 kW range, 5 kW dryer, what service?";
    const before = figures(last(house))["calculated-load"];
    assertEquals(figures(last(house, "add a 7 kW hot tub", "drop the hot tub"))["calculated-load"], before);
  });
});

describe("so many of them", () => {
  // Table 220.55, column C: 23 kW for eight ranges of not over 12 kW.
  it("counts what was counted", () =>
    holds(last("cooking demand on 5 ranges, 10 kW each", "8 of them"), { "demand-load": 23000 }));
  it("has no figure before what is asked for", () =>
    holds(last("rla 36 fan 1.5 230 volt whats mca"), { "minimum-circuit-ampacity": 46.5 }));
});

describe("an area told anew", () => {
  // Section 220.42(A), 2023: 1.9 VA a square foot of a retail store.
  it("replaces the only one, and stands beside it when it is added", () => {
    const of = (...texts: string[]) =>
      figures(last("store 5000 sq ft, 208Y/120, what service?", ...texts))["lighting-load"];
    assertEquals([of(), of("8000 sq ft"), of("add 1000 sq ft")], [9500, 15200, 11400]);
  });
  it("leaves the basement's alone", () => {
    const told = "house 2400 sq ft with a 1200 sq ft finished basement, 12 kW range, what service";
    const once = "house 2600 sq ft with a 1200 sq ft finished basement, 12 kW range, what service";
    assertEquals(
      figures(last(told, "make it 2600 sq ft"))["standard-method-load"],
      figures(last(once))["standard-method-load"],
    );
  });
});

describe("a figure that names what it belongs to", () => {
  // 460 V, Table 430.250: 21, 11, 7.6 and 3.4 A for 15, 7.5, 5 and 2 hp; 125 % of the largest (430.24).
  const list = "motor feeder, 460 three phase: a 15 hp, a 5 and three 2 hp";
  it("is changed, taken away and added to", () => {
    const turns = talk(list, "trade the 5 for a 7.5", "ditch one of the 2s", "throw in another 15");
    assertEquals(turns.map((each) => figures(each)["feeder-ampacity"]), [44.05, 47.45, 44.05, 65.05]);
  });
  it("stands alone", () =>
    holds(last(list, "what would the 5 need on its own, wire and breaker"), {
      kind: "motor-circuit",
      "full-load-current": 7.6,
    }));
  it("changes nothing in silence where none has it", () => {
    for (const text of ["ditch the 40", "lose the dryer"]) assertEquals(last(list, text).outcome, "unclear");
  });
  it("tells a plate's two figures again", () =>
    holds(last("heat pump MCA 31 MOP 50, 208 V three phase, copper wire", "the plate says 27 and 40"), {
      "minimum-circuit-ampacity": 27,
      "maximum-protection": 40,
    }));
  it("takes back what was said last", () => {
    const outcome = last("heat pump MCA 31 MOP 50, what wire", "aluminum", "never mind");
    holds(outcome, { conductor: "8" });
  });
});

describe("a reply", () => {
  it("takes its unit from what was asked", () =>
    holds(last("wire and breaker for a 40 hp pump motor", "480 three phase"), {
      kind: "motor-circuit",
      "full-load-current": 52,
    }));
  it("is asked about, not guessed, when it fits nothing", () => {
    const outcome = last("breaker and wire for a 32 A EV charger", "purple 7 elephants");
    assertEquals(outcome.outcome, "unclear");
  });
});

describe("another question about the same facts", () => {
  it("uses what is known", () =>
    holds(last("100 A subpanel in a detached barn 120 ft away, aluminum", "and what ground then?"), {
      "equipment-grounding-conductor": "6",
    }));
  it("keeps the job when nothing was said", () => {
    const [first, thanks, change] = talk("breaker and wire for a 32 A EV charger", "thanks a lot", "copper, 24 A");
    assertEquals(thanks!.outcome, "unclear");
    assertEquals(figures(first!)["breaker-rating"], 40);
    holds(change!, { "breaker-rating": 30 });
  });
  it("compares two metals of what is known", () => {
    const outcome = last("ampacity of 3/0 copper XHHW-2 at 108 °F", "copper or aluminum in 4/0?");
    holds(outcome, { ampacity: Number(figures(last("ampacity of 4/0 copper XHHW-2 at 108 °F")).ampacity) });
    holds(outcome.more![0]!, { ampacity: Number(figures(last("ampacity of 4/0 aluminum XHHW-2 at 108 °F")).ampacity) });
  });
  it("asks what is dropped by a load, of the breaker that is known", () =>
    assertAlmostEquals(
      Number(figures(last("60 A feeder to a shed, 120 ft", "what is the drop with 30 A on it"))["voltage-drop"]),
      Number(figures(last("voltage drop, 30 A, 240 V, 120 ft, 4 AWG copper"))["voltage-drop"]),
    ));
  it("takes a side's other supply", () =>
    assertAlmostEquals(
      Number(figures(last("30 kVA transformer, 480 to 208Y/120", "what if it is fed off 600"))["primary-current"]),
      30000 / 600 / Math.sqrt(3),
    ));
  it("goes to an edition that is named alone", () => {
    const outcome = last("circuit for a 10 kW range?", "and by the 2017?");
    assert(outcome.outcome === "answered" && outcome.answer.edition === "2017");
  });
  it("tells why, and by which sections", () => {
    for (const text of ["why?", "which section?"]) {
      const outcome = last("circuit for a 10 kW range?", text);
      assertEquals(outcome.outcome, "answered");
      assert(outcome.outcome === "answered" && outcome.answer.explanation!.includes("220.55"));
    }
  });
});

describe("a conversation wanders", () => {
  const HOUSE = "2400 sq ft house, 12 kW range, 5 kW dryer, 48 A EV charger, what service?";
  it("from the house to the charger's wire, its ground, the drop, and back, without losing a fact", () => {
    const [house, wire, ground, drop, back] = talk(
      HOUSE,
      "what wire for the charger?",
      "and the ground?",
      "what is the voltage drop at 180 ft?",
      "back to the house, add a 50 A hot tub",
    );
    holds(wire!, { kind: "branch-circuit", "load-current": 48, "breaker-rating": 60 });
    holds(ground!, { "equipment-grounding-conductor": "10" });
    assert(Number(figures(drop!)["voltage-drop"]) > 0);
    const alone = figures(last(`${HOUSE} 50 A hot tub`));
    holds(back!, { kind: "dwelling-load", "calculated-load": alone["calculated-load"]! });
    assert(figures(back!)["calculated-load"] !== figures(house!)["calculated-load"]);
  });
  it("a whole new question leaves the earlier one's length and metal behind", () =>
    assertEquals(
      figures(
        last("breaker and wire for a 48 A EV charger, 150 ft, aluminum", "what breaker for a 5 kW dryer?"),
      )["voltage-drop"],
      undefined,
    ));
  it("some of a counted group are told another figure", () => {
    const dryers = "dryers in an apartment house: six at 5 kW";
    holds(last(dryers, "two of those are 7s"), { kind: "dryer-demand", "connected-load": 4 * 5000 + 2 * 7000 });
    holds(last(dryers, "one of them is a 9", "add one more of the 5s"), { "connected-load": 6 * 5000 + 9000 });
    holds(last(dryers, "one of them is a 9", "lose the 9 kW"), { "connected-load": 5 * 5000 });
    holds(
      last("motor feeder 460 V: three 10 hp", "one of the motors is really a 15"),
      {
        "feeder-ampacity": Number(
          figures(last("motor feeder 460 V: two 10 hp motors and a 15 hp motor"))["feeder-ampacity"],
        ),
      },
    );
    assertEquals(last("12 kW range, what breaker", "two of the ranges are really 15s").outcome, "unclear");
  });
  it("a breaker asked about an ampacity is the largest that it may have", () =>
    holds(last("ampacity of 2/0 aluminum THHN in a 40 °C room", "what breaker goes on it"), {
      kind: "conductor-ampacity",
      "breaker-rating": 150,
    }));
  it("the same size in another metal asks for no size", () =>
    holds(last("voltage drop, 480 V three phase, 300 ft, 65 A, 1/0 aluminum", "same size in cu"), {
      "voltage-drop-volts": Number(
        figures(last("voltage drop, 480 V three phase, 300 ft, 65 A, 1/0 copper"))["voltage-drop-volts"],
      ),
    }));
  it("what nothing can answer is asked about", () =>
    assertEquals(last("10 hp 460 V motor, wire and breaker", "will it last 15 years?").outcome, "unclear"));
  it("start over forgets", () => {
    const outcome = last(HOUSE, "start over", "add a hot tub");
    assertEquals(outcome.outcome === "answered" && outcome.answer.kind === "dwelling-load", false);
  });
  it("an earlier answer's request goes on like its thread", () => {
    const [first] = talk("circuit for a 10 kW range?");
    assert(first!.outcome === "answered");
    holds(engine.ask("18 kW", { after: first!.answer.request as never }), { "breaker-rating": 45 });
  });
});

describe("topics of one sort", () => {
  const first = "condenser, MCA 15.3, MOCP 25, wire and breaker?";
  it("are opened beside one another, and found again by their number", () => {
    const turns = talk(first, "the other unit's plate reads MCA 22.1, MOCP 35", "back to the first one, in aluminum");
    holds(turns[1]!, { "minimum-circuit-ampacity": 22.1, "maximum-protection": 35 });
    holds(turns[2]!, { "minimum-circuit-ampacity": 15.3, "maximum-protection": 25 });
    holds(last(first, "2nd unit: MCA 22.1, MOCP 35", "and the first one in copper"), { "maximum-protection": 25 });
  });
  it("are not mixed: a circuit of another load is another circuit", () => {
    const turns = talk(
      "circuit for a 3 kW, 240 V water heater",
      "and a 1.2 kW, 120 V bathroom heater",
      "back to the water heater, say 3.8 kW",
    );
    holds(turns[1]!, { "load-current": 10 });
    holds(turns[2]!, { "load-current": 3800 / 240 });
  });
  it("are called by numbers, from the first one on", () => {
    const turns = talk("pump 1 is a 15 hp at 460 three phase, what breaker", "pump 2 is a 5 hp", "40 hp for 1 now");
    assertEquals(turns.slice(0, 2).map((each) => figures(each)["full-load-current"]), [21, 7.6]);
    holds(last("first: 60 A panel, copper, 30 ft", "second: 100 A panel, copper, 50 ft", "aluminum for the first"), {
      "breaker-rating": 60,
    });
  });
  it("are gone back to by what only an earlier one knows", () =>
    holds(
      last("gec for a service with 3/0 copper", "how many amps is 9 kW at 240 V", "what if the service were 250 kcmil"),
      { kind: "grounding", "grounding-electrode-conductor": "2" },
    ));
  it("stand side by side where each is asked with its figure", () => {
    const [both] = talk("aluminum feeder for a 100 A panel? and the ground wire size for a 60 A breaker?");
    holds(both!, { kind: "feeder", "breaker-rating": 100 });
    holds(both!.more![0]!, { kind: "grounding", "equipment-grounding-conductor": "10" });
  });
});

describe("a plate", () => {
  const motor = "15 hp, 460 V three-phase motor, plate 19.5 A, service factor 1.15: breaker and overload?";
  const notes = (outcome: Outcome) => outcome.outcome === "answered" ? outcome.answer.readAs.join() : "";
  it("is left out, and that is said, at another voltage and for another motor", () => {
    for (const text of ["run the same one at 230", "no, it is a 20 hp"]) {
      const outcome = last(motor, text);
      assertEquals(figures(outcome)["overload-rating"], undefined, text);
      assert(notes(outcome).includes("19.5"), notes(outcome));
    }
  });
  it("stays at a voltage that is the same by another name", () =>
    holds(last(motor, "supply is 480"), { "overload-rating": 19.5 * 1.25 }));
  it("has the breaker that sits in the panel judged beside it", () => {
    const outcome = last("heat pump MCA 21, MOCP 40, what wire", "there's a 50 in the panel already, fine?");
    assert(outcome.outcome === "answered" && outcome.answer.verdict === "not ok");
  });
  it("has a device tried beside it, and keeps its own", () =>
    holds(last("heat pump MCA 21, MOCP 40, what wire", "could we use a 30 we have here"), {
      "maximum-protection": 40,
    }));
});

describe("what is taken away and put", () => {
  const house = "2000 sq ft house: 12 kW range, 5 kW dryer, 4.5 kW water heater, 20 A air conditioner, what service?";
  const load = (...texts: string[]) => figures(last(...texts))["calculated-load"];
  it("are two things", () =>
    assertEquals(
      load(house, "take out the dryer and put in a 6 kW hot tub"),
      load(house, "drop the dryer", "add a 6 kW hot tub"),
    ));
  it("burns gas but for what is excepted, and what is named after it", () => {
    const gas = load("2000 sq ft house: gas range, gas dryer, gas water heater, 20 A air conditioner, what service?");
    assertEquals(load(house, "everything is going gas except the air conditioner"), gas);
    assertEquals(load(house, "the range and the dryer went gas", "the water heater too"), gas);
  });
});

describe("a count", () => {
  const dryers = "dryer load, 18 apartments, 5.6 kW in each";
  it("is told by no more than its number", () => {
    holds(last(dryers, "truth is only 15 of them get one"), { "connected-load": 15 * 5600 });
    holds(last(dryers, "just 4 hooked up"), { "connected-load": 4 * 5600 });
    holds(last(dryers, "make that 11 units"), { "connected-load": 11 * 5600 });
  });
  it("of those that have a figure", () =>
    holds(last("motor feeder, 460 V: 20 hp, 3 hp", "it is three of the 3s"), {
      "feeder-ampacity": 27 * 1.25 + 3 * 4.8,
    }));
});

describe("words that were asked about", () => {
  const asked = ["ampacity of 1/0 copper THHN", "it sees 112"];
  const unused = (outcome: Outcome) =>
    outcome.outcome === "answered" ? outcome.answer.unused.map(({ text }) => text) : [];
  it("are told what they are by a reply", () =>
    holds(last(...asked, "degrees"), {
      "correction-factor": figures(last("ampacity of 1/0 copper THHN, 112 °F"))["correction-factor"]!,
    }));
  it("are told what they are, with what else the text said", () => {
    const drop = "voltage drop, 10 AWG copper, 120 V, 14 A, 90 ft, within 5 %";

    const outcome = last(drop, "say it were 240 at 6.5", "amps");
    holds(outcome, {
      "voltage-drop": Number(
        figures(last("voltage drop, 10 AWG copper, 240 V, 6.5 A, 90 ft, within 5 %"))["voltage-drop"],
      ),
    });
  });
  it("are shown as not read by every answer until then", () => {
    const [, unclear, next, out] = talk(...asked, "aluminum", "leave it out");
    assertEquals(unclear!.outcome, "unclear");
    assertEquals(unused(next!), ["it sees 112"]);
    assertEquals(unused(out!), []);
  });
  it("and a device that was asked about is not lost in silence", () => {
    const outcome = last(
      "1500 sq ft house, 8 kW range, what service",
      "and a car charger on a 40 A breaker",
      "add a 4 kW dryer",
    );
    assert(outcome.outcome === "unclear" || unused(outcome).some((words) => words.startsWith("40")));
  });
  it("a choice that is picked keeps the other topics", () => {
    const outcome = last(
      "2000 sq ft house, 12 kW range, what service?",
      "feeder for a 60 A panel?",
      "with 4 dongles",
      "leave it out",
      "back to the house",
    );
    holds(outcome, { kind: "dwelling-load" });
  });
});

describe("words that have no place", () => {
  const asked = "60 amp feeder to the garage with 4 dongles";
  const unclear = (outcome: Outcome) => {
    assert(outcome.outcome === "unclear", JSON.stringify(outcome).slice(0, 300));
    return outcome;
  };
  it("are offered to be left out, with the question that remains", () => {
    const [choice] = unclear(last(asked)).choices!;
    assertEquals(choice!.text, "leave it out");
    holds(engine.ask(choice!.question), { kind: "feeder", "breaker-rating": 60 });
    holds(last(asked, "leave it out"), { kind: "feeder", "breaker-rating": 60 });
  });
  it("are asked about beside what the rest would need", () => {
    const { needs, choices } = unclear(last("circuit for a dishwasher with 4 dongles"));
    assertEquals([needs.map(({ field }) => field), choices], [["question", "loads"], undefined]);
  });
});

describe("a figure that has no place", () => {
  const asked = "100 A feeder to the shop, 120 ft, maybe 80";
  it("is asked about by what it could be, each ready to be sent", () => {
    const outcome = last(asked);
    assert(outcome.outcome === "unclear", JSON.stringify(outcome).slice(0, 300));
    assertEquals(outcome.needs.map(({ field }) => field), ["load"]);
    assertEquals(outcome.choices?.map(({ text }) => text), ["load's amperes", "leave it out"]);
    for (
      const way of [engine.ask(outcome.choices![0]!.question), last(asked, "load's amperes"), last(asked, "the first")]
    ) {
      holds(way, { kind: "feeder", "breaker-rating": 100, "design-current": 80 });
    }
  });
  it("is nothing of these where it counts what nobody knows", () => {
    const outcome = last("60 amp feeder to the garage with 4 dongles");
    assertEquals(outcome.outcome === "unclear" && outcome.choices?.map(({ text }) => text), ["leave it out"]);
  });
});

describe("what goes on from the last answer", () => {
  it("adds the load of the circuit under way to a service that is told", () => {
    // 220.83(A): 1900 ft² × 3 VA, 4500 VA of circuits, 10 and 5 kW, the charger 9.6 kW: 8000 + 40 % of the rest.
    const start = ["48 A charger 70 ft from the panel, wire and breaker", "make it 40 A instead"];
    const last_ = last(...start, "will it fit on a 150 A service, 1900 sq ft, 10 kW range, 5 kW dryer, gas heat");
    holds(last_, { kind: "added-load", "total-current": (8000 + 0.4 * (5700 + 4500 + 15_000 + 9600 - 8000)) / 240 });
  });
  it("takes the last change back in other words, and not what was never taken away", () => {
    const house = "2400 sq ft house, 12 kW range, 5.5 kW dryer, gas heat";
    const was = figures(last(house))["optional-method-load"];
    for (const words of ["scratch that", "undo the last one", "cancel that change"]) {
      assertEquals(figures(last(house, "add a 50 A hot tub", words))["optional-method-load"], was, words);
    }
    assertEquals(
      figures(last(house, "drop the dryer and the range", "no wait, leave both"))["optional-method-load"],
      was,
    );
    assertEquals(last(house, "add a 48 A charger and an 8 kW sauna", "leave both").outcome, "unclear");
    assert(Number(figures(last(house, "take the dryer out, it's gas"))["optional-method-load"]) < Number(was));
  });
  it("counts what lies in the pipe, and asks how far a breaker trips", () => {
    // Table 310.16: 55 A at 90 °C; 310.15(C)(1): 70 % for nine.
    holds(last("#8 THHN copper ampacity", "9 in the pipe"), { ampacity: 38.5 });
    const far = last("20 A breaker, 10/2 NM, 180 ft to the shed, will it trip", "how far at the most");
    assertEquals(far.outcome === "answered" && far.answer.kind, "fault-path");
  });
});

describe("what comes to what is known, or takes it back", () => {
  it("makes parallel sets one run again", () => {
    // 225 A on 75 °C terminations, Table 310.16: 4/0 copper 230 A, 300 kcmil aluminum 230 A.
    const start = ["225 A subpanel feeder in the same building, 208 V three phase", "run it in 2 parallel sets"];
    holds(last(...start, "nope, one run"), { "ungrounded-conductor": "4/0" });
    holds(last(...start, "not in parallel, and aluminum"), { "ungrounded-conductor": "300 kcmil" });
  });
  it("leaves the service conductors alone where an electrode's wire is told", () => {
    // 250.66: 3/0 copper takes 4 AWG; a rod never more than 6.
    const start = "grounding electrode conductor for a 200 A service on 3/0 copper";
    const ring = talk(start, "it lands on a ground ring of #2 bare", "and the main bonding jumper");
    holds(ring[1]!, { "grounding-electrode-conductor": "4" });
    holds(ring[2]!, { "main-bonding-jumper": "4" });
    holds(last(start, "two ground rods with #6 copper, ok?"), { "grounding-electrode-conductor": "6" });
    holds(last(start, "water pipe, and the service is 350 kcmil copper"), { "grounding-electrode-conductor": "2" });
  });
  it("protects both sides of a transformer after the primary alone", () => {
    // 450.3(B): 125 % of 54.1 A alone; 250 % with 125 % of the secondary.
    const start = "45 kVA three phase 480 to 208Y/120, primary protection only";
    holds(last(start, "put a breaker on both sides"), { "primary-protection": 125, "secondary-protection": 175 });
    holds(last(start, "no breaker on the secondary"), { "primary-protection": 70 });
  });
  it("keeps the count of a group whose size changes", () =>
    // 460 V, Table 430.250: 7.6, 11 and 14 A; 2 x 7.6 + 14 x 1.25, then 2 x 11 + 14 x 1.25.
    assertEquals(
      talk("feeder for two 5 hp fans and a 10 hp blower, 460 V three phase", "make the fans 7.5s").map((each) =>
        figures(each)["feeder-ampacity"]
      ),
      [32.7, 39.5],
    ));
  it("takes a gauge after the smallest wire as a size, and asks where it may be amperes", () => {
    const start = "voltage drop: 7 A at 240 V, 260 ft, what wire for 3 percent";
    const put = figures(last(start, "what would 8 give me"));
    assert(!("conductor" in put), "the size is put up, no other one is looked for");
    // 2 x 260 ft x 7 A x 0.778 ohm / 1000 ft of 240 V (Chapter 9 Table 8).
    assertAlmostEquals(put["voltage-drop"] as number, 1.18, 0.02);
    assertEquals(last(start, "what about 8").outcome, "unclear");
  });
  it("adds what is there as well", () => {
    const start = "cooking demand of a 5 kW cooktop and two 4.5 kW wall ovens";
    const connected = (...more: string[]) => figures(last(start, ...more))["connected-load"];
    assertEquals(connected("there's also a 3 kW oven"), 17000);
    assertEquals(connected("it also has a 3 kW oven"), 17000);
  });
  it("counts a group by itself once some of it is told", () => {
    const turns = talk("dryer demand, 14 units each with a 5 kW dryer", "just 9 of them", "5.5 kW each", "add 3 more");
    assertEquals(turns.slice(1).map((each) => figures(each)["connected-load"]), [45000, 49500, 66000]);
  });
  it("asks how many more of what nobody counted", () =>
    assertEquals(last("cooking demand on a duplex feeder, a 12 kW range in each", "add 2 more").outcome, "unclear"));
  it("forgets a plate with the phase it was told for", () => {
    const start = "circuit for a 7.5 hp 230 V single phase motor, nameplate 36 A, SF 1.15";
    for (const text of ["what if it was a three phase one", "sorry, three phase"]) {
      const turned = figures(last(start, text));
      assertEquals(turned["full-load-current"], 22);
      assert(!("overload-rating" in turned));
    }
  });
  it("goes to another building with nothing of the one before", () =>
    holds(last("cooking demand of four 12 kW ranges", "different building, 6 apartments each with a 12 kW range"), {
      "connected-load": 72000,
    }));
  it("shows what is still open where its number stands in a longer one", () => {
    const outcome = last("circuit for a 5 kW dryer, zorbled 6", "make it aluminum", "make it 4.6 kW");
    assert(outcome.outcome !== "answered" || outcome.answer.unused.length > 0, JSON.stringify(outcome).slice(0, 300));
  });
});

describe("wires of a list", () => {
  // Table 314.16(B)(1): 2 in³ of a 14 AWG, 2.25 of a 12 AWG; 314.16(B)(5): up to four grounds are one conductor (2023).
  const box = "two-gang box of 34 cubic inches, three 14/2 and one 14/3 all with ground, two switches. ok?";
  it("have their ground in them, and are no grounds", () => holds(last(box), { "required-volume": 28 }));
  it("take the place of others, as many as are told", () => {
    holds(last(box, "swap the 14/3 for another 14/2"), { "required-volume": 26 });
    holds(last(box, "replace a 14/2 with a 12/2"), { "required-volume": 29.75 });
    holds(last(box, "14/2 instead of the 14/3"), { "required-volume": 26 });
  });
  it("ask for the box, and not for themselves", () => holds(last(box, "how big a box"), { "required-volume": 28 }));
  it("stand in a box of another depth", () => {
    const square = "4 square 1-1/2, three 12/2 and a receptacle ok?";
    const volumes = [square, "what if its 2-1/8", "switch to 4-11/16"];
    // Table 314.16(A): 21, 30.3 and 42 in³.
    assertEquals(volumes.map((_, i) => figures(last(...volumes.slice(0, i + 1)))["box-volume"]), [21, 30.3, 42]);
  });
  // Chapter 9, Table 5: 0.0133 in² of a 12 AWG THHN, 0.0211 of a 10, 0.0507 of a 6, 0.0824 of a 4.
  const pipe = "three #4 and eight #12 thhn in emt, what size?";
  const area = (...texts: string[]) => Number(figures(last(...texts))["fill-area"]);
  it("are counted by a bare number so near their count, and pulled out again", () => {
    assertAlmostEquals(area(pipe, "11"), 3 * 0.0824 + 11 * 0.0133, 1e-6);
    assertAlmostEquals(area(pipe, "pull one of the #4s"), 2 * 0.0824 + 8 * 0.0133, 1e-6);
    assertAlmostEquals(area(pipe, "pull a #4 back out"), 2 * 0.0824 + 8 * 0.0133, 1e-6);
  });
  it("are those told last where a size is told of them", () => {
    assertAlmostEquals(area(pipe, "pull one of the #4s", "what if they were #6"), 2 * 0.0507 + 8 * 0.0133, 1e-6);
    assertAlmostEquals(area(pipe, "what if the #12s were #10"), 3 * 0.0824 + 8 * 0.0211, 1e-6);
    assertAlmostEquals(area(pipe, "change the #4s to #6"), 3 * 0.0507 + 8 * 0.0133, 1e-6);
  });
  it("may be together in a pipe, so many of a known size", () =>
    // Table 310.15(C)(1): seven to nine at 70 % of the 170 A that 1/0 copper has at 90 °C.
    holds(last("ampacity of 1/0 copper thhn, 75c lugs", "8 in a pipe"), { ampacity: 119 }));
});

describe("short words", () => {
  it("stand for what was said in full", () => {
    holds(last("how many amps is 30 kva", "240 3 phase", "single"), { current: 125 });
    const house = "1900 sq ft house, gas heat, 11 kW range, 40 A hot tub, service?";
    const without = "1900 sq ft house, gas heat, 11 kW range, service?";
    assertEquals(
      figures(last(house, "scrap the tub"))["calculated-load"],
      figures(last(without))["calculated-load"],
    );
  });
  it("bring back what was taken away, with its figures", () => {
    const house = "1900 sq ft house, gas heat, 11 kW range, 5 kW dryer, 28 A ac, service?";
    assertEquals(
      figures(last(house, "drop the dryer", "take out the ac", "put the dryer back", "add the ac back")),
      figures(last(house)),
    );
  });
  it("change nothing where all is back", () => {
    const outcome = last("1900 sq ft house, gas heat, 11 kW range, 5 kW dryer, service?", "put the dryer back");
    assertEquals(outcome.outcome, "unclear");
  });
  it("halve and double", () => {
    holds(last("voltage drop on 200 ft of #10 copper, 20 A at 120 V", "half that distance"), {
      "voltage-drop-volts": 4.8,
    });
    // Table 220.54: 46 % of twelve.
    holds(last("24 dryers of 5 kW, demand", "half of them"), { "demand-load": 27600 });
  });
  it("part what is all from what is half of them", () => {
    const ranges = ["20 ranges 9 kW each, demand", "half of them are 12", "no all 12"];
    assertEquals(figures(last(...ranges.slice(0, 2)))["connected-load"], 210_000);
    assertEquals(figures(last(...ranges))["connected-load"], 240_000);
  });
});

describe("the same question", () => {
  it("is asked of another panel", () => {
    const sub = "subpanel in a detached barn, neutral and ground bonded there?";
    holds(last(sub), { "neutral-bond": "isolated" });
    holds(last(sub, "and in the service panel?"), { "neutral-bond": "bonded" });
    holds(last(sub, "what about at the meter disconnect outside"), { "neutral-bond": "bonded" });
    holds(last(sub, "and at the main?", "and a sub in the same building"), { "neutral-bond": "isolated" });
  });
  it("goes on along a run", () => {
    const start = "300 kVA transformer 480 V three phase 4 % Z, 40 ft of 3 sets of 500 copper, fault current?";
    const both =
      "300 kVA transformer 480 V three phase 4 % Z, 40 ft of 3 sets of 500 copper, then 90 ft of 2/0 copper, fault current?";
    assertEquals(
      figures(last(start, "then 90 ft of 2/0 copper to a panel"))["available-fault-current"],
      figures(last(both))["available-fault-current"],
    );
  });
  it("has a rating in thousands of amperes checked", () => {
    const outcome = last(
      "37.5 kVA 240 V single phase 2 % Z, 50 ft of 4/0 aluminum, fault current?",
      "10k breakers ok?",
      "14k",
    );
    assertEquals(request(outcome).rating, { value: 14, unit: "kA" });
  });
  it("is of a service of another rating, and not of its wires", () =>
    assertEquals(
      last("200 A service, 4/0 aluminum, electrode conductor?", "and if the service is 400", "main bonding jumper?")
        .outcome,
      "unclear",
    ));
  it("keeps the poles of a circuit whose load changes", () =>
    holds(
      last("30 space 208/120 panel: rtu 3 pole 9 kva, 6 lighting 1000 va, lay it out", "rtu is 12 kva"),
      { "spaces-used": 9 },
    ));
  it("loses so many of a group", () =>
    holds(
      last(
        "30 space 208/120 panel: 12 receptacle circuits 1200 va, 6 lighting 1000 va, lay it out",
        "lose 4 receptacle circuits",
      ),
      { "spaces-used": 14 },
    ));
  it("is what fits at the most, after one that was put up", () => {
    const [, largest, chosen] = talk(
      "existing 100 A service, 1500 sq ft, gas heat, 10 kW range, add a 48 A charger, ok?",
      "what's the biggest that fits",
      "ok 40 then",
    );
    assert(figures(largest!)["largest-that-fits"]);
    assertEquals(figures(chosen!).kind, "added-load");
    assertEquals((request(chosen!).added as unknown[]).length, 1);
  });
  it("is of another use, another supply", () => {
    const store = "store 5000 sq ft, 30 receptacles, 208Y/120, service?";
    assertEquals(
      figures(last(store, "and as an office?"))["total-load"],
      figures(last("office 5000 sq ft, 30 receptacles, 208Y/120, service?"))["total-load"],
    );
    const outcome = last(store, "make that 480");
    assertEquals(request(outcome).system, "480Y/277 V three-phase");
  });
});

describe("a reply in few words", () => {
  it("is the phase, the place, the terminals that were asked or told", () => {
    holds(last("25 kw in amps", "480", "three"), { current: 25000 / 480 / Math.sqrt(3) });
    // Table 300.5(A): 18 in under a dwelling's driveway.
    holds(last("how deep for conduit", "pvc", "driveway"), { "burial-cover": 18 });
    // Table 310.16: 4 AWG aluminum, 65 A at 75 °C.
    holds(last("ampacity of #4", "al", "75"), { "termination-ampacity": 65 });
  });
  it("is the plate's largest device behind its ampacity, and no other ampacity", () =>
    holds(last("breaker for my ac unit", "mca 24", "40"), {
      "minimum-circuit-ampacity": 24,
      "maximum-protection": 40,
    }));
  it("counts what nobody counted", () => holds(last("dryer demand", "18"), { "connected-load": 90_000 }));
  it("is what is to be added, and no other service", () => {
    const outcome = last("200 A service, 1600 sq ft, gas heat, range and dryer, can it take a charger", "40 A");
    assertEquals(request(outcome).service, { value: 200, unit: "A" });
  });
  it("is no voltage that nothing has", () =>
    assertEquals(last("voltage drop of 12/2, 90 ft, 12 amps", "14").outcome, "unclear"));
});

describe("what goes on", () => {
  it("is the circuit, where its load is no longer continuous", () =>
    holds(last("480 V 3ph, 100 A continuous, 150 ft, wire size and breaker", "not continuous"), {
      kind: "branch-circuit",
      "breaker-rating": 100,
    }));
  it("is an earlier topic, of what only that one knows", () =>
    // Table 220.55 and its first note: five of 14.4 kW on average, two steps of 5 %.
    holds(last("demand of 5 ranges 12 kW", "and 5 dryers", "3 of the ranges are 16"), {
      kind: "cooking-demand",
      "demand-load": 22_000,
    }));
  it("has the figure of what it replaces, and the code of a year", () => {
    const house = "2000 sq ft house, 11 kW range, 26 A ac, service?";
    const swapped = last(house, "heat pump instead of the ac, same amps");
    assertEquals((request(swapped).loads as { kind: string }[]).map(({ kind }) => kind), ["range", "heat-pump"]);
    assertEquals(request(last(house, "whats that in 2017")).edition, "2017");
  });
  it("counts sites, and rates half of them otherwise", () => {
    const park = "20 site rv park, all 50 A, service";
    assertEquals(figures(last(park, "10 more")).sites, 30);
    assertEquals(figures(last(park, "half are 30 amp"))["connected-load"], 10 * 12_000 + 10 * 3_600);
  });
  it("has the figure that is told behind what it replaces", () => {
    const house = "2000 sq ft house, 11 kW range, 26 A ac, service?";
    assertEquals(request(last(house, "heat pump instead of the ac, 31 amps")).loads, [
      { kind: "range", count: 1, rating: { value: 11, unit: "kW" } },
      { kind: "heat-pump", count: 1, rating: { value: 31, unit: "A" } },
    ]);
  });
  it("puts up a size that is pointed at", () =>
    assertEquals(request(last("24 A at 240 V, 150 ft on #8, voltage drop", "whats max length on the 10")).size, "10"));
});

describe("what a foreman says next", () => {
  it("counts the wires that are left, whatever they are for", () => {
    // Table 310.15(C)(1): four to six at 80 % of the 40 A that 10 AWG copper has at 90 °C.
    holds(last("#10 thhn copper with 9 current carrying in one pipe, ampacity", "only 5 of em in there"), {
      ampacity: 32,
    });
    const pipe = figures(last("what size emt for 3 #2 thhn and a #8 ground", "4 of the #2s, theres a neutral"));
    // Chapter 9, Table 5: 0.1158 in² of a 2 AWG THHN, 0.0366 of an 8.
    assertAlmostEquals(Number(pipe["fill-area"]), 4 * 0.1158 + 0.0366, 1e-6);
  });
  it("tells one of two another figure", () =>
    holds(last("demand for two 13 kw ranges", "one is only a 9"), { "connected-load": 22_000 }));
  it("adds what comes besides", () => {
    const service = "200 A house, highest demand of the year 88 A at 240 V, can I add a 40 A charger?";
    // 220.87: 125 % of 88 A, 40 A and 50 A.
    holds(last(service, "and a hot tub 50 amps"), { "total-current": 200 });
  });
  it("puts another charger up, and another shop on the same floor", () => {
    const service = "existing 100 A panel, 1500 sq ft house, 8 kW range, gas heat, want to add a 32 A charger, ok?";
    assertEquals(figures(last(service, "48 A charger then?")).kind, "added-load");
    const office = "2500 sq ft office, 30 receptacles, 208Y/120, load?";
    assertEquals(
      figures(last(office, "retail store instead of office"))["total-load"],
      figures(last("2500 sq ft store, 30 receptacles, 208Y/120, load?"))["total-load"],
    );
  });
  it("protects a transformer on one side alone, and on both again", () => {
    const dry = "45 kVA 480 to 208/120 three phase, breakers?";
    const sides = (...more: string[]) => figures(last(dry, ...more))["secondary-protection"];
    const only = "primary breaker if thats the only protection";
    assertEquals([sides(), sides(only), sides(only, "and with a secondary main too")], [175, undefined, 175]);
  });
});

const readAs = (outcome: Outcome): string => outcome.outcome === "answered" ? outcome.answer.readAs.join("; ") : "";

describe("a number that is no figure by itself", () => {
  it("is a size, of wires that are listed", () => {
    const pipe = "how full is a 1-1/4 emt with five #6 thhn";
    // Chapter 9, Table 5: 0.0507 in² of a 6 AWG THHN, 0.0366 of an 8, 0.0133 of a 12.
    const area = (...more: string[]) => Number(figures(last(pipe, ...more))["fill-area"]);
    assertAlmostEquals(area("just three 6s"), 3 * 0.0507, 1e-6);
    assertAlmostEquals(area("and two 8s"), 5 * 0.0507 + 2 * 0.0366, 1e-6);
    assertAlmostEquals(area("plus a 12"), 5 * 0.0507 + 0.0133, 1e-6);
  });
  it("has an article behind it, and no amperes", () => {
    const motors = "feeder for a 25 hp, a 10 hp and a 3 hp, 460 V 3 phase";
    const told = (...more: string[]) =>
      (request(last(motors, ...more)).motors as { power: { value: number } }[]).map(({ power }) => power.value);
    assertEquals(told("change the 10 a 20"), [25, 20, 3]);
    assertEquals(told("the 3 hp motor is a 5"), [25, 10, 5]);
  });
  it("is what a circuit is called", () => {
    const panel = "balance the legs, 120/240 V: ckt 2 1500 va, ckt 4 800 va";
    const told = (...more: string[]) =>
      (request(last(panel, ...more)).circuits as { name: string; load: { value: number } }[]).map((each) =>
        `${each.name} ${each.load.value}`
      ).sort();
    assertEquals(told(), ["circuit 2 1500", "circuit 4 800"]);
    assertEquals(told("ckt 6 950"), ["circuit 2 1500", "circuit 4 800", "circuit 6 950"]);
    assertEquals(told("ckt 4 is 1100"), ["circuit 2 1500", "circuit 4 1100"]);
    assertEquals(told("drop ckt 2"), ["circuit 4 800"]);
  });
  it("is a plate's, where no load has one", () =>
    // 112.5 kVA over √3 × 208 V × 3.5 %.
    assertAlmostEquals(
      Number(
        figures(
          last("fault current at the secondary of a 112.5 kva 480-208y/120, 4 % impedance", "the plate says 3.5"),
        )[
          "available-fault-current"
        ],
      ),
      112_500 / Math.sqrt(3) / 208 / 0.035,
      1,
    ));
  it("is a rating, where but for a length nothing is near", () => {
    const outcome = last("90 amp subpanel in the barn, 140 ft away, aluminum", "what if 125");
    assertEquals(figures(outcome)["breaker-rating"] ?? 0, 125);
    assert(readAs(outcome).includes("took 125 as the rating"));
  });
});

describe("figures that are taken back", () => {
  it("stand nowhere, whatever their unit, and what is told instead stands there", () => {
    const service = "200 A house, highest demand of the year 80 A at 240 V, can I add a 32 A charger?";
    const outcome = last(service, "the peak was 21 kw, not 80 amps");
    assertEquals(request(outcome).added, request(last(service)).added);
    assertEquals((request(outcome).demand as { value: number }).value, 21);
    holds(last("circuit for a 32 A charger, 240 V", "it's 9.6 kw, not 32 a"), { "load-current": 40 });
  });
  it("are forgotten for the one that stays", () => {
    const motor = ["20 hp motor, breaker and wire", "460 V three phase", "what if it was 208"];
    assertEquals(
      figures(last(...motor, "forget the 208, stick with 460"))["full-load-current"],
      figures(last(...motor.slice(0, 2)))["full-load-current"],
    );
  });
  it("come down, and nothing goes", () =>
    // 705.12: 120 % of the 225 A bus less the main.
    holds(last("225 A bus, 200 A main, largest solar breaker?", "what if they drop the main to 150"), {
      "largest-backfeed-breaker": 110,
    }));
});

describe("what a turn did not change", () => {
  it("is said", () => {
    assert(readAs(last("breaker for a 32 A charger", "it's a 32 A one")).startsWith("nothing in “it's a 32 A one”"));
    assert(!readAs(last("breaker for a 32 A charger", "and the ground?")).includes("nothing in"));
  });
  it("is asked about, where it may be one of several", () => {
    const outcome = last("feeder for a 15 hp fan and a 7.5 hp fan, 460 V three phase", "the fan is a 10");
    assertEquals(outcome.outcome, "unclear");
    assert(JSON.stringify(outcome).includes("15 hp fan or 7.5 hp fan"));
  });
});

describe("groups", () => {
  it("stand beside one another by their figure", () => {
    const park = ["24 site rv park, all 50 A, service", "and 10 with 30 A"];
    const connected = (...more: string[]) => figures(last(...park, ...more))["connected-load"];
    assertEquals(connected(), 24 * 12_000 + 10 * 3_600);
    assertEquals(connected("no, 30 of the 50 A"), 30 * 12_000 + 10 * 3_600);
    assertEquals(connected("half as many 30s"), 24 * 12_000 + 5 * 3_600);
  });
  it("are of another number, by whatever word they were told", () => {
    const duplex = "duplex, each unit 900 sq ft with a 10 kw range, what service";
    const five = "5 units, each 900 sq ft with a 10 kw range, what service";
    assertEquals(request(last(duplex, "make it 5 units")).units, request(last(five)).units);
  });
  it("all get the figure told of both", () => {
    const outcome = last("feeder for a 15 hp fan and a 7.5 hp fan, 460 V three phase", "run 10 for both");
    assertEquals((request(outcome).motors as unknown[]).length, 1);
  });
});

const headline = (outcome: Outcome): string => outcome.outcome === "answered" ? outcome.answer.headline : "";
describe("what is only pointed at", () => {
  const house = "1900 sq ft house, 11 kW range, 5 kW dryer, what service?";
  it("leads the first line, where that does not speak of it", () => {
    const points = (said: string, ...turns: [string, ...string[]]) => {
      const line = headline(last(...turns));
      assert(line.startsWith(said), line);
    };
    points("Copper grounding electrode conductor to the water pipe: 8 AWG. 100 A service", house, "gec?");
    points("Copper main bonding jumper: 8 AWG. 100 A service", house, "and the bonding jumper");
    points("Copper conductor to the rods: 6 AWG", "feeder to the barn, 100 A, 200 ft aluminum", "ground rod wire?");
    points("Load current: 48 A. 60 A 2-pole", "what wire for a 48 A charger", "how many amps");
    points("100 A service", house, "neutral?");
  });
  it("is what is left of a service that is put up", () => {
    const outcome = last(house, "so what's left on a 200?");
    assertEquals(request(outcome).service, { value: 200, unit: "A" });
    assert(headline(outcome).startsWith("Spare up to that rating: "), headline(outcome));
    assertEquals(headline(last(house, "so what's left on a 200?", "whats left")), headline(outcome));
  });
  it("is of the job, whatever was asked beside it and found no answer", () => {
    const outcome = last(house, "how many spaces", "neutral?");
    assertEquals(figures(outcome).kind, "dwelling-load");
    assertEquals(
      figures(last("10 hp 460 V 3 phase", "what is its torque", "whats the disconnect")).kind,
      "motor-circuit",
    );
  });
  it("is asked about where no answer has it, and no answer is said twice for it", () => {
    const outcome = last("10 hp 460 V 3 phase motor", "neutral current?");
    assert(outcome.outcome === "unclear" && outcome.needs[0]!.ask.includes("neutral current"), JSON.stringify(outcome));
  });
  it("is the raceway of a circuit, as if it lay in one", () => {
    // Table 5 of chapter 9: 2 × 0.0824 + 0.0211 in², of 0.203 (3/4 in PVC) and 0.213 in² (3/4 in EMT) at 40 %.
    assertEquals(figures(last("what wire for a 48 A charger", "what size pipe"))["raceway-size"], "3/4 in");
    assertEquals(request(last("what wire for a 48 A charger", "what size pipe")).method, "conductors in conduit");
    assertEquals(figures(last("heat pump mca 30 mop 45", "how much conduit"))["raceway-size"], "1/2 in");
    // 2 × 0.0824 + 0.0507 = 0.2155 in², of 0.203 (3/4 in) and 0.333 in² (1 in).
    assertEquals(figures(last(house, "pipe size"))["raceway-size"], "1 in");
  });
});

describe("of what was answered", () => {
  const house = "1900 sq ft house, 11 kW range, 5 kW dryer, what service?";
  it("the ground is a service's own", () => {
    const outcome = last(house, "and the ground");
    assertEquals(figures(outcome).kind, "dwelling-load");
    assert(headline(outcome).startsWith("Copper grounding electrode conductor"));
  });
  it("a bare gauge is another wire, where one was put up and no figure is near", () => {
    const cooling = "is 10 awg ok for a mini split, mca 26 mop 40";
    assertEquals(request(last(cooling, "12?")).size, "12");
    assertEquals(request(last(cooling, "what about 8")).size, "8");
    assertEquals(request(last("20 A load at 120 V on 12/2, 90 ft", "what about 10")).size, "10");
    assertEquals((request(last("7.5 hp 208 V 3 phase on #10", "8?")).power as { value: number }).value, 8);
  });
  it("how many there may be stays asked of another size, and beside what is added", () => {
    const box = "how many #12 in a 4 inch square box 2-1/8 deep";
    // Table 314.16(B): 30.3 in³ over 2.5 in³ each; less two of 2 in³.
    assertEquals(figures(last(box, "swap the 12s for 10s"))["most-conductors"], 12);
    assertEquals(figures(last(box, "swap the 12s for 10s", "add two 14s"))["most-conductors"], 10);
    // 18 in³ less a cable's two wires and its ground, over 2 in³.
    assertEquals(figures(last("how many 14s in an 18 cubic inch box", "add a 14/2"))["most-conductors"], 6);
    assertEquals(
      figures(last("how many 14s in an 18 cubic inch box", "what about a 20.3 inch box"))["most-conductors"],
      10,
    );
  });
  it("a wire that was chosen for one motor is none put up for the feeder of two", () =>
    assertEquals(
      request(last("wire for a 25 hp motor, 460 V three phase", "two of them on one feeder")).size,
      undefined,
    ));
  it("a number that can be no rating of a service, and no floor, is no reply to those", () => {
    const asked = "can my panel take a 50 amp hot tub";
    const outcome = last(asked, "48");
    assert(outcome.outcome === "unclear" && outcome.needs.some(({ field }) => field === "service"));
    assert(outcome.outcome === "unclear" && outcome.needs.some(({ field }) => field === "loads"));
  });
  it("across a socket is told on with another conductor", () =>
    assertEquals(figures(last("torque for 250 kcmil aluminum, 3/8 allen", "4/0"))["tightening-torque"], 375));
  it("wires that lie beside what was told are more of them", () => {
    const pipe = "what size emt for four #8 thhn and a #10 ground";
    // Table 5 of chapter 9: 4 × 0.0366 + 0.0211 + 2 × 0.0133 in².
    assertEquals(figures(last(pipe, "forgot, two 12s go in the same pipe"))["fill-area"], 0.1941);
  });
  it("rods that there are instead of the pipe are another electrode, and no question", () =>
    assertEquals(
      figures(last("gec for a service with 3/0 copper", "all we have is ground rods"))["grounding-electrode-conductor"],
      "6",
    ));
  it("the circuit of one load, with its own plate, is no question on the house", () => {
    const house = "2000 sq ft house, 11 kW range, 5 kW dryer, ac 22 A, what service";
    assertEquals(figures(last(house, "wire and breaker for that ac? tag says mca 25, max 40")).kind, "cooling-circuit");
  });
  it("receptacles told anew keep the lighting that was asked with them", () => {
    const office = "5000 sq ft office, 40 receptacles, lighting plus receptacle load";
    // 1.3 VA/ft² (2023), and 180 VA each up to 10 kVA, half of the rest.
    assertEquals(
      figures(last(office, "90 receptacles"))["calculated-load"],
      5000 * 1.3 + 10_000 + (90 * 180 - 10_000) / 2,
    );
  });
  it("homes are counted again as `of them`, and a code is named by its year alone", () => {
    const flats = "6 apartments, each 900 sq ft, 8 kW range, 4.5 kW water heater, ac 12 A, what service";
    assertEquals(figures(last(flats, "turns out there's 10 of them"))["dwelling-units"], 10);
    const outcome = last(flats, "we are still on the 2017 here");
    assertEquals(outcome.outcome === "answered" && outcome.answer.edition, "2017");
  });
  it("a bare number that was taken as something stays what it was", () => {
    const fault = "fault current at the panel, 90 ft of 3/0 copper from 25000 at 208 V three phase";
    assertEquals(figures(last(fault, "steel conduit"))["source-fault-current"], 25_000);
    assertEquals(figures(last("6 kw to amps at 240", "30 kva 240")).kind, "conversion");
  });
  it("sources are counted, cables swapped by their gauge, and no wire has thousands of kcmil", () => {
    // 2 × 6 kW ÷ 240 V × 125 %.
    assertEquals(
      figures(last("225 A panel, 200 A main, how big solar", "inverter is 6 kw", "two of em"))["source-current"],
      62.5,
    );
    // 8 wires and a ground of 2 in³ each, and a switch.
    assertEquals(
      figures(last("box fill for four 12/2 romex and one switch", "swap to 14 gauge"))["required-volume"],
      22,
    );
    assertEquals(
      (request(last("4500 W water heater", "#12 ok?", "5500")).loads as { rating: { value: number } }[])[0]!.rating
        .value,
      5500,
    );
  });
  it("units of an apartment building are its apartments", () => {
    const building = "12 unit apartment building, 850 sq ft each, 8 kW range, 5 kW heat, what service";
    assertEquals(figures(last(building, "make it 20 units"))["dwelling-units"], 20);
  });
  it("what is still so is no other figure, and takes nothing back", () => {
    const outcome = last("4500 W water heater, 30 A breaker", "it is on 208 V, still 4500");
    assertEquals(request(outcome).volts, { value: 208, unit: "V" });
    assertEquals((request(outcome).loads as { rating: unknown }[])[0]!.rating, { value: 4500, unit: "W" });
  });
  it("another rating is put up for it", () =>
    assertEquals(request(last(house, "make it a 150")).service, { value: 150, unit: "A" }));
  it("the pipe is the one that was chosen", () =>
    assertEquals(request(last("what emt for three #4 thhn", "how many #12 would go in that pipe")).size, "1"));
  it("a transformer has a fault current by its impedance", () =>
    holds(last("45 kva 480 to 208y/120 three phase", "primary protection only", "fault current with 4 % Z"), {
      kind: "fault-current",
    }));
});

describe("what is named", () => {
  it("is taken away by a verb alone, and no voltage lost", () => {
    const panel = "balance the legs, 120/240 V: ckt 2 1500 va, ckt 4 800 va, den 600 va";
    const told = (...more: string[]) => (request(last(panel, ...more)).circuits as unknown[]).length;
    assertEquals([told(), told("scrap ckt 2"), told("lose the den")], [3, 2, 2]);
    const house = "1900 sq ft house, 11 kW range, 5 kW dryer, what service?";
    assertEquals((request(last(house, "ditch dryer")).loads as unknown[]).length, 1);
  });
  it("is another circuit, where none is called so", () => {
    const circuits = request(last("balance the legs, 120/240 V: kitchen 1500 va, bath 900 va", "garage 1200")).circuits;
    assertEquals((circuits as { name: string }[]).map(({ name }) => name).sort(), ["bath", "garage", "kitchen"]);
  });
  it("is of another size, and not one more", () => {
    const box = "4 square deep box, two 14/2 and a 12/2, one switch";
    assertEquals(
      figures(last(box, "the 12/2 is a 12/3"))["required-volume"],
      figures(last("4 square deep box, two 14/2 and a 12/3, one switch"))["required-volume"],
    );
  });
  it("is asked about, where it is one of units that are alike", () =>
    assertEquals(
      last("duplex, each unit 900 sq ft with a 10 kw range, service", "the upstairs one gets a 5 kw dryer").outcome,
      "unclear",
    ));
  it("comes back by its number", () => {
    const triplex = "triplex, each unit 900 sq ft with a 10 kw range, service";
    assertEquals(
      request(last(triplex, "4 units", "each gets a 5 kw dryer", "back to 3")).units,
      request(last("3 units, each 900 sq ft with a 10 kw range and a 5 kw dryer, service")).units,
    );
  });
  it("is the feet of a run, where the drop is asked at so many", () =>
    assertEquals(request(last("circuit for a 5 kw dryer", "whats the drop at 70")).length, { value: 70, unit: "ft" }));
  it("are the wires together, where no size is told", () =>
    // Table 310.15(C)(1): four to six at 80 % of 225 A, 4/0 copper at 75 °C, three at 100 %.
    assertEquals(
      ["only 6", "just 3"].map((more) =>
        figures(last("ampacity of 4/0 copper thwn, 8 in the pipe", more))["adjustment-factor"]
      ),
      [0.8, 1],
    ));
  it("is no head of an example that was shown", () => {
    const told = request(last("balance the legs of a 120/240 V panel", "1800"));
    assert(!JSON.stringify(told).includes("water heater"), JSON.stringify(told));
  });
});

describe("a figure before a breaker", () => {
  it("is the load's, where no breaker is rated so", () =>
    holds(last("ev charger 48 amps breaker and wire"), { "breaker-rating": 60, "load-current": 48 }));
});

describe("a year, a box, a gauge by themselves", () => {
  it("is a code, whatever was asked back", () => {
    const outcome = last("60 A breaker, equipment ground?", "ground ring too", "2020");
    assert(!JSON.stringify(outcome).includes("2020 A"), JSON.stringify(outcome).slice(0, 300));
    assertEquals(request(last("60 A breaker, equipment ground?", "2020")).edition, "2020");
  });
  it("has no volume of the box before it", () =>
    // Table 314.16(A): 4 x 2-1/8 square, 30.3 in³.
    holds(last("2-gang box 36 cu in, three 12/2, two switches", "how about a 4 square deep"), { "box-volume": 30.3 }));
  it("is what a drop is on, and no limit", () =>
    assertEquals(request(last("20 A load at 240 V, 120 ft, voltage drop on 8")).size, "8"));
});

describe("what is said of what is known", () => {
  it("takes a number behind a new appliance for its power, where the others have theirs", () => {
    const legs = "balance 120/240: range 8000 2p, dryer 5000 2p, lights 1200, kitchen 1500. all in va";
    const told =
      "balance 120/240: range 8000 VA 2p, dryer 5000 VA 2p, lights 1200 VA, kitchen 1500 VA, 2 pole ac 3600 VA";
    assertEquals(figures(last(legs, "and a 2 pole ac at 3600")), figures(last(told)));
    const house = "2000 sq ft, gas heat, range 12 kw, dryer 5 kw";
    assertEquals(
      figures(last(`${house}, service?`, "forgot the microwave, 1800")),
      figures(last(`${house}, microwave 1800 W, service?`)),
    );
  });
  it("adds what comes on top of what is asked, and to the house panel what is on it", () => {
    const panel = "100 A main, 1400 sq ft, gas heat, range 10 kw. room for a 7.5 kw hot tub";
    assertEquals(
      figures(last(`${panel}?`, "what if he does a charger on top of that, 32 amps")),
      figures(last(`${panel} and a 32 amp charger?`)),
    );
    const units = "8 units 900 sq ft each, 8 kw range, gas heat";
    const load = figures(last(`${units}, service?`))["calculated-load"] as number;
    holds(last(`${units}, service?`, "plus 4 kw of hall lights on the house panel"), {
      "calculated-load": load + 4000,
    });
    holds(last(`${units}, plus 4 kw of hall lights on the house panel, service?`), { "calculated-load": load + 4000 });
  });
  // Table 220.84: 43 % of ten units, 44 % of seven.
  it("counts homes fewer or more, told with how many that makes or without", () => {
    const building = "10 unit building, each apt 800 sq ft with an 8 kw range and 4 kw heat. optional load?";
    const seven = figures(last("7 unit building, each apt 800 sq ft with an 8 kw range and 4 kw heat. optional load?"));
    for (const fewer of ["they dropped 3 units so 7", "they lost 3 units"]) {
      assertEquals(figures(last(building, fewer))["optional-method-load"], seven["optional-method-load"]);
    }
  });
  it("takes square feet for a floor that is measured again", () =>
    holds(last("office 4000 sq ft, 40 receptacles, 208Y/120, load?", "he measured wrong, 6000 ft"), {
      // 1.3 VA/ft² of 6000 ft² and 40 outlets of 180 VA (220.42, 220.14 of 2023).
      "calculated-load": 6000 * 1.3 + 40 * 180,
    }));
  it("lets go what is canceled, out or gone, whatever was asked beside", () => {
    const house = "2200 sq ft, gas heat, 10 kw range, 5 kw dryer, what service";
    const before = figures(last(house))["calculated-load"];
    const after = last(
      house,
      "he wants a 32 amp charger too",
      "what wire for that charger",
      "back to the house",
      "they canceled the charger",
    );
    assertEquals(figures(after)["calculated-load"], before);
    holds(last("feeder for 10 hp, 5 hp and 3 hp fan, 460 3ph", "the fan's out, take it off"), {
      "feeder-protection": 40,
    });
    holds(last("balance on 120/240: water heater 4500 2 pole, 1500, 1200, 900, 800", "water heater went gas"), {
      "spaces-used": 4,
    });
  });
  it("keeps a figure that is pointed at, and takes a gauge in the plural", () => {
    holds(
      last(
        "200a panel 200a main, biggest solar breaker?",
        "main down to 150",
        "keep the 150, but the label says 225 bus",
      ),
      {
        // 1.2 × 225 − 150 = 120 A, and no breaker above 110 A comes to no more (705.12).
        "largest-backfeed-breaker": 110,
      },
    );
    assertAlmostEquals(
      figures(last("how far can i run #12 at 8 amps 120v for 3 percent", "and with 10s"))["longest-run"] as number,
      // 3.6 V over 2 × 8 A × 1.2 Ω/kft (chapter 9, table 8).
      1000 * 3.6 / (2 * 8 * 1.2),
      1e-6,
    );
    holds(last("20a breaker, 120 ft of 12/2 w ground at 120. hot touches the case, does it trip?", "whoops 250"), {
      "touch-voltage": 60,
    });
    assertEquals(
      request(last("20a breaker, 120 ft of 12/2 w ground at 120. hot touches the case, does it trip?", "whoops 250"))
        .length,
      {
        value: 250,
        unit: "ft",
      },
    );
  });
  it("puts clamps back into a box, and all wires but the ground into another size", () => {
    // Table 314.16(B): 9 conductors' worth of 12 AWG, and one more for the clamps.
    holds(
      last(
        "4 sq box 1-1/2 deep, two 12/2 and a switch. no clamps. good?",
        "another 12/2",
        "nope there are clamps inside",
      ),
      {
        "required-volume": 10 * 2.25,
      },
    );
    const resized = last(
      "emt size for 3 #3 thhn and a #8 ground",
      "add a neutral, another #3",
      "what if the hots and neutral go to 2/0",
    );
    // Chapter 9, table 5: four of 0.2223 in² and one of 0.0366 in².
    assertAlmostEquals(figures(resized)["fill-area"] as number, 4 * 0.2223 + 0.0366, 1e-6);
  });
  it("swaps a load for another, and moves a circuit to another leg", () => {
    const house =
      "existing house 1800 sq ft 200 amp service. gas heat, range 10kw, dryer 5.5kw, central air 30 amps at 240. can I add a hot tub 40 amps";
    const swapped = request(last(house, "they're swapping the AC for a heat pump, 40 amps, no strips"));
    assertEquals((swapped.loads as { kind: string }[]).some(({ kind }) => kind === "air-conditioner"), false);
    assertEquals((swapped.added as { kind: string }[]).map(({ kind }) => kind).sort(), ["heat-pump", "hot-tub"]);
    holds(
      last(
        "leg A has kitchen 1500, laundry 1500, lights 1200. leg B bath 1500 and disposal 800. neutral current?",
        "move the laundry over to B",
      ),
      { "leg-a-load": 2700, "leg-b-load": 3800 },
    );
  });
  it("rates a feeder anew by a round figure, and keeps its load", () =>
    holds(
      last(
        "225 amp feeder 208 three phase, load 160, copper, wire and ground",
        "boss says 400 amp now, two sets copper",
      ),
      {
        "breaker-rating": 400,
        "equipment-grounding-conductor": "3",
      },
    ));
  it("takes a number among words that nobody knows for what it is by far the nearest to, and says so", () => {
    const sub = "utility says 22,000 available, 240v single phase. sub is 150 ft away on 4/0 aluminum, whats it there";
    const outcome = last(sub, "poco says after the upgrade it'll be 42000");
    holds(outcome, { "source-fault-current": 42000 });
    assert(outcome.outcome === "answered" && outcome.answer.readAs.some((line) => line.includes("in place of 22000")));
  });
  it("goes back to what a thing was before, and to the job that a correction names", () => {
    holds(
      last("water heater 4500 watts 240. wire and breaker", "what about a 3500 watt one", "no they want the 4500"),
      {
        "load-current": 18.75,
      },
    );
    holds(
      last(
        "7.5hp pump 208 three phase. breaker and wire",
        "its 200 ft out. drop on the 10?",
        "oh hang on the pump is 230 volt",
      ),
      // Table 430.250: 7-1/2 hp at 230 V.
      { kind: "motor-circuit", "full-load-current": 22 },
    );
  });
  it("adds a further switch and a further outlet to a box, and a neutral of the lines' size to a pipe", () => {
    const box = "3 gang plastic, 44 cubic inches. six 14/2s and two switches. big enough?";
    // Table 314.16(B): 12 wires, grounds as 2 × 1/4 more of 2.25 in³ each, three devices of two.
    const before = figures(last(box, "oh its 12/2 not 14"))["required-volume"] as number;
    assertEquals(figures(last(box, "oh its 12/2 not 14", "third switch too"))["required-volume"], before + 2 * 2.25);
    const outlet = "4 square 2-1/8 deep with three 12/2 romex, one duplex, built in clamps. am i good";
    const one = figures(last(outlet))["required-volume"] as number;
    assertEquals(figures(last(outlet, "and a second duplex next to it"))["required-volume"], one + 2 * 2.25);
    const pipe = last("three 3/0 thhn and a #6 ground in 2 inch emt, fits?", "plus a full size neutral");
    // Chapter 9, table 5: four of 0.2679 in² and one of 0.0507 in².
    assertAlmostEquals(figures(pipe)["fill-area"] as number, 4 * 0.2679 + 0.0507, 1e-6);
  });
  it("does not ask for what another question would need, where the text is whole with what is known", () =>
    holds(
      last(
        "225 amp feeder 208 three phase to a panel in the shop, copper",
        "its 180 ft and the load is more like 160. drop?",
      ),
      {
        kind: "voltage-drop",
      },
    ));
});
