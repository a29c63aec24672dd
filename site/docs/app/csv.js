// @ts-check
/** Rows as text for a spreadsheet. */

import { isAmount, shownText } from "./amount-text.js";

/** A mark at the start of the file that tells a spreadsheet how the text is written (UTF-8). */
const UTF8_MARK = "\ufeff";

/**
 * A line for each row and a column for each name, in the order in which the names come; *first* before all others.
 * @param {Record<string, unknown>[]} rows
 * @param {string[]} first
 */
export function csvText(rows, first) {
  const flatRows = rows.map((row) => flat(row));
  const columns = Array.from(new Set([...first, ...flatRows.flatMap((row) => Object.keys(row))]));
  const lines = [columns, ...flatRows.map((row) => columns.map((column) => row[column]))];
  return `${UTF8_MARK}${lines.map((line) => line.map(cell).join(",")).join("\r\n")}\r\n`;
}

/**
 * The values of an object under the path of their names. An amount is one value.
 * @param {Record<string, unknown>} thing
 * @param {string} [before]
 * @returns {Record<string, unknown>}
 */
function flat(thing, before = "") {
  const parts = Object.entries(thing).map(([name, value]) => {
    if (isAmount(value)) return { [before + name]: shownText(value) };
    const nested = value && typeof value === "object" && !Array.isArray(value);
    return nested
      ? flat(/** @type {Record<string, unknown>} */ (value), `${before}${name}.`)
      : { [before + name]: value };
  });
  return Object.assign({}, ...parts);
}

/**
 * One cell: in quotes if it must be, and never a formula.
 * @param {unknown} value
 */
function cell(value) {
  if (value === null || value === undefined) return "";
  if (typeof value === "number") return String(value);
  const text = typeof value === "string" ? value : JSON.stringify(value);
  const plain = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}
