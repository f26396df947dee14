// @ts-check
/**
 * What the page gains with a script: a conversation in place that outlives a reload, answers that can be stopped and taken
 * back, copying, sharing. Without it every form and link still works. Here is what taps and keys do.
 */
import { ask, isBusy, stop } from "./asking.js";
import { again, byId, edition, element, form, home, question, say, send } from "./elements.js";
import { frame } from "./frame.js";
import { copyFrom, share } from "./pass-on.js";
import { draft, latestTalk, loadTalk, newTalk, saveTalk } from "./talk.js";
import {
  fold,
  given,
  page,
  rebox,
  remember,
  reveal,
  settle,
  showAll,
  turnElement,
  urlHere,
  urlOf,
  version,
} from "./thread.js";

/** @typedef {import("./asking.js").How} How */
/** @typedef {import("./asking.js").Fields} Fields */

// --- taking back, going back --------------------------------------------------------------------------------------------

/** Takes a change back, or puts it back again. @param {number} index */
function undo(index) {
  const { talk } = page;
  const turn = talk.turns[index];
  if (!turn) return;
  if (turn.versions.length > 1) turn.versions = turn.versions.slice(0, -1);
  else {
    turn.undone = !turn.undone;
    talk.at = turn.undone ? turn.from : index;
  }
  saveTalk(talk);
  showAll();
  remember(urlHere());
  const now = turnElement(talk.at);
  if (now) reveal(now);
}

/** Starts afresh; the conversation so far stays one step back. */
function startAfresh() {
  stop("left");
  page.talk = newTalk();
  remember(home);
  showAll();
  document.title = "Deadfront";
  question.focus();
  say("A new question.");
}

addEventListener("popstate", ({ state }) => {
  if (!state?.talk) return;
  if (state.talk !== page.talk.id) {
    stop("left");
    page.talk = { ...(loadTalk(state.talk) ?? { ...newTalk(), id: state.talk }), at: state.at };
    showAll();
  } else {
    const { talk } = page;
    talk.at = talk.turns[state.at]?.failed ? -1 : Math.min(state.at, talk.turns.length - 1);
    settle();
  }
  const now = turnElement(page.talk.at);
  if (now) reveal(now, false);
});

// --- what is tapped and typed -------------------------------------------------------------------------------------------

/** @param {Element} within @returns {number} */
function turnOf(within) {
  const turn = /** @type {HTMLElement | null} */ (within.closest("[data-turn]"));
  return turn ? Number(turn.dataset.turn) : page.talk.at;
}

document.addEventListener("submit", (event) => {
  const sent = /** @type {HTMLFormElement} */ (event.target);
  if (!sent.matches("[data-ask]")) return;
  event.preventDefault();
  if (sent === form && isBusy()) return stop("stopped");
  const fields = /** @type {Fields} */ ([...new FormData(sent)]);
  const words = fields.filter(([name]) => name === "q").map(([, text]) => text.trim()).filter((text) => text !== "")
    .join(", ");
  const phrase = fields.find(([name]) => name === "words")?.[1];
  const how = /** @type {How} */ (sent.dataset.ask);
  if (words === "" && how !== "edit") return;
  if (sent === form) {
    ask(fields, { how, from: page.talk.at, words });
    question.value = "";
    draft.keep("");
  } else {
    const said = phrase && how === "change" ? phrase.replace("…", words) : words || "left out";
    ask(fields, { how, from: turnOf(sent), words: said });
  }
});

document.addEventListener("click", (event) => {
  const target = /** @type {Element} */ (event.target);
  const plain = !event.ctrlKey && !event.metaKey && !event.shiftKey && event.button === 0;
  const link = /** @type {HTMLAnchorElement | null} */ (target.closest("a"));
  const button = /** @type {HTMLElement | null} */ (target.closest("button"));
  const turn = /** @type {HTMLElement | null} */ (target.closest("[data-turn]"));
  if (link) plain && follow(link, event);
  else if (button) press(button, turn);
  else if (turn && target.closest(".card.folded")) fold(turn, false);
});

