// @ts-check
/**
 * What the page gains with a script: a conversation in place that outlives a reload, answers that can be stopped and taken
 * back, copying, sharing. Without it every form and link still works.
 */
import { draft, latestTalk, loadTalk, newTalk, saveTalk } from "./talk.js";
import { frame } from "./frame.js";
import { copyFrom, share } from "./pass-on.js";

/** @typedef {import("./talk.js").Turn} Turn */
/** @typedef {"on" | "change" | "edit" | "afresh"} How */

/** @template {HTMLElement} E @param {string} id @returns {E} */
const byId = (id) => /** @type {E} */ (document.getElementById(id));
const thread = byId("thread");
const announce = byId("announce");
const goesOn = byId("goes-on");
const question = /** @type {HTMLTextAreaElement} */ (byId("question"));
const edition = /** @type {HTMLSelectElement} */ (byId("edition"));
const form = /** @type {HTMLFormElement} */ (question.form);
const send = /** @type {HTMLButtonElement} */ (form.querySelector(".send"));
const again = /** @type {HTMLButtonElement} */ (form.querySelector("[data-again]"));
const newQuestion = /** @type {HTMLElement} */ (document.querySelector("[data-new]"));
const action = form.getAttribute("action") ?? "/answer";
const home = action === "/embed" ? "/embed" : "/";

const LONGEST_WAIT = 30_000;
/** Texts that lead to an answer stand in its link up to this length; beyond, its own link does. */
const LONGEST_CHAIN = 1500;
const SEND = "Work it out";

let talk = newTalk();
/** What is under way. @type {AbortController | undefined} */
let busy;
/** What was on the page before a conversation. */
const start = [...thread.childNodes];

/** @param {string} text */
const say = (text) => void (announce.textContent = text);

// --- the conversation on the page ---------------------------------------------------------------------------------------

/** @param {Turn} turn */
const version = (turn) => turn.versions.at(-1);

/** @param {string} html @returns {HTMLElement} */
function element(html) {
  const template = document.createElement("template");
  template.innerHTML = html;
  return /** @type {HTMLElement} */ (template.content.firstElementChild);
}

