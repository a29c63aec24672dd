// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { leftText } from "../../site/docs/app/checklist.js";
import { whenText } from "../../site/docs/app/job-book.js";
import { nextText } from "../../site/docs/app/timers.js";
import { entriesOf } from "../../site/docs/app/timeline.js";

const START = new Date(2027, 2, 6, 10, 0).getTime();
const MINUTE_MS = 60_000;

/**
 * @param {string} label
 * @param {number} minutes
 */
const timer = (label, minutes) => ({ name: label, label, after_s: minutes * 60, latest_s: minutes * 90, text: "" });
const running = { start: START, timers: [timer("Open the mould", 30), timer("Solid", 5)] };

test("the next clock is the first in time, whatever order they are in", () => {
  assert.equal(nextText(running, START), "Solid at 10:05");
  assert.equal(nextText(running, START + 5 * MINUTE_MS), "Open the mould at 10:30");
});

test("when all clocks are over, the last one is now", () => {
  assert.equal(nextText(running, START + 30 * MINUTE_MS), "now: open the mould");
});

test("no clocks, no words", () => {
  assert.equal(nextText({ start: START, timers: [] }, START), "");
});

test("an open stop in the list forbids pouring", () => {
  assert.equal(leftText(2, 5, true), "2 of 5 still to tick: do not pour yet.");
  assert.equal(leftText(2, 5, false), "2 of 5 still to tick.");
  assert.equal(leftText(0, 5, false), "All ticked.");
});

test("entries are newest first, and of one kind if that is chosen", () => {
  const entry = (/** @type {string} */ id, /** @type {string} */ kind) => /** @type {any} */ ({ id, kind });
  const entries = [entry("e1", "mixed"), entry("e2", "poured"), entry("e3", "mixed")];
  const ids = (/** @type {string} */ kind) => entriesOf(entries, kind).map(({ id }) => id);
  assert.deepEqual(ids(""), ["e3", "e2", "e1"]);
  assert.deepEqual(ids("mixed"), ["e3", "e1"]);
});

test("figures of the book say from when they are: a reading from its day, the rest from now", () => {
  const now = new Date(2027, 2, 24, 12).getTime();
  const reading = { word: "gfn", label: "Grain fineness", at: new Date(2027, 2, 20, 12).toISOString() };
  const answer = { result: { last_test_age_days: 4 }, kept: /** @type {any} */ ([reading]) };
  assert.equal(whenText(answer, ["gfn"], now), "Grain fineness: of 20 March 2027.");
  assert.equal(whenText(answer, ["heap_kg"], now), "This as the book has it now, tested 4 days ago.");
  assert.equal(
    whenText(answer, ["gfn", "heap_kg"], now),
    "Grain fineness: of 20 March 2027. The rest as the book has it now, tested 4 days ago.",
  );
});
