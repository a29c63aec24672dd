// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { ticksAlongX } from "../../site/docs/app/chart-drawing.js";
import { dotAt, halves, overlap } from "../../site/docs/app/chart-labels.js";
import { axisText, describedChart, tableRows } from "../../site/docs/app/chart-text.js";

/** @typedef {import("../../site/docs/app/answer-types.js").Series} Series */

/** @type {Series} */
const CLAY = { label: "Live clay", shape: "line", points: [[0, 7.5], [10, 6.25]] }; // prettier-ignore
/** @type {Series} */
const DEAD = { label: "Dead clay", shape: "line", points: [[5, 1], [10, 2]] }; // prettier-ignore

test("the table has a row for each place, in order, and stays empty where a line has no point", () => {
  assert.deepEqual(tableRows({ series: [CLAY], band: [DEAD] }), [
    ["0", "7.5", ""],
    ["5", "", "1"],
    ["10", "6.25", "2"],
  ]);
});

test("a chart in words gives each line its ends and unit, and explains its band", () => {
  const y = { label: "Clay", unit: "%", scale: "linear" };
  assert.equal(
    describedChart({ sentence: "Clay falls.", series: [CLAY], band: [], y }),
    "Clay falls. Live clay: from 7.5 to 6.25 %. The table below has the numbers.",
  );
  const banded = describedChart({ sentence: "Clay falls.", series: [], band: [CLAY, DEAD], y });
  assert.match(banded, /likely range \(19 times in 20\)/);
});

test("points at one place share a row, and are counted in words", () => {
  /** @type {Series} */
  const own = { label: "Own pairs", shape: "points", points: [[3, 41], [3, 44], [4, 60]] }; // prettier-ignore
  assert.deepEqual(tableRows({ series: [own], band: [] }), [
    ["3", "41; 44"],
    ["4", "60"],
  ]);
  const y = { label: "Compactability", unit: "%", scale: "linear" };
  assert.match(describedChart({ sentence: "", series: [own], band: [], y }), /Own pairs: 3 in all\./);
});

test("a point is drawn as a circle of two half turns", () => {
  assert.equal(dotAt(10, 20, 3), "M7,20a3,3 0 1 0 6,0a3,3 0 1 0 -6,0Z");
});

test("a line without points says so", () => {
  const y = { label: "", unit: "", scale: "linear" };
  const empty = { label: "Live clay", shape: "line", points: [] };
  assert.match(describedChart({ sentence: "", series: [empty], band: [], y }), /Live clay: no points\./);
});

test("an axis is its label and its unit, if it has one", () => {
  assert.equal(axisText({ label: "Time", unit: "min", scale: "log" }), "Time, min");
  assert.equal(axisText({ label: "Casts", unit: "", scale: "linear" }), "Casts");
});

test("a long label breaks at the space nearest to its middle", () => {
  assert.deepEqual(halves("live clay of the heap"), ["live clay", "of the heap"]);
  assert.deepEqual(halves("bentonite"), ["bentonite"]);
});

test("two boxes that only touch do not overlap", () => {
  const box = { left: 0, top: 0, right: 10, bottom: 10 };
  assert.equal(overlap(box, { left: 10, top: 0, right: 20, bottom: 10 }), false);
  assert.equal(overlap(box, { left: 9, top: 9, right: 20, bottom: 20 }), true);
});

test("the numbers under bars leave out those that have no room", () => {
  const scale = /** @type {any} */ (
    Object.assign((/** @type {number} */ at) => at, { range: () => [0, 100], ticks: () => [1] })
  );
  assert.deepEqual(ticksAlongX(scale, [0, 10, 20, 30, 100], 5, 0), [0, 20, 100]);
  assert.deepEqual(ticksAlongX(scale, [], 5, 0), [1]);
});
