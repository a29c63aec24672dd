// @ts-check
/** Finding, filling and cloning elements. Text goes in as text, never as HTML. */

/**
 * The element of this kind that the page must have.
 * @template {HTMLElement} [E=HTMLElement]
 * @param {ParentNode} root
 * @param {string} selector
 * @param {new () => E} [kind]
 * @returns {E}
 */
export function one(root, selector, kind) {
  const found = root.querySelector(selector);
  if (!(found instanceof (kind ?? HTMLElement))) throw new Error(`The page lacks ${selector}`);
  return /** @type {E} */ (found);
}

/**
 * @template {HTMLElement} [E=HTMLElement]
 * @param {ParentNode} root
 * @param {string} selector
 * @param {new () => E} [kind]
 * @returns {E[]}
 */
export function all(root, selector, kind) {
  const found = Array.from(root.querySelectorAll(selector));
  return /** @type {E[]} */ (kind ? found.filter((each) => each instanceof kind) : found);
}

/**
 * The element around an event's target that matches.
 * @param {Event} event
 * @param {string} selector
 * @returns {HTMLElement | null}
 */
export function tapped(event, selector) {
  return event.target instanceof Element ? around(event.target, selector) : null;
}

/**
 * The element itself, or the nearest around it, that matches.
 * @param {Element} element
 * @param {string} selector
 * @returns {HTMLElement | null}
 */
export function around(element, selector) {
  const found = element.closest(selector);
  return found instanceof HTMLElement ? found : null;
}

/**
 * What the build wrote into a data attribute as JSON.
 * @param {HTMLElement} element
 * @param {string} name
 * @param {any} missing the value if there is no such attribute
 * @returns {any}
 */
export function dataOf(element, name, missing) {
  const text = element.dataset[name];
  return text ? JSON.parse(text) : missing;
}

/**
 * Put texts into the slots of an element.
 * @param {ParentNode} root
 * @param {Record<string, string>} texts
 */
export function fill(root, texts) {
  for (const [slot, text] of Object.entries(texts)) {
    for (const element of all(root, `[data-slot="${slot}"]`)) say(element, text);
  }
}

/**
 * Set the text of an element. A text that is already there stays untouched, so that nobody hears it twice.
 * @param {Element} element
 * @param {string} text
 */
export function say(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/**
 * @param {HTMLElement} element
 * @param {boolean} shown
 */
export function show(element, shown) {
  if (element.hidden === shown) element.hidden = !shown;
}

/**
 * A copy of a row that the build drew in a template of the page.
 * @param {string} name
 * @param {number} [which]
 */
export function fresh(name, which = 0) {
  return copyOf(one(document, `template[data-template="${name}"]`, HTMLTemplateElement), which);
}

/**
 * Copies of those rows of a template that match.
 * @param {string} name
 * @param {string} selector
 */
export function freshFor(name, selector) {
  const { content } = one(document, `template[data-template="${name}"]`, HTMLTemplateElement);
  return all(content, selector).map((row) => /** @type {HTMLElement} */ (row.cloneNode(true)));
}

/**
 * A copy of what a template holds.
 * @param {HTMLTemplateElement} template
 * @param {number} [which]
 */
export function copyOf(template, which = 0) {
  return /** @type {HTMLElement} */ (template.content.children[which].cloneNode(true));
}

/**
 * Make a list hold exactly these rows. A list that already looks the same stays untouched.
 * @param {ParentNode} root
 * @param {string} name
 * @param {HTMLElement[]} rows
 */
export function list(root, name, rows) {
  for (const place of all(root, `[data-list="${name}"]`)) {
    const same =
      place.children.length === rows.length && rows.every((row, at) => row.isEqualNode(unmarked(place.children[at])));
    if (!same) place.replaceChildren(...rows.map((row) => row.cloneNode(true)));
  }
}

/**
 * A row without the marks of its trade words (`terms.js`).
 * @param {Element} row
 */
function unmarked(row) {
  if (!row.querySelector(".term")) return row;
  const copy = /** @type {Element} */ (row.cloneNode(true));
  for (const term of all(copy, ".term")) term.replaceWith(term.textContent ?? "");
  copy.normalize();
  return copy;
}

/** @param {string} words */
export function line(words) {
  const item = fresh("line");
  fill(item, { words });
  return item;
}

/**
 * Show the tone of a state: its colour and its sign, and its word.
 * @param {HTMLElement} place
 * @param {{word: string, tone: string}} state
 */
export function showState(place, { word, tone }) {
  place.dataset.tone = tone;
  fill(place, { state: word });
  for (const sign of all(place, "[data-sign]")) show(sign, sign.dataset.sign === tone);
}

/**
 * Show figures at their places; a figure that is missing is "not known".
 * @param {HTMLElement} root
 * @param {(word: string, place: HTMLElement) => {text: string, range?: string} | undefined} figureOf
 */
export function showFigures(root, figureOf) {
  for (const place of all(root, "[data-figure]")) {
    const figure = figureOf(place.dataset.figure ?? "", place);
    fill(place, { text: figure?.text ?? "not known", range: figure?.range ?? "" });
  }
}

/**
 * A quiet button.
 * @param {string} label
 * @param {() => unknown} action
 */
export function button(label, action) {
  const made = document.createElement("button");
  made.type = "button";
  made.className = "deed quiet";
  made.textContent = label;
  made.addEventListener("click", action);
  return made;
}

/**
 * Say of all buttons of a row what they are about: the row's words.
 * @param {HTMLElement} row
 * @param {string} id for the words
 */
export function describeButtons(row, id) {
  one(row, "[data-slot=words]").id = id;
  for (const each of all(row, "button")) each.setAttribute("aria-describedby", id);
}

/**
 * A drawing of the library, read as SVG.
 * @param {string} text
 */
export function drawing(text) {
  const root = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  return root instanceof SVGElement ? document.importNode(root, true) : null;
}
