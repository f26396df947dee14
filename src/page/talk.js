// @ts-check
/**
 * The conversation as this tab keeps it: the service keeps none. Where a browser gives no storage (a sandboxed frame), it
 * lasts as long as the page.
 *
 * @typedef {{ html: string, title: string, url: string }} Version an answer as it was shown, and its link
 * @typedef {object} Turn
 * @property {number} from the turn it goes on from; -1 for none
 * @property {Version[]} versions the answer and what it was before it was changed in place, the one that holds last
 * @property {boolean} [undone] taken back
 * @property {{ fields: [string, string][], shown: string, says: string, until?: number }} [failed] no answer came: what to send
 *   again, and how long to wait with it
 * @typedef {{ id: string, turns: Turn[], at: number, ids: number }} Talk `at` is the turn that the next text goes on from
 */

const PREFIX = "deadfront/";
const MOST_TALKS = 8;
/** @type {Map<string, string>} */
const inMemory = new Map();
const storage = (() => {
  try {
    return globalThis.sessionStorage;
  } catch {
    return undefined;
  }
})();

/** @param {string} key */
function read(key) {
  return (storage ? storage.getItem(PREFIX + key) : inMemory.get(key)) ?? undefined;
}
/** @param {string} key @param {string} value */
function write(key, value) {
  if (storage) storage.setItem(PREFIX + key, value);
  else inMemory.set(key, value);
}
/** @param {string} key */
function drop(key) {
  storage?.removeItem(PREFIX + key);
  inMemory.delete(key);
}

/** Ids of the kept conversations, the latest last. @returns {string[]} */
const kept = () => JSON.parse(read("talks") ?? "[]");

/** @returns {Talk} */
export const newTalk = () => ({ id: `${Date.now().toString(36)}${kept().length}`, turns: [], at: -1, ids: 0 });

/** @param {string | undefined} id @returns {Talk | undefined} */
export function loadTalk(id) {
  const found = id === undefined ? undefined : read(`talk/${id}`);
  return found === undefined ? undefined : JSON.parse(found);
}

/** The latest conversation of this tab in which something was asked. @returns {Talk | undefined} */
export const latestTalk = () => kept().reverse().map(loadTalk).find((talk) => talk && talk.turns.length > 0);

/** Keeps a conversation; the oldest ones make room for it. @param {Talk} talk */
export function saveTalk(talk) {
  const ids = [...kept().filter((id) => id !== talk.id), talk.id];
  while (ids.length > MOST_TALKS) drop(`talk/${ids.shift()}`);
  for (;;) {
    try {
      write("talks", JSON.stringify(ids));
      return write(`talk/${talk.id}`, JSON.stringify(talk));
    } catch {
      // The storage is full.
      if (ids.length === 1) return;
      drop(`talk/${ids.shift()}`);
    }
  }
}

/** What is being typed, so that not even a reload loses it. */
export const draft = {
  /** @param {string} text */
  keep(text) {
    try {
      write("draft", text);
    } catch {
      // Without room it lives in its box.
    }
  },
  kept: () => read("draft") ?? "",
};
