// @ts-check
/** The rows of a table whose keys a person types, such as sieves that are not in the list. */

import { showsUnit, withUnit } from "./amount-text.js";
import { all, copyOf, one, say } from "./dom.js";
import { boxText } from "./table-text.js";

/** @import {Pairs} from "./table-text.js" */

/** @param {HTMLElement} table */
export function ownRows(table) {
  return all(table, "[data-own]");
}

/**
 * Add an empty row.
 * @param {HTMLElement} table
 */
export function addOwnRow(table) {
  const row = copyOf(one(table, "[data-own-template]", HTMLTemplateElement));
  one(table, "[data-own-keys]").append(row);
  numberOwnRows(table);
  return row;
}

/**
 * Name each row by its number.
 * @param {HTMLElement} table
 */
export function numberOwnRows(table) {
  ownRows(table).forEach((row, at) => {
    const name = `${row.dataset.called} ${at + 1}`;
    row.setAttribute("aria-label", name);
    say(one(row, "[data-own-name]"), name);
  });
}

/**
 * Keys and values of the rows that are not empty. Half a row counts too, so that it is kept and the library can
 * complain.
 * @param {HTMLElement} table
 * @returns {Pairs}
 */
export function ownPairs(table) {
  const pairs = ownRows(table).map((row) => {
    const key = boxOf(row, "key");
    return /** @type {[string, string]} */ ([
      withUnit(key.value.trim(), key.dataset.unit ?? ""),
      boxOf(row, "held").value.trim(),
    ]);
  });
  return pairs.filter(([key, value]) => key !== "" || value !== "");
}

/**
 * Show each pair in a row of its own.
 * @param {HTMLElement} table
 * @param {Pairs} pairs
 * @returns {boolean} whether the rows can show all of it
 */
export function spreadOwnRows(table, pairs) {
  const holder = table.querySelector("[data-own-keys]");
  if (!holder) return pairs.length === 0;
  holder.replaceChildren();
  return pairs
    .map(([key, value]) => {
      const row = addOwnRow(table);
      const text = boxText(value);
      const box = boxOf(row, "key");
      box.value = keyInBox(key.trim(), box.dataset.unit ?? "", row.dataset.bare ?? "");
      boxOf(row, "held").value = text ?? "";
      return text !== undefined;
    })
    .every(Boolean);
}

/**
 * The text of a box for a key: without the unit of the box. What a bare number names elsewhere stands in front of
 * it here.
 * @param {string} key
 * @param {string} unit
 * @param {string} bare what comes before a bare number, such as "No."
 */
export function keyInBox(key, unit, bare) {
  const number = key.endsWith(` ${unit}`) ? key.slice(0, -unit.length - 1) : "";
  if (number !== "" && !showsUnit(number)) return number;
  return key === "" || showsUnit(key) ? key : `${bare} ${key}`;
}

/**
 * @param {HTMLElement} row
 * @param {string} part
 */
function boxOf(row, part) {
  return one(row, `[data-part=${part}]`, HTMLInputElement);
}
