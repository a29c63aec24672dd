// @ts-check
import { all, fill, fresh, line, list, one, say, show } from "./dom.js";
import { second } from "./second-tap.js";

const FIRST_SHOWN = 20;

/**
 * @typedef {{id: string, at: string, kind: string, label: string, text: string, lines: string[], undone: boolean, can_undo: boolean, note?: string}} Entry
 */

/** What happened to the heap, newest first. */
export class Timeline extends EventTarget {
  /** @type {Entry[]} */
  #entries = [];
  #kind = "";
  #most = FIRST_SHOWN;

  /** @param {HTMLElement} root */
  constructor(root) {
    super();
    this.root = root;
    this.filter = one(root, "[data-filter]");
    this.more = one(root, "[data-deed=all]");
    this.filter.addEventListener("change", (event) =>
      this.#choose(/** @type {HTMLInputElement} */ (event.target).value),
    );
    this.more.addEventListener("click", () => this.#all());
    one(root, "[data-list=timeline]").addEventListener("click", (event) => this.#tapped(event));
  }

  /** @param {Entry[]} entries oldest first */
  show(entries) {
    this.#entries = entries;
    this.#draw();
  }

  /** @param {string} kind */
  #choose(kind) {
    this.#kind = kind;
    this.#most = FIRST_SHOWN;
    this.#draw();
  }

  #all() {
    this.#most = Infinity;
    this.#draw();
  }

  #draw() {
    const kinds = new Map(this.#entries.map(({ kind, label }) => [kind, label]));
    if (!kinds.has(this.#kind)) this.#kind = "";
    const wanted = this.#entries.filter(({ kind }) => !this.#kind || kind === this.#kind).reverse();
    show(this.root, this.#entries.length > 0);
    this.#drawFilter(kinds);
    list(this.root, "timeline", wanted.slice(0, this.#most).map(row));
    show(this.more, wanted.length > this.#most);
  }

  /** @param {Map<string, string>} kinds */
  #drawFilter(kinds) {
    show(this.filter, kinds.size > 1);
    const stand = all(this.filter, "input").map((chip) => /** @type {HTMLInputElement} */ (chip).value);
    const wanted = ["", ...kinds.keys()];
    if (stand.join(" ") !== wanted.join(" "))
      this.filter.replaceChildren(...wanted.map((kind) => chip(kind, kinds.get(kind) ?? "All")));
    for (const found of all(this.filter, "input")) {
      const input = /** @type {HTMLInputElement} */ (found);
      input.checked = input.value === this.#kind;
    }
  }

  /** @param {globalThis.Event} event */
  #tapped(event) {
    const button = event.target instanceof Element && event.target.closest("[data-undo], [data-right]");
    if (!(button instanceof HTMLElement)) return;
    const { undo, right } = button.dataset;
    if (right) this.dispatchEvent(new CustomEvent("right", { detail: right }));
    else if (second(button, "Tap again to undo")) this.dispatchEvent(new CustomEvent("undo", { detail: undo }));
  }
}

/** @param {string} kind @param {string} label */
function chip(kind, label) {
  const made = fresh("filter");
  /** @type {HTMLInputElement} */ (one(made, "input")).value = kind;
  fill(made, { label });
  return made;
}

/** @param {Entry} entry */
function row(entry) {
  const item = fresh("entry");
  fill(item, { label: entry.label, at: dayOf(entry.at), text: entry.text, note: entry.note ?? "" });
  one(item, "time").setAttribute("datetime", entry.at);
  list(item, "lines", entry.undone ? [] : (entry.lines ?? []).map(line));
  show(one(item, "[data-undone]"), entry.undone);
  item.toggleAttribute("data-is-undone", entry.undone);
  for (const [name, label] of [
    ["undo", "Undo"],
    ["right", "Put right"],
  ]) {
    const button = one(item, `[data-${name}]`);
    button.dataset[name] = entry.id;
    button.setAttribute("aria-describedby", `entry-${entry.id}`);
    say(button, label);
    show(button, entry.can_undo);
  }
  one(item, ".entry-head").id = `entry-${entry.id}`;
  return item;
}

/** A moment in the words of this clock. @param {string} at */
export function dayOf(at) {
  const moment = new Date(at);
  if (Number.isNaN(moment.getTime())) return at;
  return moment.toLocaleString("en-GB", {
    day: "numeric",
    month: "short",
    year: "numeric",
    hour: "2-digit",
    minute: "2-digit",
  });
}
