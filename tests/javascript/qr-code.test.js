// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { cautionsText } from "../../site/docs/app/card-print.js";
import { LONGEST, codeAddress, pathOf, widthOf } from "../../site/docs/app/qr-code.js";
import { figuresIn } from "../../site/docs/app/share.js";

const PAGE = "https://sand.example/fit/";

/** @param {string[]} rows where # is a dark square */
const squares = (...rows) => ({
  size: rows.length,
  get: (/** @type {number} */ x, /** @type {number} */ y) => rows[y]?.[x] === "#",
});

test("each run of dark squares in a row is one step, four squares in from the corner", () => {
  assert.equal(pathOf(squares("##.", "...", "#.#")), "M4 4h2v1h-2zM4 6h1v1h-1zM6 6h1v1h-1z");
});

test("a run may reach the end of a row", () => {
  assert.equal(pathOf(squares("..", ".#")), "M5 5h1v1h-1z");
});

test("a code is at least 22 mm wide, then 0.45 mm a square with the quiet zone, and at most 36 mm", () => {
  assert.equal(widthOf(25), 22);
  assert.ok(Math.abs(widthOf(57) - 65 * 0.45) < 1e-9);
  assert.equal(widthOf(85), 36);
});

test("the address for a code reads as the same inputs, with fewer escapes", () => {
  /** @type {[string, unknown][]} */
  const given = [
    ["flasks", '[{"name": "wide (old)", "flask_length_mm": 380}]'],
    ["heap_kg", { value: "45", unit: "kg" }],
    ["retained", "50: 21,4; 70: 42"],
  ];
  const address = codeAddress(PAGE, given, given, { heap_kg: "lb" });
  const { hash } = new URL(address);
  const [[, flasks], ...others] = figuresIn(hash, ["flasks", "heap_kg", "retained"]);
  assert.deepEqual(others, given.slice(1));
  assert.equal(flasks, '[{"name":"wide (old)","flask_length_mm":380}]');
  assert.match(address, /:\+21,4;\+70:/);
  assert.doesNotMatch(address, /%3A|%2C|%3B/);
});

test("the unit that a box has anyway is left out, another stays", () => {
  /** @type {[string, unknown][]} */
  const given = [
    ["heap_kg", { value: "45", unit: "kg" }],
    ["head_mm", { value: "5", unit: "in" }],
  ];
  const units = { heap_kg: "kg", head_mm: "mm" };
  assert.equal(codeAddress(PAGE, given, given, units), `${PAGE}#heap_kg=45&head_mm=5&unit-head_mm=in`);
});

test("a text that is no JSON goes into the code as it is", () => {
  /** @type {[string, unknown][]} */
  const given = [["flasks", "[wide, 380"]];
  const { hash } = new URL(codeAddress(PAGE, given, given, {}));
  assert.deepEqual(figuresIn(hash, ["flasks"]), given);
});

/** @param {number} length of the whole address with one input of this name */
const filler = (length) => /** @type {[string, unknown]} */ (["a", "b".repeat(length - PAGE.length - "#a=".length)]);

test("inputs by default are left out only where the address would be too long", () => {
  const [metal, own] = [/** @type {[string, unknown]} */ (["metal", "aluminium"]), filler(LONGEST)];
  assert.equal(codeAddress(PAGE, [metal], [], {}), `${PAGE}#metal=aluminium`);
  assert.equal(codeAddress(PAGE, [metal, own], [own], {}).length, LONGEST);
});

test("an address that is too long even so gets no code", () => {
  const own = filler(LONGEST + 1);
  assert.equal(codeAddress(PAGE, [own], [own], {}), "");
});

test("a card names each caution once", () => {
  const cautions = ["Dust: wear a mask.", "Lifting: at most 25 kg: two people.", "Dust: keep it damp."];
  assert.equal(cautionsText(cautions), "Read on the page first: Dust · Lifting");
  assert.equal(cautionsText([]), "");
});
