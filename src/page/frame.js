// @ts-check
/**
 * The page in someone's frame. It tells its height to the frame's owner, `{ deadfront: { height: 812 } }`, and takes colours:
 * from its address (`/embed?--paper=white`) or by message (`{ deadfront: { colours: { "--paper": "white" } } }`).
 */

/** Custom properties of the style that a frame's owner may set. */
const COLOURS = ["--steel", "--steel-light", "--stamp", "--paper", "--paper-odd", "--ink", "--ink-soft", "--rule"]
  .concat("--handle", "--handle-ink", "--go", "--go-ink", "--focus");

/** @param {Iterable<[string, unknown]>} colours */
function paint(colours) {
  for (const [name, colour] of colours) {
    if (!COLOURS.includes(name) || typeof colour !== "string" || !CSS.supports("color", colour)) continue;
    document.documentElement.style.setProperty(name, colour);
  }
}

export function frame() {
  if (!document.body.classList.contains("embedded")) return;
  paint(new URLSearchParams(location.search));
  if (parent === window) return;
  const tell = () => {
    const height = Math.ceil(document.body.getBoundingClientRect().height);
    parent.postMessage({ deadfront: { height } }, "*");
  };
  new ResizeObserver(tell).observe(document.body);
  tell();
  addEventListener("message", ({ source, data }) => {
    if (source === parent && data?.deadfront?.colours) paint(Object.entries(data.deadfront.colours));
  });
}
