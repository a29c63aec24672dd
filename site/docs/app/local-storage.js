// @ts-check
/**
 * What this phone keeps: small named values as JSON. A browser that refuses is said so once; nothing else changes.
 */

const PREFIX = "sandmix.";

/**
 * @type {Map<string, unknown>} what is held for as long as the page is open, where the browser refuses
 */
const held = new Map();
let refused = false;

/** Where pages hear that the browser refuses to keep anything. */
export const store = new EventTarget();

/** @param {string} name @param {unknown} value */
export function keep(name, value) {
  held.set(name, value);
  try {
    localStorage.setItem(PREFIX + name, JSON.stringify(value));
  } catch {
    refuse();
  }
}

/** @param {string} name @returns {any} the kept value, or null */
export function recall(name) {
  if (held.has(name)) return held.get(name);
  try {
    return JSON.parse(localStorage.getItem(PREFIX + name) || "null");
  } catch {
    return null;
  }
}

/** @param {string} name */
export function forget(name) {
  held.delete(name);
  try {
    localStorage.removeItem(PREFIX + name);
  } catch {
    refuse();
  }
}

/** Try whether the browser keeps anything at all. */
export function tryStore() {
  keep("tried", 1);
  return !refused;
}

function refuse() {
  if (refused) return;
  refused = true;
  store.dispatchEvent(new Event("refused"));
}
