// @ts-check
/** Finding, filling and cloning: everything the page does to its own elements goes through text, never through HTML. */

/**
 * @param {ParentNode} root
 * @param {string} selector
 * @returns {HTMLElement}
 */
export function one(root, selector) {
  const found = root.querySelector(selector);
  if (!(found instanceof HTMLElement)) throw new Error(`The page lacks ${selector}`);
  return found;
}

/**
 * @param {ParentNode} root
 * @param {string} selector
 * @returns {HTMLElement[]}
 */
export function all(root, selector) {
  return /** @type {HTMLElement[]} */ (Array.from(root.querySelectorAll(selector)));
}

/**
 * Put texts into the slots of an element; a slot that already says so is left alone.
 * @param {ParentNode} root
 * @param {Record<string, string>} texts
 */
export function fill(root, texts) {
  for (const [slot, text] of Object.entries(texts)) {
    for (const element of all(root, `[data-slot="${slot}"]`)) say(element, text);
  }
}

/** @param {Element} element @param {string} text */
export function say(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/** @param {HTMLElement} element @param {boolean} shown */
export function show(element, shown) {
  if (element.hidden === shown) element.hidden = !shown;
}

/**
 * A fresh copy of a row that the build has drawn.
 * @param {string} name
 * @param {number} [which]
 * @returns {HTMLElement}
 */
export function fresh(name, which = 0) {
  const template = document.querySelector(`template[data-template="${name}"]`);
  if (!(template instanceof HTMLTemplateElement)) throw new Error(`The page lacks the row ${name}`);
  return /** @type {HTMLElement} */ (template.content.children[which].cloneNode(true));
}

/**
 * Make a list hold exactly these rows, touching nothing when it already says the same.
 * @param {ParentNode} root
 * @param {string} name
 * @param {HTMLElement[]} rows
 */
export function list(root, name, rows) {
  for (const place of all(root, `[data-list="${name}"]`)) {
    const same = place.children.length === rows.length && rows.every((row, at) => row.isEqualNode(place.children[at]));
    if (!same) place.replaceChildren(...rows.map((row) => /** @type {Node} */ (row.cloneNode(true))));
  }
}

/** @param {string} words */
export function line(words) {
  const item = fresh("line");
  fill(item, { words });
  return item;
}

/**
 * The library's own drawing, parsed as SVG and adopted.
 * @param {string} text
 * @returns {SVGElement | null}
 */
export function drawing(text) {
  const root = new DOMParser().parseFromString(text, "image/svg+xml").documentElement;
  return root instanceof SVGElement ? document.importNode(root, true) : null;
}
