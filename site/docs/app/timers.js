// @ts-check
import { fill, fresh, list, one, say, show } from "./dom.js";
import { forget, keep, recall } from "./local-storage.js";

const SECOND_MS = 1000;
const MINUTE_MS = 60 * SECOND_MS;
const HOUR_MS = 60 * MINUTE_MS;
const SECONDS_BELOW_MS = 10 * MINUTE_MS;
const SECOND_TAP_MS = 5 * SECOND_MS;

/**
 * @typedef {{name: string, label: string, after_s: number, text: string, latest_s?: number | null}} Timer as the answer has it, and
 *   the end of its doubt
 * @typedef {{start: number, timers: Timer[]}} Running when the metal went in, in ms, and what was to follow
 */

/** The clocks of one job: they count from a tap on, and go on where the page was closed. */
export class Clocks {
  /** @type {Timer[]} */
  #timers = [];
  /** @type {ReturnType<typeof setInterval> | undefined} */
  #beat;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #asked;
  /** @type {Set<string>} what has passed and was said, or had passed before this page was opened */
  #passed = new Set();

  /** @param {HTMLElement} whole @param {string} job */
  constructor(whole, job) {
    this.job = job;
    this.begin = one(whole, "[data-begin]");
    this.root = one(whole, "[data-clocks]");
    this.stop = one(this.root, "[data-clock-stop]");
    this.stopWords = this.stop.textContent || "";
    one(this.begin, "[data-clock-begin]").addEventListener("click", () => this.#begin());
    this.stop.addEventListener("click", () => this.#stop());
    document.addEventListener("visibilitychange", () => this.#beatWhileSeen());
    this.#note();
    this.#beatWhileSeen();
  }

  /**
   * What is to follow, by the figures now in the form; clocks that run keep their start.
   * @param {Timer[]} timers
   */
  show(timers) {
    this.#timers = timers;
    list(this.begin, "spans", timers.map(span));
    const running = runningFor(this.job);
    if (running && timers.length) keep(`clock.${this.job}`, { ...running, timers });
    this.#beatWhileSeen();
  }

  #begin() {
    keep(`clock.${this.job}`, { start: Date.now(), timers: this.#timers });
    this.#note();
    this.#beatWhileSeen();
    this.root.scrollIntoView({ block: "nearest" });
    this.stop.focus({ preventScroll: true });
  }

  /** The first tap asks, the second stops. */
  #stop() {
    clearTimeout(this.#asked);
    const sure = this.stop.dataset.asked === "yes";
    this.#ask(!sure);
    if (!sure) {
      this.#asked = setTimeout(() => this.#ask(false), SECOND_TAP_MS);
      return;
    }
    forget(`clock.${this.job}`);
    this.#beatWhileSeen();
    const start = one(this.begin, "[data-clock-begin]");
    start.focus();
  }

  /** @param {boolean} asking */
  #ask(asking) {
    this.stop.dataset.asked = asking ? "yes" : "no";
    say(this.stop, asking ? `Tap again to ${this.stopWords.toLowerCase()}` : this.stopWords);
  }

  /** What has passed already is not told again. */
  #note() {
    const running = runningFor(this.job);
    say(one(this.root, "[data-clock-said]"), "");
    this.#passed = new Set(
      (running?.timers || []).filter((timer) => left(running, timer) <= 0).map((timer) => timer.name),
    );
  }

  #beatWhileSeen() {
    clearInterval(this.#beat);
    this.#tell();
    if (runningFor(this.job) && document.visibilityState === "visible")
      this.#beat = setInterval(() => this.#tell(), SECOND_MS);
  }

  #tell() {
    const running = runningFor(this.job);
    show(this.root, Boolean(running));
    show(this.begin, !running && this.begin.querySelector(".span") !== null);
    if (!running) return;
    fill(this.root, { since: atClock(running.start) });
    list(
      this.root,
      "clocks",
      running.timers.map((timer) => clock(running, timer)),
    );
    const just = running.timers.filter((timer) => left(running, timer) <= 0 && !this.#passed.has(timer.name));
    for (const timer of just) this.#passed.add(timer.name);
    if (just.length) say(one(this.root, "[data-clock-said]"), just.map((timer) => now(timer)).join(". "));
  }
}

/** @param {string} job @returns {Running | null} */
export function runningFor(job) {
  return recall(`clock.${job}`);
}

/** What comes next by a job's clocks, in words, or nothing where none run. @param {string} job */
export function nextOf(job) {
  const running = runningFor(job);
  if (!running) return "";
  const inOrder = [...running.timers].sort((a, b) => a.after_s - b.after_s);
  const ahead = inOrder.find((timer) => left(running, timer) > 0);
  if (ahead) return `${ahead.label} ${atClock(dueAt(running, ahead.after_s))}`;
  return inOrder.length ? now(inOrder[inOrder.length - 1]) : "";
}

/** @param {Timer} timer */
function span(timer) {
  const item = fresh("span");
  fill(item, {
    label: timer.label,
    after: `after ${timer.text}`,
    latest: timer.latest_s
      ? `after ${spell(Math.round(timer.latest_s / 60) * MINUTE_MS || timer.latest_s * SECOND_MS)} at the latest (95 %)`
      : "",
  });
  return item;
}

/** @param {Running} running @param {Timer} timer */
function clock(running, timer) {
  const item = fresh("clock");
  const rest = left(running, timer);
  fill(item, {
    label: timer.label,
    at: atClock(dueAt(running, timer.after_s)),
    left: rest > 0 ? `in ${spell(rest)}` : now(timer),
    latest: timer.latest_s ? `${atClock(dueAt(running, timer.latest_s))} at the latest (95 %)` : "",
  });
  item.dataset.tone = rest > 0 ? "plain" : "go";
  return item;
}

/** @param {Timer} timer */
function now(timer) {
  return `now: ${timer.label.charAt(0).toLowerCase()}${timer.label.slice(1)}`;
}

/** @param {Running} running @param {number} after_s */
function dueAt(running, after_s) {
  return running.start + after_s * SECOND_MS;
}

/**
 * @param {Running | null} running
 * @param {Timer} timer how many ms are left, below nothing once it has passed
 */
function left(running, timer) {
  return running ? dueAt(running, timer.after_s) - Date.now() : Infinity;
}

/** A clock time of today, with the day where it is another. @param {number} moment */
function atClock(moment) {
  const then = new Date(moment);
  const time = `at ${pad(then.getHours())}:${pad(then.getMinutes())}`;
  return then.toDateString() === new Date().toDateString()
    ? time
    : `${time} on ${then.toLocaleDateString("en", { weekday: "long" })}`;
}

/** A span in hours and minutes, with seconds when it is short. @param {number} span_ms */
function spell(span_ms) {
  const hours = Math.floor(span_ms / HOUR_MS);
  const minutes = Math.floor((span_ms % HOUR_MS) / MINUTE_MS);
  const seconds = Math.floor((span_ms % MINUTE_MS) / SECOND_MS);
  if (span_ms < MINUTE_MS) return `${seconds} s`;
  if (span_ms < SECONDS_BELOW_MS && seconds) return `${minutes} min ${pad(seconds)} s`;
  return [hours ? `${hours} h` : "", minutes || !hours ? `${minutes} min` : ""].filter(Boolean).join(" ");
}

/** @param {number} number */
function pad(number) {
  return String(number).padStart(2, "0");
}
