/** What a browser gets: the page, the page for a frame, an answer's link, a card for the page's script, and their files. */
import { type Context, Hono } from "hono";
import { etag } from "hono/etag";
import type { Edition } from "../editions/edition.ts";
import type { Engine } from "../engine.ts";
import type { Outcome } from "../outcomes.ts";
import { document, Start, Trouble } from "../render/document.tsx";
import { markdown } from "../render/markdown.ts";
import { printOutcome } from "../render/outcome.ts";
import { paper, sheet, type Size, SIZES } from "../render/paper.ts";
import type { Place } from "../render/place.ts";
import { brief, text } from "../render/text.ts";
import { TurnInFull, TurnInShort } from "../render/turn.tsx";
import { answerLink, type Asked, formOf, FORMS, linked, questionOf } from "./answer.ts";
import { FILES } from "./files.ts";
import type { Press } from "./press.ts";
import { Problem } from "./problem.ts";
import { inShort } from "./steps.ts";
import { goOn } from "./turn.ts";

/** The origin that links are given with. */
type OriginOf = (c: Context) => string;

export function pages(engine: Engine, originOf: OriginOf, press: Press): Hono {
  // Grades are of every value there is: counted when the page that lists them is first asked for.
  let counted: { id: string; title: string; verified: ReturnType<Edition["grades"]> }[] | undefined;
  const graded = () =>
    counted ??= [...engine.editions.values()].map((edition) => ({
      id: edition.id,
      title: edition.title,
      verified: edition.grades(),
    }));
  const placeOf = (c: Context, action: Place["action"]): Place => ({
    action,
    origin: originOf(c),
    edition: c.req.query("edition") || engine.defaultEdition,
    id: "",
    after: [],
  });
  const start = (place: Place, kind: string | undefined) => {
    // A frame may stand beside one kind of work: that one comes first then.
    const questions = engine.questions.toSorted((a, b) => Number(b.id === kind) - Number(a.id === kind));
    // What fits into one line of the box; the whole job stands above it.
    const examples = questions.slice(0, kind === undefined ? questions.length : 1).flatMap(({ examples }) => examples);
    return document({
      place,
      title: "",
      example: examples.find((each) => each.length < 60 && /wire/.test(each)) ?? examples[0] ?? "",
      editions: titled(engine),
      children: Start({ place, questions, editions: graded() }),
    });
  };
  const shown = (place: Place, asked: readonly Asked[]) => {
    const texts = asked.map(({ question }) => question);
    const { question, outcome } = asked.at(-1)!;
    const answer = outcome.outcome === "answered" ? outcome.answer : undefined;
    // The edition that answered: a question may name its own.
    const here: Place = { ...place, edition: answer?.edition ?? place.edition, after: texts };
    return document({
      place: here,
      title: answer?.headline ?? question,
      ...(answer && { description: `${answer.restated}. ${answer.editionTitle}. ${answer.notice}` }),
      editions: titled(engine),
      children: (
        <>
          {asked.slice(0, -1).map((turn, i) => (
            <TurnInShort {...turn} place={{ ...here, id: `e${i}-`, after: texts.slice(0, i + 1) }} />
          ))}
          <TurnInFull question={question} outcome={outcome} place={here} />
        </>
      ),
    });
  };
  const files = new Hono().use(etag());
  for (const [path, { type, body }] of FILES) files.get(path, (c) => c.body(body, 200, { "Content-Type": type }));

  return new Hono()
    .get("/", (c) => c.html(start(placeOf(c, "/answer"), c.req.query("kind"))))
    .get("/embed", (c) => {
      const place = placeOf(c, "/embed");
      if (!(c.req.query("q") ?? c.req.query("question"))?.trim()) return c.html(start(place, c.req.query("kind")));
      return c.html(shown(place, answerLink(engine, linked(c))));
    })
    .get("/answer", async (c) => {
      const form = formOf(c);
      c.header("Vary", "Accept");
      const asked = answerLink(engine, linked(c));
      const { question, outcome } = asked.at(-1)!;
      const origin = originOf(c);
      switch (form) {
        case "json":
          return c.json(inShort(c, outcome));
        case "html":
          return c.html(shown(placeOf(c, "/answer"), asked));
        case "markdown":
          return c.body(printOutcome(outcome, markdown(origin)), 200, {
            "Content-Type": `${FORMS.markdown}; charset=utf-8`,
          });
        case "text":
          return c.text(printOutcome(outcome, (c.req.query("brief") === undefined ? text : brief)(origin)));
        case "pdf": {
          const isBrief = c.req.query("brief") !== undefined;
          const sheets = paper(printOutcome(outcome, sheet(origin, question)), sizeOf(c), isBrief);
          if (!sheets) throw noAnswer(outcome);
          return c.body(await press.print(sheets), 200, {
            "Content-Type": FORMS.pdf,
            "Content-Disposition": `inline; filename="${sheets.file}.pdf"`,
          });
        }
      }
    })
    .post("/turn", async (c) => {
      const turn = await goOn(engine, c);
      const place: Place = { ...placeOf(c, turn.action), edition: turn.edition, id: turn.id, after: turn.after };
      const { outcome } = turn;
      const answer = outcome.outcome === "answered" ? outcome.answer : undefined;
      return c.json(
        {
          html: String(TurnInFull({ question: turn.question, outcome, place })),
          title: answer?.headline ?? turn.question,
          edition: answer?.edition ?? turn.edition,
        },
        200,
        { "Access-Control-Allow-Origin": "*" },
      );
    })
    .route("/", files);
}

/** The sheets that a PDF is laid out for. */
function sizeOf(c: Context): Size {
  const asked = c.req.query("paper")?.toLowerCase() || SIZES[0];
  const size = SIZES.find((each) => each === asked);
  if (!size) throw new Problem(400, `"paper=${asked}" is no size of paper here. There are: ${SIZES.join(", ")}.`);
  return size;
}

/** Nobody files a question that was asked back: paper is made of answers. */
function noAnswer(outcome: Outcome): Problem {
  const why = outcome.outcome === "unclear"
    ? `Before there is an answer: ${outcome.needs.map(({ ask }) => ask).join(" ")}`
    : outcome.outcome === "not covered"
    ? `This is not covered here: ${outcome.because.replace(/\.?$/, ".")}`
    : "";
  return new Problem(422, `There is no answer to put on paper. ${why} The same link without as=pdf shows it.`);
}

/** What was asked, also where it is too long to be. */
function asTyped(c: Context): string {
  try {
    return questionOf(c.req.queries()) ?? "";
  } catch {
    return c.req.query("q") ?? "";
  }
}

/** The editions to choose from. A title stands in the edition's file, which is read when a page first shows it. */
const titled = (engine: Engine) => [...engine.editions.values()].map(({ id, title }) => ({ id, title }));

/** A problem as a page, for a person who followed a broken link; what was asked stands in the box, and goes on from there. */
export const troublePage = (engine: Engine, problem: Problem, c: Context): string => {
  const action = c.req.path === "/embed" ? "/embed" : "/answer";
  return document({
    place: {
      action,
      origin: "",
      edition: c.req.query("edition") || engine.defaultEdition,
      id: "",
      after: c.req.queries("after") ?? [],
    },
    title: problem.plainly,
    question: asTyped(c),
    editions: titled(engine),
    children: Trouble({
      title: problem.plainly,
      detail: problem.detail,
      home: action === "/embed" ? "/embed" : "/",
    }),
  });
};
