/**
 * Texts that only point at something of an answer: `neutral?`, `and the pipe size`, `how many wires`. What they point at is a
 * figure of the last answer, or of the job that it stood beside; where neither has one, that is said.
 */
import { changesBetween } from "../conversation/changes.ts";
import type { Thread, Topic } from "../conversation/thread.ts";
import { ConductorSize } from "../core/conductor-size.ts";
import { printBriefly } from "../core/print.ts";
import type { Account, WorkedAnswer } from "../core/worked.ts";
import type { Fact } from "../reading/facts.ts";
import { is } from "../reading/manner.ts";
import type { AnyQuestion } from "../questions/question.ts";
import type { ReadText } from "../reading/read.ts";

const ELECTRODE = ["grounding-electrode-conductor", "electrodes"];
/** A service's ground is the one to its electrodes. */
const GROUND = ["equipment-grounding-conductor", "unit-feeder-ground", ...ELECTRODE];
const CURRENT = [
  "calculated-current",
  "load-current",
  "total-current",
  "full-load-current",
  "source-current",
  "secondary-current",
  "current",
];
const WIRE = ["conductor", "ungrounded-conductor", "feeder-conductor"];
const DROP = ["voltage-drop-volts", "voltage-drop"];
const RACEWAY = ["raceway-size"];
const FILL = ["fill", "allowances"];
/** `what's left on a 200`, of a load that is worked out. */
const LEFT = "goal:add-load";
const LEFT_OVER = ["spare-current", "spare-load"];
const FAULT = ["available-fault-current", "ground-fault-current"];
const MOST = [
  "maximum-protection",
  "breaker-rating-highest",
  "largest-backfeed-breaker",
  "primary-protection",
  "breaker-rating",
];
/** What a head named without a figure, or a term alone, points at; of several figures the first that the answer has. */
export type Pointers = Readonly<Record<string, readonly string[]>>;
/** Of figures that several kinds have. */
const SHARED: Pointers = {
  "conductor:wire": WIRE,
  "conductor:ungrounded": WIRE,
  "conductor:neutral": ["neutral-conductor", "unit-feeder-neutral"],
  "conductor:equipment-ground": GROUND,
  "conductor:grounding-electrode-conductor": ELECTRODE,
  "conductor:main-bonding-jumper": ["main-bonding-jumper"],
  "conductor:system-bonding-jumper": ["system-bonding-jumper"],
  "conductor:supply-side-bonding-jumper": ["supply-side-bonding-jumper"],
  "conductor:bonding-jumper": ["main-bonding-jumper", "system-bonding-jumper", "supply-side-bonding-jumper"],
  "device:breaker": ["breaker-rating", "primary-protection", "largest-backfeed-breaker"],
  "device:main": ["service-rating", "main-rating"],
  "device:service": ["service-rating"],
  "device:disconnect": ["disconnect-current", "far-end-disconnect"],
  "goal:raceway-size": RACEWAY,
  [LEFT]: LEFT_OVER,
  "goal:current": CURRENT,
  "goal:kVA": ["calculated-load", "demand-load"],
  "goal:VA": ["calculated-load", "demand-load"],
  "goal:drop": DROP,
  "goal:ampacity": ["ampacity"],
  "goal:neutral-current": ["neutral-current"],
  "goal:fault-current": FAULT,
  "goal:bond": ["neutral-bond"],
  "goal:longest-run": ["longest-run"],
  "goal:box-fill": FILL,
  "label:drop": DROP,
  "label:neutral-load": ["neutral-current", "neutral-load"],
  "label:maximum-protection": MOST,
  "label:maximum-fuse": MOST,
  "label:maximum-fuse-or-breaker": MOST,
  "label:calculated-load": ["calculated-load"],
  "label:available-fault-current": FAULT,
  "label:secondary-current": ["secondary-current"],
  "electrode:rod": ELECTRODE,
  "electrode:ground": ELECTRODE,
};
/** Those of all kinds: the shared ones, and each one's own. */
export const pointersOf = (questions: readonly AnyQuestion[]): Pointers =>
  Object.assign({}, SHARED, ...questions.map(({ manner }) => manner.pointers));

/** What may stand beside what is pointed at without being it: `what size`, `which`, `what about`. */
const BESIDE: ReadonlySet<string> = new Set(["goal:size", "change:make", "change:add", "end:there"]);

export type Pointed = { readonly said: string; readonly ids: readonly string[] };
type Keyed = { readonly key: string; readonly said: string };

const isBare = ({ slots }: Fact): boolean => Object.keys(slots).length === 0;
/** All that a text names, figures left out, and whether it tells a figure as well. */
function namedIn({ facts: { facts, free } }: ReadText): { named: Keyed[]; isTelling: boolean } {
  const heads = facts.map(({ family, id, said }) => ({ key: `${family}:${id ?? ""}`, said: said.trim() }));
  const terms = free.filter(({ key }) => !BESIDE.has(key))
    .map(({ key, value }) => ({ key, said: value.said.trim() }));
  return {
    named: [...heads, ...terms],
    isTelling: !facts.every(isBare) || free.some(({ value: { sense } }) => sense.is !== "term"),
  };
}

