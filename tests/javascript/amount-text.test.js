// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { inBox, shownText, showsUnit, withUnit } from "../../site/docs/app/amount-text.js";

test("the exponent of a number is not a unit", () => {
  for (const text of ["5e2", "1.5E3", "2e-3", "5e+2"]) assert.equal(showsUnit(text), false, text);
});

test("letters, a percent sign and the signs for feet and inches are a unit", () => {
  for (const text of ["2 lb", "5e2 g", "6 %", "180°", "3' 4\"", "7½ in", "12 µm"]) {
    assert.equal(showsUnit(text), true, text);
  }
});

test("figures, fractions and a margin show no unit", () => {
  for (const text of ["25", "2,5", "35 000", "6.4 ± 0.3", "3-1/2", "½", "-4"]) {
    assert.equal(showsUnit(text), false, text);
  }
});

test("a unit follows only a text that shows none", () => {
  assert.equal(withUnit("5e2", "g"), "5e2 g");
  assert.equal(withUnit("3 lb 4 oz", "kg"), "3 lb 4 oz");
  assert.equal(withUnit("0.02", ""), "0.02");
  assert.equal(withUnit("", "kg"), "");
});

test("every kind of value has a text for people", () => {
  assert.equal(shownText({ value: "1.2", unit: "kg" }), "1.2 kg");
  assert.equal(shownText({ value: 1.2, unit: "kg" }), "1.2 kg");
  assert.equal(shownText({ value: "2 lb", unit: "kg" }), "2 lb");
  assert.equal(shownText({ upload: "hook.stl" }), "hook.stl");
  assert.equal(shownText(true), "yes");
  assert.equal(shownText(false), "no");
  assert.equal(shownText("aluminium"), "aluminium");
  assert.equal(shownText(undefined), "");
});

test("a figure of the library moves its unit to the box", () => {
  assert.deepEqual(inBox("43.6 ± 0.5 lb", ["kg", "g", "lb"]), { text: "43.6 ± 0.5", unit: "lb" });
  assert.deepEqual(inBox("2.5 %", ["%"]), { text: "2.5", unit: "%" });
  assert.deepEqual(inBox("140 x 55 x 12 mm", ["mm", "in"]), { text: "140 x 55 x 12", unit: "mm" });
});

test("a text in two units stays whole in the box", () => {
  assert.deepEqual(inBox("3 lb 4 oz", ["g", "kg", "oz", "lb"]), { text: "3 lb 4 oz", unit: "g" });
});

test("a bare figure is in the word's own unit, whatever unit the box showed before", () => {
  assert.deepEqual(inBox("25", ["kg", "g", "lb"]), { text: "25", unit: "kg" });
});

test("a text and its unit come back to the box as they were typed", () => {
  assert.deepEqual(inBox({ value: "5e2", unit: "g" }, ["kg", "g", "lb"]), { text: "5e2", unit: "g" });
  assert.deepEqual(inBox({ value: "3 lb 4 oz", unit: "kg" }, ["kg", "g", "lb"]), { text: "3 lb 4 oz", unit: "kg" });
});

test("a unit that the box does not offer stays in the text", () => {
  assert.deepEqual(inBox({ value: "5", unit: "oz" }, ["kg", "g", "lb"]), { text: "5 oz", unit: "kg" });
});

test("a word without a unit keeps its text", () => {
  assert.deepEqual(inBox("aluminium", []), { text: "aluminium", unit: undefined });
  assert.deepEqual(inBox(true, []), { text: "yes", unit: undefined });
});
