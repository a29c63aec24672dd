// @ts-check
/** A chart drawn with D3: axes, band, limits, lines, bars and points, and a label beside each line. */

import { BARS, dotAt, LabelPlacer, POINTS } from "./chart-labels.js";
import { axisText, describedChart } from "./chart-text.js";
import { chartNumber } from "./figure-text.js";

/** @import {Chart, Series} from "./answer-types.js" */
/** @import {Box} from "./chart-labels.js" */
/**
 * @typedef {typeof import("d3-array") & typeof import("d3-axis") & typeof import("d3-scale") & typeof import("d3-selection") & typeof import("d3-shape")} D3
 * @typedef {import("d3-scale").ScaleContinuousNumeric<number, number>} Scale
 * @typedef {import("d3-selection").Selection<SVGSVGElement, undefined, null, undefined>} Drawing
 * @typedef {[number, number]} Point
 */

/** The radius of a single point, in em. */
const POINT_RADIUS = 0.35;
/** The part of the space between two bars that a bar fills. */
const BAR_SHARE = 0.72;

/**
 * @param {D3} d3
 * @param {HTMLElement} plot
 * @param {Chart} chart
 */
export function drawChart(d3, plot, chart) {
  const em = parseFloat(getComputedStyle(plot).fontSize);
  const size = sizeFor(plot.clientWidth, em);
  const svg = emptyDrawing(d3, chart, size);
  plot.replaceChildren(/** @type {SVGSVGElement} */ (svg.node()));

  const y = d3
    .scaleLinear()
    .domain(rangeOf(d3, chart, "y"))
    .nice();
  const yTicks = y.ticks(Math.max(3, Math.round(size.height / (3 * em))));
  const box = boxFor(size, em, Math.max(...yTicks.map((tick) => chartNumber(tick).length)));
  y.range([box.bottom, box.top]);
  const { x, step } = scaleAlongX(d3, chart, box);
  drawAxes(d3, svg, { chart, box, em, x, y, yTicks, height: size.height });

  if (chart.band.length === 2) drawBand(d3, svg, chart.band, x, y);
  const limits = chart.limits.map((limit) => {
    /** @type {Point[]} */
    const upright = [[x(limit.at), box.bottom], [x(limit.at), box.top]]; // prettier-ignore
    /** @type {Point[]} */
    const level = [[box.left, y(limit.at)], [box.right, y(limit.at)]]; // prettier-ignore
    return drawPath(svg, "chart-limit", d3.line()(limit.axis === "x" ? upright : level));
  });
  const line = d3
    .line()
    .x(([at]) => x(at))
    .y(([, value]) => y(value))
    .curve(d3.curveMonotoneX);
  const lines = chart.series.map(({ points, shape }, at) => {
    const drawn = {
      bars: () => barsPath(points, x, y, (step * BAR_SHARE) / 2),
      points: () => points.map(([left, value]) => dotAt(x(left), y(value), POINT_RADIUS * em)).join(""),
      line: () => line(points),
    };
    return drawPath(svg, classOf(chart, at), drawn[/** @type {keyof typeof drawn} */ (shape)]());
  });

  const placer = new LabelPlacer(/** @type {SVGSVGElement} */ (svg.node()), box, em, [...lines, ...limits]);
  chart.limits.forEach(({ label }, at) => placer.add(limits[at], label, ""));
  chart.series.forEach(({ label }, at) => placer.add(lines[at], label, classOf(chart, at)));
  placer.place();
}

/**
 * @param {number} width
 * @param {number} em
 */
function sizeFor(width, em) {
  return { width, height: Math.round(Math.min(Math.max(width * 0.62, 17 * em), 22 * em)) };
}

/**
 * Where the lines run, inside the axes.
 * @param {{width: number, height: number}} size
 * @param {number} em
 * @param {number} widest how many characters the longest number beside the y axis has
 * @returns {Box}
 */
function boxFor({ width, height }, em, widest) {
  return { left: (0.62 * widest + 0.7) * em, top: 2.1 * em, right: width - 0.8 * em, bottom: height - 3.1 * em };
}

/**
 * @param {D3} d3
 * @param {Chart} chart
 * @param {{width: number, height: number}} size
 * @returns {Drawing}
 */
