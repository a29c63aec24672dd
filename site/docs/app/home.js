// @ts-check
import { all, fill, one, show } from "./dom.js";
import { age, heap, nameHeap, oneWord } from "./heap.js";
import { bookOnTop } from "./home-book.js";
import { recall } from "./local-storage.js";
import { nextOf } from "./timers.js";

/**
 * The home page: the heap in use on top, and each door with what was last answered behind it.
 * @param {HTMLElement} root
 */
export function today(root) {
  const known = heap();
  const some = Object.keys(known.figures).length > 0;
  show(one(root, "[data-first-timer]"), !some);
  show(one(root, "[data-heap]"), some);
  if (some) showHeap(one(root, "[data-heap]"), known);
  for (const place of all(root, "[data-door-state]")) showDoor(place);
  bookOnTop(root, one(root, "[data-heap]"));
}

/** @param {HTMLElement} card @param {import("./heap.js").Heap} known */
function showHeap(card, known) {
  const now = Date.now();
  const state = oneWord(known, now);
  card.dataset.tone = state.tone;
  fill(card, { state: state.word, age: age(known.tested, now) });
  for (const sign of all(card, "[data-sign]")) show(sign, sign.dataset.sign === state.tone);
  for (const place of all(card, "[data-figure]")) {
    const figure = known.figures[place.dataset.figure || ""];
    fill(place, {
      text: figure ? figure.text : "not known",
      range: figure ? figure.range || place.dataset.error || "" : "",
    });
  }
  const name = /** @type {HTMLInputElement} */ (one(card, "[data-heap-name]"));
  name.value = known.name || "The heap";
  name.addEventListener("input", () => nameHeap(name.value));
}

/** @param {HTMLElement} place */
function showDoor(place) {
  const last = recall(`answer.${place.dataset.doorState}`);
  const next = nextOf(place.dataset.doorState || "");
  show(place, Boolean(last || next));
  if (!last && !next) return;
  place.toggleAttribute("data-clock", Boolean(next));
  place.textContent = next || last.state.word;
  place.dataset.tone = next ? "plain" : last.state.tone;
}
