// @ts-check
import { BARS, Placer } from "./chart-labels.js";
import { all, fill, fresh, one } from "./dom.js";

/**
 * @typedef {{label: string, unit: string, scale?: "linear" | "log"}} Axis
 * @typedef {{label: string, points: [number, number][], shape?: "line" | "bars"}} Series
 * @typedef {{axis: "x" | "y", at: number, label: string}} Limit
 * @typedef {{name: string, title: string, sentence: string, x: Axis, y: Axis, series: Series[], limits: Limit[], band: Series[]}} Chart
 * @typedef {import("./chart-labels.js").Box} Box
 */

const LIBRARY = new URL("d3.min.js", import.meta.url).href;
const BAR_SHARE = 0.72;

/** @type {Promise<any> | undefined} */
let loading;

/** The charts of an answer: each is filled with its numbers at once, and drawn as soon as it has a width. */
export class Charts {
  /** @type {WeakMap<HTMLElement, string>} what each was drawn from, and how wide */
  #drawn = new WeakMap();

  /** @param {HTMLElement} place */
  constructor(place) {
    this.place = place;
    this.watch = new ResizeObserver((entries) => {
      for (const { target } of entries) this.#draw(/** @type {HTMLElement} */ (target.closest("[data-chart]")));
    });
    for (const figure of all(place, "[data-chart]")) this.watch.observe(one(figure, "[data-plot]"));
  }

  /** @param {Chart[]} charts */
  show(charts) {
    const stand = new Map(all(this.place, "[data-chart]").map((figure) => [chartOf(figure).name, figure]));
    const figures = charts.map((chart) => put(stand.get(chart.name) || fresh("chart"), chart));
    const same =
      figures.length === this.place.children.length &&
      figures.every((figure, at) => figure === this.place.children[at]);
    if (!same) this.place.replaceChildren(...figures);
    for (const figure of figures) {
      this.watch.observe(one(figure, "[data-plot]"));
      this.#draw(figure);
    }
  }

  /** @param {HTMLElement} figure */
  async #draw(figure) {
    const plot = one(figure, "[data-plot]");
    const made = `${plot.clientWidth} ${figure.dataset.chart}`;
    if (!plot.clientWidth || this.#drawn.get(figure) === made) return;
    this.#drawn.set(figure, made);
    try {
      draw(await library(), plot, chartOf(figure));
    } catch {
      this.#drawn.delete(figure);
      one(figure, "details").setAttribute("open", "");
    }
  }
}

/** The drawing library, asked for with the first chart. */
function library() {
  loading ??= new Promise((done, failed) => {
    const script = document.createElement("script");
    script.src = LIBRARY;
    script.addEventListener("load", () => done(/** @type {any} */ (globalThis).d3));
    script.addEventListener("error", () => {
      loading = undefined;
      failed(new Error("no drawing library"));
    });
    document.head.append(script);
  });
  return loading;
}

/** @param {HTMLElement} figure @returns {Chart} */
function chartOf(figure) {
  return JSON.parse(figure.dataset.chart || "{}");
}

/**
 * Put a chart's words and numbers into its figure.
 * @param {HTMLElement} figure
 * @param {Chart} chart
 */
function put(figure, chart) {
  const told = JSON.stringify(chart);
  if (figure.dataset.chart === told) return figure;
  figure.dataset.chart = told;
  fill(figure, { title: chart.title, sentence: chart.sentence, measured: axisWords(chart.y) });
  const lines = [...chart.series, ...chart.band];
  const columns = lines.map(({ points }) => new Map(points));
  const rows = Array.from(new Set(columns.flatMap((column) => Array.from(column.keys())))).sort((a, b) => a - b);
  one(figure, "thead").replaceChildren(
    line("tr", [cell("th", axisWords(chart.x), "col"), ...lines.map(({ label }) => cell("th", label, "col"))]),
  );
  one(figure, "tbody").replaceChildren(
    ...rows.map((x) =>
      line("tr", [cell("th", spoken(x), "row"), ...columns.map((column) => cell("td", spoken(column.get(x))))]),
    ),
  );
  one(figure, "[data-limits]").replaceChildren(
    ...chart.limits.map(({ axis, at, label }) => cell("li", `${label}: ${spoken(at)} ${chart[axis].unit}`.trim())),
  );
  return figure;
}

/** @param {string} name @param {HTMLElement[]} parts */
function line(name, parts) {
  const made = document.createElement(name);
  made.append(...parts);
  return made;
}

