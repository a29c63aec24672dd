// @ts-check
import { all, one, say } from "./dom.js";
import { hasUnit } from "./form.js";
import { amount } from "./table-text.js";

/** @typedef {import("./table-text.js").Pairs} Pairs */

/** The rows of a table whose keys are a person's own. @param {HTMLElement} table */
export function ownRows(table) {
  return all(table, "[data-own]");
}

/** One more row, empty. @param {HTMLElement} table @returns {HTMLElement} */
export function addOwn(table) {
  const template = /** @type {HTMLTemplateElement} */ (one(table, "[data-own-template]"));
  const row = /** @type {HTMLElement} */ (template.content.children[0].cloneNode(true));
  one(table, "[data-own-keys]").append(row);
  nameOwn(table);
  return row;
}

/** Each row called by its place. @param {HTMLElement} table */
export function nameOwn(table) {
  ownRows(table).forEach((row, at) => {
    const name = `${row.dataset.called} ${at + 1}`;
    row.setAttribute("aria-label", name);
    say(one(row, "[data-own-name]"), name);
  });
}

/**
 * Rows that are not empty, as keys and what they hold; half a row is a pair too, so that it is kept and told.
 * @param {HTMLElement} table
 * @returns {Pairs}
 */
export function ownPairs(table) {
  const pairs = ownRows(table).map(
    (row) => /** @type {[string, string]} */ ([keyIn(row), box(row, "held").value.trim()]),
  );
  return pairs.filter(([key, held]) => key !== "" || held !== "");
}

/**
 * A row a pair.
 * @param {HTMLElement} table
 * @param {Pairs} pairs
 * @returns {boolean} whether all of them could be shown so
 */
export function spreadOwn(table, pairs) {
  const holder = table.querySelector("[data-own-keys]");
  if (!holder) return pairs.length === 0;
  holder.replaceChildren();
  return pairs
    .map(([key, held]) => {
      const row = addOwn(table);
      const text = amount(held);
      box(row, "key").value = textOf(row, key.trim());
      box(row, "held").value = text ?? "";
      return text !== undefined;
    })
    .every(Boolean);
}

/**
 * The key that a row names: as typed, with the box's own unit where none was.
 * @param {HTMLElement} row
 */
function keyIn(row) {
  const key = box(row, "key");
  const text = key.value.trim();
  return text === "" || hasUnit(text) ? text : `${text} ${key.dataset.unit}`;
}

/**
 * What stands in the box for a key: without the box's own unit; a bare number says first what it is.
 * @param {HTMLElement} row
 * @param {string} key
 */
function textOf(row, key) {
  const unit = ` ${box(row, "key").dataset.unit}`;
  const number = key.endsWith(unit) ? key.slice(0, -unit.length) : "";
  if (number !== "" && !hasUnit(number)) return number;
  return key === "" || hasUnit(key) ? key : `${row.dataset.bare} ${key}`;
}

/** @param {HTMLElement} row @param {string} part */
function box(row, part) {
  return /** @type {HTMLInputElement} */ (one(row, `[data-part=${part}]`));
}
