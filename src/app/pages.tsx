/** What a browser gets: the page, the page for a frame, an answer's link, and the files they are made with. */
import { type Context, Hono } from "hono";
import { etag } from "hono/etag";
import type { Edition } from "../core/edition.ts";
import type { Outcome } from "../core/outcome.ts";
import type { Engine } from "../engine.ts";
import { card, type Place } from "../render/card.tsx";
import { document, Start, Trouble } from "../render/document.tsx";
import { markdown } from "../render/markdown.ts";
import { printOutcome } from "../render/outcome.ts";
import { brief, text } from "../render/text.ts";
import icon from "../page/favicon.svg" with { type: "text" };
import script from "../page/page.js" with { type: "text" };
import style from "../page/page.css" with { type: "text" };
import { answerLink, formOf, FORMS, type Linked, linked } from "./answer.ts";
import { Problem } from "./problem.ts";
import { inShort } from "./steps.ts";

/** The origin that links are given with. */
export type OriginOf = (c: Context) => string;

export function pages(engine: Engine, originOf: OriginOf): Hono {
  const editions = [...engine.editions.values()].map(({ id, title }) => ({ id, title }));
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
  });
  const start = (place: Place) =>
    document({
      place,
      title: "",
      question: "",
      editions,
      children: Start({ place, questions: engine.questions, editions: graded() }),
    });
  const shown = (place: Place, asked: Linked, outcome: Outcome) => {
    const answer = outcome.outcome === "answered" ? outcome.answer : undefined;
    return document({
      // The edition that answered: a question may name its own.
      place: { ...place, edition: answer?.edition ?? place.edition },
      title: answer?.headline ?? asked.question,
      question: answer ? new URLSearchParams(answer.link.split("?")[1]).get("q") ?? "" : asked.question,
      editions,
      children: printOutcome(outcome, card(place, asked)),
    });
  };
  const file = (type: string, body: string) => (c: Context) => c.body(body, 200, { "Content-Type": type });

  return new Hono()
    .get("/", (c) => c.html(start(placeOf(c, "/answer"))))
    .get("/embed", (c) => {
      const place = placeOf(c, "/embed");
      if (!c.req.query("q")?.trim()) return c.html(start(place));
      const asked = linked(c);
      return c.html(shown(place, asked, answerLink(engine, asked)));
    })
    .get("/answer", (c) => {
      const form = formOf(c);
      c.header("Vary", "Accept");
      if (form === "pdf") {
        throw new Problem(501, "PDF is not made here yet. Print the page (as=html), or take as=markdown or as=text.");
      }
      const asked = linked(c);
      const outcome = answerLink(engine, asked);
      const origin = originOf(c);
      switch (form) {
        case "json":
          return c.json(inShort(c, outcome));
        case "html":
          return c.html(shown(placeOf(c, "/answer"), asked, outcome));
        case "markdown":
          return c.body(printOutcome(outcome, markdown(origin)), 200, {
            "Content-Type": `${FORMS.markdown}; charset=utf-8`,
          });
        case "text":
          return c.text(printOutcome(outcome, (c.req.query("brief") === undefined ? text : brief)(origin)));
      }
    })
    .use("/page.css", etag())
    .use("/page.js", etag())
    .use("/favicon.svg", etag())
    .get("/page.css", file("text/css; charset=utf-8", style))
    .get("/page.js", file("text/javascript; charset=utf-8", script))
    .get("/favicon.svg", file("image/svg+xml", icon));
}

/** A problem as a page, for a person who followed a broken link. */
export const troublePage = (engine: Engine, problem: Problem): string =>
  document({
    place: { action: "/answer", origin: "", edition: engine.defaultEdition },
    title: problem.title,
    question: "",
    editions: [...engine.editions.values()].map(({ id, title }) => ({ id, title })),
    children: Trouble({ title: problem.title, detail: problem.detail }),
  });
