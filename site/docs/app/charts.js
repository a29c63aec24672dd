// @ts-check
import { ChartReading } from "./chart-reading.js";
import { axisText, tableHead, tableRows } from "./chart-text.js";
import { all, fill, fresh, one } from "./dom.js";
import { chartNumber } from "./figure-text.js";

/** @import {Chart} from "./answer-types.js" */

/** Where a browser has no idle callback, this long a pause lets a tap in between two charts. */
const PAUSE_MS = 50;

/** The charts of an answer. Each gets its numbers at once, and its drawing when it can be seen and the page has nothing else to do. */
export class Charts {
  /** @type {Set<HTMLElement>} the figures that are to be drawn, one after the other */
  #wanted = new Set();
  /** @type {WeakMap<HTMLElement, string>} what each was drawn from, and how wide */
  #drawn = new WeakMap();
  /** @type {WeakMap<HTMLElement, ChartReading>} */
  #readings = new WeakMap();
  /** @type {typeof import("./chart-drawing.js").drawChart | undefined} loaded with the first drawing */
  #drawer;

  /** @param {HTMLElement} place */
  constructor(place) {
    this.place = place;
    this.watch = new ResizeObserver((entries) => {
      for (const { target } of entries) this.#want(/** @type {HTMLElement} */ (target.closest("[data-chart]")));
    });
    for (const figure of all(place, "[data-chart]")) this.watch.observe(one(figure, "[data-plot]"));
    matchMedia("print").addEventListener("change", () => this.#drawAgain());
  }

  /** @param {Chart[]} charts */
  show(charts) {
    const existing = new Map(all(this.place, "[data-chart]").map((figure) => [chartOf(figure).name, figure]));
    const figures = charts.map((chart) => put(existing.get(chart.name) ?? fresh("chart"), chart));
    const { children } = this.place;
    const same = figures.length === children.length && figures.every((figure, at) => figure === children[at]);
    if (!same) this.place.replaceChildren(...figures);
    for (const figure of figures) {
      this.watch.observe(one(figure, "[data-plot]"));
      this.#want(figure);
    }
  }

  /**
   * Draw a figure soon. One in a part that is folded away waits until that is opened; then its width changes.
   * @param {HTMLElement} figure
   */
  #want(figure) {
    if (!figure.checkVisibility()) return;
    if (!this.#wanted.size) whenIdle(() => this.#drawNext());
    this.#wanted.add(figure);
  }

  async #drawNext() {
    const [figure] = this.#wanted;
    if (figure) await this.#draw(figure);
    this.#wanted.delete(figure);
    if (this.#wanted.size) whenIdle(() => this.#drawNext());
  }

  /** @param {HTMLElement} figure */
  async #draw(figure) {
    try {
      const { drawChart } = await import("./chart-drawing.js");
      this.#drawer = drawChart;
      this.#drawWith(drawChart, figure);
    } catch {
      this.#drawn.delete(figure);
      one(figure, "details").setAttribute("open", "");
    }
  }

  /**
   * @param {typeof import("./chart-drawing.js").drawChart} drawChart
   * @param {HTMLElement} figure
   */
  #drawWith(drawChart, figure) {
    const plot = one(figure, "[data-plot]");
    const made = `${plot.clientWidth} ${figure.dataset.chart}`;
    if (!plot.clientWidth || this.#drawn.get(figure) === made) return;
    this.#drawn.set(figure, made);
    const chart = chartOf(figure);
    this.#readingOf(figure).show(chart, drawChart(plot, chart));
  }

  /** A drawing has the width of the screen: it is drawn for paper before the print, which does not wait, and then for the screen again. */
  #drawAgain() {
    if (!this.#drawer) return;
    for (const figure of all(this.place, "[data-chart]")) this.#drawWith(this.#drawer, figure);
  }

  /** @param {HTMLElement} figure */
  #readingOf(figure) {
    const reading = this.#readings.get(figure) ?? new ChartReading(figure);
    this.#readings.set(figure, reading);
    return reading;
  }
}

/** @param {() => unknown} act */
function whenIdle(act) {
  if ("requestIdleCallback" in globalThis) requestIdleCallback(act, { timeout: 500 });
  else setTimeout(act, PAUSE_MS);
}

/**
 * @param {HTMLElement} figure
 * @returns {Chart}
 */
function chartOf(figure) {
  return JSON.parse(figure.dataset.chart || "{}");
}

/**
 * Put a chart's words and numbers into its figure.
 * @param {HTMLElement} figure
 * @param {Chart} chart
 */
function put(figure, chart) {
  const data = JSON.stringify(chart);
  if (figure.dataset.chart === data) return figure;
  figure.dataset.chart = data;
  const measured = chart.below.length ? "" : axisText(chart.y);
  fill(figure, { title: chart.title, sentence: chart.sentence, measured });
  const head = tableHead(chart).map((label) => cell("th", label, "col"));
  const rows = tableRows(chart).map(([first, ...rest]) => {
    if (!rest.length) return rowOf([acrossAll(first, head.length)]);
    const start = chart.below.length ? cell("td", first) : cell("th", first, "row");
    return rowOf([start, ...rest.map((text) => cell("td", text))]);
  });
  const limits = [chart, ...chart.below].flatMap((panel) =>
    panel.limits.map(({ axis, at, label }) => {
      const { unit } = axis === "x" ? chart.x : panel.y;
      return cell("li", `${label}: ${chartNumber(at)} ${unit}`.trim());
    }),
  );
  one(figure, "thead").replaceChildren(rowOf(head));
  one(figure, "tbody").replaceChildren(...rows);
  one(figure, "[data-limits]").replaceChildren(...limits);
  return figure;
}

/** @param {HTMLElement[]} cells */
function rowOf(cells) {
  const row = document.createElement("tr");
  row.append(...cells);
  return row;
}

/**
 * @param {string} name
 * @param {string} text
 * @param {string} [scope]
 */
function cell(name, text, scope) {
  const made = document.createElement(name);
  made.textContent = text;
  if (scope) made.setAttribute("scope", scope);
  return made;
}

/**
 * A heading over all columns.
 * @param {string} text
 * @param {number} columns
 */
function acrossAll(text, columns) {
  const made = cell("th", text, "rowgroup");
  made.setAttribute("colspan", String(columns));
  return made;
}