/**
 * What a text points at.
 * @returns absent where it tells a figure, names a thing that no answer tells, or points at nothing
 */
export function pointedAt(text: ReadText, pointers: Pointers): readonly Pointed[] | undefined {
  const { named, isTelling } = namedIn(text);
  // `amps`, and no question: how the number was meant that was told before.
  const isUnit = text.tokens.length === 1 && named[0]?.key.startsWith("goal:");
  // `all we got is two ground rods` tells what there is.
  const isElectrode = named.every(({ key }) => key.startsWith("electrode:")) &&
    !text.tokens.some(({ text: mark }) => mark === "?");
  if (isTelling || named.length === 0 || isUnit || isElectrode) return undefined;
  const pointed = named.flatMap(({ key, said }): Pointed[] => pointers[key] ? [{ said, ids: pointers[key] }] : []);
  // `ground rod wire`: the head tells what the rod beside it is of.
  return pointed.length === named.length ? pointed : undefined;
}

export const isRaceway = ({ ids }: Pointed): boolean => ids === RACEWAY;

/** The conductors of a service, as a raceway is asked for them; absent where their number is not known. */
export function serviceInRaceway(topic: Topic): string | undefined {
  const { figures = {}, facts: { free } } = topic;
  const [line, neutral] = [figures["ungrounded-conductor"], figures["neutral-conductor"]];
  if (!is(topic, "three wires") || !line || !neutral || figures["parallel-sets"]) return undefined;
  const metal = free.some(({ key }) => key === "metal:aluminum") ? "aluminum" : "copper";
  const wire = ({ value }: { value: number | string }) => `${ConductorSize.of(String(value))} ${metal}`;
  return `2 ${wire(line)} and 1 ${wire(neutral)} wires, what size PVC conduit`;
}

/** The topic of which a figure is pointed at: the one under way, or the job that it stands beside. */
export function topicPointedAt(pointed: readonly Pointed[], { topics }: Thread): Topic | undefined {
  const [topic, job] = topics.filter(({ figures }, i) => i === 0 || figures);
  const has = ({ figures = {} }: Topic) => pointed.every(({ ids }) => ids.some((id) => figures[id] !== undefined));
  if (topic && has(topic) && !topic.needs?.length) return topic;
  return (topic?.aside || !topic?.figures) && job && has(job) ? job : undefined;
}

/** Whether a line speaks of something by that word, in the singular or the plural. */
const speaksOf = (line: string, said: string): boolean =>
  line.toLowerCase().includes(said.toLowerCase().replace(/(?<=[a-z]{3})s$/, ""));

/** Figures that are pointed at, in words, but for those of which the first line speaks by that word. */
function told({ figures, headline, steps }: WorkedAnswer, pointed: readonly Pointed[]): string[] {
  const lines = pointed.flatMap(({ said, ids }) => {
    const figure = ids.flatMap((id) => figures[id] ?? [])[0];
    if (!figure || speaksOf(headline, ids === LEFT_OVER ? "spare" : said)) return [];
    // From the step it points at, so that no digit differs from the step's own.
    const step = steps.find(({ id }) => id === figure.step);
    return step ? [`${figure.name}: ${printBriefly(step.value)}`] : [];
  });
  return [...new Set(lines)];
}

/** The words that point, as what became of each stretch of the text. */
export const accountOfPointed = ({ pieces, tokens }: ReadText): Account => ({
  taken: pieces.filter(({ is }) => is === "fact").map(({ from, to }) => {
    const first = tokens[from]!;
    const said = tokens.slice(from, to).map(({ text }) => text).join(" ");
    return { at: first.at, text: said, as: "figure of the answer" };
  }),
  setAside: [],
  unread: [],
});
const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
/** An answer whose first line begins with what was pointed at. */
export function withPointed(answer: WorkedAnswer, pointed: readonly Pointed[]): WorkedAnswer {
  const lines = told(answer, pointed);
  return lines.length === 0 ? answer : { ...answer, headline: `${capital(lines.join("; "))}. ${answer.headline}` };
}

/** What a text points at beside what it changes: conductors that it names without a figure, what is left. */
export function pointedBeside({ facts }: ReadText, heads: readonly Fact[], pointers: Pointers): Pointed[] {
  const left = facts.free.filter(({ key }) => key === LEFT).map(({ key, value: { said } }) => ({ key, said }));
  return [...heads.map(({ family, id, said }) => ({ key: `${family}:${id ?? ""}`, said })), ...left]
    .flatMap(({ key, said }) => pointers[key] ? [{ said: said.trim(), ids: pointers[key] }] : []);
}

/** Whether an outcome says again what was answered before, and nothing of what was pointed at. */
export function passesBy(
  pointed: readonly Pointed[],
  { figures, kind }: Topic,
  { answer }: { answer: WorkedAnswer },
): boolean {
  if (answer.kind !== kind || !figures || changesBetween(figures, answer.figures).length > 0) return false;
  const said = `${answer.headline} ${answer.readAs.join(" ")}`;
  return pointed.every((each) =>
    !speaksOf(said, each.said.split(" ").at(-1)!) && each.ids.every((id) => answer.figures[id] === undefined)
  );
}
