// @ts-check
/** Parts of a page that are wider than a narrow screen, such as tables: they scroll, so they can be reached and scrolled by key. */

import { all } from "./dom.js";

const WIDE = ".md-typeset__scrollwrap, .words-table, .formula, .md-content pre > code";

/** Watch the parts that can be wider than the page. Only while one is, it is a Tab stop. */
export function reachScrolled() {
  const watch = new ResizeObserver((entries) => {
    for (const { target } of entries) reach(/** @type {HTMLElement} */ (target));
  });
  for (const part of all(document, WIDE)) watch.observe(part);
}

/** @param {HTMLElement} part */
function reach(part) {
  if (part.scrollWidth <= part.clientWidth) {
    part.removeAttribute("tabindex");
    return;
  }
  part.tabIndex = 0;
  if (part instanceof HTMLTableElement) return;
  part.setAttribute("role", "group");
  part.setAttribute("aria-label", "Wider than the screen");
}
