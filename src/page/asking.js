// @ts-check
/** Asking the service: one question at a time, progress where the answer will be, and nothing typed lost when none comes. */
import { action, edition, element, question, say, send } from "./elements.js";
import { saveTalk } from "./talk.js";
import {
  blankTurn,
  foldOthers,
  LONGEST_CHAIN,
  page,
  putInBox,
  remember,
  retryButton,
  reveal,
  settle,
  show,
  showAll,
  shown,
  textsOf,
  turnElement,
  urlOf,
  version,
} from "./thread.js";

/** @typedef {import("./talk.js").Turn} Turn */
/** @typedef {"on" | "change" | "edit" | "afresh"} How */
/** @typedef {[string, string][]} Fields */
/** `from` is the turn it goes on from, `words` what is shown as asked. @typedef {{ how: How, from: number, words: string, replace?: number }} Asking */
/** @typedef {{ html: string, title: string } | { says: string, wait?: number }} Reply */

const LONGEST_WAIT = 30_000;
const SEND = send.textContent ?? "";

/** What is under way. @type {AbortController | undefined} */
let busy;
export const isBusy = () => busy !== undefined;
/** @param {"stopped" | "left"} why by a tap, or because the page shows another conversation now */
export const stop = (why) => busy?.abort(why);

/**
 * Asks the fields of a form and puts the answer where it belongs: a change of the card where the conversation stands into
 * that card, anything else beneath.
 * @param {Fields} fields @param {Asking} asking
 * @returns {Promise<boolean>} whether it was taken up
 */
export async function ask(fields, asking) {
  if (busy) {
    say("One answer is under way. Wait for it, or stop it; what you typed is kept.");
    return false;
  }
  const { how, from, replace } = asking;
  const base = how === "afresh" || from < 0 ? null : turnElement(from);
  const isChange = (how === "change" || how === "edit") && from === page.talk.at && replace === undefined;
  if (base && isChange) await change(base, fields, asking);
  else await askBeneath(base, fields, asking);
  return true;
}

/** A turn of its own. @param {HTMLElement | null} base @param {Fields} fields @param {Asking} asking */
async function askBeneath(base, fields, { how, from, words, replace }) {
  const { talk } = page;
  const kept = /** @type {Fields} */ ([...fields.filter(([name]) => name !== "how"), ["how", how]]);
  // Kept before it is sent: a page that is closed or reloaded meanwhile has lost nothing.
  const failed = { fields: kept, shown: words, says: "The page was left before an answer came." };
  const turn = /** @type {Turn} */ ({ from: base ? from : -1, versions: [], failed });
  const index = replace ?? talk.turns.length;
  talk.turns[index] = turn;
  saveTalk(talk);
  const made = blankTurn(words);
  show(made, index);
  foldOthers(made);
  page.waiting = { turn, made };
  const reply = await sent(fields, how, base, made, "end");
  page.waiting = undefined;
  const isHere = page.talk === talk;

  if ("html" in reply) {
    delete turn.failed;
    keep(talk, index, element(reply.html), reply.title);
    if (isHere) showAnswer(index, false);
  } else if (isHere && reply.says === STOPPED && question.value.trim() === "" && turn === talk.turns.at(-1)) {
    talk.turns.pop();
    saveTalk(talk);
    showAll();
    putInBox(words);
  } else {
    if (reply.says !== LEFT) failed.says = reply.says;
    if (reply.wait) turn.failed = { ...failed, until: Date.now() + reply.wait * 1000 };
    saveTalk(talk);
    if (!isHere) return;
    say(reply.says);
    showAll();
    turnElement(index)?.scrollIntoView({ block: "end" });
  }
}

/** A change of the card that stands open. @param {HTMLElement} base @param {Fields} fields @param {Asking} asking */
async function change(base, fields, asking) {
  const { how, from, words } = asking;
  const { talk } = page;
  base.querySelector(".trouble")?.remove();
  const reply = await sent(fields, how, base, base);
  const isHere = page.talk === talk;

  if ("html" in reply) {
    const made = element(reply.html);
    // What was said before stands above, the change beneath it.
    const said = made.querySelector(".asked");
    if (how === "edit" && said) said.textContent = words;
    said?.before(...[...base.querySelectorAll(".asked")].map((each) => each.cloneNode(true)));
    keep(talk, from, made, reply.title);
    if (isHere) showAnswer(from, true);
  } else if (isHere && reply.says !== STOPPED) {
    say(reply.says);
    const told = element(`<div class="trouble"><p></p></div>`);
    /** @type {HTMLElement} */ (told.firstElementChild).textContent = `${reply.says} The answer is as it was.`;
    const again = retryButton(Date.now() + (reply.wait ?? 0) * 1000);
    again.removeAttribute("data-retry");
    again.addEventListener("click", () => ask(fields, asking));
    told.append(again);
    turnElement(from)?.querySelector(".card")?.prepend(told);
  }
}

