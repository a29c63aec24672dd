// @ts-check
/** The cards of the bench: the steps of each way to make a test keep their ticks, and the clock of a wait goes on over a reload. */

import { all, one } from "./dom.js";
import { Checklist } from "./checklist.js";
import { Clocks } from "./timers.js";

/** @param {HTMLElement} root @param {string} job */
export function openTests(root, job) {
  for (const way of all(root, "[data-manner]")) new Checklist(way, `${job}.${way.dataset.manner}`);
  for (const wait of all(root, "[data-wait]")) {
    const timer = JSON.parse(wait.dataset.wait || "{}");
    new Clocks(wait, `${job}.${timer.name}`).show([timer]);
  }
  const cards = root.querySelector("[data-tests]");
  if (cards instanceof HTMLElement && cards.children.length)
    one(root, '[data-field="test"]').addEventListener("click", (event) => afterTap(event, cards));
}

/**
 * A tile that was tapped brings its card into view; one that was reached by key leaves the page where it is.
 * @param {MouseEvent} event
 * @param {HTMLElement} cards
 */
function afterTap(event, cards) {
  if (!event.detail || !(event.target instanceof HTMLInputElement)) return;
  const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
  requestAnimationFrame(() => cards.scrollIntoView({ block: "start", behavior: still ? "auto" : "smooth" }));
}
