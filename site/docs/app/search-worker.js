// @ts-check
/**
 * The search, which starts at the first question: the theme's own worker makes an index of all pages at once, which takes as long as an
 * answer of the calculator takes to come, and most visits never search. The theme's worker is named after the # of this one's address.
 *
 * In: `{type: 0, data}`, the pages, and `{type: 2, data}`, a question. Out: `{type: 1}` when questions may come, and `{type: 3, data}`,
 * what was found. The theme asks an empty question first, to which nothing is found.
 */
const PAGES = 0;
const MAY_ASK = 1;
const FOUND = 3;
/** @type {MessageEvent | undefined} */
let pages;

addEventListener("message", wait);

/** @param {MessageEvent} said */
function wait(said) {
  const { type, data } = said.data;
  if (type === PAGES) {
    pages = said;
    return postMessage({ type: MAY_ASK });
  }
  if (!data.trim()) return postMessage({ type: FOUND, data: { items: [] } });
  removeEventListener("message", wait);
  importScripts(new URL(location.hash.slice(1), location.href));
  if (pages) pass(pages);
  setTimeout(() => pass(said));
}

/** @param {MessageEvent} said */
function pass({ data }) {
  dispatchEvent(new MessageEvent("message", { data }));
}
