// @ts-check
/** The conversation as the page shows it: a turn beneath the other, the one where it stands open. */
import { action, again, byId, edition, element, home, question, say } from "./elements.js";
import { draft, newTalk, saveTalk } from "./talk.js";

/** @typedef {import("./talk.js").Turn} Turn */

const thread = byId("thread");
const goesOn = byId("goes-on");
const newQuestion = /** @type {HTMLElement} */ (document.querySelector("[data-new]"));
/** What was on the page before a conversation. */
const start = [...thread.childNodes];
question.dataset.example = question.placeholder;

/** Texts that lead to an answer stand in its link up to this length; beyond, its own link does. */
export const LONGEST_CHAIN = 1500;

/**
 * What the page shows, and the turn that waits for its answer.
 * @type {{ talk: import("./talk.js").Talk, waiting?: { turn: Turn, made: HTMLElement } | undefined }}
 */
export const page = { talk: newTalk() };

/** @param {Turn | undefined} turn */
export const version = (turn) => turn?.versions.at(-1);
/** @param {number} index @returns {HTMLElement | null} */
export const turnElement = (index) => thread.querySelector(`[data-turn="${index}"]`);
/** Texts that lead to a turn, its own last. @param {HTMLElement | null} turn */
export const textsOf = (turn) => /** @type {string[]} */ (JSON.parse(turn?.dataset.after ?? "[]"));
/** Turns as they came with the page. @returns {HTMLElement[]} */
export const given = () => [...thread.querySelectorAll(/** @type {"div"} */ (".turn"))];

/** Makes the element of a turn. @param {Turn} turn @param {number} index */
export function shown(turn, index) {
  const made = turn === page.waiting?.turn
    ? page.waiting.made
    : turn.failed
    ? failedTurn(turn.failed)
    : element(version(turn)?.html ?? "");
  made.dataset.turn = String(index);
  made.classList.toggle("undone", turn.undone === true);
  for (const only of made.querySelectorAll("[data-copy], [data-fold], [data-undo]")) only.removeAttribute("hidden");
  if (turn.versions.length > 1 && !made.querySelector("[data-undo]")) {
    const nothing = element(`<div class="changed"><p>Changed; no figure is another than before.</p></div>`);
    const changed = made.querySelector(".changed") ?? nothing;
    if (changed === nothing) made.querySelector(".fold")?.after(nothing);
    changed.append(element(`<a class="handle slip" data-undo href="#">Take it back</a>`));
  }
  if (turn.undone) {
    made.querySelector("[data-undo]")?.remove();
    made.querySelector(".fold")?.after(element(`<a class="handle slip" data-undo href="#">Put it back</a>`));
  }
  return made;
}

/** A turn without an answer: the words, and where the answer will be. @param {string} words */
export function blankTurn(words) {
  const made = element(`<section class="turn"><div class="asked"></div><article class="card"></article></section>`);
  /** @type {HTMLElement} */ (made.querySelector(".asked")).textContent = words;
  return made;
}

/** A question that got no answer. @param {NonNullable<Turn["failed"]>} failed */
function failedTurn({ shown: words, says, until = 0 }) {
  const made = blankTurn(words);
  const line = element(`<p class="first" tabindex="-1"></p>`);
  line.textContent = `${says} What you asked is kept.`;
  const buttons = element(`<p class="buttons"></p>`);
  const rebox = element(`<button type="button" class="handle slip" data-rebox>Put it back in the box</button>`);
  buttons.append(retryButton(until), rebox);
  made.querySelector(".card")?.append(line, buttons);
  return made;
}

/** A control that asks again, once the time to wait is over. @param {number} until in ms of the clock */
export function retryButton(until) {
  const button =
    /** @type {HTMLButtonElement} */ (element(`<button type="button" class="handle" data-retry></button>`));
  const tick = () => {
    const left = Math.ceil((until - Date.now()) / 1000);
    button.disabled = left > 0;
    button.textContent = left > 0 ? `Ask again in ${left} s` : "Ask again";
    if (left > 0) setTimeout(tick, 500);
  };
  tick();
  return button;
}

/** @param {HTMLElement} turn @param {boolean} folded */
export function fold(turn, folded) {
  for (const card of turn.querySelectorAll(".card")) {
    const button = card.querySelector("[data-fold]");
    if (!button) continue;
    card.classList.toggle("folded", folded);
    button.setAttribute("aria-expanded", String(!folded));
    button.textContent = folded ? "Unfold" : "Fold";
    // What stands open because the conversation stands there has nothing to fold for.
    /** @type {HTMLElement} */ (button).hidden = !folded && turn === turnElement(page.talk.at);
  }
}

