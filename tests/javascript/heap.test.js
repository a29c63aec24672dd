// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { heapState, lastTest, withAnswer } from "../../site/docs/app/heap.js";
import { DAY_MS } from "../../site/docs/app/time-text.js";
import { carriedWords, sharedWords } from "../../site/docs/app/typed-words.js";

const NOW = Date.parse("2027-03-24T10:00:00Z");
const GO = /** @type {const} */ ({ word: "go", tone: "go" });
const DRY = /** @type {const} */ ({ word: "dry", tone: "care" });
const TEST_IT = { word: "test it", tone: "care" };

/**
 * @param {string} word
 * @param {string} text
 */
const row = (word, text) => ({ word, label: word, text, range: "1 to 2", basis: "" });

test("a heap without a test, and one with an old test, wants a test", () => {
  assert.deepEqual(heapState({ figures: {} }, NOW), TEST_IT);
  assert.deepEqual(heapState({ tested: NOW - 7 * DAY_MS - 1, state: GO, figures: {} }, NOW), TEST_IT);
});

test("a heap that was tested while the clock was a year ahead wants a test", () => {
  assert.deepEqual(heapState({ tested: NOW + 365 * DAY_MS, state: GO, figures: {} }, NOW), TEST_IT);
});

test("a figure that was typed while the clock was a year ahead gives way to the next one that is typed", () => {
  const known = { heap_kg: { text: "20", unit: "kg", from: "mix", at: NOW + 365 * DAY_MS } };
  const typed = { texts: { heap_kg: "25" }, units: { heap_kg: "kg" }, ways: {}, more: false, at: { heap_kg: NOW } };
  assert.equal(sharedWords(known, typed, ["heap_kg"], "temper", NOW).heap_kg.text, "25");
});

test("within a week the heap is what its last test said", () => {
  assert.deepEqual(heapState({ tested: NOW - 7 * DAY_MS, state: GO, figures: {} }, NOW), { word: "ready", tone: "go" });
  assert.deepEqual(heapState({ tested: NOW - DAY_MS, state: DRY, figures: {} }, NOW), DRY);
});

test("a figure of the answer goes before what was typed", () => {
  const answer = { state: DRY, shown: [row("moisture_pct_wet", "3.1 %"), row("water_kg", "2 kg")] };
  /** @type {[string, string][]} */
  const given = [["heap_kg", "25 kg"], ["moisture_pct_wet", "3 %"], ["metal", "tin_bronze"]]; // prettier-ignore
  assert.deepEqual(withAnswer({ name: "The hall", figures: {} }, "temper", answer, given, NOW), {
    name: "The hall",
    tested: NOW,
    state: DRY,
    figures: { heap_kg: { text: "25 kg", range: "" }, moisture_pct_wet: { text: "3.1 %", range: "1 to 2" } },
  });
});

test("only a temper answer counts as a test of the heap", () => {
  const answer = { state: GO, shown: [row("clay_pct_dry", "7.4 %")] };
  const known = { tested: NOW - DAY_MS, state: DRY, figures: { moisture_pct_wet: { text: "3 %", range: "" } } };
  const after = withAnswer(known, "rebond", answer, [], NOW);
  assert.equal(after.tested, known.tested);
  assert.deepEqual(after.state, DRY);
  assert.deepEqual(Object.keys(after.figures), ["moisture_pct_wet", "clay_pct_dry"]);
});

test("the day of the last test comes from the book's answer", () => {
  assert.equal(lastTest({ result: { last_test_age_days: 2 } }, NOW), NOW - 2 * DAY_MS);
  assert.equal(lastTest({ result: {} }, NOW), undefined);
});

test("other jobs get what a person typed for the shared words, with its unit, its job and its time", () => {
  const typed = {
    texts: { heap_kg: "55", metal: "zinc_al12", cope_kg: "4" },
    units: { heap_kg: "lb" },
    ways: {},
    more: false,
    at: { heap_kg: 100, metal: 200 },
  };
  assert.deepEqual(sharedWords({}, typed, ["heap_kg", "cope_kg"], "temper"), {
    heap_kg: { text: "55", unit: "lb", from: "temper", at: 100 },
  });
});

test("the newer of two shared figures stays, and one that was emptied where it was typed is gone", () => {
  const known = {
    heap_kg: { text: "25", unit: "kg", from: "flask", at: 300 },
    cope_kg: { text: "11", unit: "kg", from: "temper", at: 100 },
    frame_kg: { text: "2", unit: "kg", from: "flask", at: 100 },
  };
  const at = { heap_kg: 200, cope_kg: 400, frame_kg: 400 };
  const typed = { texts: { heap_kg: "55" }, units: {}, ways: {}, more: false, at };
  const { heap_kg, frame_kg } = known;
  assert.deepEqual(sharedWords(known, typed, ["heap_kg", "cope_kg", "frame_kg"], "temper"), { heap_kg, frame_kg });
});

test("a form carries in the shared words that other jobs have and it asks for, with their origin and age", () => {
  const words = {
    heap_kg: { text: "55", unit: "lb", from: "flask", at: NOW - 3 * DAY_MS },
    metal: { text: "zinc_al12", unit: "", from: "pour", at: NOW },
    cope_kg: { text: "", unit: "kg", from: "pour", at: NOW },
    frame_kg: { text: "2", unit: "kg", from: "temper", at: NOW },
    sand_kg: { text: "40", unit: "kg" },
  };
  const asked = ["heap_kg", "metal", "cope_kg", "frame_kg", "sand_kg"];
  assert.deepEqual(carriedWords(words, asked, "temper", { flask: "Fill the flask", pour: "Pour" }, NOW), [
    { word: "heap_kg", value: { value: "55", unit: "lb" }, from: "typed in Fill the flask, 3 days ago" },
    { word: "metal", value: "zinc_al12", from: "typed in Pour" },
    { word: "sand_kg", value: { value: "40", unit: "kg" }, from: "typed in another job" },
  ]);
});
