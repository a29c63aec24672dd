// @ts-check
/** What this device knows of the heap without a book: the last figures typed and answered, as text with their range. */

import { keep, recall } from "./local-storage.js";
import { DAY_MS, sinceMs } from "./time-text.js";

/** @import {Answer, State} from "./answer-types.js" */
/** @typedef {{text: string, range: string}} Figure */
/** @typedef {{name?: string, tested?: number, state?: State, figures: Record<string, Figure>}} Heap */

const STALE_MS = 7 * DAY_MS;
/**
 * Which words of a job are figures of the heap as it lies.
 * @type {Record<string, string[]>}
 */
const HEAP_WORDS = { temper: ["heap_kg", "moisture_pct_wet"], rebond: ["heap_kg", "clay_pct_dry"] };
/** The state of a heap without a recent test. */
const TEST_IT = /** @type {const} */ ({ word: "test it", tone: "care" });

/** @returns {Heap} */
export function heap() {
  return recall("heap") ?? { figures: {} };
}

/** @param {string} name */
export function nameHeap(name) {
  keep("heap", { ...heap(), name });
}

/**
 * Keep an answer for the home page, and what it says of the heap.
 * @param {string} job
 * @param {Answer} answer
 * @param {[string, string][]} given
 * @param {number} since when the figures were typed
 */
export function remember(job, answer, given, since) {
  keep(`answer.${job}`, { state: answer.state, text: answer.lead.text, label: answer.lead.label, since });
  if (job in HEAP_WORDS) keep("heap", withAnswer(heap(), job, answer, given, since));
}

/**
 * A heap with what an answer says of it. A figure of the answer goes before what was typed.
 * @param {Heap} known
 * @param {string} job
 * @param {Pick<Answer, "state" | "shown">} answer
 * @param {[string, string][]} given
 * @param {number} since
 * @returns {Heap}
 */
export function withAnswer(known, job, answer, given, since) {
  const words = HEAP_WORDS[job] ?? [];
  const figures = { ...known.figures };
  for (const [word, text] of given) if (words.includes(word)) figures[word] = { text, range: "" };
  for (const { word, text, range } of answer.shown) if (words.includes(word)) figures[word] = { text, range };
  const test = job === "temper" ? { tested: since || known.tested, state: answer.state } : {};
  return { ...known, ...test, figures };
}

/**
 * The heap in one word: what the last test said, unless that was too long ago.
 * @param {Heap} known
 * @param {number} now
 * @returns {State}
 */
export function heapState({ tested, state }, now) {
  if (!tested || !state || sinceMs(tested, now) > STALE_MS) return TEST_IT;
  return state.word === "go" ? { word: "ready", tone: "go" } : state;
}

/**
 * When a heap was last tested, by an answer to its book.
 * @param {Pick<Answer, "result">} answer
 * @param {number} at when the book was answered
 */
export function lastTest(answer, at) {
  const days = answer.result.last_test_age_days;
  return typeof days === "number" ? at - days * DAY_MS : undefined;
}
