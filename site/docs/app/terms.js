// @ts-check
/**
 * Trade words that open their line of the glossary. The build writes them as links to the glossary; where the browser has popovers, they
 * become buttons here. In an answer they are marked when it is shown.
 */

import { all, one, say, tapped } from "./dom.js";
import { finderOf, piecesOf } from "./term-marks.js";

/** @import {Finder, Term} from "./term-marks.js" */

/** What is marked in an answer. Each is a part of its own: a word is marked once in it. */
const PARTS =
  "[data-bar] [data-slot=sentence], [data-list=todo], [data-list=ways-out], [data-list=remarks], [data-list=working]";
/** What stays clean inside of a part. */
const CLEAN = "a, button, label, summary";
const MARGIN = 8;

/** @type {Promise<{terms: Map<string, Term>, finder: Finder}> | undefined} */
let fetched;
/** @type {Box | undefined} */
let box;

/** @param {Term[]} rows */
function listed(rows) {
  return { terms: new Map(rows.map((row) => [row.key, row])), finder: finderOf(rows) };
}

/** The address of the page *Words*. */
function glossary() {
  const base = one(document, "script[data-base]").dataset.base || ".";
  return new URL(`${base}/words/`, location.href).href;
}

/** The list of words; where it does not arrive, it is fetched again at the next need. */
function words() {
  fetched ??= fetch(`${glossary()}terms.json`)
    .then((answer) => answer.json())
    .then(listed)
    .catch((error) => {
      fetched = undefined;
      throw error;
    });
  return fetched;
}

/** Let the words that the page has open their lines. */
export function startTerms() {
  if (box || !("popover" in HTMLElement.prototype)) return;
  box = new Box();
  all(document, ".term").forEach(asButton);
  for (const template of all(document, "template", HTMLTemplateElement)) {
    all(template.content, ".term").forEach(asButton);
  }
}

/**
 * Mark the words of an answer. Where the list of words does not arrive, none is marked.
 * @param {HTMLElement} root
 */
export async function markAnswer(root) {
  const { finder } = await words();
  startTerms();
  for (const part of all(root, PARTS)) mark(part, finder);
}

/**
 * @param {HTMLElement} part
 * @param {Finder} finder
 */
function mark(part, finder) {
  const used = new Set(all(part, ".term").map((term) => term.dataset.term ?? ""));
  const walk = document.createTreeWalker(part, NodeFilter.SHOW_TEXT);
  const texts = [];
  while (walk.nextNode()) texts.push(/** @type {Text} */ (walk.currentNode));
  for (const text of texts) {
    if (text.parentElement?.closest(CLEAN)) continue;
    const pieces = piecesOf(text.data, finder, used);
    if (pieces.some(({ key }) => key)) {
      text.replaceWith(...pieces.map(({ text: said, key }) => (key ? link(said, key) : said)));
    }
  }
}

/**
 * @param {string} said
 * @param {string} key
 */
function link(said, key) {
  const term = document.createElement("a");
  term.className = "term";
  term.dataset.term = key;
  term.href = `${glossary()}#term-${key}`;
  term.textContent = said;
  if (box) asButton(term);
  return term;
}

/** @param {HTMLElement} term */
function asButton(term) {
  term.role = "button";
  term.ariaHasPopup = "dialog";
  term.ariaExpanded = "false";
}

/** The box that shows one line of the glossary next to its word. */
class Box {
  /** @type {HTMLElement | undefined} the word whose line is open */
  #term;
  /** @type {HTMLElement | null} the word whose line was open when the tap began that may close it */
  #held = null;
  #hadFocus = false;

  constructor() {
    this.root = document.createElement("div");
    this.root.className = "term-line";
    this.root.popover = "auto";
    this.root.role = "dialog";
    this.root.tabIndex = -1;
    this.root.setAttribute("aria-labelledby", "term-name");
    this.root.setAttribute("aria-describedby", "term-meaning");
    this.name = made("b", "term-name");
    this.meaning = made("p", "term-meaning");
    this.more = made("a", "", "Glossary");
    this.close = made("button", "", "Close");
    this.close.setAttribute("type", "button");
    this.close.addEventListener("click", () => this.root.hidePopover());
    const deeds = made("div", "");
    deeds.className = "term-deeds";
    deeds.append(this.more, this.close);
    this.root.append(this.name, this.meaning, deeds);
    one(document, ".md-content").append(this.root);
    this.#listen();
  }

