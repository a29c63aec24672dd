// @ts-check
/** Words that one job's page hands to all others: what was typed for them, with its unit. */

/** @import {Typed} from "./form.js" */
/** @typedef {Record<string, {text: string, unit: string}>} SharedWords */

/**
 * What a form holds of the shared words.
 * @param {Typed} typed
 * @param {string[]} shared
 * @returns {SharedWords}
 */
export function sharedWords({ texts, units }, shared) {
  const words = Object.entries(texts).filter(([word]) => shared.includes(word));
  return Object.fromEntries(words.map(([word, text]) => [word, { text, unit: units[word] ?? "" }]));
}

/**
 * A form with what other jobs know of its shared words.
 * @param {Typed} typed
 * @param {SharedWords} words
 * @param {string[]} shared
 * @returns {Typed}
 */
export function withSharedWords(typed, words, shared) {
  const known = { ...typed, texts: { ...typed.texts }, units: { ...typed.units } };
  for (const [word, { text, unit }] of Object.entries(words)) {
    if (!shared.includes(word) || !text) continue;
    known.texts[word] = text;
    if (unit) known.units[word] = unit;
  }
  return known;
}
