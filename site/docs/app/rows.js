// @ts-check
import { all, one, say, show } from "./dom.js";
import { fit, hasUnit } from "./form.js";
import { amount, asTable, rowsIn, tableIn } from "./table-text.js";
import { addOwn, nameOwn, ownPairs, ownRows, spreadOwn } from "./own-rows.js";
import { second } from "./second-tap.js";

/** @typedef {import("./table-text.js").Held} Held */
/** @typedef {import("./table-text.js").Pairs} Pairs */
/** @typedef {HTMLInputElement | HTMLSelectElement} Box */

/** Give life to every field of a form that holds several things. @param {HTMLElement} root */
export function openParts(root) {
  for (const group of all(root, "[data-parts]")) new Parts(group);
}

/** The boxes of one table, or the cards of rows, and behind them one box with the whole as text: either follows the other. */
class Parts {
  /** @param {HTMLElement} group */
  constructor(group) {
    this.group = group;
    const field = /** @type {HTMLElement} */ (group.closest("[data-field]"));
    this.bare = one(field, "[data-whole]");
    this.whole = /** @type {HTMLInputElement} */ (one(this.bare, "[data-input]"));
    this.rows = /** @type {HTMLElement | null} */ (group.querySelector("[data-rows]"));
    for (const kind of ["put", "change"]) this.whole.addEventListener(kind, () => this.#draw());
    group.addEventListener("input", (event) => this.#typed(event));
    group.addEventListener("click", (event) => this.#pressed(event));
    this.#draw();
  }

  /** From the text to the boxes; a text that has no box for all it holds is shown as it is. */
  #draw() {
    const text = this.whole.value.trim();
    if (text !== "" && text === this.#text()) return this.#told();
    const fits = this.rows
      ? this.#drawRows(this.rows, rowsIn(text))
      : spreadTable(one(this.group, "[data-table]"), tableIn(text));
    show(this.bare, !fits);
    show(this.group, fits);
    return this.#told();
  }

  /** @param {HTMLElement} rows @param {Held[] | null} held @returns {boolean} */
  #drawRows(rows, held) {
    const { first, most } = rows.dataset;
    const fits = held !== null && held.length <= Number(most);
    const drawn = fits ? held : [];
    rows.replaceChildren();
    while (rows.children.length < Math.max(Number(first), drawn.length)) this.#another(rows);
    const spreads = drawn.map((row, at) => spread(/** @type {HTMLElement} */ (rows.children[at]), row));
    return fits && spreads.every(Boolean);
  }

  /** @param {HTMLElement} rows @returns {HTMLElement} */
  #another(rows) {
    const template = /** @type {HTMLTemplateElement} */ (one(this.group, "[data-row-template]"));
    const row = /** @type {HTMLElement} */ (template.content.children[0].cloneNode(true));
    rows.append(row);
    return row;
  }

  /** From the boxes to the text. @returns {string} */
  #text() {
    const held = this.#held();
    return Object.keys(held).length ? JSON.stringify(held) : "";
  }

  /** @returns {Held | Held[] | Pairs} */
  #held() {
    if (!this.rows) return tableOf(one(this.group, "[data-table]"));
    return all(this.rows, "[data-row]")
      .map(gathered)
      .filter((row) => Object.keys(row).length);
  }

  /** @param {Event} event */
  #typed(event) {
    const box = event.target;
    if (!(box instanceof HTMLElement) || !box.dataset.part) return;
    event.stopPropagation();
    settle(box);
    this.#write();
  }

  #write() {
    const text = this.#text();
    this.#told();
    if (text === this.whole.value) return;
    this.whole.value = text;
    this.#told();
    this.whole.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** @param {Event} event */
  #pressed(event) {
    const button = event.target instanceof Element && event.target.closest("button");
    if (!(button instanceof HTMLElement)) return;
    const row = /** @type {HTMLElement | null} */ (button.closest("[data-row]"));
    const table = /** @type {HTMLElement | null} */ (button.closest("[data-table]"));
    const { add, remove, addOwn: more, removeOwn: less } = button.dataset;
    if (add !== undefined && this.rows) one(this.#another(this.rows), "[data-part]").focus();
    else if (more !== undefined && table) one(addOwn(table), "[data-part]").focus();
    else if (remove !== undefined && row) this.#remove(row, button, one(this.group, "[data-add]"));
    else if (less !== undefined && table)
      this.#remove(/** @type {HTMLElement} */ (button.closest("[data-own]")), button, one(table, "[data-add-own]"));
    this.#write();
  }

  /**
   * An empty row goes at once, a filled one at the second tap.
   * @param {HTMLElement} row
   * @param {HTMLElement} button
   * @param {HTMLElement} then what is in hand afterwards
   */
  #remove(row, button, then) {
    const filled = all(row, "[data-part]").some((box) => /** @type {Box} */ (box).value.trim() !== "");
    if (filled && !second(button, button.dataset.sure || "")) return;
    const table = /** @type {HTMLElement | null} */ (row.closest("[data-table]"));
    row.remove();
    if (table) nameOwn(table);
    then.focus();
  }

  /** What stands round the boxes: the name of each row, which buttons there are, and the whole in plain words. */
  #told() {
    const plain = this.bare.hidden;
    this.whole.dataset.words = plain ? this.#words() : "";
    if (!this.rows) return;
    const { least, most, called, leftOut } = this.rows.dataset;
    const rows = all(this.rows, "[data-row]");
    const filled = rows.map((row) => Object.keys(gathered(row)).length > 0);
    const last = filled.lastIndexOf(true);
    let number = 0;
    rows.forEach((row, at) => {
      const counts = filled[at] || at > last;
      say(one(row, "[data-row-name]"), counts ? `${called} ${(number += 1)}` : `${called}, ${leftOut}`);
      show(one(row, "[data-remove]"), rows.length > Number(least));
    });
    show(one(this.group, "[data-add]"), rows.length < Number(most));
  }

  /** @returns {string} */
  #words() {
    if (!this.rows) return spokenTable(one(this.group, "[data-table]"), ": ").join("; ");
    const rows = all(this.rows, "[data-row]")
      .map((row) => spoken(row).join(", "))
      .filter(Boolean);
    return rows.map((row, at) => `${this.rows?.dataset.called} ${at + 1}: ${row}`).join("; ");
  }
}

