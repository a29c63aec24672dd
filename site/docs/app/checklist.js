// @ts-check
import { all, around, fill, fresh, list, one, say, show } from "./dom.js";
import { forget, keep, recall } from "./local-storage.js";

/** @import {Check} from "./answer-types.js" */

/** The rows that the build drew, in their order. */
const TONES = ["stop", "care", "go", "plain"];

/** What a person ticks before the start. A tick holds for the words it was given to, and for no others. */
export class Checklist {
  /**
   * @param {HTMLElement} whole
   * @param {string} job
   */
  constructor(whole, job) {
    this.root = one(whole, "[data-checklist]");
    this.name = `ticks.${job}`;
    this.root.addEventListener("change", () => this.#keep());
    one(this.root, "[data-clear-ticks]").addEventListener("click", () => this.#clear());
    this.#tick();
  }

  /** @param {Check[]} items */
  show(items) {
    show(this.root, items.length > 0);
    list(this.root, "checklist", items.map(row));
    this.#tick();
  }

  get #boxes() {
    return all(this.root, "[data-check]", HTMLInputElement);
  }

  #tick() {
    const ticked = recall(this.name) ?? [];
    for (const box of this.#boxes) box.checked = ticked.includes(wordsOf(box));
    this.#count();
  }

  #keep() {
    const shown = new Set(this.#boxes.map(wordsOf));
    const others = (recall(this.name) ?? []).filter((/** @type {string} */ words) => !shown.has(words));
    keep(this.name, [...others, ...this.#boxes.filter((box) => box.checked).map(wordsOf)]);
    this.#count();
  }

  #clear() {
    forget(this.name);
    this.#tick();
  }

  #count() {
    const open = this.#boxes.filter((box) => !box.checked);
    const stops = open.some((box) => around(box, "[data-tone]")?.dataset.tone === "stop");
    const place = one(this.root, "[data-checks-left]");
    say(place, leftText(open.length, this.#boxes.length, stops));
    place.dataset.tone = stops ? "stop" : "plain";
    show(one(this.root, "[data-clear-ticks]"), open.length < this.#boxes.length);
  }
}

/**
 * @param {number} open how many are not ticked
 * @param {number} total
 * @param {boolean} stops whether one of these forbids pouring
 */
export function leftText(open, total, stops) {
  const left = open ? `${open} of ${total} still to tick` : "All ticked";
  return stops ? `${left}: do not pour yet.` : `${left}.`;
}

/** @param {Check} item */
function row({ tone, text }) {
  const item = fresh("check", Math.max(0, TONES.indexOf(tone)));
  fill(item, { words: text });
  return item;
}

/** @param {HTMLElement} box */
function wordsOf(box) {
  return box.parentElement?.querySelector("[data-slot=words]")?.textContent ?? "";
}
