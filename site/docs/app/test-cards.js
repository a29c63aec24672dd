// @ts-check
/**
 * The cards of the bench: the steps of each way to make a test keep their ticks, and the clock of a wait survives a
 * reload.
 */

import { all, dataOf, one } from "./dom.js";
import { Checklist } from "./checklist.js";
import { Clocks } from "./timers.js";

/**
 * @param {HTMLElement} root
 * @param {string} job
 */
export function startTestCards(root, job) {
  for (const way of all(root, "[data-manner]")) new Checklist(way, `${job}.${way.dataset.manner}`);
  for (const wait of all(root, "[data-wait]")) {
    const timer = dataOf(wait, "wait", {});
    new Clocks(wait, `${job}.${timer.name}`).show([timer]);
  }
  const [cards] = all(root, "[data-tests]");
  if (!cards?.children.length) return;
  one(root, '[data-field="test"]').addEventListener("click", (event) => scrollAfterTap(event, cards));
}

/**
 * A tap on a tile brings its card into view. A choice by key leaves the page where it is.
 * @param {MouseEvent} event
 * @param {HTMLElement} cards
 */
function scrollAfterTap(event, cards) {
  if (!event.detail || !(event.target instanceof HTMLInputElement)) return;
  const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
  requestAnimationFrame(() => cards.scrollIntoView({ block: "start", behavior: still ? "auto" : "smooth" }));
}
