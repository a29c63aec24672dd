// @ts-check
import { all, fill, fresh, one } from "./dom.js";

/**
 * @typedef {{label: string, unit: string}} Axis
 * @typedef {{label: string, points: [number, number][]}} Series
 * @typedef {{axis: "x" | "y", at: number, label: string}} Limit
 * @typedef {{name: string, title: string, sentence: string, x: Axis, y: Axis, series: Series[], limits: Limit[], band: Series[]}} Chart
 * @typedef {{left: number, top: number, right: number, bottom: number}} Box
 * @typedef {{x: number, y: number}} Point
 */

const SVG = "http://www.w3.org/2000/svg";
const LIBRARY = new URL("d3.min.js", import.meta.url).href;
const WIDEST_LABEL = 0.75;
const FAR_FROM_END = 0.5;
const STEPS_BACK = 14;
const ROUNDS = 3;
/** Where a name may stand at a point of its line: how far its left end is shifted, over or under, and the gap in em. */
const PLACES = [0.3, 1.3].flatMap((gap) => [[0.5, -1, gap], [0.5, 1, gap], [1, -1, gap], [1, 1, gap], [0, -1, gap], [0, 1, gap], [0, 0, gap], [1, 0, gap]]);
const ON_A_LABEL = 60;
const OVER_THE_EDGE = 30;

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
    const same = figures.length === this.place.children.length && figures.every((figure, at) => figure === this.place.children[at]);
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

/** Put a chart's words and numbers into its figure. @param {HTMLElement} figure @param {Chart} chart */
function put(figure, chart) {
  const told = JSON.stringify(chart);
  if (figure.dataset.chart === told) return figure;
  figure.dataset.chart = told;
  fill(figure, { title: chart.title, sentence: chart.sentence, measured: axisWords(chart.y) });
  const lines = [...chart.series, ...chart.band];
  const columns = lines.map(({ points }) => new Map(points));
  const rows = Array.from(new Set(columns.flatMap((column) => Array.from(column.keys())))).sort((a, b) => a - b);
  one(figure, "thead").replaceChildren(line("tr", [cell("th", axisWords(chart.x), "col"), ...lines.map(({ label }) => cell("th", label, "col"))]));
  one(figure, "tbody").replaceChildren(...rows.map((x) => line("tr", [cell("th", spoken(x), "row"), ...columns.map((column) => cell("td", spoken(column.get(x))))])));
  one(figure, "[data-limits]").replaceChildren(...chart.limits.map(({ axis, at, label }) => cell("li", `${label}: ${spoken(at)} ${chart[axis].unit}`.trim())));
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
  const [whole, part] = String(Number(value.toPrecision(3))).replace("-", "\u2212").split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, "\u2009");
  return part ? `${grouped}.${part}` : grouped;
}

/** @param {any} d3 @param {HTMLElement} plot @param {Chart} chart */
function draw(d3, plot, chart) {
  const em = parseFloat(getComputedStyle(plot).fontSize);
  const width = plot.clientWidth;
  const height = Math.round(Math.min(Math.max(width * 0.62, 17 * em), 22 * em));
  const id = `chart-${chart.name}`;
  const svg = d3.create("svg").attr("class", "chart-drawing").attr("viewBox", `0 0 ${width} ${height}`).attr("role", "img").attr("aria-labelledby", `${id}-title ${id}-desc`);
  svg.append("title").attr("id", `${id}-title`).text(chart.title);
  svg.append("desc").attr("id", `${id}-desc`).text(described(chart));
  plot.replaceChildren(svg.node());

  const y = d3.scaleLinear().domain(span(d3, chart, "y")).nice();
  const yTicks = y.ticks(Math.max(3, Math.round(height / (3 * em))));
  const widest = Math.max(...yTicks.map((/** @type {number} */ tick) => spoken(tick).length));
  const box = { left: (0.62 * widest + 0.7) * em, top: 2.1 * em, right: width - 0.8 * em, bottom: height - 3.1 * em };
  y.range([box.bottom, box.top]);
  const x = d3.scaleLinear().domain(span(d3, chart, "x")).range([box.left, box.right]);
  const xTicks = x.ticks(Math.max(2, Math.floor((box.right - box.left) / (4.2 * em))));
  const across = d3.axisBottom(x).tickValues(xTicks).tickFormat(spoken).tickSizeInner(0.35 * em).tickSizeOuter(0).tickPadding(0.25 * em);
  const up = d3.axisLeft(y).tickValues(yTicks).tickFormat(spoken).tickSize(box.left - box.right).tickPadding(0.35 * em);
  svg.append("g").attr("class", "chart-axis chart-grid").attr("transform", `translate(${box.left},0)`).call(up);
  svg.append("g").attr("class", "chart-axis").attr("transform", `translate(0,${box.bottom})`).call(across);
  svg.append("text").attr("class", "chart-name").attr("x", 0).attr("y", 1.1 * em).text(axisWords(chart.y));
  svg.append("text").attr("class", "chart-name").attr("x", box.right).attr("y", height - 0.4 * em).attr("text-anchor", "end").text(axisWords(chart.x));

  const path = d3.line().x((/** @type {[number, number]} */ point) => x(point[0])).y((/** @type {[number, number]} */ point) => y(point[1])).curve(d3.curveMonotoneX);
  if (chart.band.length === 2) shade(d3, svg, chart.band, x, y);
  const limits = chart.limits.map((limit) => {
    const ends = limit.axis === "x" ? [[x(limit.at), box.bottom], [x(limit.at), box.top]] : [[box.left, y(limit.at)], [box.right, y(limit.at)]];
    return svg.append("path").attr("class", "chart-limit").attr("d", d3.line()(ends)).node();
  });
  const lines = chart.series.map(({ points }, at) => svg.append("path").attr("class", `chart-line chart-line-${at + 1}`).attr("d", path(points)).node());
  const placer = new Placer(svg.node(), box, em, [...lines, ...limits]);
  chart.limits.forEach(({ label }, at) => placer.name(limits[at], label, ""));
  chart.series.forEach(({ label }, at) => placer.name(lines[at], label, `chart-line chart-line-${at + 1}`));
  placer.settle();
}

