// @ts-check
/** Moments and spans as text, by the clock of this device. */

const SECOND_MS = 1000;
const MINUTE_MS = 60 * SECOND_MS;
const HOUR_MS = 60 * MINUTE_MS;
export const DAY_MS = 24 * HOUR_MS;
const YEAR_MS = 366 * DAY_MS;
/** A moment this much ahead of the clock was noted by a clock that went wrong. */
const AHEAD_MS = 10 * MINUTE_MS;
const AHEAD = "at a time that this clock has not reached";
const SECONDS_BELOW_MS = 10 * MINUTE_MS;
const DAY_ALONE = /^\d{4}-\d\d-\d\d$/;
const LANGUAGE = "en-GB";
const DATE = /** @type {const} */ ({ day: "numeric", month: "long", year: "numeric" });

/**
 * A moment as ISO 8601, with the time zone of this clock.
 * @param {Date} moment
 */
export function isoOf(moment) {
  const ahead = -moment.getTimezoneOffset();
  const local = new Date(moment.getTime() + ahead * MINUTE_MS).toISOString().slice(0, 19);
  const [hours, minutes] = [Math.floor(Math.abs(ahead) / 60), Math.abs(ahead) % 60].map(twoDigits);
  return `${local}${ahead < 0 ? "-" : "+"}${hours}:${minutes}`;
}

/**
 * The day of a moment, for the name of a file.
 * @param {Date} moment
 */
export function isoDay(moment) {
  return isoOf(moment).slice(0, 10);
}

/**
 * A date in full: 6 March 2027.
 * @param {number | string | Date} moment
 */
export function dateText(moment) {
  return new Date(moment).toLocaleDateString(LANGUAGE, DATE);
}

/**
 * A day without its year: 6 Mar.
 * @param {Date} moment
 */
export function shortDateText(moment) {
  return moment.toLocaleDateString(LANGUAGE, { day: "numeric", month: "short" });
}

/**
 * A date on an axis: the time of day where the axis is short, the month where it is long.
 * @param {Date} moment
 * @param {number} span_ms how long the axis is
 */
export function timeTickText(moment, span_ms) {
  if (span_ms < 2 * DAY_MS) return `${twoDigits(moment.getHours())}:${twoDigits(moment.getMinutes())}`;
  if (span_ms < YEAR_MS) return shortDateText(moment);
  return moment.toLocaleDateString(LANGUAGE, { month: "short", year: "numeric" });
}

/**
 * A date in full, or "today".
 * @param {number | string} moment
 * @param {number} now
 */
export function dateOrToday(moment, now) {
  return isSameDay(new Date(moment), new Date(now)) ? "today" : dateText(moment);
}

/**
 * Date and time of an entry; a text that is no moment stays as it is. A date alone is that day in every time zone.
 * @param {string} at
 */
export function momentText(at) {
  if (DAY_ALONE.test(at)) return new Date(`${at}T12:00`).toLocaleDateString(LANGUAGE, { ...DATE, month: "short" });
  const moment = new Date(at);
  if (Number.isNaN(moment.getTime())) return at;
  return moment.toLocaleString(LANGUAGE, { ...DATE, month: "short", hour: "2-digit", minute: "2-digit" });
}

/**
 * A time of today, with the weekday if it is another day.
 * @param {number} moment
 * @param {number} now
 */
export function clockTime(moment, now) {
  const then = new Date(moment);
  const time = `at ${twoDigits(then.getHours())}:${twoDigits(then.getMinutes())}`;
  if (isSameDay(then, new Date(now))) return time;
  return `${time} on ${then.toLocaleDateString(LANGUAGE, { weekday: "long" })}`;
}

/**
 * A span in hours and minutes, with seconds if it is short.
 * @param {number} span_ms
 */
export function spanText(span_ms) {
  const hours = Math.floor(span_ms / HOUR_MS);
  const minutes = Math.floor((span_ms % HOUR_MS) / MINUTE_MS);
  const seconds = Math.floor((span_ms % MINUTE_MS) / SECOND_MS);
  if (span_ms < MINUTE_MS) return `${seconds} s`;
  if (span_ms < SECONDS_BELOW_MS && seconds) return `${minutes} min ${twoDigits(seconds)} s`;
  return [hours ? `${hours} h` : "", minutes || !hours ? `${minutes} min` : ""].filter(Boolean).join(" ");
}

/**
 * A span to whole minutes, or in seconds if it is shorter than one.
 * @param {number} span_s
 */
export function roughSpanText(span_s) {
  return spanText(Math.round((span_s * SECOND_MS) / MINUTE_MS) * MINUTE_MS || span_s * SECOND_MS);
}

/**
 * How long ago something was, in ms. If the clock was wrong then or is wrong now, nobody knows: that counts as for ever.
 * @param {number} then
 * @param {number} now
 */
export function sinceMs(then, now) {
  return now - then < -AHEAD_MS ? Infinity : Math.max(0, now - then);
}

/**
 * How many whole days ago: today, yesterday, 3 days ago.
 * @param {number} then
 * @param {number} now
 */
export function daysAgo(then, now) {
  const days = Math.floor(sinceMs(then, now) / DAY_MS);
  if (days === Infinity) return AHEAD;
  if (days < 1) return "today";
  return days === 1 ? "yesterday" : `${days} days ago`;
}

/**
 * When a heap was last tested.
 * @param {number | undefined} then
 * @param {number} now
 */
export function testedText(then, now) {
  if (!then) return "not tested on this phone";
  return sinceMs(then, now) < HOUR_MS ? "tested within the hour" : `tested ${daysAgo(then, now)}`;
}

/**
 * @param {Date} one
 * @param {Date} other
 */
function isSameDay(one, other) {
  return one.toDateString() === other.toDateString();
}

/** @param {number} number */
function twoDigits(number) {
  return String(number).padStart(2, "0");
}