/** @param {HTMLElement} button @param {HTMLElement | null} turn the one it stands in */
function press(button, turn) {
  if (button.dataset.copy) {
    const area = /** @type {HTMLTextAreaElement} */ (byId(button.dataset.copy));
    copyFrom(button, area.value, "Copied", say);
  } else if (turn && button.matches("[data-fold]")) fold(turn, button.getAttribute("aria-expanded") === "true");
  else if (turn && button.matches("[data-rebox]")) rebox(Number(turn.dataset.turn));
  else if (turn && button.matches("[data-retry]")) {
    const replace = Number(turn.dataset.turn);
    const { from, failed } = page.talk.turns[replace] ?? {};
    if (from === undefined || !failed) return;
    const how = /** @type {How} */ (failed.fields.find(([name]) => name === "how")?.[1] ?? "on");
    ask(failed.fields, { how, from, words: failed.shown, replace });
  } else if (button === again && page.talk.at >= 0) {
    const request = turnElement(page.talk.at)?.querySelector(".restated")?.textContent ?? "";
    ask([["q", request], ["edition", edition.value]], {
      how: "edit",
      from: page.talk.at,
      words: `by ${edition.value}`,
    });
  }
}

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
    page.talk = latestTalk() ?? page.talk;
    remember(urlHere());
    return showAll();
  }
  const words = new URL(link.href).searchParams.get("q") ?? "";
  ask([["q", words]], { how: /** @type {How} */ (link.dataset.ask), from: turnOf(link), words });
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
  if (isBusy()) say("One answer is under way. What you typed is kept.");
  else form.requestSubmit();
});
// Stop must not ask for words first.
send.addEventListener("click", (event) => {
  if (!isBusy()) return;
  event.preventDefault();
  stop("stopped");
});
edition.addEventListener("change", () => {
  again.hidden = page.talk.at < 0 || edition.value === turnElement(page.talk.at)?.dataset.edition;
  again.textContent = `Work it out by ${edition.selectedOptions[0]?.textContent}`;
});

// A printed answer shows the sums of folded parts, also where the style alone cannot unfold them.
/** @type {HTMLDetailsElement[]} */
let unfolded = [];
addEventListener("beforeprint", () => {
  unfolded = /** @type {HTMLDetailsElement[]} */ ([...document.querySelectorAll(".steps details:not([open])")]);
  for (const each of unfolded) {
    each.classList.add("folded");
    each.open = true;
  }
});
addEventListener("afterprint", () => {
  for (const each of unfolded) {
    each.classList.remove("folded");
    each.open = false;
  }
});

// --- beginning ----------------------------------------------------------------------------------------------------------

/** Turns that came with the page become a conversation. */
function adopt() {
  const { talk } = page;
  talk.turns = given().map((turn, i) => ({
    from: i - 1,
    versions: [{ html: turn.outerHTML, title: turn.querySelector(".first")?.textContent ?? "", url: urlOf(turn) }],
  }));
  talk.at = talk.turns.length - 1;
  if (talk.turns.length > 0) saveTalk(talk);
}

/** Offers the way back to what was asked before. @param {import("./talk.js").Talk | undefined} earlier */
function offer(earlier) {
  const [first] = earlier?.turns ?? [];
  if (!first) return;
  const asked = first.failed?.shown ?? element(version(first)?.html ?? "").querySelector(".asked")?.textContent ?? "";
  const slip = element(`<p><a class="handle slip" data-resume href="${home}"></a></p>`);
  /** @type {HTMLElement} */ (slip.firstElementChild).textContent = `Back to: ${asked.slice(0, 80)}`;
  document.querySelector(".start")?.append(slip);
}

const before = form.querySelectorAll("input[name=after]");
// Without its turns a conversation goes on by its link alone, as it does without a script.
if (before.length > 0 && given().length === 0) form.removeAttribute("data-ask");
else for (const hidden of before) hidden.remove();
const known = loadTalk(history.state?.talk);
if (known) page.talk = { ...known, at: Math.min(history.state.at, known.turns.length - 1) };
else {
  adopt();
  if (page.talk.turns.length === 0) offer(latestTalk());
}
remember(location.href, false);
if (page.talk.turns.length > 0) showAll();
if (question.value.trim() === "") question.value = draft.kept();
if (location.hash) openAt(location.hash);
frame();
