// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { heapState, lastTest, withAnswer } from "../../site/docs/app/heap.js";
import { DAY_MS } from "../../site/docs/app/time-text.js";
import { sharedWords, withSharedWords } from "../../site/docs/app/typed-words.js";

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

test("other jobs get the shared words with their units, and nothing else", () => {
  const typed = { texts: { heap_kg: "55", metal: "zinc_al12" }, units: { heap_kg: "lb" }, ways: {}, more: false };
  assert.deepEqual(sharedWords(typed, ["heap_kg", "flask_length_mm"]), { heap_kg: { text: "55", unit: "lb" } });
});

test("a form takes the shared words that it asks for, over what the page put there", () => {
  const bare = {
    texts: { heap_kg: "25", metal: "aluminium" },
    units: { heap_kg: "kg" },
    ways: { a: "b" },
    more: false,
  };
  const words = {
    heap_kg: { text: "55", unit: "lb" },
    metal: { text: "zinc_al12", unit: "" },
    cope_kg: { text: "", unit: "kg" },
  };
  assert.deepEqual(withSharedWords(bare, words, ["heap_kg", "cope_kg"]), {
    texts: { heap_kg: "55", metal: "aluminium" },
    units: { heap_kg: "lb" },
    ways: { a: "b" },
    more: false,
  });
  assert.equal(bare.texts.heap_kg, "25", "the bare form itself stays as it is");
});
