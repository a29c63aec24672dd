// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { stillTicked } from "../../site/docs/app/checklist.js";
import { dated, freshTexts, stillOf, ticksOnDevice } from "../../site/docs/app/keepers.js";
import { runningClocks } from "../../site/docs/app/timers.js";

const START = new Date(2027, 2, 6, 10, 0).getTime();
const MINUTE_MS = 60_000;
const HALF_DAY_MS = 12 * 60 * MINUTE_MS;

/**
 * @param {string} label
 * @param {number} minutes
 */
const timer = (label, minutes) => ({ name: label, label, after_s: minutes * 60, latest_s: null, text: "" });

/** @param {string[]} texts @returns {any} */
const points = (...texts) => texts.map((text) => ({ tone: "care", text }));

test("a tick is forgotten twelve hours after it was made", () => {
  const kept = [
    { text: "early", at: START },
    { text: "late", at: START + MINUTE_MS },
  ];
  assert.deepEqual(freshTexts(kept, START + HALF_DAY_MS - 1), ["early", "late"]);
  assert.deepEqual(freshTexts(kept, START + HALF_DAY_MS), ["late"]);
});

test("ticks of an older version have no time and are forgotten", () => {
  assert.deepEqual(freshTexts(["Vents pricked."], START), []);
  assert.deepEqual(freshTexts(null, START), []);
});

test("a tick keeps the time at which it was made, and a tick made again gets a new one", () => {
  const kept = [{ text: "one", at: START }];
  const later = START + MINUTE_MS;
  assert.deepEqual(dated(["one", "two"], kept, later), [
    { text: "one", at: START },
    { text: "two", at: later },
  ]);
  const nextDay = START + 2 * HALF_DAY_MS;
  assert.deepEqual(dated(["one"], kept, nextDay), [{ text: "one", at: nextDay }]);
});

test("a tick falls when its figures change, and does not come back with them", () => {
  const ticks = ticksOnDevice("test-of-ticks", () => START);
  ticks.write(["Put 12 kg on.", "Vents pricked."]);
  ticks.write(stillTicked(ticks.read(), points("Put 13 kg on.", "Vents pricked.")));
  assert.deepEqual(stillTicked(ticks.read(), points("Put 12 kg on.", "Vents pricked.")), ["Vents pricked."]);
});

test("clearing writes no ticks", () => {
  const ticks = ticksOnDevice("test-of-clearing", () => START);
  ticks.write(["Vents pricked."]);
  ticks.write([]);
  assert.deepEqual(ticks.read(), []);
});

test("clocks are forgotten twelve hours after the last one ended", () => {
  const running = { start: START, timers: [timer("Test", 70), timer("Stop mulling", 10)] };
  const last = START + 70 * MINUTE_MS;
  assert.equal(stillOf(running, last + HALF_DAY_MS - 1), running);
  assert.equal(stillOf(running, last + HALF_DAY_MS), null);
  assert.equal(stillOf({ start: START, timers: [] }, START), null);
});

test("the clocks of all jobs are listed by their ends, and a wait of a test under its job", () => {
  /** @type {any} */
  const held = [
    ["temper", { start: START, timers: [timer("Test", 70), timer("Stop mulling", 10)] }],
    ["bench.moisture-2", { start: START + 5 * MINUTE_MS, timers: [timer("Sample in the oven", 60)] }],
  ];
  assert.deepEqual(runningClocks(START, held), [
    { job: "temper", label: "Stop mulling", ends: START + 10 * MINUTE_MS },
    { job: "bench", label: "Sample in the oven", ends: START + 65 * MINUTE_MS },
    { job: "temper", label: "Test", ends: START + 70 * MINUTE_MS },
  ]);
});

test("ticks and clocks that a clock a year ahead has made are forgotten, and those of a clock a year behind too", () => {
  for (const wrong of [START + 365 * 2 * HALF_DAY_MS, START - 365 * 2 * HALF_DAY_MS]) {
    assert.deepEqual(freshTexts([{ text: "one", at: wrong }], START), []);
    assert.equal(stillOf({ start: wrong, timers: [timer("open", 30)] }, START), null);
  }
});