function emptyDrawing(d3, chart, { width, height }) {
  const id = `chart-${chart.name}`;
  const svg = d3
    .create("svg")
    .attr("class", "chart-drawing")
    .attr("viewBox", `0 0 ${width} ${height}`)
    .attr("role", "img")
    .attr("aria-labelledby", `${id}-title ${id}-desc`);
  svg.append("title").attr("id", `${id}-title`).text(chart.title);
  svg.append("desc").attr("id", `${id}-desc`).text(describedChart(chart));
  return svg;
}

/**
 * @param {D3} d3
 * @param {Drawing} svg
 * @param {{chart: Chart, box: Box, em: number, x: Scale, y: Scale, yTicks: number[], height: number}} parts
 */
function drawAxes(d3, svg, { chart, box, em, x, y, yTicks, height }) {
  const number = (/** @type {import("d3-scale").NumberValue} */ value) => chartNumber(Number(value));
  const most = Math.max(2, Math.floor((box.right - box.left) / (4.2 * em)));
  const across = d3
    .axisBottom(x)
    .tickValues(ticksAlongX(x, barPlaces(chart), most, 0.4 * em))
    .tickFormat(number)
    .tickSizeInner(0.35 * em)
    .tickSizeOuter(0)
    .tickPadding(0.25 * em);
  const up = d3
    .axisLeft(y)
    .tickValues(yTicks)
    .tickFormat(number)
    .tickSize(box.left - box.right)
    .tickPadding(0.35 * em);
  svg.append("g").attr("class", "chart-axis chart-grid").attr("transform", `translate(${box.left},0)`).call(up);
  svg.append("g").attr("class", "chart-axis").attr("transform", `translate(0,${box.bottom})`).call(across);
  const named = (/** @type {number} */ left, /** @type {number} */ top, /** @type {string} */ text) =>
    svg.append("text").attr("class", "chart-name").attr("x", left).attr("y", top).text(text);
  named(0, 1.1 * em, axisText(chart.y));
  named(box.right, height - 0.4 * em, axisText(chart.x)).attr("text-anchor", "end");
}

/**
 * @param {Drawing} svg
 * @param {string} name
 * @param {string | null} path
 */
function drawPath(svg, name, path) {
  return /** @type {SVGPathElement} */ (svg.append("path").attr("class", name).attr("d", path).node());
}

/**
 * The likely range of a line, between its lower and its upper edge.
 * @param {D3} d3
 * @param {Drawing} svg
 * @param {Series[]} band
 * @param {Scale} x
 * @param {Scale} y
 */
function drawBand(d3, svg, [low, high], x, y) {
  const upper = new Map(high.points);
  const area = d3
    .area()
    .x(([at]) => x(at))
    .y0(([, value]) => y(value))
    .y1(([at, value]) => y(upper.get(at) ?? value))
    .curve(d3.curveMonotoneX);
  drawPath(svg, "chart-band", area(low.points));
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
 * The class of a series, by its place among those of its shape.
 * @param {Chart} chart
 * @param {number} at
 */
function classOf({ series }, at) {
  if (series[at].shape === "bars") return BARS;
  if (series[at].shape === "points") return POINTS;
  const lines = series.slice(0, at + 1).filter(({ shape }) => shape === "line");
  return `chart-line chart-line-${lines.length}`;
}

/**
 * The scale along x, and the least distance between two bars on it.
 * @param {D3} d3
 * @param {Chart} chart
 * @param {Box} box
 * @returns {{x: Scale, step: number}}
 */
function scaleAlongX(d3, chart, box) {
  const plain = chart.x.scale === "log" ? d3.scaleLog() : d3.scaleLinear();
  const x = plain.domain(rangeOf(d3, chart, "x")).range([box.left, box.right]);
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
 * The places of the bars, from left to right.
 * @param {Pick<Chart, "series">} chart
 */
function barPlaces({ series }) {
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
 * The least and the greatest of all lines and limits along one axis.
 * @param {D3} d3
 * @param {Chart} chart
 * @param {"x" | "y"} axis
 * @returns {Point}
 */
function rangeOf(d3, chart, axis) {
  const values = [...chart.series, ...chart.band].flatMap(({ points }) =>
    points.map(([x, y]) => (axis === "x" ? x : y)),
  );
  if (axis === "y" && barPlaces(chart).length) values.push(0);
  const limits = chart.limits.filter((limit) => limit.axis === axis).map(({ at }) => at);
  const [least = 0, most = 0] = d3.extent([...values, ...limits]);
  if (least < most) return [least, most];
  if (axis === "x" && chart.x.scale === "log") return [(least || 1) / 2, (least || 1) * 2];
  return [least - 1, least + 1];
}