/** Makes the element of a turn. @param {Turn} turn @param {number} index */
function shown(turn, index) {
  const made = turn.failed ? failedTurn(turn) : element(version(turn)?.html ?? "<section class='turn'></section>");
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

/** Leads that end nowhere are words again. */
function dropDeadLeads() {
  for (const lead of thread.querySelectorAll("a.leads")) {
    if (!document.getElementById(/** @type {HTMLAnchorElement} */ (lead).hash.slice(1))) {
      lead.replaceWith(lead.textContent ?? "");
    }
  }
}

/** @param {HTMLElement} turn @param {boolean} folded */
function fold(turn, folded) {
  for (const card of turn.querySelectorAll(".card")) {
    const button = card.querySelector("[data-fold]");
    if (!button) continue;
    card.classList.toggle("folded", folded);
    button.setAttribute("aria-expanded", String(!folded));
    button.textContent = folded ? "Unfold" : "Fold";
    // What stands open because the conversation stands there has nothing to fold for.
    /** @type {HTMLElement} */ (button).hidden = !folded && turn === turnElement(talk.at);
  }
}

/** Shows the whole conversation, its current turn open. */
function showAll() {
  if (talk.turns.length === 0) thread.replaceChildren(...start);
  else thread.replaceChildren(...talk.turns.map(shown));
  dropDeadLeads();
  settle();
}

/** Brings everything around the turns in line with where the conversation stands. */
function settle() {
  const turns = /** @type {NodeListOf<HTMLElement>} */ (thread.querySelectorAll("[data-turn]"));
  for (const each of turns) {
    fold(each, Number(each.dataset.turn) !== talk.at && !talk.turns[Number(each.dataset.turn)]?.failed);
  }
  const last = talk.turns.findLastIndex((turn) => !turn.undone && !turn.failed);
  newQuestion.hidden = talk.turns.length === 0;
  question.placeholder = talk.at < 0 ? question.dataset.example ?? "" : "Change it or ask on";
  goesOn.hidden = talk.at === last;
  goesOn.textContent = talk.at < 0
    ? "A new question; the answers above stay."
    : `Goes on from: ${turnElement(talk.at)?.querySelector(".first")?.textContent ?? ""}`;
  const current = turnElement(talk.at)?.dataset.edition;
  if (current) edition.value = current;
  again.hidden = true;
  document.title = version(talk.turns[talk.at] ?? { from: -1, versions: [] })?.title ?? document.title;
}

/** @param {number} index @returns {HTMLElement | null} */
const turnElement = (index) => thread.querySelector(`[data-turn="${index}"]`);

/** @param {HTMLElement | null} turn */
const textsOf = (turn) => /** @type {string[]} */ (JSON.parse(turn?.dataset.after ?? "[]"));

/** @param {string} url @param {boolean} [push] */
function remember(url, push = true) {
  const state = { talk: talk.id, at: talk.at };
  try {
    if (push) history.pushState(state, "", url);
    else history.replaceState(state, "", url);
  } catch {
    // A frame without an origin keeps its address.
  }
}

/** The link that leads to a turn with everything it goes on from, or else its answer's own. @param {HTMLElement} turn */
function urlOf(turn) {
  const texts = textsOf(turn);
  const query = new URLSearchParams({ q: texts.at(-1) ?? "", edition: turn.dataset.edition ?? "" });
  for (const text of texts.slice(0, -1)) query.append("after", text);
  const chain = `${action}?${query}`;
  const own = turn.querySelector("[data-share]")?.getAttribute("href");
  const short = chain.length <= LONGEST_CHAIN || !own;
  return short ? chain : `${action}?${new URL(own, location.href).searchParams}`;
}

// --- asking -------------------------------------------------------------------------------------------------------------

/**
 * Asks the fields of a form and puts the answer where it belongs: a change of the card that the conversation stands at into
 * that card, anything else beneath.
 * @param {[string, string][]} fields
 * @param {{ how: How, from: number, shown: string, replace?: number }} options `from` is the turn it goes on from
 * @returns {Promise<boolean>} whether it was taken up
 */
async function ask(fields, { how, from, shown: words, replace }) {
  if (busy) {
    say("One answer is under way. Wait for it, or stop it; what you typed is kept.");
    return false;
  }
  const inPlace = (how === "change" || how === "edit") && from === talk.at && from >= 0 ? turnElement(from) : null;
  const afresh = how === "afresh" || from < 0;
  const base = afresh ? null : turnElement(from);
  const index = inPlace ? from : replace ?? talk.turns.length;
  const pending = inPlace ?? pendingTurn(words);
  if (!inPlace) {
    pending.dataset.turn = String(index);
    if (talk.turns.length === 0) thread.replaceChildren(pending);
    else if (replace === undefined) thread.append(pending);
    else turnElement(replace)?.replaceWith(pending);
    for (const each of /** @type {NodeListOf<HTMLElement>} */ (thread.querySelectorAll("[data-turn]"))) {
      if (each !== pending) fold(each, true);
    }
    pending.scrollIntoView({ block: "end" });
  }
  const waiting = element(`<p class="waiting">Working it out…</p>`);
  if (inPlace) inPlace.querySelector(".card")?.prepend(waiting);
  else pending.querySelector(".card")?.replaceChildren(waiting);
  pending.setAttribute("aria-busy", "true");
  say("Working it out…");

  const stop = busy = new AbortController();
  send.textContent = "Stop";
  send.classList.add("stops");
  const began = Date.now();
  const ticking = setInterval(() => {
    const seconds = Math.round((Date.now() - began) / 1000);
    waiting.textContent = `Working it out… ${seconds} s. Nothing you typed is lost.`;
  }, 1000);
  const late = setTimeout(() => stop.abort("late"), LONGEST_WAIT);
  talk.ids++;
  const body = new URLSearchParams(fields);
  for (const name of ["after", "thread", "how", "id", "at"]) body.delete(name);
  body.set("how", how);
  body.set("id", `t${talk.ids}-`);
  body.set("at", action);
  if (!body.get("edition")) body.set("edition", edition.value);
  if (base) {
    body.set("thread", base.dataset.thread ?? "");
    const texts = textsOf(base);
    if (texts.join("").length < LONGEST_CHAIN) { for (const text of texts) body.append("after", text); }
  }
  const result = await fetch("/turn", { method: "POST", body, signal: stop.signal })
    .then(async (reply) => reply.ok ? await reply.json() : await refusal(reply))
    .catch(() => ({ says: trouble(stop), stopped: stop.signal.reason === "stopped" }));
  clearInterval(ticking);
  clearTimeout(late);
  busy = undefined;
  send.textContent = SEND;
  send.classList.remove("stops");
  waiting.remove();
  pending.removeAttribute("aria-busy");

  if (result.html === undefined) {
    fail(fields, { how, from, shown: words, index, inPlace, pending, ...result });
    return true;
  }
  const turn = inPlace ? /** @type {Turn} */ (talk.turns[from]) : { from: afresh ? -1 : from, versions: [] };
  const made = element(result.html);
  if (inPlace) {
    // What was said before stands above, the change beneath it.
    const said = made.querySelector(".asked");
    if (how === "edit" && said) said.textContent = words;
    said?.before(...[...inPlace.querySelectorAll(".asked")].map((each) => each.cloneNode(true)));
  }
  turn.versions = [...turn.versions, { html: made.outerHTML, title: result.title, url: urlOf(made) }].slice(-6);
  talk.turns[index] = turn;
  talk.at = index;
  saveTalk(talk);
  const put = shown(turn, index);
  turnElement(index)?.replaceWith(put);
  remember(version(turn)?.url ?? "");
  dropDeadLeads();
  settle();
  reveal(put, document.activeElement !== question || matchMedia("(pointer: coarse)").matches, inPlace !== null);
  return true;
}

/** @param {HTMLElement} turn @param {boolean} [takeFocus] @param {boolean} [cardOnly] whether the asked words may scroll away */
function reveal(turn, takeFocus = true, cardOnly = false) {
  const line = /** @type {HTMLElement | null} */ (turn.querySelector(".first"));
  say(line?.textContent ?? "");
  if (takeFocus) line?.focus({ preventScroll: true });
  (cardOnly ? turn.querySelector(".card") : turn)?.scrollIntoView({ block: "start" });
}

/** A turn before its answer: the words, and where the answer will be. @param {string} words */
function pendingTurn(words) {
  const made = element(`<section class="turn"><div class="asked"></div><article class="card"></article></section>`);
  /** @type {HTMLElement} */ (made.querySelector(".asked")).textContent = words;
  return made;
}

/** Why no answer came. @param {AbortController} stop */
function trouble(stop) {
  if (stop.signal.reason === "stopped") return "Stopped.";
  if (stop.signal.reason === "late") return `No answer came in ${LONGEST_WAIT / 1000} s.`;
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

/**
 * Nothing is lost when no answer comes: a change leaves its card as it was, a question stays with a way to send it again.
 * @param {[string, string][]} fields
 * @param {{ how: How, from: number, shown: string, index: number, inPlace: HTMLElement | null, pending: HTMLElement, says: string, wait?: number, stopped?: boolean }} options
 */
function fail(fields, { how, from, shown: words, index, inPlace, pending, says, wait = 0, stopped }) {
  say(says);
  if (inPlace) {
    inPlace.querySelector(".trouble")?.remove();
    const told = element(`<div class="trouble"><p></p></div>`);
    /** @type {HTMLElement} */ (told.firstElementChild).textContent = `${says} The answer is as it was.`;
    told.append(retryButton(wait, () => {
      told.remove();
      ask(fields, { how, from, shown: words });
    }));
    inPlace.querySelector(".card")?.prepend(told);
    return;
  }
  if (stopped && question.value.trim() === "" && index === talk.turns.length) {
    pending.remove();
    putInBox(words);
    showAll();
    return;
  }
  talk.turns[index] = {
    from,
    versions: [],
    failed: { fields: [...fields.filter(([name]) => name !== "how"), ["how", how]], shown: words, says },
  };
  saveTalk(talk);
  const made = shown(/** @type {Turn} */ (talk.turns[index]), index);
  pending.replaceWith(made);
  if (wait > 0) countDown(/** @type {HTMLButtonElement} */ (made.querySelector("button")), wait);
  newQuestion.hidden = false;
  made.scrollIntoView({ block: "end" });
}

/** A question that got no answer. @param {Turn} turn */
function failedTurn(turn) {
  const { fields = [], shown: words = "", says = "" } = turn.failed ?? {};
  const made = pendingTurn(words);
  const card = /** @type {HTMLElement} */ (made.querySelector(".card"));
  card.append(element(`<p class="first" tabindex="-1"></p>`), element(`<p class="buttons"></p>`));
  /** @type {HTMLElement} */ (card.firstElementChild).textContent = `${says} What you asked is kept.`;
  const edit = element(`<button type="button" class="handle slip">Put it back in the box</button>`);
  const index = () => Number(made.dataset.turn);
  card.lastElementChild?.append(
    retryButton(0, () => {
      const how = /** @type {How} */ (fields.find(([name]) => name === "how")?.[1] ?? "on");
      ask(fields, { how, from: turn.from, shown: words, replace: index() });
    }),
    edit,
  );
  edit.addEventListener("click", () => {
    putInBox(words);
    talk.turns.splice(index(), 1);
    saveTalk(talk);
    showAll();
  });
  return made;
}

/** @param {number} wait @param {() => void} again */
function retryButton(wait, again) {
  const button = /** @type {HTMLButtonElement} */ (element(`<button type="button" class="handle">Ask again</button>`));
  button.addEventListener("click", again);
  if (wait > 0) countDown(button, wait);
  return button;
}

/** @param {HTMLButtonElement} button @param {number} seconds */
function countDown(button, seconds) {
  const until = Date.now() + seconds * 1000;
  const tick = () => {
    const left = Math.ceil((until - Date.now()) / 1000);
    button.disabled = left > 0;
    button.textContent = left > 0 ? `Ask again in ${left} s` : "Ask again";
    if (left > 0) setTimeout(tick, 500);
  };
  tick();
}

/** @param {string} words */
function putInBox(words) {
  question.value = question.value.trim() === "" ? words : `${question.value.trim()}\n${words}`;
  draft.keep(question.value);
  question.focus();
}

// --- taking back, going back --------------------------------------------------------------------------------------------

/** Takes a change back, or puts it back again. @param {number} index */
function undo(index) {
  const turn = /** @type {Turn} */ (talk.turns[index]);
  if (turn.versions.length > 1) turn.versions = turn.versions.slice(0, -1);
  else {
    turn.undone = !turn.undone;
    talk.at = turn.undone ? turn.from : index;
  }
  saveTalk(talk);
  showAll();
  remember(version(talk.turns[talk.at] ?? turn)?.url ?? home);
  const now = turnElement(talk.at);
  if (now) reveal(now);
}

/** Starts afresh; the conversation so far stays one step back. */
function startAfresh() {
  talk = newTalk();
  remember(home);
  showAll();
  document.title = "Deadfront";
  question.focus();
  say("A new question.");
}

addEventListener("popstate", ({ state }) => {
  if (!state?.talk) return;
  if (state.talk !== talk.id) {
    busy?.abort("stopped");
    const found = loadTalk(state.talk);
    talk = found ?? { ...newTalk(), id: state.talk };
    talk.at = state.at;
    showAll();
  } else {
    talk.at = talk.turns[state.at]?.failed ? -1 : Math.min(state.at, talk.turns.length - 1);
    settle();
  }
  const now = turnElement(talk.at);
  if (now) reveal(now, false);
});

// --- what is tapped and typed -------------------------------------------------------------------------------------------

/** @param {Element} within @returns {number} */
function turnOf(within) {
  const turn = /** @type {HTMLElement | null} */ (within.closest("[data-turn]"));
  return turn ? Number(turn.dataset.turn) : talk.at;
}

document.addEventListener("submit", (event) => {
  const sent = /** @type {HTMLFormElement} */ (event.target);
  if (!sent.matches("[data-ask]")) return;
  event.preventDefault();
  if (sent === form && busy) return void busy.abort("stopped");
  const fields = /** @type {[string, string][]} */ ([...new FormData(sent)]);
  const words = fields.filter(([name]) => name === "q").map(([, text]) => text.trim()).filter((text) => text !== "")
    .join(", ");
  const phrase = fields.find(([name]) => name === "words")?.[1];
  const how = /** @type {How} */ (sent.dataset.ask);
  if (words === "" && how !== "edit") return;
  const said = phrase && how === "change" ? phrase.replace("…", words) : words || "left out";
  if (sent !== form) return void ask(fields, { how, from: turnOf(sent), shown: said });
  ask(fields, { how, from: talk.at, shown: words });
  question.value = "";
  draft.keep("");
});

document.addEventListener("click", (event) => {
  const target = /** @type {Element} */ (event.target);
  const plain = !event.ctrlKey && !event.metaKey && !event.shiftKey && event.button === 0;
  const link = /** @type {HTMLAnchorElement | null} */ (target.closest("a"));
  const button = /** @type {HTMLElement | null} */ (target.closest("button"));
  if (link && plain) follow(link, event);
  else if (button?.dataset.copy) {
    const area = /** @type {HTMLTextAreaElement} */ (byId(button.dataset.copy));
    copyFrom(button, area.value, "Copied", say);
  } else if (button?.matches("[data-fold]")) {
    const card = /** @type {HTMLElement} */ (button.closest("[data-turn]"));
    fold(card, button.getAttribute("aria-expanded") === "true");
  } else if (button === again && again && talk.at >= 0) {
    const texts = turnElement(talk.at)?.querySelector(".restated")?.textContent ?? "";
    ask([["q", texts], ["edition", edition.value]], { how: "edit", from: talk.at, shown: `by ${edition.value}` });
  }
});

/** @param {HTMLAnchorElement} link @param {Event} event */
function follow(link, event) {
  const hash = link.getAttribute("href")?.startsWith("#") && !link.matches("[data-undo]");
  if (!hash && !link.matches("[data-ask], [data-undo], [data-new], [data-share], [data-resume]")) return;
  event.preventDefault();
  if (hash) return openAt(link.hash);
  if (link.matches("[data-undo]")) return undo(turnOf(link));
  if (link.matches("[data-new]")) return startAfresh();
  if (link.matches("[data-share]")) return void share(link, say);
  if (link.matches("[data-resume]")) {
    talk = latestTalk() ?? talk;
    remember(version(talk.turns[talk.at] ?? { from: -1, versions: [] })?.url ?? home);
    return showAll();
  }
  const words = new URL(link.href).searchParams.get("q") ?? "";
  ask([["q", words]], { how: /** @type {How} */ (link.dataset.ask), from: turnOf(link), shown: words });
}

/** Opens what a link within the page leads to, and leaves Back to the conversation. @param {string} hash */
function openAt(hash) {
  const found = hash && document.getElementById(hash.slice(1));
  if (!found) return;
  const details = /** @type {HTMLDetailsElement | null} */ (found.closest("details"));
  if (details) details.open = true;
  for (const lit of document.querySelectorAll(".lit")) lit.classList.remove("lit");
  found.classList.add("lit");
  found.scrollIntoView({ block: "center" });
  found.focus({ preventScroll: true });
}

question.addEventListener("input", () => draft.keep(question.value));
question.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || event.shiftKey || event.isComposing) return;
  event.preventDefault();
  if (busy) say("One answer is under way. What you typed is kept.");
  else form.requestSubmit();
});
// Stop must not ask for words first.
send.addEventListener("click", (event) => {
  if (!busy) return;
  event.preventDefault();
  busy.abort("stopped");
});
edition.addEventListener("change", () => {
  again.hidden = talk.at < 0 || edition.value === turnElement(talk.at)?.dataset.edition;
  again.textContent = `Work it out by ${edition.selectedOptions[0]?.textContent}`;
});

