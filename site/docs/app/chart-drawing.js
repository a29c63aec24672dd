// @ts-check
/** A chart drawn with D3: axes, bands, limits and series in one panel or several, and a label beside each line. */

import { axisBottom, axisLeft } from "d3-axis";
import { scaleLinear } from "d3-scale";
import { create } from "d3-selection";
import { line } from "d3-shape";
import { LabelPlacer, drawLegend } from "./chart-labels.js";
import { panelsOf, rangeOf, scaleAlongX, ticksOfX } from "./chart-scales.js";
import { bandPath, classOf, pathOf } from "./chart-shapes.js";
import { axisText, describedChart } from "./chart-text.js";
import { axisNumber } from "./figure-text.js";

/** @import {Chart, Panel} from "./answer-types.js" */
/** @import {Box} from "./chart-labels.js" */
/**
 * @typedef {import("d3-scale").ScaleContinuousNumeric<number, number>} Scale
 * @typedef {import("d3-selection").Selection<SVGSVGElement, undefined, null, undefined>} Drawing
 * @typedef {[number, number]} Point
 * @typedef {{svg: SVGSVGElement, x: Scale, box: Box}} Drawn a drawing, its scale along x, and the frame of all panels
 * @typedef {{svg: Drawing, em: number, width: number, x: Scale, step: number, isAlone: boolean}} Sheet
 */

/** The height of one of several panels, and of the space above each, for marks, for the legend and below, in em. */
const [PANEL_EM, ABOVE_EM, MARKS_EM, LEGEND_EM, BELOW_EM] = [5.6, 2, 0.8, 1.7, 2.2];

/**
 * @param {HTMLElement} plot
 * @param {Chart} chart
 * @returns {Drawn}
 */
export function drawChart(plot, chart) {
  const em = parseFloat(getComputedStyle(plot).fontSize);
  const size = sizeFor(plot.clientWidth, em, chart);
  const drawing = emptyDrawing(chart, size);
  const svg = /** @type {SVGSVGElement} */ (drawing.node());
  plot.replaceChildren(svg);

  const panels = panelsOf(chart);
  const frames = framesFor(panels, size, em);
  const { x, step } = scaleAlongX(chart, frames[0].box);
  const isAlone = panels.length === 1;
  panels.forEach((panel, at) =>
    drawPanel(panel, frames[at], { svg: drawing, em, width: size.width, x, step, isAlone }),
  );
  if (!isAlone) drawLegend(svg, legendOf(panels), em);
  const box = { ...frames[0].box, bottom: frames[frames.length - 1].box.bottom };
  drawAcross(drawing, { chart, box, em, x, height: size.height });
  return { svg, x, box };
}

/**
 * @param {number} width
 * @param {number} em
 * @param {Chart} chart
 */
function sizeFor(width, em, chart) {
  if (!chart.below.length) return { width, height: Math.round(Math.min(Math.max(width * 0.62, 17 * em), 22 * em)) };
  const panels = 1 + chart.below.length;
  return { width, height: Math.round((LEGEND_EM + MARKS_EM + panels * (ABOVE_EM + PANEL_EM) + BELOW_EM) * em) };
}

/**
 * Where the lines of each panel run, inside the axes, and its scale along y.
 * @param {Panel[]} panels
 * @param {{width: number, height: number}} size
 * @param {number} em
 * @returns {{box: Box, y: Scale, ticks: number[]}[]}
 */
function framesFor(panels, { width, height }, em) {
  const isAlone = panels.length === 1;
  const heights = panels.map((_, at) => {
    if (isAlone) return { top: 2.1 * em, bottom: height - 3.1 * em };
    const top = (LEGEND_EM + MARKS_EM + ABOVE_EM + at * (PANEL_EM + ABOVE_EM)) * em;
    return { top, bottom: top + PANEL_EM * em };
  });
  const ups = panels.map((panel) => {
    const y = scaleLinear()
      .domain(rangeOf([panel], "y"))
      .nice(isAlone ? undefined : 3);
    return { y, ticks: y.ticks(isAlone ? Math.max(3, Math.round(height / (3 * em))) : 3) };
  });
  const widest = Math.max(...ups.flatMap(({ ticks }) => ticks.map((tick) => axisNumber(ticks)(tick).length)));
  const sides = { left: (0.62 * widest + 0.7) * em, right: width - 0.8 * em };
  return ups.map(({ y, ticks }, at) => {
    const box = { ...sides, ...heights[at] };
    return { box, ticks, y: y.range([box.bottom, box.top]) };
  });
}

/**
 * @param {Panel} panel
 * @param {{box: Box, y: Scale, ticks: number[]}} frame
 * @param {Sheet} sheet
 */
