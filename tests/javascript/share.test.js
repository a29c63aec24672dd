// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { addressOf, asText, figuresIn, othersIn, sentenceOf } from "../../site/docs/app/share.js";

/** @typedef {import("../../site/docs/app/amount-text.js").Value} Value */

const PAGE = "https://example.org/temper/";
const STATE = /** @type {const} */ ({ word: "temper", tone: "care" });
const LEAD = {
  word: "first_water_kg",
  label: "Add now",
  text: "310 g",
  then: "530 g at most",
  sentence: "It needs water.",
};

/** @param {string} address */
const hashOf = (address) => new URL(address).hash;

test("a link brings back every value as it was typed", () => {
  /** @type {[string, Value][]} */
  const given = [
    ["heap_kg", { value: "5e2", unit: "g" }],
    ["frame_kg", { value: "3 lb 4 oz", unit: "kg" }],
    ["moisture_pct_wet", { value: "6.4 ± 0.3", unit: "%" }],
    ["metal", "al_si7mg"],
    ["note", "a & b = c #1 ÷ ½"],
  ];
  const address = addressOf(PAGE, given);
  assert.equal(address.split("#")[0], PAGE);
  assert.deepEqual(
    figuresIn(
      hashOf(address),
      given.map(([word]) => word),
    ),
    given,
  );
});

test("a link of an older page keeps its unit in the text", () => {
  assert.deepEqual(figuresIn("#heap_kg=40+kg&moisture_pct_wet=3+%25", ["heap_kg", "moisture_pct_wet"]), [
    ["heap_kg", "40 kg"],
    ["moisture_pct_wet", "3 %"],
  ]);
});

test("a yes is written as yes, and a file by its name", () => {
  assert.deepEqual(figuresIn(hashOf(addressOf(PAGE, [["cope", true], ["mesh", { upload: "hook.stl" }]])), ["cope", "mesh"]), [
    ["cope", "yes"],
    ["mesh", "hook.stl"],
  ]); // prettier-ignore
});

test("what a form does not know is left out of its figures", () => {
  assert.deepEqual(figuresIn("#record&heap_kg=1&other=2", ["heap_kg"]), [["heap_kg", "1"]]);
  assert.deepEqual(figuresIn("", ["heap_kg"]), []);
});

test("what a form does not know stays with the link, and the name of a place is no link", () => {
  assert.deepEqual(othersIn("#heap_kg=1&metl=brass&bin=3&unit-bin=kg&unit-heap_kg=kg", ["heap_kg"]), [
    ["metl", "brass"],
    ["bin", { value: "3", unit: "kg" }],
  ]);
  assert.deepEqual(othersIn("#record", ["heap_kg"]), []);
  assert.deepEqual(othersIn("", []), []);
});

test("a page without inputs has an address without a #", () => {
  assert.equal(addressOf(PAGE, []), PAGE);
});

test("a sentence leaves out what an answer does not have", () => {
  assert.equal(sentenceOf({ state: STATE, lead: LEAD }), "temper. Add now 310 g. 530 g at most. It needs water.");
  assert.equal(sentenceOf({ state: STATE, lead: { ...LEAD, then: "", sentence: "" } }), "temper. Add now 310 g");
});

test("an answer as text has each figure with its range and basis, all cautions, and the address", () => {
  const shown = [
    { word: "moisture_pct_wet", label: "Moisture", text: "1.8 %", range: "1.4 to 2.2 %", basis: "of the wet mass" },
    { word: "verdict", label: "Verdict", text: "temper", range: "", basis: "" },
  ];
  const answer = {
    state: STATE,
    lead: LEAD,
    todo: [
      { text: "First water", amount: "310 g" },
      { text: "Mull it", amount: "" },
    ],
    shown,
    steps: [],
    cautions: ["Dust: wear a mask."],
    remarks: ["One remark."],
  };
  const lines = asText("Temper", [["Heap", "25,5 kg"]], answer, PAGE).split("\n");
  assert.deepEqual(lines, [
    "Temper",
    "Inputs:",
    "  Heap: 25,5 kg",
    "Answer: temper. Add now 310 g. 530 g at most. It needs water.",
    "What to do:",
    "  1. First water: 310 g",
    "  2. Mull it",
    "  Moisture: 1.8 % (likely range 1.4 to 2.2 %), of the wet mass",
    "  Verdict: temper",
    "A likely range holds the true figure 19 times in 20.",
    "Dust: wear a mask.",
    "One remark.",
    PAGE,
  ]);
});