// A printed answer shows its steps, also where the style alone cannot unfold them.
/** @type {HTMLDetailsElement[]} */
let unfolded = [];
addEventListener("beforeprint", () => {
  unfolded = /** @type {HTMLDetailsElement[]} */ ([...document.querySelectorAll(".steps details:not([open])")]);
  for (const each of unfolded) each.open = true;
});
addEventListener("afterprint", () => {
  for (const each of unfolded) each.open = false;
});

// --- beginning ----------------------------------------------------------------------------------------------------------

/** Turns that came with the page become a conversation. */
function adopt() {
  const turns = /** @type {HTMLElement[]} */ ([...thread.querySelectorAll(".turn")]);
  talk.turns = turns.map((turn, i) => ({
    from: i - 1,
    versions: [{ html: turn.outerHTML, title: turn.querySelector(".first")?.textContent ?? "", url: urlOf(turn) }],
  }));
  talk.at = turns.length - 1;
  if (turns.length > 0) saveTalk(talk);
}

/** @param {import("./talk.js").Talk} earlier */
function offer(earlier) {
  const first = earlier.turns.find((turn) => turn.versions.length > 0);
  if (!first) return;
  const asked = element(version(first)?.html ?? "").querySelector(".asked")?.textContent ?? "";
  const slip = element(`<p><a class="handle slip" data-resume href="${home}"></a></p>`);
  /** @type {HTMLElement} */ (slip.firstElementChild).textContent = `Back to: ${asked.slice(0, 80)}`;
  thread.querySelector(".start")?.append(slip);
}

question.dataset.example = question.placeholder;
for (const hidden of form.querySelectorAll("input[name=after]")) hidden.remove();
const known = loadTalk(history.state?.talk);
if (known) {
  talk = known;
  talk.at = Math.min(history.state.at, talk.turns.length - 1);
} else {
  adopt();
  if (talk.turns.length === 0) {
    const earlier = latestTalk();
    if (earlier) offer(earlier);
  }
}
remember(location.href, false);
if (talk.turns.length > 0) showAll();
if (question.value.trim() === "") question.value = draft.kept();
if (location.hash) openAt(location.hash);
frame();
