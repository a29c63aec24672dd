// @ts-check
import { fill, fresh, list, one, say, show } from "./dom.js";
import { allOnDevice, clocksOnDevice } from "./keepers.js";
import { isSecondTap } from "./second-tap.js";
import { clockTime, roughSpanText, spanText } from "./time-text.js";

/** @import {Timer} from "./answer-types.js" */
/** @import {ClockKeeper, Running} from "./keepers.js" */
/** @typedef {{job: string, label: string, ends: number}} RunningClock its job, what to do at its end, and the end, in ms */

const SECOND_MS = 1000;

/** The clocks of one job. They start with a tap, and run on while the page is closed. */
export class Clocks {
  /** @type {Timer[]} */
  #timers = [];
  /** @type {ReturnType<typeof setInterval> | undefined} */
  #ticking;
  /** @type {Set<string>} the names of those that were announced, or were over before this page opened */
  #over = new Set();

  /**
   * @param {HTMLElement} whole
   * @param {string} job
   * @param {ClockKeeper} [keeper]
   */
  constructor(whole, job, keeper = clocksOnDevice(job)) {
    this.keeper = keeper;
    this.begin = one(whole, "[data-begin]");
    this.root = one(whole, "[data-clocks]");
    this.start = one(this.begin, "[data-clock-begin]");
    this.stop = one(this.root, "[data-clock-stop]");
    const stopWords = `Tap again to ${(this.stop.textContent ?? "").toLowerCase()}`;
    this.start.addEventListener("click", () => this.#begin());
    this.stop.addEventListener("click", () => isSecondTap(this.stop, stopWords) && this.#stop());
    document.addEventListener("visibilitychange", () => this.#tickWhileSeen());
    this.#noteOver();
    this.#tickWhileSeen();
  }

  /**
   * Keep the clocks elsewhere from now on, such as in a casting.
   * @param {ClockKeeper} keeper
   */
  keepIn(keeper) {
    this.keeper = keeper;
    this.#noteOver();
    this.#tickWhileSeen();
  }

  /**
   * What follows by the figures in the form now. Clocks that run keep their start.
   * @param {Timer[]} timers
   */
  show(timers) {
    this.#timers = timers;
    list(this.begin, "spans", timers.map(spanRow));
    const running = this.keeper.read();
    if (running && timers.length) this.keeper.write({ ...running, timers });
    this.#tickWhileSeen();
  }

  #begin() {
    this.keeper.write({ start: Date.now(), timers: this.#timers });
    this.#noteOver();
    this.#tickWhileSeen();
    this.root.scrollIntoView({ block: "nearest" });
    this.stop.focus({ preventScroll: true });
  }

  #stop() {
    this.keeper.write(null);
    this.#tickWhileSeen();
    this.start.focus();
  }

  /** What is over by now is not announced again. */
  #noteOver() {
    const running = this.keeper.read();
    say(one(this.root, "[data-clock-said]"), "");
    this.#over = new Set(running ? overBy(running, Date.now()).map(({ name }) => name) : []);
  }

  #tickWhileSeen() {
    clearInterval(this.#ticking);
    this.#tick();
    if (!this.keeper.read() || document.visibilityState !== "visible") return;
    this.#ticking = setInterval(() => this.#tick(), SECOND_MS);
  }

  #tick() {
    const now = Date.now();
    const running = this.keeper.read();
    show(this.root, Boolean(running));
    show(this.begin, !running && this.begin.querySelector(".span") !== null);
    if (!running) return;
    fill(this.root, { since: clockTime(running.start, now) });
    list(
      this.root,
      "clocks",
      running.timers.map((timer) => clockRow(running, timer, now)),
    );
    const just = overBy(running, now).filter(({ name }) => !this.#over.has(name));
    for (const { name } of just) this.#over.add(name);
    if (just.length) say(one(this.root, "[data-clock-said]"), just.map(nowText).join(". "));
  }
}

/**
 * @param {string} job
 * @returns {Running | null}
 */
export function runningFor(job) {
  return clocksOnDevice(job).read();
}

/**
 * Every clock that runs, whatever page is open, soonest first. One that is over stays for twelve hours, unless it is
 * stopped.
 * @param {number} [now]
 * @param {[string, Running][]} [held] by job, for clocks that are kept elsewhere than on this device
 * @returns {RunningClock[]}
 */
export function runningClocks(now = Date.now(), held = allOnDevice(now)) {
  return held
    .flatMap(([name, running]) =>
      running.timers.map((timer) => ({
        job: name.split(".")[0],
        label: timer.label,
        ends: dueAt(running, timer.after_s),
      })),
    )
    .toSorted((a, b) => a.ends - b.ends);
}

/**
 * What comes next by the clocks that run, or what came last if all are over.
 * @param {Running} running
 * @param {number} now
 */
export function nextText(running, now) {
  const inOrder = running.timers.toSorted((a, b) => a.after_s - b.after_s);
  const ahead = inOrder.find((timer) => leftOf(running, timer, now) > 0);
  if (ahead) return `${ahead.label} ${clockTime(dueAt(running, ahead.after_s), now)}`;
  const last = inOrder.at(-1);
  return last ? nowText(last) : "";
}

/** @param {Timer} timer */
function spanRow({ label, text, latest_s }) {
  const item = fresh("span");
  fill(item, {
    label,
    after: `after ${text}`,
    latest: latest_s ? `after ${roughSpanText(latest_s)} at the latest` : "",
  });
  return item;
}

/**
 * @param {Running} running
 * @param {Timer} timer
 * @param {number} now
 */
function clockRow(running, timer, now) {
  const item = fresh("clock");
  const left = leftOf(running, timer, now);
  const latest = timer.latest_s ? clockTime(dueAt(running, timer.latest_s), now) : "";
  fill(item, {
    label: timer.label,
    at: clockTime(dueAt(running, timer.after_s), now),
    left: left > 0 ? `in ${spanText(left)}` : nowText(timer),
    latest: latest && `${latest} at the latest`,
  });
  item.dataset.tone = left > 0 ? "plain" : "go";
  return item;
}

/** @param {Timer} timer */
function nowText({ label }) {
  return `now: ${label.charAt(0).toLowerCase()}${label.slice(1)}`;
}

/**
 * @param {Running} running
 * @param {number} after_s
 */
function dueAt(running, after_s) {
  return running.start + after_s * SECOND_MS;
}

/**
 * How many ms are left; zero or less when it is over.
 * @param {Running} running
 * @param {Timer} timer
 * @param {number} now
 */
function leftOf(running, timer, now) {
  return dueAt(running, timer.after_s) - now;
}

/**
 * @param {Running} running
 * @param {number} now
 */
function overBy(running, now) {
  return running.timers.filter((timer) => leftOf(running, timer, now) <= 0);
}