/** @param {string} name @param {string} words @param {string} [scope] */
function cell(name, words, scope) {
  const made = document.createElement(name);
  made.textContent = words;
  if (scope) made.setAttribute("scope", scope);
  return made;
}

/** @param {Axis} axis */
function axisWords({ label, unit }) {
  return [label, unit].filter(Boolean).join(", ");
}

/** A number of a chart in three figures. @param {number | undefined} value */
function spoken(value) {
  if (value === undefined) return "";
  const [whole, part] = String(Number(value.toPrecision(3)))
    .replace("-", "\u2212")
    .split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, "\u2009");
  return part ? `${grouped}.${part}` : grouped;
}

/** @param {any} d3 @param {HTMLElement} plot @param {Chart} chart */
function draw(d3, plot, chart) {
  const em = parseFloat(getComputedStyle(plot).fontSize);
  const width = plot.clientWidth;
  const height = Math.round(Math.min(Math.max(width * 0.62, 17 * em), 22 * em));
  const id = `chart-${chart.name}`;
  const svg = d3
    .create("svg")
    .attr("class", "chart-drawing")
    .attr("viewBox", `0 0 ${width} ${height}`)
    .attr("role", "img")
    .attr("aria-labelledby", `${id}-title ${id}-desc`);
  svg.append("title").attr("id", `${id}-title`).text(chart.title);
  svg.append("desc").attr("id", `${id}-desc`).text(described(chart));
  plot.replaceChildren(svg.node());

  const y = d3
    .scaleLinear()
    .domain(span(d3, chart, "y"))
    .nice();
  const yTicks = y.ticks(Math.max(3, Math.round(height / (3 * em))));
  const widest = Math.max(...yTicks.map((/** @type {number} */ tick) => spoken(tick).length));
  const box = { left: (0.62 * widest + 0.7) * em, top: 2.1 * em, right: width - 0.8 * em, bottom: height - 3.1 * em };
  y.range([box.bottom, box.top]);
  const { x, step } = alongX(d3, chart, box);
  const xTicks = ticksOf(x, chart, Math.max(2, Math.floor((box.right - box.left) / (4.2 * em))), 0.4 * em);
  const across = d3
    .axisBottom(x)
    .tickValues(xTicks)
    .tickFormat(spoken)
    .tickSizeInner(0.35 * em)
    .tickSizeOuter(0)
    .tickPadding(0.25 * em);
  const up = d3
    .axisLeft(y)
    .tickValues(yTicks)
    .tickFormat(spoken)
    .tickSize(box.left - box.right)
    .tickPadding(0.35 * em);
  svg.append("g").attr("class", "chart-axis chart-grid").attr("transform", `translate(${box.left},0)`).call(up);
  svg.append("g").attr("class", "chart-axis").attr("transform", `translate(0,${box.bottom})`).call(across);
  svg
    .append("text")
    .attr("class", "chart-name")
    .attr("x", 0)
    .attr("y", 1.1 * em)
    .text(axisWords(chart.y));
  svg
    .append("text")
    .attr("class", "chart-name")
    .attr("x", box.right)
    .attr("y", height - 0.4 * em)
    .attr("text-anchor", "end")
    .text(axisWords(chart.x));

  const path = d3
    .line()
    .x((/** @type {[number, number]} */ point) => x(point[0]))
    .y((/** @type {[number, number]} */ point) => y(point[1]))
    .curve(d3.curveMonotoneX);
  if (chart.band.length === 2) shade(d3, svg, chart.band, x, y);
  const limits = chart.limits.map((limit) => {
    const ends =
      limit.axis === "x"
        ? [
            [x(limit.at), box.bottom],
            [x(limit.at), box.top],
          ]
        : [
            [box.left, y(limit.at)],
            [box.right, y(limit.at)],
          ];
    return svg.append("path").attr("class", "chart-limit").attr("d", d3.line()(ends)).node();
  });
  const lines = chart.series.map(({ points, shape }, at) => {
    const d = shape === "bars" ? bars(points, x, y, (step * BAR_SHARE) / 2) : path(points);
    return svg.append("path").attr("class", classOf(chart, at)).attr("d", d).node();
  });
  const placer = new Placer(svg.node(), box, em, [...lines, ...limits]);
  chart.limits.forEach(({ label }, at) => placer.name(limits[at], label, ""));
  chart.series.forEach(({ label }, at) => placer.name(lines[at], label, classOf(chart, at)));
  placer.settle();
}

