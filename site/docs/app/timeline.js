// @ts-check
import { all, fill, fresh, line, list, one, say, show, tapped } from "./dom.js";
import { focusOn } from "./focus.js";
import { isSecondTap } from "./second-tap.js";
import { momentText } from "./time-text.js";

/** @import {TimelineEntry} from "./answer-types.js" */

const FIRST_SHOWN = 20;

/** What happened to the heap, newest first. It sends "right" and "undo" with the id of an entry. */
export class Timeline extends EventTarget {
  /** @type {TimelineEntry[]} */
  #entries = [];
  #kind = "";
  #most = FIRST_SHOWN;

  /** @param {HTMLElement} root */
  constructor(root) {
    super();
    this.root = root;
    this.filter = one(root, "[data-filter]");
    this.more = one(root, "[data-deed=all]");
    this.filter.addEventListener("change", ({ target }) => {
      if (!(target instanceof HTMLInputElement)) return;
      this.#kind = target.value;
      this.#most = FIRST_SHOWN;
      this.#draw();
    });
    this.more.addEventListener("click", () => {
      this.#most = Infinity;
      this.#draw();
      const first = one(root, "[data-list=timeline]").children[FIRST_SHOWN];
      if (first instanceof HTMLElement) focusOn(first);
    });
    one(root, "[data-list=timeline]").addEventListener("click", (event) => this.#tapped(event));
  }

  /** @param {TimelineEntry[]} entries oldest first */
  show(entries) {
    this.#entries = entries;
    this.#draw();
  }

  #draw() {
    const kinds = new Map(this.#entries.map(({ kind, label }) => [kind, label]));
    if (!kinds.has(this.#kind)) this.#kind = "";
    const matching = entriesOf(this.#entries, this.#kind);
    show(this.root, this.#entries.length > 0);
    this.#drawFilter(kinds);
    list(this.root, "timeline", matching.slice(0, this.#most).map(row).map(this.#askingStill));
    show(this.more, matching.length > this.#most);
  }

  /**
   * A row whose button waits for a second tap, if the one on the screen does: an answer that comes between the two taps changes nothing.
   * @param {HTMLElement} item
   */
  #askingStill = (item) => {
    const button = one(item, "[data-undo]");
    const shown = this.root.querySelector(`[data-undo="${CSS.escape(button.dataset.undo ?? "")}"][data-asked]`);
    if (shown) button.replaceWith(shown.cloneNode(true));
    return item;
  };

  /** @param {Map<string, string>} kinds */
  #drawFilter(kinds) {
    show(this.filter, kinds.size > 1);
    const values = ["", ...kinds.keys()];
    const drawn = all(this.filter, "input", HTMLInputElement).map(({ value }) => value);
    if (drawn.join(" ") !== values.join(" ")) {
      this.filter.replaceChildren(...values.map((kind) => chip(kind, kinds.get(kind) ?? "All")));
    }
    for (const input of all(this.filter, "input", HTMLInputElement)) input.checked = input.value === this.#kind;
  }

  /** @param {Event} event */
  #tapped(event) {
    const button = tapped(event, "[data-undo], [data-right]");
    if (!button) return;
    const { undo, right } = button.dataset;
    if (right) this.dispatchEvent(new CustomEvent("right", { detail: right }));
    else if (isSecondTap(button, "Tap again to undo")) this.dispatchEvent(new CustomEvent("undo", { detail: undo }));
  }
}

/**
 * The entries of a kind, or all, newest first.
 * @param {TimelineEntry[]} entries oldest first
 * @param {string} kind empty for all
 */
export function entriesOf(entries, kind) {
  return entries.filter((entry) => !kind || entry.kind === kind).reverse();
}

/**
 * @param {string} kind
 * @param {string} label
 */
function chip(kind, label) {
  const made = fresh("filter");
  one(made, "input", HTMLInputElement).value = kind;
  fill(made, { label });
  return made;
}

/** @param {TimelineEntry} entry */
function row({ id, at, label, text, note, lines, undone, can_undo }) {
  const item = fresh("entry");
  fill(item, { label, at: momentText(at), text, note });
  one(item, "time").setAttribute("datetime", at);
  list(item, "lines", undone ? [] : lines.map(line));
  show(one(item, "[data-undone]"), undone);
  item.toggleAttribute("data-is-undone", undone);
  const buttons = /** @type {const} */ ([
    ["undo", "Undo"],
    ["right", "Correct"],
  ]);
  for (const [name, words] of buttons) {
    const button = one(item, `[data-${name}]`);
    button.dataset[name] = id;
    button.setAttribute("aria-describedby", `entry-${id}`);
    say(button, words);
    show(button, can_undo);
  }
  one(item, ".entry-head").id = `entry-${id}`;
  return item;
}
