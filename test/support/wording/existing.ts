/** What is added to an existing service, and what feeds back into a panel. */
import type { AddedRequest } from "../../../src/questions/load/added-load/request.ts";
import type { BackfeedRequest } from "../../../src/questions/panel/busbar-backfeed/request.ts";
import { fact, type Said } from "./compose.ts";
import type { Draw } from "./draw.ts";
import { equipment } from "./household.ts";
import type { Amount, Pen } from "./pen.ts";

const A = (value: number): Amount => ({ value, unit: "A" });
const kW = (value: number): Amount => ({ value, unit: "kW" });
type Load = NonNullable<AddedRequest["loads"]>[number];
const load = (kind: string, rating: Amount): Load => ({ kind, count: 1, rating }) as Load;

export const added = {
  draw(d: Draw, _metric: number): AddedRequest {
    const isRecorded = d.chance(0.3);
    const comes = d.pick([
      () => load("ev-charger", A(d.pick([24, 32, 40, 48]))),
      () => load("hot-tub", A(d.pick([40, 48]))),
      () => load("heat-pump", A(d.pick([18, 24, 30]))),
      () => load("dryer", kW(d.pick([5, 5.5]))),
    ])();
    const there = d.shuffle([
      load("range", kW(d.pick([8, 10, 12]))),
      load("water-heater", kW(4.5)),
      load("microwave", kW(1.5)),
      load("air-conditioner", A(d.pick([18, 24]))),
    ]).slice(0, d.int(1, 4));
    return {
      service: A(d.pick([100, 125, 150, 200])) as AddedRequest["service"],
      added: [comes],
      ...(isRecorded ? { demand: A(d.stepped(30, 120, 1)) as AddedRequest["demand"], recorded: "one year" as const } : {
        areas: [{ area: { value: d.stepped(900, 3200, 100), unit: "ft2" as const }, space: "living" as const }],
        loads: there,
        nothingElse: true,
      }),
    };
  },
  say(r: AddedRequest, pen: Pen): Said {
    const [comes] = r.added!;
    const what = equipment(pen, comes!.kind, 1, comes!.rating as Amount).words;
    const service = pen.amount(r.service!, true);
    const place = pen.one(`${service} service`, `${service} panel`);
    return {
      head: fact(pen.a(place)),
      rest: [
        r.demand &&
        fact(
          pen.one(
            `peak demand ${pen.amount(r.demand)} over the last 12 months`,
            `highest demand in the last 12 months ${pen.amount(r.demand)}`,
          ),
        ),
        r.areas && fact(`${pen.amount(r.areas[0]!.area)}`),
        ...(r.loads ?? []).map(({ kind, rating }) => equipment(pen, kind, 1, rating as Amount)),
        r.nothingElse ? fact(pen.one("everything else is gas", "nothing else electric")) : undefined,
      ],
      asks: (head) => `${pen.one("can I add", "is there room to add", "want to add")} ${what} to ${head}`,
      asksAfter: `${pen.one("can I add", "is there room to add", "want to add")} ${what}?`,
    };
  },
};

export const backfeed = {
  draw(d: Draw, _metric: number): BackfeedRequest {
    const breaker = d.pick([15, 20, 30, 40, 50, 60]);
    return {
      bus: A(d.pick([100, 125, 200, 225])) as BackfeedRequest["bus"],
      main: A(d.pick([100, 125, 150, 200])) as BackfeedRequest["main"],
      ...(d.chance(0.6) && {
        sources: [{
          kind: d.pick(["solar", "battery"] as const),
          count: 1,
          breaker: { value: breaker, unit: "A" as const },
        }],
      }),
      ...(d.chance(0.5) && { position: "opposite the main" as const }),
    };
  },
  say(r: BackfeedRequest, pen: Pen): Said {
    const [source] = r.sources ?? [];
    const bus = pen.one(`${pen.amount(r.bus!, true)} bus`, `${pen.amount(r.bus!, true)} busbar`);
    const asked = source
      ? `${pen.a(`${pen.amount(source.breaker!, true)} ${source.kind} breaker`)}`
      : pen.one("the largest solar breaker", "the biggest backfeed breaker");
    const end = r.position &&
      fact(pen.one("at the opposite end", "at the end opposite the main", "away from the main"));
    return {
      head: fact(pen.a(bus)),
      rest: [fact(`${pen.amount(r.main!, true)} main`), end || undefined],
      asks: (head) => source ? `is ${asked} ok on ${head}` : `what is ${asked} on ${head}`,
      asksAfter: source ? `is ${asked} ok?` : `what is ${asked}?`,
    };
  },
};
