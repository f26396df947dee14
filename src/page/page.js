// @ts-check
/** What the page gains with a script: answers in place, copying, sharing. Without it every form and link still works. */

const outcome = /** @type {HTMLElement} */ (document.getElementById("outcome"));
const announce = /** @type {HTMLElement} */ (document.getElementById("announce"));
const question = /** @type {HTMLTextAreaElement} */ (document.getElementById("question"));

/** @param {string} text */
const say = (text) => void (announce.textContent = text);

/**
 * Puts the answer of a link on this page; any trouble becomes an ordinary visit, which tells what it is.
 * @param {string | URL} url
 * @param {boolean} [remember]
 */
async function show(url, remember = true) {
  say("Working it out…");
  try {
    const reply = await fetch(url, { headers: { Accept: "text/html" } });
    const page = new DOMParser().parseFromString(await reply.text(), "text/html");
    const found = page.getElementById("outcome");
    if (!reply.ok || !found) throw new Error(`${reply.status}`);
    outcome.replaceChildren(...found.childNodes);
    const asked = /** @type {HTMLTextAreaElement} */ (page.getElementById("question"));
    question.value = asked.value;
    const edition = /** @type {HTMLSelectElement} */ (page.getElementById("edition"));
    /** @type {HTMLSelectElement} */ (document.getElementById("edition")).value = edition.value;
    document.title = page.title;
    if (remember) history.pushState(null, "", url);
    equip();
    say("");
    const headline = document.getElementById("headline");
    headline?.focus({ preventScroll: true });
    headline?.closest(".card")?.scrollIntoView({ block: "start" });
  } catch {
    location.assign(url);
  }
}

/** Shows what only a script can do. */
function equip() {
  for (const button of outcome.querySelectorAll("[data-copy]")) button.removeAttribute("hidden");
}

/** @param {string} text @param {string} done */
async function copy(text, done) {
  try {
    await navigator.clipboard.writeText(text);
    say(done);
  } catch {
    say("Copying is not allowed here: open “Text for a chat” and copy it by hand.");
  }
}

document.addEventListener("submit", (event) => {
  const form = /** @type {HTMLFormElement} */ (event.target);
  if (!form.matches("[data-ask]")) return;
  event.preventDefault();
  const fields = /** @type {[string, string][]} */ ([...new FormData(form)]);
  show(`${form.getAttribute("action")}?${new URLSearchParams(fields)}`);
});

document.addEventListener("click", (event) => {
  const target = /** @type {Element} */ (event.target);
  const plain = !event.ctrlKey && !event.metaKey && !event.shiftKey && event.button === 0;
  const link = /** @type {HTMLAnchorElement | null} */ (target.closest("a"));
  if (link?.matches("[data-ask]") && plain) {
    event.preventDefault();
    show(link.href);
  } else if (link?.matches("[data-share]") && plain && "share" in navigator) {
    event.preventDefault();
    navigator.share({ title: document.title, url: link.href }).catch(() => {});
  } else if (link?.getAttribute("href")?.startsWith("#")) {
    openStep(link.hash);
  }
  const button = target.closest("[data-copy]");
  const text = button && document.getElementById(button.getAttribute("data-copy") ?? "")?.textContent;
  if (text) copy(text, "Copied.");
});

/** @param {string} hash */
function openStep(hash) {
  const details = /** @type {HTMLDetailsElement | null | undefined} */ (
    hash && document.getElementById(hash.slice(1))?.closest("details")
  );
  if (details) details.open = true;
}

question.addEventListener("keydown", (event) => {
  if (event.key !== "Enter" || event.shiftKey || event.isComposing) return;
  event.preventDefault();
  question.form?.requestSubmit();
});
document.getElementById("edition")?.addEventListener("change", () => {
  if (question.value.trim() !== "") question.form?.requestSubmit();
});
addEventListener("popstate", () => {
  if (!location.hash) show(location.href, false);
});

equip();
openStep(location.hash);