/** Shows the whole conversation, its current turn open. */
export function showAll() {
  const { turns } = page.talk;
  if (turns.length === 0) thread.replaceChildren(...start);
  else thread.replaceChildren(...turns.map(shown));
  dropDeadLeads();
  settle();
}

/** Shows one turn in its place, or beneath the others. @param {HTMLElement} made @param {number} index */
export function show(made, index) {
  made.dataset.turn = String(index);
  const before = turnElement(index);
  if (before) before.replaceWith(made);
  else if (index === 0) thread.replaceChildren(made);
  else thread.append(made);
  dropDeadLeads();
}

/** Leads that end nowhere are words again. */
function dropDeadLeads() {
  for (const lead of thread.querySelectorAll("a.leads")) {
    if (!document.getElementById(/** @type {HTMLAnchorElement} */ (lead).hash.slice(1))) {
      lead.replaceWith(lead.textContent ?? "");
    }
  }
}

/** Brings everything around the turns in line with where the conversation stands. */
export function settle() {
  const { turns, at } = page.talk;
  for (const each of /** @type {NodeListOf<HTMLElement>} */ (thread.querySelectorAll("[data-turn]"))) {
    fold(each, Number(each.dataset.turn) !== at && !turns[Number(each.dataset.turn)]?.failed);
  }
  const last = turns.findLastIndex((turn) => !turn.undone && !turn.failed);
  newQuestion.hidden = turns.length === 0;
  question.placeholder = at < 0 ? question.dataset.example ?? "" : "Change it or ask on";
  goesOn.hidden = at === last;
  goesOn.textContent = at < 0
    ? "A new question; the answers above stay."
    : `Goes on from: ${turnElement(at)?.querySelector(".first")?.textContent ?? ""}`;
  const current = turnElement(at)?.dataset.edition;
  // A link may name an edition that is none.
  if ([...edition.options].some(({ value }) => value === current)) edition.value = current ?? "";
  again.hidden = true;
  document.title = version(turns[at])?.title ?? document.title;
}

/** Folds every turn but one. @param {HTMLElement} open */
export function foldOthers(open) {
  for (const each of /** @type {NodeListOf<HTMLElement>} */ (thread.querySelectorAll("[data-turn]"))) {
    if (each !== open) fold(each, true);
  }
}

/** @param {HTMLElement} turn @param {boolean} [takeFocus] @param {boolean} [cardOnly] whether the asked words may scroll away */
export function reveal(turn, takeFocus = true, cardOnly = false) {
  const line = /** @type {HTMLElement | null} */ (turn.querySelector(".first"));
  say(line?.textContent ?? "");
  if (takeFocus) line?.focus({ preventScroll: true });
  (cardOnly ? turn.querySelector(".card") : turn)?.scrollIntoView({ block: "start" });
}

/** @param {string} words */
export function putInBox(words) {
  question.value = question.value.trim() === "" ? words : `${question.value.trim()}\n${words}`;
  draft.keep(question.value);
  question.focus();
}

/** Takes a question that got no answer out of the conversation, its words back in the box. @param {number} index */
export function rebox(index) {
  const [turn] = page.talk.turns.splice(index, 1);
  saveTalk(page.talk);
  showAll();
  putInBox(turn?.failed?.shown ?? "");
}

/** Leaves where the page stands to Back and a reload. @param {string} url @param {boolean} [push] */
export function remember(url, push = true) {
  const state = { talk: page.talk.id, at: page.talk.at };
  try {
    if (push) history.pushState(state, "", url);
    else history.replaceState(state, "", url);
  } catch {
    // A frame without an origin keeps its address.
  }
}

/** The link of the turn where the conversation stands. */
export const urlHere = () => version(page.talk.turns[page.talk.at])?.url ?? home;

/** The link that leads to a turn with everything it goes on from, or else its answer's own. @param {HTMLElement} turn */
export function urlOf(turn) {
  const texts = textsOf(turn);
  const query = new URLSearchParams({ q: texts.at(-1) ?? "", edition: turn.dataset.edition ?? "" });
  for (const text of texts.slice(0, -1)) query.append("after", text);
  const chain = `${action}?${query}`;
  const own = turn.querySelector("[data-share]")?.getAttribute("href");
  const short = chain.length <= LONGEST_CHAIN || !own;
  return short ? chain : `${action}?${new URL(own, location.href).searchParams}`;
}
