// @ts-check
/** The paths of a chart: lines, steps, bars, points with their ends, marks and bands. */

import { area, curveMonotoneX, line } from "d3-shape";
import { BARS, dotAt, MARKS, POINTS } from "./chart-labels.js";

/** @import {Panel, Series} from "./answer-types.js" */
/** @import {Point, Scale} from "./chart-drawing.js" */
/**
 * @typedef {{x: Scale, y: Scale, step: number, em: number, top: number}} Frame the scales, the distance of two bars,
 *   and where marks stand
 */

/** The part of the space between two bars that a bar fills. */
const BAR_SHARE = 0.72;
const DOT_EM = 0.3;
const CAP_EM = 0.2;
const MARK_EM = 0.36;

/**
 * The path of a series.
 * @param {Series} series
 * @param {Frame} frame
 */
export function pathOf(series, frame) {
  const { x, y } = frame;
  const { points, shape } = series;
  if (shape === "bars") return barsPath(points, x, y, (frame.step * BAR_SHARE) / 2);
  if (shape === "points") return pointsPath(series, frame);
  if (shape === "marks") return marksPath(points, frame);
  const drawn = line()
    .x(([at]) => x(at))
    .y(([, value]) => y(value));
  return (shape === "steps" ? drawn : drawn.curve(curveMonotoneX))(points);
}

/**
 * The likely range of a line, between its lower and its upper edge. Along steps its edges are straight.
 * @param {Panel} panel
 * @param {Frame} frame
 */
export function bandPath({ band: [low, high], series }, { x, y }) {
  const upper = high.points;
  const edge = low.points.map(([at, value], place) => /** @type {const} */ ([at, value, upper[place]?.[1] ?? value]));
  const between = /** @type {import("d3-shape").Area<readonly [number, number, number]>} */ (
    /** @type {unknown} */ (area())
  )
    .x(([at]) => x(at))
    .y0(([, value]) => y(value))
    .y1(([, , value]) => y(value));
  const isSteps = series.some(({ shape }) => shape === "steps");
  return (isSteps ? between : between.curve(curveMonotoneX))(edge);
}

/**
 * The class of a series, by its place among the lines.
 * @param {Pick<Panel, "series">} panel
 * @param {number} at
 */
export function classOf({ series }, at) {
  const own = { bars: BARS, points: POINTS, marks: MARKS }[series[at].shape];
  if (own) return own;
  const lines = series.slice(0, at + 1).filter(({ shape }) => shape === "line" || shape === "steps");
  const steps = series[at].shape === "steps" ? " chart-steps" : "";
  return `chart-line chart-line-${lines.length}${steps}`;
}

/**
 * Bars of one width, each around its own place.
 * @param {Point[]} points
 * @param {Scale} x
 * @param {Scale} y
 * @param {number} half
 */
function barsPath(points, x, y, half) {
  return points.map(([at, value]) => `M${x(at) - half},${y(0)}V${y(value)}H${x(at) + half}V${y(0)}Z`).join("");
}

/**
 * A dot for each point, with a bar from its low to its high end.
 * @param {Series} series
 * @param {Frame} frame
 */
function pointsPath({ points, ends }, { x, y, em }) {
  const [radius, cap] = [DOT_EM * em, CAP_EM * em];
  const dots = points.map(([at, value]) => dotAt(x(at), y(value), radius));
  const bars = ends.map(([low, high], place) => {
    const at = x(points[place][0]);
    return `M${at - cap},${y(low)}h${2 * cap}M${at},${y(low)}V${y(high)}M${at - cap},${y(high)}h${2 * cap}`;
  });
  return [...bars, ...dots].join("");
}

/**
 * A small wedge above the frame for each place.
 * @param {Point[]} points
 * @param {Frame} frame
 */
function marksPath(points, { x, em, top }) {
  const half = MARK_EM * em;
  return points.map(([at]) => `M${x(at)},${top}l${-half},${-1.7 * half}h${2 * half}Z`).join("");
}
