/** Puts together what was heard: which voltage, which current, which length, and what is asked for. */
import { exact } from "../../core/quantity.ts";
import { type Reading, toJson } from "../../text/phrases.ts";
import { type Feet, hear, type Heard } from "./heard.ts";
import { type DropRequest, type Load, SYSTEMS } from "./request.ts";

type Drafted = Partial<DropRequest>;

export function settle(reading: Reading): void {
  const draft = reading.draft as Drafted;
  const heard = hear(reading);
  settleVoltage(reading, draft, heard);
  settleLoad(reading, draft, heard);
  settleRun(reading, draft, heard);
  settleFind(reading, draft, heard);
}

/** Old and nameplate names of the system voltages. */
const SYSTEM_OF: Readonly<Record<string, number>> = {
  110: 120,
  115: 120,
  220: 240,
  230: 240,
  440: 480,
  460: 480,
  575: 600,
};
/** Voltages from a line to the neutral of three phases. */
const TO_NEUTRAL = [120, 277, 347];

function settleVoltage(reading: Reading, draft: Drafted, { volts, system, balanced, lineToNeutral }: Heard): void {
  if (volts) {
    const nominal = SYSTEM_OF[String(volts.value)];
    if (nominal !== undefined) reading.readAs(`took ${volts.value} V as a ${nominal} V system`);
    draft.volts = { value: nominal ?? volts.value, unit: "V" };
    delete draft.system;
  } else if (system !== undefined) {
    const known = SYSTEMS.find((each) => each === system);
    if (known) draft.system = known;
    else {reading.ask({
        field: "volts",
        ask: `Which of ${system} V is it connected to?`,
        example: `${system.split("/")[0]} V`,
      });}
    delete draft.volts;
  }
  const value = Number(draft.volts?.value);
  const betweenNeutral = balanced || (lineToNeutral && draft.circuit === "three-phase" && TO_NEUTRAL.includes(value));
  if (betweenNeutral) draft.circuit = "balanced neutral";
}

/** What tells most about the current comes first. */
const TELLING = ["A", "VA", "kVA", "W", "kW", "hp"];
const spoken = ({ value, unit }: { value: number | string; unit: string }) => `${value} ${unit}`;

function settleLoad(reading: Reading, draft: Drafted, heard: Heard): void {
  const [point] = heard.points;
  if (heard.points.length === 1 && point) {
    heard.loads.push(point.load);
    heard.lengths.push(point.at);
  }
  const { actual, loads, each, total, panel, breaker } = { ...heard, breaker: draft.breaker };
  const told = (actual.length > 0 ? actual : loads).toSorted((a, b) =>
    TELLING.indexOf(a.unit) - TELLING.indexOf(b.unit)
  );
  const others = [...(actual.length > 0 ? loads : []), ...told.slice(1)].filter((other) =>
    spoken(other) !== spoken(told[0]!)
  );
  if (heard.points.length > 1) draft.points = heard.points;
  const said = each ?? total ?? told[0];
  if (said) {
    draft.load = said;
    if (!each && !draft.along && !heard.spacing) delete draft.count;
    if (others.length > 0) reading.readAs(`took ${spoken(said)} as the load, not ${others.map(spoken).join(" or ")}`);
  }
  if (heard.spacing) {
    draft.along = { ...(heard.first && { first: heard.first }), spacing: heard.spacing };
  } else if (heard.first && draft.along) draft.along = { ...draft.along, first: heard.first };
  if (heard.count !== undefined && heard.count > 1) settleCount(reading, draft, heard, heard.count);
  if (!panel) return;
  if (draft.load === undefined && draft.points === undefined && breaker === undefined && heard.count === undefined) {
    draft.breaker = panel;
  } else reading.readAs(`left the ${panel.value} A panel aside: its rating is not the load`);
}

function settleCount(reading: Reading, draft: Drafted, heard: Heard, count: number): void {
  draft.count = count;
  if (heard.total && draft.along) {
    draft.load = { value: toJson(exact(heard.total.value).div(exact(count))), unit: heard.total.unit } as Load;
  } else if (heard.total) delete draft.count;
  else if (draft.load && !heard.each && !heard.actual.length && heard.loads.length > 0) {
    reading.ask({
      field: "load",
      ask: `Is ${spoken(draft.load)} the load of each, or of all ${count} together?`,
      example: `${spoken(draft.load)} each`,
    });
  }
}

const distinct = <T>(
  list: readonly T[],
  key: (each: T) => string,
) => [...new Map(list.map((each) => [key(each), each])).values()];

function settleRun(reading: Reading, draft: Drafted, heard: Heard): void {
  const { stretches, joined } = heard;
  const lengths = [...heard.lengths];
  const sizes = [...heard.sizes];
  const [only] = stretches;
  if (stretches.length === 1 && only) {
    lengths.push(only.length as Feet);
    if (only.size) sizes.push(only.size);
    if (only.material) draft.material = only.material;
  } else if (stretches.length > 1) {
    draft.segments = stretches;
    delete draft.length;
    delete draft.size;
  }
  if (lengths.length > 0) {
    draft.length = oneLength(reading, distinct(lengths, spoken), joined);
    delete draft.segments;
  }
  const named = distinct(sizes, (size) => size);
  if (named.length === 1) draft.size = named[0]!;
  else if (named.length > 1) {
    reading.readAs(`looked for the size needed, of ${named.join(" and ")}`);
    heard.find = "conductor";
    delete draft.size;
    heard.sizes = [];
  }
}

/** One way: a length that is the sum of the others is the whole run. */
function oneLength(reading: Reading, lengths: readonly Feet[], joined: boolean): Feet {
  const values = lengths.map(({ value }) => exact(value).valueOf());
  const [sum, most] = [values.reduce((a, b) => a + b), Math.max(...values)];
  if (values.length === 1) return lengths[0]!;
  const text = values.join(", ");
  if (Math.abs(sum - 2 * most) < 1e-9) {
    reading.readAs(`took ${most} ft as the whole run, the other lengths as its parts`);
    return { value: most, unit: "ft" };
  }
  if (joined) {
    reading.readAs(`took ${text} ft as one run of ${sum} ft`);
  } else {
    reading.ask({
      field: "length",
      ask: `Several lengths are named (${text} ft). How long is the whole run, one way?`,
      example: `${sum} ft one way`,
    });
  }
  return { value: sum, unit: "ft" };
}

/** A size or a length that is already told turns the wish for it into a check of it. */
function settleFind({ amending }: Reading, draft: Drafted, heard: Heard): void {
  const { find } = heard;
  const hasRun = draft.length ?? draft.segments ?? draft.along ?? draft.points;
  if (amending) {
    if (find === "conductor") delete draft.size;
    if (find === "longest run") delete draft.length;
    if (find !== undefined) delete draft.find;
    if (draft.find === "conductor" && heard.sizes.length > 0) delete draft.find;
    if (draft.find === "longest run" && heard.lengths.length > 0) delete draft.find;
  }
  if (find === "conductor") {
    if (draft.size === undefined) draft.find = find;
    else draft.check = true;
  } else if (find === "longest run") {
    if (hasRun === undefined) draft.find = find;
    else if (draft.size !== undefined) draft.check = true;
  } else if (find === "drop" && (draft.size === undefined || hasRun === undefined) && !draft.segments) {
    draft.find = find;
  }
  if (draft.size === undefined && draft.segments === undefined) delete draft.check;
}
