// @ts-check
/** Words that one job's page hands to all others: what was typed for them, with its unit, where and when. */

import { fromWhen } from "./carried-rules.js";
import { sinceMs } from "./time-text.js";

/** @import {Carry} from "./carried-rules.js" */
/** @import {Typed} from "./form.js" */
/** @typedef {Record<string, {text: string, unit: string, from?: string, at?: number}>} SharedWords */

/**
 * What all jobs know of the shared words, with what a person typed into this form and without what is not there any more. The
 * newer figure stays, unless it was typed while the clock was ahead.
 * @param {SharedWords} known
 * @param {Typed} typed
 * @param {string[]} shared
 * @param {string} job
 * @param {number} [now]
 * @returns {SharedWords}
 */
export function sharedWords(known, { texts, units, at = {} }, shared, job, now = Date.now()) {
  const words = Object.fromEntries(Object.entries(known).filter(([, { from }]) => from !== job));
  for (const [word, typedAt] of Object.entries(at)) {
    if (!shared.includes(word) || !texts[word]) continue;
    const before = words[word]?.at ?? 0;
    if (before > typedAt && sinceMs(before, now) < Infinity) continue;
    words[word] = { text: texts[word], unit: units[word] ?? "", from: job, at: typedAt };
  }
  return words;
}

/**
 * What a form may carry in from the pages of other jobs.
 * @param {SharedWords} words
 * @param {string[]} shared
 * @param {string} job
 * @param {Record<string, string>} shorts the name of each job
 * @param {number} now
 * @returns {Carry[]}
 */
export function carriedWords(words, shared, job, shorts, now) {
  const others = Object.entries(words).filter(
    ([word, { text, from }]) => shared.includes(word) && text && from !== job,
  );
  return others.map(([word, { text, unit, from, at }]) => ({
    word,
    value: unit ? { value: text, unit } : text,
    from: fromWhen(`typed in ${shorts[from ?? ""] ?? "another job"}`, at, now),
  }));
}
