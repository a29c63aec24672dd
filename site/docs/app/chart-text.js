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
 * empty.
 * @param {Pick<Chart, "series" | "band">} chart
 */
export function tableRows({ series, band }) {
  const columns = [...series, ...band].map(({ points }) => new Map(points));
  const places = new Set(columns.flatMap((column) => Array.from(column.keys())));
  const inOrder = Array.from(places).sort((a, b) => a - b);
  return inOrder.map((x) => [chartNumber(x), ...columns.map((column) => chartNumber(column.get(x)))]);
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
function describedLine({ label, points }, unit) {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return `${label}: no points.`;
  return `${label}: from ${chartNumber(first[1])} to ${`${chartNumber(last[1])} ${unit}`.trim()}.`;
}
