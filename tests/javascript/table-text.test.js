// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { keyInBox } from "../../site/docs/app/own-rows.js";
import { asTable, boxText, fromJson, repeatsName, rowsIn, tableIn } from "../../site/docs/app/table-text.js";
import { withUnit } from "../../site/docs/app/amount-text.js";

test("rows come back from their JSON, and no text means no rows", () => {
  assert.deepEqual(rowsIn('[{"kg":"30"},{"kg":"10"}]'), [{ kg: "30" }, { kg: "10" }]);
  assert.deepEqual(rowsIn(""), []);
});

test("a text that is no list of rows has no rows", () => {
  for (const text of ["30 kg", '{"kg":"30"}', "[1, 2]", "[[1]]", "[null]", '[{"kg":']) {
    assert.equal(rowsIn(text), null, text);
  }
});

test("a table is read from JSON, and from pairs as a person writes them", () => {
  assert.deepEqual(tableIn('{"50": "21.4", "pan": "0.2"}'), [["50", "21.4"], ["pan", "0.2"]]); // prettier-ignore
  assert.deepEqual(tableIn("50: 21.4; pan: 0.2"), [["50", "21.4"], ["pan", "0.2"]]); // prettier-ignore
  assert.deepEqual(tableIn("50: 3,5\npan: 1"), [["50", "3,5"], ["pan", "1"]]); // prettier-ignore
});

test("a comma ends a pair only in front of the next key", () => {
  assert.deepEqual(tableIn("50: 3,5, pan: 1"), [["50", "3,5"], ["pan", "1"]]); // prettier-ignore
  assert.deepEqual(tableIn("0,8 mm: 3, No. 50: 2"), [["0,8 mm", "3"], ["No. 50", "2"]]); // prettier-ignore
});

test("a text without a key has no table", () => {
  for (const text of ["21.4", "50: 1; 3", '["a"]', "{broken"]) assert.equal(tableIn(text), null, text);
  assert.equal(tableIn(7), null);
});

test("a key that comes twice keeps both of its values", () => {
  assert.deepEqual(asTable([["50", "1"], ["50", "2"]]), [["50", "1"], ["50", "2"]]); // prettier-ignore
  assert.deepEqual(asTable([["50", "1"], ["pan", "2"]]), { 50: "1", pan: "2" }); // prettier-ignore
});

test("a box holds a text, a number or an amount, and nothing larger", () => {
  assert.equal(boxText({ value: 3, unit: "kg" }), "3 kg");
  assert.equal(boxText(3), "3");
  assert.equal(boxText(null), "");
  assert.equal(boxText({ a: 1 }), undefined);
  assert.equal(boxText([1]), undefined);
});

test("a damaged JSON text has no value, and null is a value", () => {
  assert.equal(fromJson("{"), undefined);
  assert.equal(fromJson("null"), null);
});

test("an own sieve keeps its opening through box and key", () => {
  for (const typed of ["0.8", "8e-1", "0,8", "No. 45", "300 µm", "1/32 in", "pan"]) {
    const key = withUnit(typed, "mm");
    assert.equal(keyInBox(key, "mm", "No."), typed, typed);
  }
});

test("a bare number as a key is the number of a sieve", () => {
  assert.equal(keyInBox("45", "mm", "No."), "No. 45");
  assert.equal(keyInBox("", "mm", "No."), "");
  assert.equal(keyInBox("1 in 2 mm", "mm", "No."), "1 in 2 mm", "only a figure alone leaves its unit to the box");
});

test("a name that stands twice in one object is found", () => {
  const twice = (/** @type {string} */ text) => repeatsName(text, JSON.parse(text));
  assert.ok(twice('{"a": {"b": 1, "b": 2}}'));
  assert.ok(!twice('[{"a": "b\\": c", "__proto__": {"a": "x:"}}, {"a": [":", "d"]}]'));
});
