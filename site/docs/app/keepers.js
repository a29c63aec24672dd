// @ts-check
/**
 * What keeps the ticks of a list and the clocks of a job. By default that is this device, for each job; a page may
 * pass another keeper, such as one that writes into a casting.
 */

import { forget, keep, namesOf, recall } from "./local-storage.js";
import { sinceMs } from "./time-text.js";

/** @import {Timer} from "./answer-types.js" */
/** @typedef {{text: string, at: number}} Tick the text that was ticked, and when, in ms */
/** @typedef {{start: number, timers: Timer[]}} Running when the metal or the dose went in, in ms, and what follows */
/** @typedef {{read: () => string[], write: (texts: string[], of?: number) => void}} TickKeeper the texts that are ticked, of how many */
/** @typedef {{read: () => Running | null, write: (running: Running | null) => void}} ClockKeeper */

/** Ticks of a day's work are worth nothing on the next day, nor are clocks that ended long ago. */
export const FORGOTTEN_AFTER_MS = 12 * 60 * 60 * 1000;
const SECOND_MS = 1000;
const CLOCK = "clock.";

/**
 * Ticks on this device. Each is forgotten twelve hours after it was made.
 * @param {string} job
 * @param {() => number} [now] in ms
 * @returns {TickKeeper}
 */
export function ticksOnDevice(job, now = Date.now) {
  const name = `ticks.${job}`;
  return {
    read: () => freshTexts(recall(name), now()),
    write: (texts) => (texts.length ? keep(name, dated(texts, recall(name), now())) : forget(name)),
  };
}

/**
 * The clocks of one job on this device. They are forgotten twelve hours after the last one ended.
 * @param {string} job
 * @param {() => number} [now] in ms
 * @returns {ClockKeeper}
 */
export function clocksOnDevice(job, now = Date.now) {
  return {
    read: () => stillOf(recall(CLOCK + job), now()),
    write: (running) => (running ? keep(CLOCK + job, running) : forget(CLOCK + job)),
  };
}

/**
 * All clocks on this device, by job; each wait of a test has a name of its own after the job's.
 * @param {number} now
 * @returns {[string, Running][]}
 */
export function allOnDevice(now) {
  return namesOf(CLOCK).flatMap((name) => {
    const running = stillOf(recall(name), now);
    return running ? [/** @type {[string, Running]} */ ([name.slice(CLOCK.length), running])] : [];
  });
}

/**
 * The texts that were ticked within the last twelve hours. A tick without a time is from an older version.
 * @param {unknown} kept
 * @param {number} now
 */
export function freshTexts(kept, now) {
  return ticksIn(kept)
    .filter(({ at }) => sinceMs(at, now) < FORGOTTEN_AFTER_MS)
    .map(({ text }) => text);
}

/**
 * Texts with the time of their ticks; those ticked before keep theirs.
 * @param {string[]} texts
 * @param {unknown} kept
 * @param {number} now
 * @returns {Tick[]}
 */
export function dated(texts, kept, now) {
  const still = freshTexts(kept, now);
  const before = new Map(ticksIn(kept).map(({ text, at }) => [text, at]));
  return texts.map((text) => ({ text, at: still.includes(text) ? (before.get(text) ?? now) : now }));
}

/**
 * The clocks, unless the last one ended more than twelve hours ago.
 * @param {Running | null} running
 * @param {number} now
 */
export function stillOf(running, now) {
  if (!running?.timers.length) return null;
  const last = Math.max(...running.timers.map(({ after_s, latest_s }) => latest_s ?? after_s));
  return sinceMs(running.start, now) < FORGOTTEN_AFTER_MS + last * SECOND_MS ? running : null;
}

/**
 * @param {unknown} kept
 * @returns {Tick[]}
 */
function ticksIn(kept) {
  return Array.isArray(kept) ? kept.filter((tick) => typeof tick?.text === "string" && Number.isFinite(tick.at)) : [];
}