/** @param {import("./talk.js").Talk} talk @param {number} index @param {HTMLElement} made @param {string} title */
function keep(talk, index, made, title) {
  const turn = /** @type {Turn} */ (talk.turns[index]);
  turn.versions = [...turn.versions, { html: made.outerHTML, title, url: urlOf(made) }].slice(-6);
  talk.at = index;
  saveTalk(talk);
}

/** @param {number} index @param {boolean} inPlace */
function showAnswer(index, inPlace) {
  const turn = /** @type {Turn} */ (page.talk.turns[index]);
  const made = shown(turn, index);
  show(made, index);
  remember(version(turn)?.url ?? "");
  settle();
  // Who is typing at a desk goes on typing; a phone's keyboard gives way to the answer.
  reveal(made, document.activeElement !== question || matchMedia("(pointer: coarse)").matches, inPlace);
}

const [STOPPED, LEFT] = ["Stopped.", "Left."];

/**
 * Sends the fields, with progress in the card of `waiting` meanwhile.
 * @param {Fields} fields @param {How} how @param {HTMLElement | null} base what it goes on from @param {HTMLElement} waiting
 * @param {ScrollLogicalPosition} [block] where the progress is scrolled to, if it is
 * @returns {Promise<Reply>}
 */
async function sent(fields, how, base, waiting, block) {
  const progress = element(`<p class="waiting">Working it out…</p>`);
  waiting.querySelector(".card")?.prepend(progress);
  waiting.setAttribute("aria-busy", "true");
  if (block) waiting.scrollIntoView({ block });
  say("Working it out…");
  const stopper = busy = new AbortController();
  send.textContent = "Stop";
  send.classList.add("stops");
  const began = Date.now();
  const ticking = setInterval(() => {
    const seconds = Math.round((Date.now() - began) / 1000);
    progress.textContent = `Working it out… ${seconds} s. Nothing you typed is lost.`;
  }, 1000);
  const late = setTimeout(() => stopper.abort("late"), LONGEST_WAIT);
  try {
    const reply = await fetch("/turn", { method: "POST", body: bodyOf(fields, how, base), signal: stopper.signal });
    return reply.ok ? await reply.json() : await refusal(reply);
  } catch {
    return { says: trouble(stopper) };
  } finally {
    clearInterval(ticking);
    clearTimeout(late);
    busy = undefined;
    send.textContent = SEND;
    send.classList.remove("stops");
    progress.remove();
    waiting.removeAttribute("aria-busy");
  }
}

/** @param {Fields} fields @param {How} how @param {HTMLElement | null} base */
function bodyOf(fields, how, base) {
  const body = new URLSearchParams(fields);
  for (const name of ["after", "thread", "how", "id", "at"]) body.delete(name);
  body.set("how", how);
  body.set("id", `t${++page.talk.ids}-`);
  body.set("at", action);
  if (!body.get("edition")) body.set("edition", edition.value);
  if (base) {
    body.set("thread", base.dataset.thread ?? "");
    const texts = textsOf(base);
    if (texts.join("").length < LONGEST_CHAIN) { for (const text of texts) body.append("after", text); }
  }
  return body;
}

/** Why no answer came. @param {AbortController} stopper */
function trouble({ signal: { reason } }) {
  if (reason === "stopped") return STOPPED;
  if (reason === "left") return LEFT;
  if (reason === "late") return `No answer came in ${LONGEST_WAIT / 1000} s.`;
  return navigator.onLine === false
    ? "No signal: this did not reach the service."
    : "The service could not be reached.";
}

/** What the service refused, in its own words, and how long to wait. @param {Response} reply */
async function refusal(reply) {
  const problem = await reply.json().catch(() => ({}));
  const wait = Number(reply.headers.get("Retry-After"));
  return { says: problem.detail ?? `The service answered with status ${reply.status}.`, wait: wait > 0 ? wait : 0 };
}
