// @ts-check
import { all, one, say, show } from "./dom.js";
import { fit, hasUnit } from "./form.js";
import { second } from "./twice.js";

/** @typedef {Record<string, unknown>} Held what stands in the boxes of a row or a table, by name */
/** @typedef {HTMLInputElement | HTMLSelectElement} Box */

const PAIRS_END = /[;\n]|,(?=\s*\w+\s*:)/;

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
    const fits = this.rows ? this.#drawRows(this.rows, rowsIn(text)) : spread(one(this.group, "[data-table]"), tableIn(text));
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

  /** @returns {Held | Held[]} */
  #held() {
    if (!this.rows) return gathered(one(this.group, "[data-table]"));
    return all(this.rows, "[data-row]").map(gathered).filter((row) => Object.keys(row).length);
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
    const button = event.target instanceof Element && event.target.closest("[data-add], [data-remove]");
    if (!(button instanceof HTMLElement) || !this.rows) return;
    const row = /** @type {HTMLElement | null} */ (button.closest("[data-row]"));
    if (!row) one(this.#another(this.rows), "[data-part]").focus();
    else if (!Object.keys(gathered(row)).length || second(button, button.dataset.sure || "")) {
      row.remove();
      one(this.group, "[data-add]").focus();
    }
    this.#write();
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
    if (!this.rows) return spoken(one(this.group, "[data-table]"), ": ").join("; ");
    const rows = all(this.rows, "[data-row]").map((row) => spoken(row, " ").join(", ")).filter(Boolean);
    return rows.map((row, at) => `${this.rows?.dataset.called} ${at + 1}: ${row}`).join("; ");
  }
}

/** A row's or a table's own boxes, those of a table within it left out. @param {HTMLElement} root */
function boxes(root) {
  return /** @type {Box[]} */ (all(root, "[data-part]").filter((box) => box.closest("[data-table], [data-row]") === root));
}

/** @param {HTMLElement} root @returns {Held} */
function gathered(root) {
  const typed = boxes(root).map((box) => [box.dataset.part, box.value.trim()]);
  const inner = all(root, "[data-table]").map((table) => [table.dataset.table, gathered(table)]);
  return Object.fromEntries([...typed.filter(([, text]) => text !== ""), ...inner.filter(([, held]) => Object.keys(held).length)]);
}

/** Each filled box in words: what it is, what was typed, and the unit where none was typed. @param {HTMLElement} root @param {string} colon @returns {string[]} */
function spoken(root, colon) {
  const own = boxes(root).filter((box) => box.value.trim() !== "").map((box) => `${box.dataset.said}${colon}${valueOf(box)}`);
  const inner = all(root, "[data-table]").map((table) => [table.dataset.said, spoken(table, " ").join(", ")]);
  return [...own, ...inner.filter(([, words]) => words).map(([said, words]) => `${said} (${words})`)];
}

/** @param {Box} box @returns {string} */
function valueOf(box) {
  if (box instanceof HTMLSelectElement) return box.selectedOptions[0].text;
  const text = box.value.trim();
  return box.dataset.unit && !hasUnit(text) ? `${text} ${box.dataset.unit}` : text;
}

/** A long text is written smaller, and a unit that was typed takes the place of the box's own. @param {HTMLElement} box */
function settle(box) {
  fit(box);
  if (box instanceof HTMLInputElement) box.toggleAttribute("data-own-unit", hasUnit(box.value));
}

/** Fill the boxes. @param {HTMLElement} root @param {Held | null} held @returns {boolean} whether all of it found a box */
function spread(root, held) {
  const left = new Map(Object.entries(held || {}));
  let fits = held !== null;
  for (const box of boxes(root)) {
    const text = amount(left.get(box.dataset.part || ""));
    box.value = text ?? "";
    settle(box);
    fits &&= box.value === text;
    left.delete(box.dataset.part || "");
  }
  for (const table of all(root, "[data-table]")) {
    const inner = tableIn(left.get(table.dataset.table || "") ?? "");
    fits = spread(table, inner) && fits;
    table.closest("details")?.toggleAttribute("open", Object.keys(inner || {}).length > 0);
    left.delete(table.dataset.table || "");
  }
  return fits && left.size === 0;
}

/** What a box says of an amount; undefined where a box can't say it. @param {unknown} given @returns {string | undefined} */
function amount(given) {
  if (given === undefined || given === null) return "";
  if (isHeld(given) && "value" in given && "unit" in given) return `${given.value} ${given.unit}`;
  return typeof given === "object" ? undefined : String(given);
}

/** @param {string} text @returns {Held[] | null} */
function rowsIn(text) {
  const held = text === "" ? [] : parsed(text);
  return Array.isArray(held) && held.every(isHeld) ? held : null;
}

/** A table out of JSON, or out of pairs such as "50: 21.4; pan: 0.2". @param {unknown} given @returns {Held | null} */
function tableIn(given) {
  const held = typeof given === "string" && given.trim().startsWith("{") ? parsed(given) : given;
  if (isHeld(held)) return Object.fromEntries(Object.entries(held).map(([key, part]) => [key.trim().toLowerCase(), part]));
  if (typeof held !== "string") return null;
  const pairs = held.split(PAIRS_END).filter((pair) => pair.trim()).map((pair) => pair.split(/:(.*)/s));
  return pairs.every((pair) => pair.length > 1) ? Object.fromEntries(pairs.map(([key, part]) => [key.trim().toLowerCase(), part.trim()])) : null;
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
