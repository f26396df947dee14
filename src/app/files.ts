/** The files that the page is made with. */
import icon from "../page/favicon.svg" with { type: "text" };
import asking from "../page/asking.js" with { type: "text" };
import elements from "../page/elements.js" with { type: "text" };
import frame from "../page/frame.js" with { type: "text" };
import page from "../page/page.js" with { type: "text" };
import style from "../page/page.css" with { type: "text" };
import passOn from "../page/pass-on.js" with { type: "text" };
import talk from "../page/talk.js" with { type: "text" };
import thread from "../page/thread.js" with { type: "text" };

const JAVASCRIPT = "text/javascript; charset=utf-8";

/** Each by its path, with its media type. */
export const FILES: ReadonlyMap<string, { type: string; body: string }> = new Map([
  ["/page.css", { type: "text/css; charset=utf-8", body: style }],
  ["/page.js", { type: JAVASCRIPT, body: page }],
  ["/asking.js", { type: JAVASCRIPT, body: asking }],
  ["/elements.js", { type: JAVASCRIPT, body: elements }],
  ["/frame.js", { type: JAVASCRIPT, body: frame }],
  ["/pass-on.js", { type: JAVASCRIPT, body: passOn }],
  ["/talk.js", { type: JAVASCRIPT, body: talk }],
  ["/thread.js", { type: JAVASCRIPT, body: thread }],
  ["/favicon.svg", { type: "image/svg+xml", body: icon }],
]);