/**
 * A series is told apart by its place among those of its shape.
 * @param {Chart} chart
 * @param {number} at
 */
function classOf({ series }, at) {
  const { shape } = series[at];
  if (shape === "bars") return BARS;
  return `chart-line chart-line-${series.slice(0, at + 1).filter((other) => other.shape !== "bars").length}`;
}

/**
 * Bars of one width, each about its own place.
 * @param {[number, number][]} points
 * @param {any} x
 * @param {any} y
 * @param {number} half
 */
function bars(points, x, y, half) {
  return points.map(([at, value]) => `M${x(at) - half},${y(0)}V${y(value)}H${x(at) + half}V${y(0)}Z`).join("");
}

/**
 * The scale along x, and the nearest that two bars come to each other on it.
 * @param {any} d3
 * @param {Chart} chart
 * @param {Box} box
 */
function alongX(d3, chart, box) {
  const log = chart.x.scale === "log";
  const [least, most] = span(d3, chart, "x");
  const x = (log ? d3.scaleLog() : d3.scaleLinear()).domain([least, most]).range([box.left, box.right]);
  const places = barPlaces(chart);
  if (!places.length) return { x, step: 0 };
  const nearest = () =>
    Math.min(x.range()[1] - x.range()[0], ...places.slice(1).map((at, before) => x(at) - x(places[before])));
  const count = (box.right - box.left) / nearest();
  const margin = (box.right - box.left) / (count + 1) / 2;
  x.range([box.left + margin, box.right - margin]);
  return { x, step: nearest() };
}

/** Where bars stand, from left to right. @param {Chart} chart */
function barPlaces({ series }) {
  return Array.from(
    new Set(series.filter(({ shape }) => shape === "bars").flatMap(({ points }) => points.map(([at]) => at))),
  ).sort((a, b) => a - b);
}

/**
 * Round numbers, or where there are bars their own places, as many as leave room for their figures.
 * @param {any} x
 * @param {Chart} chart
 * @param {number} most
 * @param {number} gap
 */
function ticksOf(x, chart, most, gap) {
  const places = barPlaces(chart);
  if (!places.length) return x.ticks(most);
  const room = (x.range()[1] - x.range()[0]) / most;
  let last = -Infinity;
  return places.filter((at) => {
    if (x(at) - last < room - gap) return false;
    last = x(at);
    return true;
  });
}

/**
 * The doubt about a line, between its lower and its upper edge.
 * @param {any} d3
 * @param {any} svg
 * @param {Series[]} band
 * @param {any} x
 * @param {any} y
 */
function shade(d3, svg, [low, high], x, y) {
  const upper = new Map(high.points);
  const area = d3
    .area()
    .x((/** @type {[number, number]} */ point) => x(point[0]))
    .y0((/** @type {[number, number]} */ point) => y(point[1]))
    .y1((/** @type {[number, number]} */ point) => y(upper.get(point[0]) ?? point[1]))
    .curve(d3.curveMonotoneX);
  svg.append("path").attr("class", "chart-band").attr("d", area(low.points));
}

/**
 * From the least to the most of all lines and limits along one axis.
 * @param {any} d3
 * @param {Chart} chart
 * @param {"x" | "y"} axis
 */
function span(d3, chart, axis) {
  const values = [...chart.series, ...chart.band].flatMap(({ points }) =>
    points.map((point) => point[axis === "x" ? 0 : 1]),
  );
  if (axis === "y" && barPlaces(chart).length) values.push(0);
  const [least, most] = d3.extent([
    ...values,
    ...chart.limits.filter((limit) => limit.axis === axis).map(({ at }) => at),
  ]);
  if (least < most) return [least, most];
  return axis === "x" && chart.x.scale === "log"
    ? [(least || 1) / 2, (least || 1) * 2]
    : [(least || 0) - 1, (least || 0) + 1];
}

/** @param {Chart} chart */
function described(chart) {
  const lines = chart.series.map(
    ({ label, points }) =>
      `${label}: from ${points.length ? spoken(points[0][1]) : "nothing"} to ${points.length ? spoken(points[points.length - 1][1]) : "nothing"} ${chart.y.unit}.`,
  );
  const doubt = chart.band.length ? ["The shaded band is how far it may be off (95 %)."] : [];
  return [chart.sentence, ...lines, ...doubt, "The numbers stand in the table below."].join(" ");
}
