// @ts-check
/** What stands on every page. */

/** @template {HTMLElement} E @param {string} id @returns {E} */
export const byId = (id) => /** @type {E} */ (document.getElementById(id));

/** Makes one element. @param {string} html @returns {HTMLElement} */
export function element(html) {
  const template = document.createElement("template");
  template.innerHTML = html;
  return /** @type {HTMLElement} */ (template.content.firstElementChild);
}

export const question = /** @type {HTMLTextAreaElement} */ (byId("question"));
export const edition = /** @type {HTMLSelectElement} */ (byId("edition"));
export const form = /** @type {HTMLFormElement} */ (question.form);
export const send = /** @type {HTMLButtonElement} */ (form.querySelector(".send"));
/** Works the answer that stands out by the edition that was chosen. */
export const again = /** @type {HTMLButtonElement} */ (form.querySelector("[data-again]"));

/** Where forms lead to, and where an empty page is. */
export const action = form.getAttribute("action") ?? "/answer";
export const home = action === "/embed" ? "/embed" : "/";

const announce = byId("announce");
/** Tells those who hear the page. @param {string} text */
export const say = (text) => void (announce.textContent = text);