/** The doubt about a line, between its lower and its upper edge. @param {any} d3 @param {any} svg @param {Series[]} band @param {any} x @param {any} y */
function shade(d3, svg, [low, high], x, y) {
  const upper = new Map(high.points);
  const area = d3.area().x((/** @type {[number, number]} */ point) => x(point[0])).y0((/** @type {[number, number]} */ point) => y(point[1])).y1((/** @type {[number, number]} */ point) => y(upper.get(point[0]) ?? point[1])).curve(d3.curveMonotoneX);
  svg.append("path").attr("class", "chart-band").attr("d", area(low.points));
}

/** From the least to the most of all lines and limits along one axis. @param {any} d3 @param {Chart} chart @param {"x" | "y"} axis */
function span(d3, chart, axis) {
  const values = [...chart.series, ...chart.band].flatMap(({ points }) => points.map((point) => point[axis === "x" ? 0 : 1]));
  const [least, most] = d3.extent([...values, ...chart.limits.filter((limit) => limit.axis === axis).map(({ at }) => at)]);
  return least < most ? [least, most] : [(least || 0) - 1, (least || 0) + 1];
}

/** @param {Chart} chart */
function described(chart) {
  const lines = chart.series.map(({ label, points }) => `${label}: from ${points.length ? spoken(points[0][1]) : "nothing"} to ${points.length ? spoken(points[points.length - 1][1]) : "nothing"} ${chart.y.unit}.`);
  const doubt = chart.band.length ? ["The shaded band is how far it may be off (95 %)."] : [];
  return [chart.sentence, ...lines, ...doubt, "The numbers stand in the table below."].join(" ");
}

/**
 * @typedef {{group: SVGElement, spots: {box: Box, cost: number}[], box: Box | null}} Name a line's name, where it could
 *   stand and what each spot costs by itself, and where it stands
 */

/** Finds each line's name a place near its end, where it covers the least. */
class Placer {
  /** @type {Point[]} */
  #marks = [];
  /** @type {Name[]} */
  #names = [];

  /** @param {SVGSVGElement} svg @param {Box} box @param {number} em @param {SVGPathElement[]} paths */
  constructor(svg, box, em, paths) {
    this.svg = svg;
    this.box = box;
    this.em = em;
    for (const path of paths) this.#marks.push(...along(path, em / 3));
  }

  /** @param {SVGPathElement} path @param {string} words @param {string} sample the class of the sample drawn before the words, if any */
  name(path, words, sample) {
    const { em } = this;
    const group = make("g", { class: sample ? "chart-label" : "chart-label chart-limit-label" });
    this.svg.append(group);
    const size = this.#write(group, words, sample ? 2.1 * em : 0);
    group.prepend(make("rect", { class: "chart-ground", x: "0", y: "0", width: `${size.x}`, height: `${size.y}` }));
    if (sample) group.append(make("path", { class: sample, d: `M${0.2 * em},${0.65 * em}h${1.6 * em}` }));
    this.#names.push({ group, spots: this.#spots(path, size), box: null });
  }

