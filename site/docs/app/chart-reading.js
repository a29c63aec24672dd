// @ts-check
/** Reading a chart of several panels: a tap shows what stood at the nearest entry, and two buttons go from entry to entry. */

import { readingAt, stopsOf } from "./chart-text.js";
import { all, one, show } from "./dom.js";

/** @import {Chart} from "./answer-types.js" */
/** @import {Drawn} from "./chart-drawing.js" */

const SVG = "http://www.w3.org/2000/svg";

/** What a person reads of one chart. It begins at its end, and stays where it was when the chart is drawn again. */
export class ChartReading {
  /** @type {number[]} */
  #stops = [];
  #at = -1;
  /** @type {{chart: Chart, drawn: Drawn} | undefined} */
  #shown;

  /** @param {HTMLElement} figure */
  constructor(figure) {
    this.figure = figure;
    this.place = one(figure, "[data-reading]");
    this.said = one(this.place, "[aria-live]");
    // a screen reader says what a person steps to, and not what a chart shows that is drawn again
    for (const kind of ["focusin", "click"]) {
      this.place.addEventListener(kind, () => (this.said.ariaLive = "polite"), { capture: true });
    }
    one(figure, "[data-plot]").addEventListener("click", (event) => this.#tap(event));
    for (const button of all(this.place, "[data-go]")) {
      button.addEventListener("click", () => this.#go(this.#at + Number(button.dataset.go)));
    }
  }

  /**
   * @param {Chart} chart
   * @param {Drawn} drawn
   */
  show(chart, drawn) {
    this.said.ariaLive = "off";
    const wasAtEnd = this.#at === this.#stops.length - 1;
    this.#stops = stopsOf(chart);
    this.#shown = { chart, drawn };
    show(this.place, chart.below.length > 0);
    if (chart.below.length) this.#go(wasAtEnd ? this.#stops.length - 1 : this.#at);
  }

  /** @param {MouseEvent} event */
  #tap(event) {
    if (!this.#shown?.chart.below.length) return;
    const { svg, x } = this.#shown.drawn;
    const frame = svg.getBoundingClientRect();
    const across = ((event.clientX - frame.left) * svg.viewBox.baseVal.width) / frame.width;
    this.#go(nearest(this.#stops.map(x), across));
  }

  /** @param {number} at */
  #go(at) {
    if (!this.#shown) return;
    const last = this.#stops.length - 1;
    this.#at = Math.max(0, Math.min(last, at));
    const { chart, drawn } = this.#shown;
    const { when, figures } = readingAt(chart, this.#stops[this.#at]);
    one(this.place, "[data-slot=when]").textContent = when;
    one(this.place, "[data-list=figures]").replaceChildren(
      ...figures.map((text) => {
        const row = document.createElement("li");
        row.textContent = text;
        return row;
      }),
    );
    for (const button of all(this.place, "button")) {
      button.toggleAttribute("disabled", this.#at === (button.dataset.go === "1" ? last : 0));
    }
    moveCursor(drawn, this.#stops[this.#at]);
  }
}

/**
 * The place of the value that is nearest to another; of two, the later.
 * @param {number[]} values
 * @param {number} to
 */
export function nearest(values, to) {
  const far = values.map((value) => Math.abs(value - to));
  return far.lastIndexOf(Math.min(...far));
}

/**
 * An upright line through all panels where the chart is read.
 * @param {Drawn} drawn
 * @param {number} at
 */
function moveCursor({ svg, x, box }, at) {
  const cursor = svg.querySelector(".chart-cursor") ?? svg.appendChild(document.createElementNS(SVG, "path"));
  cursor.setAttribute("class", "chart-cursor");
  cursor.setAttribute("d", `M${x(at)},${box.top}V${box.bottom}`);
}
