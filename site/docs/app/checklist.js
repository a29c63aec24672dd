// @ts-check
import { all, around, fill, fresh, list, one, say, show } from "./dom.js";
import { ticksOnDevice } from "./keepers.js";

/** @import {Check} from "./answer-types.js" */
/** @import {TickKeeper} from "./keepers.js" */

/** The rows that the build drew, in their order. */
const TONES = ["stop", "care", "go", "plain"];

/**
 * What a person ticks before the start. A tick holds for the words it was given to: it falls when these change, and
 * does not come back with them.
 */
export class Checklist {
  /**
   * @param {HTMLElement} whole
   * @param {string} job
   * @param {TickKeeper} [keeper]
   */
  constructor(whole, job, keeper = ticksOnDevice(job)) {
    this.root = one(whole, "[data-checklist]");
    this.keeper = keeper;
    this.left = one(this.root, "[data-checks-left]");
    this.root.addEventListener("change", () => this.#keep());
    // a screen reader says what is left from the first tick on, and not when the page or an answer is new
    this.root.addEventListener("focusin", () => (this.left.role = "status"), { once: true });
    one(this.root, "[data-clear-ticks]").addEventListener("click", () => this.#clear());
    document.addEventListener("visibilitychange", () => this.#tick());
    this.#tick();
  }

  /**
   * Keep the ticks elsewhere from now on, such as in a casting.
   * @param {TickKeeper} keeper
   */
  keepIn(keeper) {
    this.keeper = keeper;
    this.#tick();
  }

  /** @param {Check[]} items */
  show(items) {
    show(this.root, items.length > 0);
    list(this.root, "checklist", items.map(row));
    this.#drop(items);
    this.#tick();
  }

  get #boxes() {
    return all(this.root, "[data-check]", HTMLInputElement);
  }

  /** @param {Check[]} items those of the figures in the form now */
  #drop(items) {
    const ticked = this.keeper.read();
    const still = stillTicked(ticked, items);
    if (still.length < ticked.length) this.keeper.write(still, this.#boxes.length);
  }

  #tick() {
    const ticked = this.keeper.read();
    for (const box of this.#boxes) box.checked = ticked.includes(wordsOf(box));
    this.#count();
  }

  #keep() {
    const shown = new Set(this.#boxes.map(wordsOf));
    const others = this.keeper.read().filter((words) => !shown.has(words));
    const mine = this.#boxes.filter((box) => box.checked).map(wordsOf);
    this.keeper.write([...others, ...mine], this.#boxes.length);
    this.#count();
  }

  #clear() {
    this.keeper.write([]);
    this.#tick();
    this.#boxes[0]?.focus();
  }

  #count() {
    const open = this.#boxes.filter((box) => !box.checked);
    const stops = open.some((box) => around(box, "[data-tone]")?.dataset.tone === "stop");
    say(this.left, leftText(open.length, this.#boxes.length, stops));
    this.left.dataset.tone = stops ? "stop" : "plain";
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

/**
 * The ticks that hold for these points. A point's text has its figures in it.
 * @param {string[]} ticked
 * @param {Check[]} items
 */
export function stillTicked(ticked, items) {
  const shown = new Set(items.map(({ text }) => text));
  return ticked.filter((text) => shown.has(text));
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
