// @ts-check
/** A chart in words and numbers. */

import { chartNumber, numberWithRange } from "./figure-text.js";
import { dateText } from "./time-text.js";

/** @import {Axis, Chart, Panel, Series} from "./answer-types.js" */

const SECOND_MS = 1000;

/** @param {Axis} axis */
export function axisText({ label, unit }) {
  return [label, unit].filter(Boolean).join(", ");
}

/**
 * The head of the table of a chart: the place along x and each line, or each panel where it has several.
 * @param {Chart} chart
 */
export function tableHead(chart) {
  if (chart.below.length) return [chart, ...chart.below].map(({ y }) => axisText(y));
  return [axisText(chart.x), ...[...chart.series, ...chart.band].map(({ label }) => label)];
}

/**
 * The numbers of a chart as rows of a table: the place along x, then each line. A line without a point there stays
 * empty, and several points at one place stand together. A chart of several panels has two rows for each place where something happened: when that was, over all
 * columns, and each panel's figure there.
 * @param {Pick<Chart, "series" | "band" | "below" | "x">} chart
 */
export function tableRows(chart) {
  if (chart.below.length) return stopsOf(chart).flatMap((at) => [[whenText(chart, at)], figuresAt(chart, at)]);
  const columns = [...chart.series, ...chart.band].map(({ points }) => points);
  const places = new Set(columns.flatMap((points) => points.map(([x]) => x)));
  const inOrder = Array.from(places).sort((a, b) => a - b);
  return inOrder.map((x) => [placeText(chart.x, x), ...columns.map((points) => numbersAt(points, x))]);
}

/**
 * @param {[number, number][]} points
 * @param {number} place
 */
function numbersAt(points, place) {
  const there = points.filter(([x]) => x === place);
  return there.map(([, value]) => chartNumber(value)).join("; ");
}

/**
 * Where something happened along x, in order: where steps go up or down, at each point and mark, and at both ends.
 * @param {Pick<Chart, "series" | "below">} chart
 */
export function stopsOf({ series, below }) {
  const lines = [...series, ...below.flatMap((panel) => panel.series)];
  const places = lines.flatMap(({ points, shape }) => {
    const along = points.map(([x]) => x);
    if (shape !== "steps") return along;
    return along.filter((x, at) => at === 0 || at === along.length - 1 || x === along[at - 1]);
  });
  return Array.from(new Set(places)).sort((a, b) => a - b);
}

/**
 * When a place of a chart of several panels is, and what happened there.
 * @param {Pick<Chart, "series" | "below" | "x">} chart
 * @param {number} at
 */
function whenText({ series, below, x }, at) {
  return [placeText(x, at), ...textsAt([{ series }, ...below], at)].join(" · ");
}

/**
 * For each panel its figure at a place with its range, and what was read there.
 * @param {Pick<Chart, "series" | "band" | "below">} chart
 * @param {number} at
 */
function figuresAt({ series, band, below }, at) {
  return [{ series, band }, ...below].map((panel) => {
    const read = readAt(panel.series, at);
    return read ? `${figureAt(panel, at)}; read ${read}` : figureAt(panel, at);
  });
}

/**
 * The figure of a panel's first line at a place, with the range that its band has there.
 * @param {Pick<Panel, "series" | "band">} panel
 * @param {number} at
 */
export function figureAt({ series, band }, at) {
  const [value, low, high] = [series[0], ...band].map((line) => line && valueAt(line.points, at));
  if (value === undefined) return "";
  const range = low === undefined || high === undefined ? undefined : /** @type {[number, number]} */ ([low, high]);
  return minus(numberWithRange(value, range));
}

/**
 * What was read at a place, with its ends.
 * @param {Series[]} series
 * @param {number} at
 */
function readAt(series, at) {
  const found = series.flatMap(({ points, ends, shape }) => {
    const place = shape === "points" ? points.findIndex(([x]) => x === at) : -1;
    return place < 0 ? [] : [minus(numberWithRange(points[place][1], ends[place]))];
  });
  return found.join(", ");
}

/**
 * What happened at a place, each once.
 * @param {Pick<Panel, "series">[]} panels
 * @param {number} at
 */
function textsAt(panels, at) {
  const found = panels.flatMap(({ series }) =>
    series.flatMap(({ points, texts }) => texts.filter((text, place) => text && points[place][0] === at)),
  );
  return Array.from(new Set(found));
}

/**
 * The value of a line at a place: of two points there the later, and between two points on the straight line.
 * @param {[number, number][]} points
 * @param {number} at
 * @returns {number | undefined}
 */
export function valueAt(points, at) {
  const after = points.findIndex(([x]) => x > at);
  const before = points[after < 0 ? points.length - 1 : after - 1];
  if (!before || before[0] === at || after < 0) return before?.[1];
  const [x, value] = points[after];
  return before[1] + ((value - before[1]) * (at - before[0])) / (x - before[0]);
}

/**
 * What a chart of several panels shows at a place, for a person who taps it.
 * @param {Chart} chart
 * @param {number} at
 */
export function readingAt(chart, at) {
  const figures = [chart, ...chart.below].map((panel) => {
    const { label, unit } = panel.y;
    const read = readAt(panel.series, at);
    return [`${label}: ${together(figureAt(panel, at), unit)}`, ...(read ? [`read ${together(read, unit)}`] : [])].join(
      "; ",
    );
  });
  return { when: whenText(chart, at), figures };
}

/**
 * @param {Axis} axis
 * @param {number} at
 */
function placeText({ scale }, at) {
  return scale === "time" ? dateText(at * SECOND_MS) : chartNumber(at);
}

/**
 * A figure with its range and its unit, which no line break separates.
 * @param {string} figure
 * @param {string} unit
 */
function together(figure, unit) {
  return `${figure} ${unit}`.trim().replace(/ /g, "\u00A0");
}

/** @param {string} number */
function minus(number) {
  return number.replace(/^-/, "\u2212");
}

/**
 * A chart for someone who cannot see it.
 * @param {Pick<Chart, "sentence" | "series" | "band" | "y" | "below">} chart
 */
export function describedChart({ sentence, series, band, y, below }) {
  const lines = below.length
    ? [{ series, y }, ...below].map((panel) => describedLine(panel.series[0], panel.y.unit, panel.y.label))
    : series.map((line) => describedLine(line, y.unit, line.label));
  const range = band.length ? ["The shaded band is the likely range (19 times in 20)."] : [];
  return [sentence, ...lines, ...range, "The table below has the numbers."].join(" ");
}

/**
 * @param {Series} line
 * @param {string} unit
 * @param {string} label
 */
function describedLine({ points, shape }, unit, label) {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return `${label}: no points.`;
  if (shape === "points" || shape === "marks") return `${label}: ${points.length} in all.`;
  return `${label}: from ${chartNumber(first[1])} to ${`${chartNumber(last[1])} ${unit}`.trim()}.`;
}
