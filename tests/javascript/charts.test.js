// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { ticksAlongX } from "../../site/docs/app/chart-scales.js";
import { dotAt, halves, overlap } from "../../site/docs/app/chart-labels.js";
import { nearest } from "../../site/docs/app/chart-reading.js";
import {
  axisText,
  describedChart,
  readingAt,
  stopsOf,
  tableHead,
  tableRows,
  valueAt,
} from "../../site/docs/app/chart-text.js";
import { timeTickText } from "../../site/docs/app/time-text.js";

/** @typedef {import("../../site/docs/app/answer-types.js").Series} Series */

const PLAIN = { ends: [], texts: [] };
/** @type {Series} */
const CLAY = { ...PLAIN, label: "Live clay", shape: "line", points: [[0, 7.5], [10, 6.25]] }; // prettier-ignore
/** @type {Series} */
const DEAD = { ...PLAIN, label: "Dead clay", shape: "line", points: [[5, 1], [10, 2]] }; // prettier-ignore
const NUMBERS = { label: "Casts", unit: "", scale: "linear" };

test("the table has a row for each place, in order, and stays empty where a line has no point", () => {
  assert.deepEqual(tableRows({ series: [CLAY], band: [DEAD], below: [], x: NUMBERS }), [
    ["0", "7.5", ""],
    ["5", "", "1"],
    ["10", "6.25", "2"],
  ]);
});

test("a chart in words gives each line its ends and unit, and explains its band", () => {
  const y = { label: "Clay", unit: "%", scale: "linear" };
  assert.equal(
    describedChart({ sentence: "Clay falls.", series: [CLAY], band: [], y, below: [] }),
    "Clay falls. Live clay: from 7.5 to 6.25 %. The table below has the numbers.",
  );
  const banded = describedChart({ sentence: "Clay falls.", series: [], band: [CLAY, DEAD], y, below: [] });
  assert.match(banded, /likely range \(19 times in 20\)/);
});

test("points at one place share a row, and are counted in words", () => {
  /** @type {Series} */
  const own = { ...PLAIN, label: "Own pairs", shape: "points", points: [[3, 41], [3, 44], [4, 60]] }; // prettier-ignore
  assert.deepEqual(tableRows({ series: [own], band: [], below: [], x: NUMBERS }), [
    ["3", "41; 44"],
    ["4", "60"],
  ]);
  const y = { label: "Compactability", unit: "%", scale: "linear" };
  assert.match(describedChart({ sentence: "", series: [own], band: [], y, below: [] }), /Own pairs: 3 in all\./);
});

test("a point is drawn as a circle of two half turns", () => {
  assert.equal(dotAt(10, 20, 3), "M7,20a3,3 0 1 0 6,0a3,3 0 1 0 -6,0Z");
});

test("a line without points says so", () => {
  const y = { label: "", unit: "", scale: "linear" };
  const empty = { ...PLAIN, label: "Live clay", shape: "line", points: [] };
  assert.match(describedChart({ sentence: "", series: [empty], band: [], y, below: [] }), /Live clay: no points\./);
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

const DAY_S = 86400;
/** Noon of the 1st of March 2027, UTC. */
const NOON_S = Date.UTC(2027, 2, 1, 12) / 1000;

/** @param {number} days @returns {number} */
const after = (days) => NOON_S + days * DAY_S;

/** @returns {import("../../site/docs/app/answer-types.js").Chart} */
function season() {
  /** @type {Series} */
  const mass = {
    label: "the book",
    shape: "steps",
    points: [[after(0), 40], [after(2), 40], [after(2), 42], [after(6), 38]], // prettier-ignore
    ends: [],
    texts: ["New sand was mixed in", "", "The sand was tested", ""],
  };
  const tests = { ...PLAIN, label: "tests", shape: "points", points: [[after(2), 43]], ends: [[42.5, 43.5]] };
  const casts = { ...PLAIN, label: "casts", shape: "marks", points: [[after(3), 0]], texts: ["A cast was poured"] };
  const low = { ...PLAIN, label: "low end", shape: "line", points: [[after(0), 39], [after(2), 39], [after(2), 41], [after(6), 36]] }; // prettier-ignore
  const high = { ...low, label: "high end", points: [[after(0), 41], [after(2), 41], [after(2), 43], [after(6), 40]] }; // prettier-ignore
  const water = { ...mass, texts: [], points: mass.points.map(([at]) => [at, 3.5]) };
  return /** @type {any} */ ({
    name: "season",
    title: "The season",
    sentence: "The heap.",
    x: { label: "Date", unit: "", scale: "time" },
    y: { label: "Mass", unit: "kg", scale: "linear" },
    series: [mass, tests, casts],
    limits: [],
    band: [low, high],
    below: [{ y: { label: "Water", unit: "%", scale: "linear" }, series: [water], limits: [], band: [] }],
  });
}

test("a chart of several panels stops where something happened, at its tests and casts, and at both ends", () => {
  assert.deepEqual(stopsOf(season()), [0, 2, 3, 6].map(after));
});

test("its table has for each stop the date and what happened, then each panel with its range and what was read", () => {
  assert.deepEqual(tableHead(season()), ["Mass, kg", "Water, %"]);
  assert.deepEqual(tableRows(season()), [
    ["1 March 2027 · New sand was mixed in"],
    ["40.0 ± 1.0", "3.5"],
    ["3 March 2027 · The sand was tested"],
    ["42.0 ± 1.0; read 43.00 ± 0.50", "3.5"],
    ["4 March 2027 · A cast was poured"],
    ["41.0 ± 1.3", "3.5"],
    ["7 March 2027"],
    ["38.0 ± 2.0", "3.5"],
  ]);
});

test("of two points at one place the later counts, and between two points the straight line", () => {
  const [{ points }] = season().series;
  assert.equal(valueAt(points, after(2)), 42);
  assert.equal(valueAt(points, after(4)), 40);
  assert.equal(valueAt(points, after(6)), 38);
  assert.equal(valueAt(points, after(9)), 38);
  assert.equal(valueAt(points, after(-1)), undefined);
  assert.equal(valueAt([], after(0)), undefined);
});

test("a place is read with its date and the label of each panel", () => {
  const { when, figures } = readingAt(season(), after(2));
  assert.equal(when, "3 March 2027 · The sand was tested");
  const spaced = figures.map((text) => text.replace(/\u00A0/g, " "));
  assert.deepEqual(spaced, ["Mass: 42.0 ± 1.0 kg; read 43.00 ± 0.50 kg", "Water: 3.5 %"]);
});

test("in words, each panel has its own ends", () => {
  assert.match(describedChart(season()), /Mass: from 40 to 38 kg\. Water: from 3\.5 to 3\.5 %\./);
});

test("a tap reads the nearest stop, and of two that are as near the later", () => {
  assert.equal(nearest([0, 10, 20], 12), 1);
  assert.equal(nearest([0, 10, 20], 15), 2);
  assert.equal(nearest([5, 5], 0), 1);
});

test("dates on an axis are times of day on a short one, days in a season, and months over years", () => {
  const noon = new Date(2027, 2, 1, 12);
  assert.equal(timeTickText(noon, DAY_S * 1000), "12:00");
  assert.equal(timeTickText(noon, 200 * DAY_S * 1000), "1 Mar");
  assert.equal(timeTickText(noon, 900 * DAY_S * 1000), "Mar 2027");
});