function drawPanel(panel, { box, y, ticks }, { svg, em, x, step, isAlone }) {
  drawUp(svg, { panel, box, em, y, ticks, isAlone });
  const frame = { x, y, step, em, top: box.top - 0.1 * em };
  if (panel.band.length === 2) drawPath(svg, "chart-band", bandPath(panel, frame));
  const limits = panel.limits.map((limit) => {
    /** @type {Point[]} */
    const upright = [[x(limit.at), box.bottom], [x(limit.at), box.top]]; // prettier-ignore
    /** @type {Point[]} */
    const level = [[box.left, y(limit.at)], [box.right, y(limit.at)]]; // prettier-ignore
    return drawPath(svg, "chart-limit", line()(limit.axis === "x" ? upright : level));
  });
  const lines = panel.series.map((series, at) => drawPath(svg, classOf(panel, at), pathOf(series, frame)));

  const placer = new LabelPlacer(/** @type {SVGSVGElement} */ (svg.node()), box, em, [...lines, ...limits]);
  panel.limits.forEach(({ label }, at) => placer.add(limits[at], label, ""));
  if (isAlone) panel.series.forEach(({ label }, at) => placer.add(lines[at], label, classOf(panel, at)));
  placer.place();
}

/**
 * The label and the class of each kind of series, once.
 * @param {Panel[]} panels
 * @returns {[string, string][]}
 */
function legendOf(panels) {
  const named = panels.flatMap((panel) =>
    panel.series.map(({ label }, at) => /** @type {[string, string]} */ ([label, classOf(panel, at)])),
  );
  return Array.from(new Map(named));
}

/**
 * @param {Chart} chart
 * @param {{width: number, height: number}} size
 * @returns {Drawing}
 */
function emptyDrawing(chart, { width, height }) {
  const id = `chart-${chart.name}`;
  const svg = create("svg")
    .attr("class", "chart-drawing")
    .attr("viewBox", `0 0 ${width} ${height}`)
    .attr("role", "img")
    .attr("aria-labelledby", `${id}-title ${id}-desc`);
  svg.append("title").attr("id", `${id}-title`).text(chart.title);
  svg.append("desc").attr("id", `${id}-desc`).text(describedChart(chart));
  return svg;
}

/**
 * The y axis of a panel, with its name above it.
 * @param {Drawing} svg
 * @param {{panel: Panel, box: Box, em: number, y: Scale, ticks: number[], isAlone: boolean}} parts
 */
function drawUp(svg, { panel, box, em, y, ticks, isAlone }) {
  const up = axisLeft(y)
    .tickValues(ticks)
    .tickFormat((value) => axisNumber(ticks)(Number(value)))
    .tickSize(box.left - box.right)
    .tickPadding(0.35 * em);
  svg.append("g").attr("class", "chart-axis chart-grid").attr("transform", `translate(${box.left},0)`).call(up);
  const marks = panel.series.some(({ shape }) => shape === "marks") ? MARKS_EM : 0;
  drawName(svg, 0, isAlone ? 1.1 * em : box.top - (0.8 + marks) * em, axisText(panel.y));
}

/**
 * The x axis of all panels, with its name below it unless its numbers are dates.
 * @param {Drawing} svg
 * @param {{chart: Chart, box: Box, em: number, x: Scale, height: number}} parts
 */
function drawAcross(svg, { chart, box, em, x, height }) {
  const isTime = chart.x.scale === "time";
  const most = Math.max(2, Math.floor((box.right - box.left) / ((isTime ? 5 : 4.2) * em)));
  const ticks = ticksOfX(chart, x, { most, gap: 0.4 * em, edge: 1.7 * em });
  const across = axisBottom(x)
    .tickValues(ticks.places)
    .tickFormat((value) => ticks.text(Number(value)))
    .tickSizeInner(0.35 * em)
    .tickSizeOuter(0)
    .tickPadding(0.25 * em);
  svg.append("g").attr("class", "chart-axis").attr("transform", `translate(0,${box.bottom})`).call(across);
  if (!isTime) drawName(svg, box.right, height - 0.4 * em, axisText(chart.x)).attr("text-anchor", "end");
}

/**
 * @param {Drawing} svg
 * @param {number} left
 * @param {number} top
 * @param {string} text
 */
function drawName(svg, left, top, text) {
  return svg.append("text").attr("class", "chart-name").attr("x", left).attr("y", top).text(text);
}

/**
 * @param {Drawing} svg
 * @param {string} name
 * @param {string | null} path
 */
function drawPath(svg, name, path) {
  return /** @type {SVGPathElement} */ (svg.append("path").attr("class", name).attr("d", path).node());
}
