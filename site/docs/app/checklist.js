// @ts-check
import { all, fill, fresh, list, one, say, show } from "./dom.js";
import { forget, keep, recall } from "./local-storage.js";

/** The rows that the build has drawn, in their order. */
const TONES = ["stop", "care", "go", "plain"];

/** @typedef {{tone: string, text: string}} Item */

/** What is to be ticked by hand before the start. A tick holds for the words it was given to, and for no others. */
export class Checklist {
  /** @param {HTMLElement} whole @param {string} job */
  constructor(whole, job) {
    this.root = one(whole, "[data-checklist]");
    this.name = `ticks.${job}`;
    this.root.addEventListener("change", () => this.#keep());
    one(this.root, "[data-clear-ticks]").addEventListener("click", () => this.#clear());
    this.#tick();
  }

  /** @param {Item[]} items */
  show(items) {
    show(this.root, items.length > 0);
    list(this.root, "checklist", items.map(row));
    this.#tick();
  }

  #boxes() {
    return /** @type {HTMLInputElement[]} */ (all(this.root, "[data-check]"));
  }

  #tick() {
    const ticked = recall(this.name) || [];
    for (const box of this.#boxes()) box.checked = ticked.includes(wordsBeside(box));
    this.#count();
  }

  #keep() {
    const others = (recall(this.name) || []).filter(
      (/** @type {string} */ words) => !this.#boxes().some((box) => wordsBeside(box) === words),
    );
    keep(this.name, [
      ...others,
      ...this.#boxes()
        .filter((box) => box.checked)
        .map(wordsBeside),
    ]);
    this.#count();
  }

  #clear() {
    forget(this.name);
    this.#tick();
  }

  #count() {
    const open = this.#boxes().filter((box) => !box.checked);
    const stops = open.filter((box) => toneOf(box) === "stop").length;
    const left = open.length ? `${open.length} of ${this.#boxes().length} still to tick` : "All ticked";
    const place = one(this.root, "[data-checks-left]");
    say(place, stops ? `${left}: do not pour yet.` : `${left}.`);
    place.dataset.tone = stops ? "stop" : "plain";
    show(one(this.root, "[data-clear-ticks]"), open.length < this.#boxes().length);
  }
}

/** @param {Item} item */
function row({ tone, text }) {
  const item = fresh("check", Math.max(0, TONES.indexOf(tone)));
  fill(item, { words: text });
  return item;
}

/** @param {HTMLElement} box */
function wordsBeside(box) {
  return box.parentElement?.querySelector("[data-slot=words]")?.textContent || "";
}

/** @param {HTMLElement} box */
function toneOf(box) {
  const item = box.closest("[data-tone]");
  return item instanceof HTMLElement ? item.dataset.tone : "";
}
