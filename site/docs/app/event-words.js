// @ts-check
/** The words of a book's event. */

import { shownText } from "./amount-text.js";

/** @import {BookEvent} from "./answer-types.js" */
/** @typedef {{of: string, words: string[]}} Corrected the event that is corrected, and its words */

/** What an event has in addition to the words of its kind. */
const NO_WORDS = ["id", "kind", "at", "note", "outcome", "of"];

/**
 * The words of an event's kind.
 * @param {BookEvent} event
 */
export function wordsIn(event) {
  return Object.fromEntries(Object.entries(event).filter(([name]) => !NO_WORDS.includes(name)));
}

/**
 * An event with what a later correction changed in it.
 * @param {BookEvent[]} events
 * @param {string} id
 * @returns {BookEvent | undefined}
 */
export function correctedEvent(events, id) {
  const first = events.find((event) => event.id === id);
  const later = events.filter((event) => event.kind === "corrected" && event.of === id);
  return first && Object.assign({}, first, ...later.map(wordsIn));
}

/**
 * The start of a new event. A correction first empties the words of the event that it corrects.
 * @param {string} kind
 * @param {Corrected} [corrected]
 * @returns {BookEvent}
 */
export function newEvent(kind, corrected) {
  if (!corrected) return { kind };
  const empty = corrected.words.map((word) => [word, ""]);
  return { kind: "corrected", of: corrected.of, ...Object.fromEntries(empty) };
}

/**
 * Another event of the same kind with the words that stay alike.
 * @param {BookEvent} event
 * @param {string[]} alike
 * @returns {BookEvent}
 */
export function eventLike(event, alike) {
  const same = Object.entries(event).filter(([word]) => alike.includes(word));
  return { kind: event.kind, ...Object.fromEntries(same) };
}

/**
 * The words of an event, each on a line with its label, as they are written.
 * @param {BookEvent} event
 * @param {Record<string, string>} labels
 * @param {Record<string, string>} choices what a choice of the form is called
 * @returns {string[]}
 */
export function linesOf(event, labels, choices) {
  return Object.entries(wordsIn(event)).map(([word, value]) => {
    const text = shownText(value);
    return `${labels[word] ?? word}: ${choices[`${word} ${text}`] ?? text}`;
  });
}

/**
 * An event of a pour in a few words: its pattern, its metal and how much of it.
 * @param {BookEvent} event
 */
export function shortly({ pattern, metal_kg, metal }) {
  const poured = [shownText(metal_kg), shownText(metal).replaceAll("_", " ")].filter(Boolean).join(" ");
  return [pattern, poured].filter(Boolean).join(", ") || "a cast like the last";
}
