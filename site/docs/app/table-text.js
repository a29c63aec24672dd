// @ts-check
/** What several boxes hold, out of the text that is kept, linked and asked. */

/** @typedef {Record<string, unknown>} Held what stands in the boxes of a row or a table, by name */
/**
 * @typedef {[string, unknown][]} Pairs the keys of a table and what they hold, each as often as it was given
 */

const PAIRS_END = /[;\n]|,(?=\s*\w+\s*:)|,(?=\s+[#\w][^:;,\n]*:)/;

/** @param {string} text @returns {Held[] | null} */
export function rowsIn(text) {
  const held = text === "" ? [] : parsed(text);
  return Array.isArray(held) && held.every(isHeld) ? held : null;
}

/**
 * A table out of JSON, or out of pairs such as "50: 21.4; pan: 0.2".
 * @param {unknown} given
 * @returns {Pairs | null}
 */
export function tableIn(given) {
  const held = typeof given === "string" && /^\s*[{[]/.test(given) ? parsed(given) : given;
  if (isHeld(held)) return Object.entries(held);
  if (Array.isArray(held))
    return held.every((pair) => Array.isArray(pair) && pair.length === 2)
      ? held.map(([key, part]) => [String(key), part])
      : null;
  if (typeof held !== "string") return null;
  const pairs = held
    .split(PAIRS_END)
    .filter((pair) => pair.trim())
    .map((pair) => pair.split(/:(.*)/s));
  return pairs.every((pair) => pair.length > 1) ? pairs.map(([key, part]) => [key.trim(), part.trim()]) : null;
}

/**
 * Pairs as a table; as they are where a key stands twice, so that neither is lost.
 * @param {Pairs} pairs
 * @returns {Held | Pairs}
 */
export function asTable(pairs) {
  return new Set(pairs.map(([key]) => key)).size === pairs.length ? Object.fromEntries(pairs) : pairs;
}

/**
 * What a box says of an amount; undefined where a box can't say it.
 * @param {unknown} given
 * @returns {string | undefined}
 */
export function amount(given) {
  if (given === undefined || given === null) return "";
  if (isHeld(given) && "value" in given && "unit" in given) return `${given.value} ${given.unit}`;
  return typeof given === "object" ? undefined : String(given);
}

/** @param {unknown} given @returns {given is Held} */
function isHeld(given) {
  return typeof given === "object" && given !== null && !Array.isArray(given);
}

/** @param {string} text @returns {unknown} */
function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
