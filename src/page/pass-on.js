// @ts-check
/** Passing an answer on: copying and sharing, also over plain HTTP, as phones on a local network have it. */

/** Copies, also where a page over plain HTTP has no clipboard of its own. @param {string} text @returns {Promise<boolean>} */
async function copied(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    const area = document.createElement("textarea");
    area.value = text;
    area.className = "unseen";
    // As it stands: what is set in stays set in.
    area.style.whiteSpace = "pre";
    area.setAttribute("readonly", "");
    document.body.append(area);
    const focused = /** @type {HTMLElement | null} */ (document.activeElement);
    area.select();
    // The old way is the only one without HTTPS.
    const done = document.execCommand("copy");
    area.remove();
    focused?.focus({ preventScroll: true });
    return done;
  }
}

/**
 * Copies a text and says so on the control itself; where no page may copy, the text stands selected.
 * @param {HTMLElement} control @param {string} text @param {string} done
 * @param {(text: string) => void} say for those who hear the page
 */
export async function copyFrom(control, text, done, say) {
  if (await copied(text)) {
    const label = control.dataset.label ??= control.textContent ?? "";
    control.textContent = done;
    say(done);
    setTimeout(() => void (control.textContent = label), 2500);
    return;
  }
  const forms = /** @type {HTMLDetailsElement | null} */ (control.closest(".pass-on")?.querySelector("details"));
  const area = /** @type {HTMLTextAreaElement | null | undefined} */ (forms?.querySelector("textarea"));
  if (forms && area) {
    forms.open = true;
    area.focus();
    area.select();
  }
  say("This browser does not let a page copy. The text is selected: copy it from there.");
}

/** Shares a link, or copies it where sharing is missing. @param {HTMLAnchorElement} link @param {(text: string) => void} say */
export async function share(link, say) {
  if ("share" in navigator) {
    try {
      await navigator.share({ title: document.title, url: link.href });
      return;
    } catch (error) {
      if (/** @type {Error} */ (error).name === "AbortError") return;
    }
  }
  await copyFrom(link, link.href, "Link copied", say);
}