  #listen() {
    document.addEventListener("pointerdown", (event) => {
      this.#held = this.root.matches(":popover-open") ? (this.#term ?? null) : null;
      // some browsers do not close a popover where the tap meets nothing that can be tapped
      if (this.#held && !this.root.contains(/** @type {Node} */ (event.target))) this.root.hidePopover();
    });
    document.addEventListener("click", (event) => {
      const held = this.#held;
      this.#held = null;
      const term = tapped(event, "a.term[role=button]");
      if (!term || event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      if (held !== term) this.#open(term);
    });
    document.addEventListener("keydown", (event) => {
      const term = event.key === " " ? tapped(event, "a.term[role=button]") : null;
      if (!term) return;
      event.preventDefault();
      term.click();
    });
    // in a part that scrolls by itself, the word would leave its line behind
    document.addEventListener("scroll", ({ target }) => target !== document && this.root.hidePopover(), true);
    this.root.addEventListener("keydown", (event) => event.key === "Tab" && this.#tabbed(event));
    this.root.addEventListener("beforetoggle", () => {
      this.#hadFocus = this.root.contains(document.activeElement);
    });
    this.root.addEventListener("toggle", (event) => this.#toggled(/** @type {ToggleEvent} */ (event).newState));
  }

  /** @param {HTMLElement} term */
  async #open(term) {
    const href = /** @type {HTMLAnchorElement} */ (term).href;
    const line = await words().then(
      ({ terms }) => terms.get(term.dataset.term ?? ""),
      () => undefined,
    );
    if (!line) return location.assign(href);
    if (this.#term) this.#term.ariaExpanded = "false";
    this.#term = term;
    say(this.name, line.name);
    say(this.meaning, line.meaning);
    this.more.setAttribute("href", href);
    if (!this.root.matches(":popover-open")) this.root.showPopover();
    term.ariaExpanded = "true";
    this.#place(term);
    this.root.focus({ preventScroll: true });
  }

  /**
   * Below the word, or above it where there is no room; in the page, so that it scrolls with its word.
   * @param {HTMLElement} term
   */
  #place(term) {
    const [at] = term.getClientRects();
    const { offsetWidth: width, offsetHeight: height } = this.root;
    const bar = document.querySelector(".bar");
    const isUnderBar = bar && !bar.contains(term) && getComputedStyle(bar).position === "fixed";
    const floor = isUnderBar ? bar.getBoundingClientRect().top : innerHeight;
    const isAbove = at.bottom + height + MARGIN > floor && at.top > height + MARGIN;
    const left = Math.max(MARGIN, Math.min(at.left, document.documentElement.clientWidth - width - MARGIN));
    const top = isAbove ? at.top - height - MARGIN / 2 : at.bottom + MARGIN / 2;
    this.root.style.left = `${left + scrollX}px`;
    this.root.style.top = `${Math.max(0, top + scrollY)}px`;
  }

  /**
   * The box stands at the end of the page, but Tab goes on from its word.
   * @param {KeyboardEvent} event
   */
  #tabbed(event) {
    const last = event.shiftKey ? [this.root, this.more] : [this.close];
    if (!this.#term || !last.some((part) => part === event.target)) return;
    if (event.shiftKey) event.preventDefault();
    this.#term.focus({ preventScroll: true });
    this.root.hidePopover();
  }

  /** @param {string} state */
  #toggled(state) {
    if (state !== "closed" || !this.#term) return;
    const term = this.#term;
    term.ariaExpanded = "false";
    this.#term = undefined;
    const { activeElement: now } = document;
    if (this.#hadFocus && (!now || now === document.body)) term.focus({ preventScroll: true });
  }
}

/**
 * @param {string} name
 * @param {string} id
 * @param {string} [text]
 */
function made(name, id, text = "") {
  const element = document.createElement(name);
  if (id) element.id = id;
  element.textContent = text;
  return element;
}