/**
 * A row's or a table's own boxes, those of a table within it left out.
 * @param {HTMLElement} root
 */
function boxes(root) {
  return /** @type {Box[]} */ (
    all(root, "[data-part]").filter((box) => box.closest("[data-table], [data-row], [data-own]") === root)
  );
}

/** What the boxes of a row hold. @param {HTMLElement} root @returns {Held} */
function gathered(root) {
  const inner = all(root, "[data-table]").map(
    (table) => /** @type {[string, unknown]} */ ([table.dataset.table, tableOf(table)]),
  );
  return Object.fromEntries([
    ...typed(root),
    ...inner.filter(([, held]) => Object.keys(/** @type {object} */ (held)).length),
  ]);
}

/** @param {HTMLElement} table @returns {Held | Pairs} */
function tableOf(table) {
  return asTable([...typed(table), ...ownPairs(table)]);
}

/** @param {HTMLElement} root @returns {Pairs} */
function typed(root) {
  const pairs = boxes(root).map((box) => /** @type {[string, string]} */ ([box.dataset.part, box.value.trim()]));
  return pairs.filter(([, text]) => text !== "");
}

/**
 * Each filled box of a row in words: what it is, what was typed, and the unit where none was typed.
 * @param {HTMLElement} root
 * @returns {string[]}
 */
function spoken(root) {
  const inner = all(root, "[data-table]").map((table) => [table.dataset.said, spokenTable(table, " ").join(", ")]);
  return [
    ...spokenBoxes(root, " "),
    ...inner.filter(([, words]) => words).map(([said, words]) => `${said} (${words})`),
  ];
}

/** @param {HTMLElement} table @param {string} colon @returns {string[]} */
function spokenTable(table, colon) {
  return [...spokenBoxes(table, colon), ...ownPairs(table).map((pair) => pair.join(colon))];
}

/** @param {HTMLElement} root @param {string} colon @returns {string[]} */
function spokenBoxes(root, colon) {
  return boxes(root)
    .filter((box) => box.value.trim() !== "")
    .map((box) => `${box.dataset.said}${colon}${valueOf(box)}`);
}

/** @param {Box} box @returns {string} */
function valueOf(box) {
  if (box instanceof HTMLSelectElement) return box.selectedOptions[0].text;
  const text = box.value.trim();
  return box.dataset.unit && !hasUnit(text) ? `${text} ${box.dataset.unit}` : text;
}

/**
 * A long text is written smaller, and a unit that was typed takes the place of the box's own.
 * @param {HTMLElement} box
 */
function settle(box) {
  fit(box);
  if (box instanceof HTMLInputElement) box.toggleAttribute("data-own-unit", hasUnit(box.value));
}

/**
 * Fill the boxes of a row.
 * @param {HTMLElement} root
 * @param {Held} held
 * @returns {boolean} whether all of it found a box
 */
function spread(root, held) {
  const left = new Map(Object.entries(held));
  let fits = true;
  for (const box of boxes(root)) {
    fits = put(box, left.get(box.dataset.part || "")) && fits;
    left.delete(box.dataset.part || "");
  }
  for (const table of all(root, "[data-table]")) {
    const inner = tableIn(left.get(table.dataset.table || "") ?? "");
    fits = spreadTable(table, inner) && fits;
    table.closest("details")?.toggleAttribute("open", Boolean(inner?.length));
    left.delete(table.dataset.table || "");
  }
  return fits && left.size === 0;
}

/**
 * Fill the boxes of a table; keys that have none get a row of their own.
 * @param {HTMLElement} table
 * @param {Pairs | null} pairs
 * @returns {boolean} whether all of it found a box
 */
function spreadTable(table, pairs) {
  const left = [...(pairs || [])];
  let fits = pairs !== null;
  for (const box of boxes(table)) {
    const at = left.findIndex(([key]) => key.trim().toLowerCase() === box.dataset.part);
    const [pair] = at < 0 ? [] : left.splice(at, 1);
    fits = put(box, pair?.[1]) && fits;
  }
  fits = spreadOwn(table, left) && fits;
  for (const row of ownRows(table)) boxes(row).forEach(settle);
  return fits;
}

/** @param {Box} box @param {unknown} given @returns {boolean} whether the box says all of it */
function put(box, given) {
  const text = amount(given);
  box.value = text ?? "";
  settle(box);
  return box.value === text;
}
