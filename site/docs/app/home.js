// @ts-check
import { CastingSheet } from "./casting-sheet.js";
import { all, fill, one, show, showFigures, showState } from "./dom.js";
import { heap, heapState, nameHeap } from "./heap.js";
import { showBookOnHome } from "./home-book.js";
import { recall } from "./local-storage.js";
import { testedText } from "./time-text.js";
import { nextText, runningFor } from "./timers.js";

/**
 * The home page: the heap in use on top, and each door with the last answer behind it.
 * @param {HTMLElement} root
 */
export function showHome(root) {
  const known = heap();
  const card = one(root, "[data-heap]");
  const some = Object.keys(known.figures).length > 0;
  show(one(root, "[data-first-timer]"), !some);
  show(card, some);
  if (some) showHeap(card, known);
  for (const place of all(root, "[data-door-state]")) showDoor(place);
  showBookOnHome(root, card).finally(() => root.toggleAttribute("data-known", true));
  new CastingSheet(root);
}

/**
 * @param {HTMLElement} card
 * @param {import("./heap.js").Heap} known
 */
function showHeap(card, known) {
  const now = Date.now();
  showState(card, heapState(known, now));
  fill(card, { age: testedText(known.tested, now) });
  showFigures(card, (word, place) => {
    const figure = known.figures[word];
    return figure && { text: figure.text, range: figure.range || place.dataset.error };
  });
  const name = one(card, "[data-heap-name]", HTMLInputElement);
  name.value = known.name || "The heap";
  name.addEventListener("input", () => nameHeap(name.value));
}

/** @param {HTMLElement} place */
function showDoor(place) {
  const job = place.dataset.doorState ?? "";
  const last = recall(`answer.${job}`);
  const running = runningFor(job);
  const next = running ? nextText(running, Date.now()) : "";
  show(place, Boolean(last || next));
  if (!last && !next) return;
  place.toggleAttribute("data-clock", Boolean(next));
  place.textContent = next || last.state.word;
  place.dataset.tone = next ? "plain" : last.state.tone;
}
