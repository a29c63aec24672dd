// @ts-check
/** The labels of a chart: each line has its name beside it, at the place where the name covers the least. */

/**
 * @typedef {{left: number, top: number, right: number, bottom: number}} Box
 * @typedef {{x: number, y: number}} Point
 */

const SVG = "http://www.w3.org/2000/svg";
/** The classes of bars, of points and of marks. Their samples are a small one of each, not a line. */
export const [BARS, POINTS, MARKS] = ["chart-bars", "chart-points", "chart-marks"];
const WIDEST_LABEL = 0.75;
const FAR_FROM_END = 0.5;
const STEPS_BACK = 14;
const ROUNDS = 3;
/**
 * Where a label may stand at a point of its line: how far it is shifted to the left, over or under, and the gap in
 * em.
 */
const PLACES = [0.3, 1.3].flatMap((gap) => [
  [0.5, -1, gap],
  [0.5, 1, gap],
  [1, -1, gap],
  [1, 1, gap],
  [0, -1, gap],
  [0, 1, gap],
  [0, 0, gap],
  [1, 0, gap],
]);
const ON_A_LABEL = 60;
const OVER_THE_EDGE = 30;

/**
 * @typedef {{box: Box, cost: number}} Spot a place for a label, and what it covers there
 * @typedef {{group: SVGElement, spots: Spot[], box: Box | null}} Label its possible places, and the one it has
 */

/**
 * The path of one round point.
 * @param {number} x
 * @param {number} y
 * @param {number} radius
 */
export function dotAt(x, y, radius) {
  const half = `a${radius},${radius} 0 1 0`;
  return `M${x - radius},${y}${half} ${2 * radius},0${half} ${-2 * radius},0Z`;
}

/** Finds a place for each label near the end of its line. */
export class LabelPlacer {
  /** @type {Point[]} */
  #marks = [];
  /** @type {Label[]} */
  #labels = [];

  /**
   * @param {SVGSVGElement} svg
   * @param {Box} box
   * @param {number} em
   * @param {SVGPathElement[]} paths
   */
  constructor(svg, box, em, paths) {
    this.svg = svg;
    this.box = box;
    this.em = em;
    for (const path of paths) this.#marks.push(...along(path, em / 3));
  }

  /**
   * @param {SVGPathElement} path
   * @param {string} words
   * @param {string} sample the class of the sample in front of the words, if there is one
   */
  add(path, words, sample) {
    const { em } = this;
    const group = make("g", { class: sample ? "chart-label" : "chart-label chart-limit-label" });
    this.svg.append(group);
    const size = this.#write(group, words, sample ? 2.1 * em : 0);
    group.prepend(make("rect", { class: "chart-ground", x: "0", y: "0", width: `${size.x}`, height: `${size.y}` }));
    if (sample) group.append(sampleOf(sample, em));
    this.#labels.push({ group, spots: this.#spots(path, size), box: null });
  }

  /** Give every label its best place, and again now that the others have theirs. */
  place() {
    for (let round = 0; round < ROUNDS; round += 1) {
      for (const label of this.#labels) label.box = this.#best(label);
    }
    for (const { group, box } of this.#labels) {
      if (box) group.setAttribute("transform", `translate(${box.left},${box.top})`);
    }
  }

  /**
   * Write the words in one line, or in two if one is too wide.
   * @param {SVGElement} group
   * @param {string} words
   * @param {number} indent
   * @returns {Point}
   */
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
    const wide = Math.max(
      .../** @type {SVGTSpanElement[]} */ (Array.from(text.children)).map((row) => row.getComputedTextLength()),
    );
    return { x: indent + wide + 0.3 * em, y: (0.3 + 1.15 * lines.length) * em };
  }

