// @ts-check
/** The ticks and the clocks of one casting: they belong to it alone, and are saved with it. */

import { castingOf, keepCasting } from "./castings.js";
import { dated, freshTexts, stillOf } from "./keepers.js";

/** @import {CastingData, Timer} from "./answer-types.js" */
/** @import {ClockKeeper, Running, TickKeeper} from "./keepers.js" */

/**
 * @param {string} key
 * @param {string} job
 * @returns {TickKeeper}
 */
export function ticksIn(key, job) {
  return {
    read: () => freshTexts(rowsOf(castingOf(key)?.casting.ticks, job), Date.now()),
    write: (texts, of) => change(key, (casting) => withTicks(casting, job, texts, Date.now(), of)),
  };
}

/**
 * @param {string} key
 * @param {string} job
 * @returns {ClockKeeper}
 */
export function clocksIn(key, job) {
  return {
    read: () => runningIn(castingOf(key)?.casting, job, Date.now()),
    write: (running) => change(key, (casting) => withClocks(casting, job, running)),
  };
}

/**
 * A casting with these ticks of one job; each keeps the time at which it was made.
 * @param {CastingData} casting
 * @param {string} job
 * @param {string[]} texts
 * @param {number} now
 * @param {number} [of] how many points the list has
 * @returns {CastingData}
 */
export function withTicks(casting, job, texts, now, of) {
  const mine = dated(texts, rowsOf(casting.ticks, job), now).map((tick) => ({ job, ...tick, of }));
  return { ...casting, ticks: [...casting.ticks.filter((tick) => tick.job !== job), ...mine] };
}

/**
 * Whether all points of a job's list are ticked.
 * @param {CastingData} casting
 * @param {string} job
 * @param {number} now
 */
export function isTicked(casting, job, now) {
  const rows = rowsOf(casting.ticks, job);
  return rows.length > 0 && freshTexts(rows, now).length >= Number(rows[0].of);
}

/**
 * A casting with these clocks of one job.
 * @param {CastingData} casting
 * @param {string} job
 * @param {Running | null} running
 * @returns {CastingData}
 */
export function withClocks(casting, job, running) {
  const mine = running ? running.timers.map((timer) => ({ job, start: running.start, ...timer })) : [];
  return { ...casting, clocks: [...casting.clocks.filter((clock) => clock.job !== job), ...mine] };
}

/**
 * The clocks of one job that run.
 * @param {CastingData | undefined} casting
 * @param {string} job
 * @param {number} now
 * @returns {Running | null}
 */
export function runningIn(casting, job, now) {
  const rows = rowsOf(casting?.clocks, job);
  const [first] = rows;
  if (!first) return null;
  const timers = /** @type {Timer[]} */ (rows.map(({ job: _, start: __, ...timer }) => timer));
  return stillOf({ start: Number(first.start), timers }, now);
}

/**
 * @param {Record<string, unknown>[] | undefined} rows
 * @param {string} job
 */
function rowsOf(rows, job) {
  return (rows ?? []).filter((row) => row.job === job);
}

/**
 * @param {string} key
 * @param {(casting: CastingData) => CastingData} changed
 */
function change(key, changed) {
  const kept = castingOf(key);
  if (kept) keepCasting(key, changed(kept.casting));
}
