// @ts-check
/** The unit in which a form that opens again shows a box. */

/** @import {Typed} from "./form.js" */

/**
 * The unit that a form kept for a box: of a figure that a person typed, or one that a person chose for the empty box. What an older form
 * kept for an empty box counts only if it is not the word's own.
 * @param {Typed} typed
 * @param {string} word
 * @param {string | undefined} own
 * @returns {string | undefined} nothing where the settings decide
 */
export function unitKept({ texts, units, chosen }, word, own) {
  const isChosen = chosen ? chosen.includes(word) : units[word] !== own;
  return texts[word] !== undefined || isChosen ? units[word] : undefined;
}