  /**
   * Over, under and beside the line, from its end backwards.
   * @param {SVGPathElement} path
   * @param {Point} size
   */
  #spots(path, size) {
    const points = along(path, path.getTotalLength() / STEPS_BACK || 1).reverse();
    return points.flatMap((point, back) => PLACES.map((place) => this.#spot(point, size, place, FAR_FROM_END * back)));
  }

  /**
   * @param {Point} point
   * @param {Point} size
   * @param {number[]} place
   * @param {number} back
   */
  #spot(point, size, [shift, drop, gap], back) {
    const { box, em } = this;
    const beside = shift ? -gap : gap;
    const x = point.x - shift * size.x + (drop ? 0 : beside) * em;
    const y = point.y - size.y / 2 + drop * (size.y / 2 + gap * em);
    const left = clamp(x, box.left, box.right - size.x);
    const top = clamp(y, box.top, box.bottom - size.y);
    const spot = { left, top, right: left + size.x, bottom: top + size.y };
    const hidden = this.#marks.filter(
      (mark) => mark.x > spot.left && mark.x < spot.right && mark.y > spot.top && mark.y < spot.bottom,
    ).length;
    return { box: spot, cost: hidden + back + gap + (left < box.left ? OVER_THE_EDGE : 0) };
  }

  /** @param {Label} label */
  #best(label) {
    const others = this.#labels.flatMap((other) => (other !== label && other.box ? [other.box] : []));
    const costs = label.spots.map(
      ({ box, cost }) => cost + ON_A_LABEL * others.filter((other) => overlap(box, other)).length,
    );
    return label.spots[costs.indexOf(Math.min(...costs))].box;
  }
}

/**
 * @param {Box} one
 * @param {Box} other
 */
export function overlap(one, other) {
  return other.left < one.right && other.right > one.left && other.top < one.bottom && other.bottom > one.top;
}

/**
 * Points along a path, its two ends among them.
 * @param {SVGPathElement} path
 * @param {number} step
 * @returns {Point[]}
 */
function along(path, step) {
  const length = path.getTotalLength();
  const steps = Math.max(1, Math.round(length / step));
  return Array.from({ length: steps + 1 }, (_, at) => path.getPointAtLength((length * at) / steps));
}

/**
 * Words in two parts, as even as the spaces allow.
 * @param {string} words
 * @returns {string[]}
 */
export function halves(words) {
  const spaces = Array.from(words.matchAll(/ /g), (found) => found.index ?? 0);
  if (!spaces.length) return [words];
  const middle = spaces.reduce((best, at) =>
    Math.abs(at - words.length / 2) < Math.abs(best - words.length / 2) ? at : best,
  );
  return [words.slice(0, middle), words.slice(middle + 1)];
}

/**
 * @param {number} value
 * @param {number} low
 * @param {number} high
 */
function clamp(value, low, high) {
  return Math.max(low, Math.min(value, high));
}

/**
 * The names of all kinds of series in one row at the top, each after its sample.
 * @param {SVGSVGElement} svg
 * @param {[string, string][]} named
 * @param {number} em
 */
export function drawLegend(svg, named, em) {
  let left = 0;
  for (const [words, sample] of named) {
    const group = make("g", { class: "chart-legend", transform: `translate(${left},0)` });
    const text = /** @type {SVGTextElement} */ (make("text", { x: `${2.2 * em}`, y: `${em}` }));
    text.textContent = words;
    group.append(sampleOf(sample, em), text);
    svg.append(group);
    left += 3.2 * em + text.getComputedTextLength();
  }
}

/**
 * A small sample of a series, before its name.
 * @param {string} sample its class
 * @param {number} em
 */
function sampleOf(sample, em) {
  const shapes = {
    [BARS]: `M${0.4 * em},${0.2 * em}h${1.2 * em}v${0.8 * em}h${-1.2 * em}z`,
    [POINTS]: dotAt(em, 0.65 * em, 0.35 * em),
    [MARKS]: `M${em},${em}l${-0.36 * em},${-0.6 * em}h${0.72 * em}Z`,
  };
  return make("path", { class: sample, d: shapes[sample] ?? `M${0.2 * em},${0.65 * em}h${1.6 * em}` });
}

/** @param {string} name @param {Record<string, string>} attributes @returns {SVGElement} */
function make(name, attributes) {
  const made = /** @type {SVGElement} */ (document.createElementNS(SVG, name));
  for (const [attribute, value] of Object.entries(attributes)) made.setAttribute(attribute, value);
  return made;
}
