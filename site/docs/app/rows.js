// @ts-check
/** Fields that hold several values: the boxes of a table, or one card for each row. */

import { withUnit, showsUnit } from "./amount-text.js";
import { all, around, copyOf, one, say, show, tapped } from "./dom.js";
import { fit } from "./fields.js";
import { addOwnRow, numberOwnRows, ownPairs, ownRows, spreadOwnRows } from "./own-rows.js";
import { isSecondTap } from "./second-tap.js";
import { asTable, boxText, rowsIn, tableIn } from "./table-text.js";

/** @import {Row, Pairs} from "./table-text.js" */
/** @typedef {HTMLInputElement | HTMLSelectElement} Box */

/**
 * Start every field of a form that holds several values.
 * @param {HTMLElement} root
 */
export function startRows(root) {
  for (const group of all(root, "[data-parts]")) new RowsField(group);
}

/**
 * Show the boxes of a card that is folded to one line.
 * @param {Event} event
 */
function unfold(event) {
  const said = tapped(event, "[data-unfold-row]");
  const row = said && around(said, "[data-row]");
  if (!row) return;
  delete row.dataset.rowFolded;
  one(row, "[data-part]").focus();
}

/**
 * Let the boxes that follow this one say the same, until they have something of their own.
 * @param {HTMLInputElement} typed
 */
function follow(typed) {
  const row = around(typed, "[data-row]");
  for (const box of row ? ownBoxes(row) : []) {
    if (box.dataset.follows !== typed.dataset.part || (box.value !== "" && !isFollowing(box))) continue;
    box.value = typed.value;
    box.dataset.followed = typed.value;
    adjust(box);
  }
}

/** @param {Box} box */
function isFollowing(box) {
  return box.value !== "" && box.value === box.dataset.followed;
}

/**
 * What is typed into a box that only follows takes the place of all that it says.
 * @param {Event} event
 */
function selectFollower({ target }) {
  if (target instanceof HTMLInputElement && isFollowing(target)) setTimeout(() => target.select());
}

/** The boxes of one field, and behind them one box with all of it as text. Each follows the other. */
class RowsField {
  /** @param {HTMLElement} group */
  constructor(group) {
    this.group = group;
    this.plain = one(around(group, "[data-field]") ?? group, "[data-whole]");
    this.whole = one(this.plain, "[data-input]", HTMLInputElement);
    this.rows = /** @type {HTMLElement | null} */ (group.querySelector("[data-rows]"));
    for (const kind of ["put", "change"]) this.whole.addEventListener(kind, () => this.#draw());
    group.addEventListener("input", (event) => this.#typed(event));
    group.addEventListener("focusin", selectFollower);
    group.addEventListener("click", (event) => this.#pressed(event));
    group.addEventListener("click", unfold);
    this.#draw();
  }

  /** From the text to the boxes. If the boxes cannot hold all of a text, the plain box shows it as it is. */
  #draw() {
    const text = this.whole.value.trim();
    if (text === "" || text !== this.#text()) {
      const fits = this.rows
        ? this.#drawRows(this.rows, rowsIn(text))
        : spreadTable(one(this.group, "[data-table]"), tableIn(text));
      show(this.plain, !fits);
      show(this.group, fits);
    }
    this.#label();
  }

  /**
   * @param {HTMLElement} rows
   * @param {Row[] | null} values
   * @returns {boolean} whether the cards can show all of it
   */
  #drawRows(rows, values) {
    const { first, most } = rows.dataset;
    const fits = values !== null && values.length <= Number(most);
    const drawn = fits ? values : [];
    rows.replaceChildren();
    while (rows.children.length < Math.max(Number(first), drawn.length)) this.#addRow(rows);
    const spreads = drawn.map((row, at) => spreadRow(/** @type {HTMLElement} */ (rows.children[at]), row));
    if (drawn.length > 1) for (const row of all(rows, "[data-row]").slice(0, drawn.length)) row.dataset.rowFolded = "";
    return fits && spreads.every(Boolean);
  }

  /** @param {HTMLElement} rows */
  #addRow(rows) {
    const row = copyOf(one(this.group, "[data-row-template]", HTMLTemplateElement));
    rows.append(row);
    return row;
  }

