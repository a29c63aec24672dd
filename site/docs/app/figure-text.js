// @ts-check
/** Numbers of an answer as text. */

const SURE_FIGURES = 4;
const MOST_DECIMALS = 6;

/**
 * A number and its ± to two figures, so that a job that goes on from here loses little of either.
 * @param {number} value
 * @param {[number, number] | undefined} range
 */
export function numberWithRange(value, range) {
  const half = range ? Math.max(range[1] - value, value - range[0]) : 0;
  if (!(half > 0)) return String(Number(value.toPrecision(SURE_FIGURES)));
  const decimals = Math.min(MOST_DECIMALS, Math.max(0, 1 - Math.floor(Math.log10(half))));
  return `${value.toFixed(decimals)} ± ${half.toFixed(decimals)}`;
}

/**
 * A figure of an answer with its ± and its unit, if it is a number.
 * @param {{result: Record<string, unknown>, doubt?: Record<string, [number, number]>}} answer
 * @param {string} word
 * @param {string} unit
 * @returns {string | undefined}
 */
export function figureWithRange({ result, doubt }, word, unit) {
  const value = result[word];
  if (typeof value !== "number" || !Number.isFinite(value)) return undefined;
  return `${numberWithRange(value, doubt?.[word])} ${unit}`.trim();
}

/** A number of a chart has this many figures, and more along an axis whose numbers differ by less. */
const FIGURES = 3;
const MOST_FIGURES = 9;

/**
 * A number of a chart, with a thin space between thousands and a true minus sign.
 * @param {number | undefined} value
 * @param {number} [figures]
 */
export function chartNumber(value, figures = FIGURES) {
  if (value === undefined) return "";
  const [whole, part] = String(Number(value.toPrecision(figures)))
    .replace("-", "\u2212")
    .split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, "\u2009");
  return part ? `${grouped}.${part}` : grouped;
}

/**
 * How the numbers along an axis are written: to three figures, or to as many as tell them apart.
 * @param {number[]} ticks
 * @returns {(value: number) => string}
 */
export function axisNumber(ticks) {
  const differ = new Set(ticks).size;
  let figures = FIGURES;
  while (figures < MOST_FIGURES && new Set(ticks.map((tick) => chartNumber(tick, figures))).size < differ) figures += 1;
  return (value) => chartNumber(value, figures);
}

/**
 * The size of a file.
 * @param {number} bytes
 */
export function sizeText(bytes) {
  return bytes < 1e6 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
}
