// @ts-check
/** The scales of a chart, and the places of the numbers along its axes. */

import { extent } from "d3-array";
import { scaleLinear, scaleLog, scaleTime } from "d3-scale";
import { axisNumber } from "./figure-text.js";
import { timeTickText } from "./time-text.js";

/** @import {Chart, Panel} from "./answer-types.js" */
/** @import {Box} from "./chart-labels.js" */
/** @import {Point, Scale} from "./chart-drawing.js" */

const SECOND_MS = 1000;

/**
 * All panels of a chart, from the top.
 * @param {Chart} chart
 * @returns {Panel[]}
 */
export function panelsOf(chart) {
  return [chart, ...chart.below];
}

/**
 * The scale along x, and the least distance between two bars on it.
 * @param {Chart} chart
 * @param {Box} box
 * @returns {{x: Scale, step: number}}
 */
export function scaleAlongX(chart, box) {
  const plain = chart.x.scale === "log" ? scaleLog() : scaleLinear();
  const range = rangeOf(panelsOf(chart), "x", chart.x.scale === "log");
  const x = plain.domain(range).range([box.left, box.right]);
  const places = barPlaces(chart);
  if (!places.length) return { x, step: 0 };
  const nearest = () => {
    const [left, right] = x.range();
    return Math.min(right - left, ...places.slice(1).map((at, before) => x(at) - x(places[before])));
  };
  const count = (box.right - box.left) / nearest();
  const margin = (box.right - box.left) / (count + 1) / 2;
  x.range([box.left + margin, box.right - margin]);
  return { x, step: nearest() };
}

/**
 * The numbers or dates along x: where they stand, and how one is written.
 * @param {Chart} chart
 * @param {Scale} x
 * @param {{most: number, gap: number, edge: number}} room how many there is room for, the least gap between two, and how
 *   near to the right end a date can stand
 * @returns {{places: number[], text: (at: number) => string}}
 */
export function ticksOfX(chart, x, { most, gap, edge }) {
  if (chart.x.scale !== "time") {
    const places = ticksAlongX(x, barPlaces(chart), most, gap);
    return { places, text: axisNumber(places) };
  }
  const [from, to] = x.domain().map((at) => at * SECOND_MS);
  const dates = scaleTime([from, to], [0, 1]).ticks(most);
  const span = to - from;
  return {
    places: dates.map((date) => date.getTime() / SECOND_MS).filter((at) => x(at) <= x.range()[1] - edge),
    text: (at) => timeTickText(new Date(at * SECOND_MS), span),
  };
}

/**
 * The places of the bars, from left to right.
 * @param {Pick<Chart, "series">} chart
 */
export function barPlaces({ series }) {
  const bars = series.filter(({ shape }) => shape === "bars");
  return Array.from(new Set(bars.flatMap(({ points }) => points.map(([at]) => at)))).sort((a, b) => a - b);
}

/**
 * Round numbers, or the places of bars, as many as there is room for.
 * @param {Scale} x
 * @param {number[]} places of the bars
 * @param {number} most
 * @param {number} gap
 */
export function ticksAlongX(x, places, most, gap) {
  if (!places.length) return x.ticks(most);
  const [left, right] = x.range();
  const room = (right - left) / most;
  let last = -Infinity;
  return places.filter((at) => {
    if (x(at) - last < room - gap) return false;
    last = x(at);
    return true;
  });
}

/**
 * The least and the greatest of all lines, their ends and limits along one axis.
 * @param {Panel[]} panels
 * @param {"x" | "y"} axis
 * @param {boolean} [isLog]
 * @returns {Point}
 */
export function rangeOf(panels, axis, isLog) {
  const values = panels.flatMap((panel) => valuesAlong(panel, axis));
  const [least = 0, most = 0] = extent(values);
  if (least < most) return [least, most];
  if (isLog) return [(least || 1) / 2, (least || 1) * 2];
  return [least - 1, least + 1];
}

/**
 * @param {Panel} panel
 * @param {"x" | "y"} axis
 */
function valuesAlong(panel, axis) {
  const limits = panel.limits.filter((limit) => limit.axis === axis).map(({ at }) => at);
  const lines = [...panel.series, ...panel.band];
  if (axis === "x") return [...limits, ...lines.flatMap(({ points }) => points.map(([x]) => x))];
  const ends = lines.flatMap((line) => line.ends.flat());
  const zero = barPlaces(panel).length ? [0] : [];
  const measured = lines.filter(({ shape }) => shape !== "marks");
  return [...limits, ...ends, ...zero, ...measured.flatMap(({ points }) => points.map(([, y]) => y))];
}