  /** Give every name its best spot, and then again in the light of all the others. */
  settle() {
    for (let round = 0; round < ROUNDS; round += 1) {
      for (const name of this.#names) name.box = this.#best(name);
    }
    for (const { group, box } of this.#names) if (box) group.setAttribute("transform", `translate(${box.left},${box.top})`);
  }

  /** Write the words in one line, or two where one is too wide. @param {SVGElement} group @param {string} words @param {number} indent @returns {Point} */
  #write(group, words, indent) {
    const { em, box } = this;
    const text = /** @type {SVGTextElement} */ (make("text", {}));
    group.append(text);
    text.textContent = words;
    const inside = (box.right - box.left) * WIDEST_LABEL - indent;
    const lines = text.getComputedTextLength() > inside ? halves(words) : [words];
    text.replaceChildren(
      ...lines.map((part, at) => {
        const row = make("tspan", { x: `${indent + 0.1 * em}`, y: `${(1 + 1.15 * at) * em}` });
        row.textContent = part;
        return row;
      }),
    );
    const wide = Math.max(.../** @type {SVGTSpanElement[]} */ (Array.from(text.children)).map((row) => row.getComputedTextLength()));
    return { x: indent + wide + 0.3 * em, y: (0.3 + 1.15 * lines.length) * em };
  }

  /** Over, under and beside the line, from its end backwards. @param {SVGPathElement} path @param {Point} size */
  #spots(path, size) {
    const points = along(path, path.getTotalLength() / STEPS_BACK || 1).reverse();
    return points.flatMap((point, back) => PLACES.map((place) => this.#spot(point, size, place, FAR_FROM_END * back)));
  }

  /** @param {Point} point @param {Point} size @param {number[]} place @param {number} back */
  #spot(point, size, [shift, drop, gap], back) {
    const { box, em } = this;
    const x = point.x - shift * size.x + (drop ? 0 : shift ? -gap : gap) * em;
    const y = point.y - size.y / 2 + drop * (size.y / 2 + gap * em);
    const left = clamp(x, box.left, box.right - size.x);
    const top = clamp(y, box.top, box.bottom - size.y);
    const spot = { left, top, right: left + size.x, bottom: top + size.y };
    const hidden = this.#marks.filter((mark) => mark.x > spot.left && mark.x < spot.right && mark.y > spot.top && mark.y < spot.bottom).length;
    return { box: spot, cost: hidden + back + gap + (left < box.left ? OVER_THE_EDGE : 0) };
  }

  /** @param {Name} name */
  #best(name) {
    const others = this.#names.flatMap((other) => (other !== name && other.box ? [other.box] : []));
    const costs = name.spots.map(({ box, cost }) => cost + ON_A_LABEL * others.filter((other) => overlap(box, other)).length);
    return name.spots[costs.indexOf(Math.min(...costs))].box;
  }
}

/** @param {Box} one @param {Box} other */
function overlap(one, other) {
  return other.left < one.right && other.right > one.left && other.top < one.bottom && other.bottom > one.top;
}

/** Points along a path, its two ends among them. @param {SVGPathElement} path @param {number} step @returns {Point[]} */
function along(path, step) {
  const length = path.getTotalLength();
  const steps = Math.max(1, Math.round(length / step));
  return Array.from({ length: steps + 1 }, (_, at) => path.getPointAtLength((length * at) / steps));
}

/** @param {string} words @returns {string[]} in two parts, as even as the spaces allow */
function halves(words) {
  const spaces = Array.from(words.matchAll(/ /g), (found) => found.index ?? 0);
  if (!spaces.length) return [words];
  const middle = spaces.reduce((best, at) => (Math.abs(at - words.length / 2) < Math.abs(best - words.length / 2) ? at : best));
  return [words.slice(0, middle), words.slice(middle + 1)];
}

/** @param {number} value @param {number} low @param {number} high */
function clamp(value, low, high) {
  return Math.max(low, Math.min(value, high));
}

/** @param {string} name @param {Record<string, string>} attributes @returns {SVGElement} */
function make(name, attributes) {
  const made = /** @type {SVGElement} */ (document.createElementNS(SVG, name));
  for (const [attribute, value] of Object.entries(attributes)) made.setAttribute(attribute, value);
  return made;
}
