// @ts-check
/** The bar at the top of a page that says what is wrong with the storage of this browser: one line for each thing. */

import { all, button, one, say, show } from "./dom.js";

/**
 * @param {"typed" | "books" | "healed"} about what the line is about; it takes the place of an older one
 * @param {string} words empty for none
 * @param {boolean} [again] whether to offer to load the page again
 */
export function noticeStorage(about, words, again = false) {
  const bar = one(document, "[data-storage-notice]");
  const lines = all(bar, "[data-about]");
  const line = lines.find((each) => each.dataset.about === about) ?? document.createElement("p");
  line.dataset.about = about;
  say(line, words);
  if (again) {
    line.append(
      " ",
      button("Load this page again", () => location.reload()),
    );
  }
  if (words) bar.append(line);
  else line.remove();
  show(bar, bar.childElementCount > 0);
}
