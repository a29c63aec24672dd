// @ts-check
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { finderOf, piecesOf } from "../../site/docs/app/term-marks.js";

/** @type {{text: string, marked: string[], why: string}[]} */
const CASES = JSON.parse(readFileSync(new URL("../marking_cases.json", import.meta.url), "utf8"));
const FORMS = {
  heap: ["heap"],
  "dead-clay": ["dead clay"],
  "live-clay": ["live clay"],
  parting: ["parting", "parting line"],
  "parting-dust": ["parting dust"],
  riddle: ["riddle", "riddled", "riddling"],
  head: ["head", "head of metal"],
  drag: ["drag"],
  core: ["core", "cores"],
  vent: ["vent", "vents"],
  "grain-fineness-number": ["grain fineness number", "fineness number"],
  gate: ["gate", "gates"],
  choke: ["choke"],
  riser: ["riser", "risers"],
};
const finder = finderOf(Object.entries(FORMS).map(([key, forms]) => ({ key, name: forms[0], forms, meaning: "" })));

for (const { text, marked, why } of CASES) {
  test(`a text is cut at its trade words: ${why}`, () => {
    const pieces = piecesOf(text, finder, new Set());
    assert.deepEqual(
      pieces.flatMap(({ key }) => key ?? []),
      marked,
    );
    assert.equal(pieces.map((piece) => piece.text).join(""), text);
  });
}

test("a word that the part has already is not marked again", () => {
  const used = new Set(["heap"]);
  assert.deepEqual(piecesOf("heap", finder, used), [{ text: "heap" }]);
  assert.deepEqual(piecesOf("drag", finder, used), [{ text: "drag", key: "drag" }]);
  assert.deepEqual([...used], ["heap", "drag"]);
});
