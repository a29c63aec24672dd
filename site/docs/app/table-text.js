// @ts-check
/** Rows and tables as the one text that is kept, linked and sent, and back again. */

import { isAmount, withUnit } from "./amount-text.js";

/** @typedef {Record<string, unknown>} Row the values of a row or a table, by name */
/** @typedef {[string, unknown][]} Pairs the keys of a table with their values, each as often as it was given */

const PAIRS_END = /[;\n]|,(?=\s*\w+\s*:)|,(?=\s+[#\w][^:;,\n]*:)/;

/**
 * @param {string} text
 * @returns {Row[] | null} null if the text holds anything but rows
 */
export function rowsIn(text) {
  const rows = text === "" ? [] : fromJson(text);
  return Array.isArray(rows) && rows.every(isRow) ? rows : null;
}

/**
 * A table from JSON, or from pairs such as "50: 21.4; pan: 0.2".
 * @param {unknown} given
 * @returns {Pairs | null}
 */
export function tableIn(given) {
  const table = typeof given === "string" && /^\s*[{[]/.test(given) ? fromJson(given) : given;
  if (isRow(table)) return Object.entries(table);
  if (Array.isArray(table)) {
    const inPairs = table.every((pair) => Array.isArray(pair) && pair.length === 2);
    return inPairs ? table.map(([key, value]) => [String(key), value]) : null;
  }
  if (typeof table !== "string") return null;
  const pairs = table
    .split(PAIRS_END)
    .filter((pair) => pair.trim())
    .map((pair) => pair.split(/:(.*)/s));
  return pairs.every((pair) => pair.length > 1) ? pairs.map(([key, value]) => [key.trim(), value.trim()]) : null;
}

/**
 * Pairs as a table. They stay pairs if a key comes twice, so that neither value is lost.
 * @param {Pairs} pairs
 * @returns {Row | Pairs}
 */
export function asTable(pairs) {
  return new Set(pairs.map(([key]) => key)).size === pairs.length ? Object.fromEntries(pairs) : pairs;
}

/**
 * The text for a box that holds this value.
 * @param {unknown} given
 * @returns {string | undefined} undefined if no box can hold it
 */
export function boxText(given) {
  if (given === undefined || given === null) return "";
  if (isAmount(given)) return withUnit(String(given.value), given.unit);
  return typeof given === "object" ? undefined : String(given);
}

/**
 * The value of a JSON text.
 * @param {string} text
 * @returns {any} undefined if the text is no JSON
 */
export function fromJson(text) {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/**
 * Whether JSON text gives a name twice in one object: of the two, only the last one would be read.
 * @param {string} text whole JSON
 * @param {unknown} data what it reads as
 */
export function repeatsName(text, data) {
  const named = [...text.matchAll(/"[^"\\]*(?:\\.[^"\\]*)*"(\s*:)?/g)].filter(([, colon]) => colon);
  return named.length !== namesWithin(data);
}

/**
 * @param {unknown} data
 * @returns {number}
 */
function namesWithin(data) {
  if (typeof data !== "object" || data === null) return 0;
  const parts = Object.values(data);
  return parts.reduce((sum, part) => sum + namesWithin(part), Array.isArray(data) ? 0 : parts.length);
}

/**
 * @param {unknown} given
 * @returns {given is Row}
 */
function isRow(given) {
  return typeof given === "object" && given !== null && !Array.isArray(given);
}
