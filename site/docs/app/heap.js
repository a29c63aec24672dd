// @ts-check
/** What is known on this phone of the heap in use: the last figures typed and answered, each as text with its doubt. */

import { keep, recall } from "./local-storage.js";

const DAY_MS = 86_400_000;
const STALE_DAYS = 7;
/** What each job knows of the heap as it lies. @type {Record<string, string[]>} */
const TELLS = { temper: ["heap_kg", "moisture_pct_wet"], rebond: ["heap_kg", "clay_pct_dry"] };

/**
 * @typedef {{text: string, range: string}} Figure
 * @typedef {{name?: string, tested?: number, state?: {word: string, tone: string}, figures: Record<string, Figure>}} Heap
 */

/** @returns {Heap} */
export function heap() {
  return recall("heap") || { figures: {} };
}

/** @param {string} name */
export function nameHeap(name) {
  keep("heap", { ...heap(), name });
}

/**
 * Take what an answer says of the heap.
 * @param {string} job
 * @param {any} answer
 * @param {[string, string][]} given
 * @param {number} since when the figures were typed
 */
export function remember(job, answer, given, since) {
  keep(`answer.${job}`, { state: answer.state, text: answer.lead.text, label: answer.lead.label, since });
  const told = TELLS[job];
  if (!told) return;
  const known = heap();
  const figures = { ...known.figures };
  for (const [word, text] of given) if (told.includes(word)) figures[word] = { text, range: "" };
  for (const row of answer.shown)
    if (told.includes(row.word)) figures[row.word] = { text: row.text, range: row.range || "" };
  const tested = job === "temper" ? { tested: since || known.tested, state: answer.state } : {};
  keep("heap", { ...known, ...tested, figures });
}

/**
 * The heap in one word: what the last test said, unless that was too long ago.
 * @param {Heap} known
 * @param {number} now
 */
export function oneWord(known, now) {
  if (!known.tested || !known.state) return { word: "test it", tone: "care" };
  if (now - known.tested > STALE_DAYS * DAY_MS) return { word: "test it", tone: "care" };
  return known.state.word === "go" ? { word: "ready", tone: "go" } : known.state;
}

/**
 * When a heap was last tested, by an answer to its book.
 * @param {any} answer
 * @param {number} at when that was given
 */
export function lastTest(answer, at) {
  const days = answer.result.last_test_age_days;
  return Number.isFinite(days) ? at - days * DAY_MS : undefined;
}

/** @param {number | undefined} then @param {number} now */
export function age(then, now) {
  if (!then) return "not tested on this phone";
  const days = Math.floor((now - then) / DAY_MS);
  if (days < 1) return now - then < 3_600_000 ? "tested within the hour" : "tested today";
  return days === 1 ? "tested yesterday" : `tested ${days} days ago`;
}