  /** From the boxes to the text. */
  #text() {
    const values = this.#values();
    return Object.keys(values).length ? JSON.stringify(values) : "";
  }

  /** @returns {Row | Row[] | Pairs} */
  #values() {
    if (!this.rows) return valuesOfTable(one(this.group, "[data-table]"));
    return all(this.rows, "[data-row]")
      .map(valuesOfRow)
      .filter((row) => Object.keys(row).length);
  }

  /** @param {Event} event */
  #typed(event) {
    const box = event.target;
    if (!(box instanceof HTMLElement) || !box.dataset.part) return;
    event.stopPropagation();
    adjust(box);
    if (box instanceof HTMLInputElement) follow(box);
    this.#write();
  }

  #write() {
    const text = this.#text();
    this.#label();
    if (text === this.whole.value) return;
    this.whole.value = text;
    this.#label();
    this.whole.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** @param {Event} event */
  #pressed(event) {
    const button = tapped(event, "button");
    if (!button) return;
    const row = around(button, "[data-row]");
    const table = around(button, "[data-table]");
    const own = around(button, "[data-own]");
    const { add, remove, addOwn, removeOwn } = button.dataset;
    if (add !== undefined && this.rows) one(this.#addRow(this.rows), "[data-part]").focus();
    else if (addOwn !== undefined && table) one(addOwnRow(table), "[data-part]").focus();
    else if (remove !== undefined && row) removeRow(row, button, one(this.group, "[data-add]"));
    else if (removeOwn !== undefined && own && table) removeRow(own, button, one(table, "[data-add-own]"));
    this.#write();
  }

  /** Show the name of each row, the buttons that apply, and keep the whole in plain words. */
  #label() {
    this.whole.dataset.words = this.plain.hidden ? this.#words() : "";
    if (!this.rows) return;
    const { least, most, called, leftOut } = this.rows.dataset;
    const rows = all(this.rows, "[data-row]");
    const filled = rows.map((row) => Object.keys(valuesOfRow(row)).length > 0);
    const last = filled.lastIndexOf(true);
    let number = 0;
    rows.forEach((row, at) => {
      const counts = filled[at] || at > last;
      const name = one(row, "[data-row-name]");
      name.id = `${this.whole.id}-${at}`;
      one(row, "[data-remove]").setAttribute("aria-describedby", name.id);
      say(name, counts ? `${called} ${(number += 1)}` : `${called}, ${leftOut}`);
      say(one(row, "[data-row-said]"), wordsOfRow(row).join(", "));
      show(one(row, "[data-remove]"), rows.length > Number(least));
    });
    show(one(this.group, "[data-add]"), rows.length < Number(most));
  }

  #words() {
    if (!this.rows) return wordsOfTable(one(this.group, "[data-table]"), ": ").join("; ");
    const called = this.rows.dataset.called;
    return all(this.rows, "[data-row]")
      .map((row) => wordsOfRow(row).join(", "))
      .filter(Boolean)
      .map((words, at) => `${called} ${at + 1}: ${words}`)
      .join("; ");
  }
}

/**
 * Remove an empty row at once, and a filled one at the second tap.
 * @param {HTMLElement} row
 * @param {HTMLElement} button
 * @param {HTMLElement} next what takes the focus afterwards
 */
function removeRow(row, button, next) {
  const filled = boxesIn(row).some((box) => box.value.trim() !== "");
  if (filled && !isSecondTap(button, button.dataset.sure ?? "")) return;
  const table = around(row, "[data-table]");
  row.remove();
  if (table) numberOwnRows(table);
  next.focus();
}

/** @param {HTMLElement} root */
function boxesIn(root) {
  return /** @type {Box[]} */ (all(root, "[data-part]"));
}

/**
 * The boxes of a row or a table, without those of a table inside it.
 * @param {HTMLElement} root
 */
function ownBoxes(root) {
  return boxesIn(root).filter((box) => box.closest("[data-table], [data-row], [data-own]") === root);
}

