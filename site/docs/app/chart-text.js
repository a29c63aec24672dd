// @ts-check
/** A chart in words and numbers. */

import { chartNumber } from "./figure-text.js";

/** @import {Axis, Chart, Series} from "./answer-types.js" */

/** @param {Axis} axis */
export function axisText({ label, unit }) {
  return [label, unit].filter(Boolean).join(", ");
}

/**
 * The numbers of a chart as rows of a table: the place along x, then each line. A line without a point there stays
 * empty, and several points at one place stand together.
 * @param {Pick<Chart, "series" | "band">} chart
 */
export function tableRows({ series, band }) {
  const columns = [...series, ...band].map(({ points }) => points);
  const places = new Set(columns.flatMap((points) => points.map(([x]) => x)));
  const inOrder = Array.from(places).sort((a, b) => a - b);
  return inOrder.map((x) => [chartNumber(x), ...columns.map((points) => textsAt(points, x))]);
}

/**
 * @param {[number, number][]} points
 * @param {number} place
 */
function textsAt(points, place) {
  const there = points.filter(([x]) => x === place);
  return there.map(([, value]) => chartNumber(value)).join("; ");
}

/**
 * A chart for someone who cannot see it.
 * @param {Pick<Chart, "sentence" | "series" | "band" | "y">} chart
 */
export function describedChart({ sentence, series, band, y }) {
  const lines = series.map((line) => describedLine(line, y.unit));
  const range = band.length ? ["The shaded band is the likely range (19 times in 20)."] : [];
  return [sentence, ...lines, ...range, "The table below has the numbers."].join(" ");
}

/**
 * @param {Series} line
 * @param {string} unit
 */
function describedLine({ label, points, shape }, unit) {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return `${label}: no points.`;
  if (shape === "points") return `${label}: ${points.length} in all.`;
  return `${label}: from ${chartNumber(first[1])} to ${`${chartNumber(last[1])} ${unit}`.trim()}.`;
}
