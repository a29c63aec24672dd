// @ts-check
/** The boxes of an entry's form that are not words of the library: when it happened, and a note. */

import { all } from "./dom.js";
import { isoOf } from "./time-text.js";

/**
 * The boxes of a form that are not words of the library.
 * @param {HTMLElement} root
 */
export function noWordBoxes(root) {
  return /** @type {(HTMLInputElement | HTMLTextAreaElement)[]} */ (all(root, "[data-at], [data-note]"));
}

/** @param {HTMLElement} root */
export function plainBoxes(root) {
  return noWordBoxes(root).map((box) => box.value);
}

/** @param {HTMLElement} root */
export function momentAndNote(root) {
  const [at, note] = ["[data-at]", "[data-note]"].map((selector) => {
    const box = /** @type {HTMLInputElement | null} */ (root.querySelector(selector));
    return box?.value.trim();
  });
  return { ...(at ? { at: isoOf(new Date(at)) } : {}), ...(note ? { note } : {}) };
}