/**
 * @param {HTMLElement} row
 * @returns {Row}
 */
function valuesOfRow(row) {
  const tables = all(row, "[data-table]").map(
    (table) => /** @type {const} */ ([table.dataset.table ?? "", valuesOfTable(table)]),
  );
  return Object.fromEntries([...filledBoxes(row), ...tables.filter(([, values]) => Object.keys(values).length)]);
}

/** @param {HTMLElement} table */
function valuesOfTable(table) {
  return asTable([...filledBoxes(table), ...ownPairs(table)]);
}

/**
 * @param {HTMLElement} root
 * @returns {Pairs}
 */
function filledBoxes(root) {
  const pairs = ownBoxes(root).map(
    (box) => /** @type {[string, string]} */ ([box.dataset.part ?? "", box.value.trim()]),
  );
  return pairs.filter(([, text]) => text !== "");
}

/**
 * The filled boxes of a row in words: what each is, what was typed, and the unit.
 * @param {HTMLElement} row
 */
function wordsOfRow(row) {
  const tables = all(row, "[data-table]").map((table) => [table.dataset.said, wordsOfTable(table, " ").join(", ")]);
  return [
    ...wordsOfBoxes(row, " "),
    ...tables.filter(([, words]) => words).map(([label, words]) => `${label} (${words})`),
  ];
}

/**
 * @param {HTMLElement} table
 * @param {string} colon
 */
function wordsOfTable(table, colon) {
  return [...wordsOfBoxes(table, colon), ...ownPairs(table).map((pair) => pair.join(colon))];
}

/**
 * @param {HTMLElement} root
 * @param {string} colon
 */
function wordsOfBoxes(root, colon) {
  return ownBoxes(root)
    .filter((box) => box.value.trim() !== "")
    .map((box) => `${box.dataset.said}${colon}${wordsOfBox(box)}`);
}

/** @param {Box} box */
function wordsOfBox(box) {
  if (box instanceof HTMLSelectElement) return box.selectedOptions[0].text;
  return withUnit(box.value.trim(), box.dataset.unit ?? "");
}

/**
 * Write a long text smaller, and hide the unit of the box if the text shows one.
 * @param {HTMLElement} box
 */
function adjust(box) {
  fit(box);
  if (box instanceof HTMLInputElement) box.toggleAttribute("data-own-unit", showsUnit(box.value));
}

/**
 * Fill the boxes of a row.
 * @param {HTMLElement} row
 * @param {Row} values
 * @returns {boolean} whether every value found a box
 */
function spreadRow(row, values) {
  const left = new Map(Object.entries(values));
  const take = (name = "") => {
    const value = left.get(name);
    left.delete(name);
    return value;
  };
  const boxes = ownBoxes(row).map((box) => put(box, take(box.dataset.part)));
  const tables = all(row, "[data-table]").map((table) => {
    const inner = tableIn(take(table.dataset.table) ?? "");
    around(table, "details")?.toggleAttribute("open", Boolean(inner?.length));
    return spreadTable(table, inner);
  });
  return left.size === 0 && [...boxes, ...tables].every(Boolean);
}

/**
 * Fill the boxes of a table. A key without a box gets a row of its own.
 * @param {HTMLElement} table
 * @param {Pairs | null} pairs
 * @returns {boolean} whether every pair found a box
 */
function spreadTable(table, pairs) {
  const left = [...(pairs ?? [])];
  let fits = pairs !== null;
  for (const box of ownBoxes(table)) {
    const at = left.findIndex(([key]) => key.trim().toLowerCase() === box.dataset.part);
    const [pair] = at < 0 ? [] : left.splice(at, 1);
    fits = put(box, pair?.[1]) && fits;
  }
  fits = spreadOwnRows(table, left) && fits;
  for (const row of ownRows(table)) ownBoxes(row).forEach(adjust);
  return fits;
}

/**
 * @param {Box} box
 * @param {unknown} value
 * @returns {boolean} whether the box shows all of it
 */
function put(box, value) {
  const text = boxText(value);
  box.value = text ?? "";
  adjust(box);
  return box.value === text;
}
