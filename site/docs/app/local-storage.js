// @ts-check
/** Small named values that this device keeps as JSON. If the browser refuses, the page is told once and goes on. */

const PREFIX = "sandmix.";

/** @type {Map<string, unknown>} values that last as long as the page is open, for a browser that refuses */
const inMemory = new Map();
let refused = false;

/** Sends "refused" when the browser refuses to keep anything. */
export const store = new EventTarget();

globalThis.addEventListener?.("storage", ({ key }) => {
  if (key) inMemory.delete(key.slice(PREFIX.length));
  else inMemory.clear();
});

/**
 * @param {string} name
 * @param {unknown} value
 */
export function keep(name, value) {
  inMemory.set(name, value);
  try {
    localStorage.setItem(PREFIX + name, JSON.stringify(value));
  } catch {
    refuse();
  }
}

/**
 * @param {string} name
 * @returns {any} the kept value, or null
 */
export function recall(name) {
  if (inMemory.has(name)) return inMemory.get(name);
  try {
    return JSON.parse(localStorage.getItem(PREFIX + name) || "null");
  } catch {
    return null;
  }
}

/**
 * The names of all kept values that begin like this.
 * @param {string} start
 * @returns {string[]}
 */
export function namesOf(start) {
  const held = refused ? [...inMemory.keys()] : [];
  try {
    const stored = Object.keys(localStorage).filter((name) => name.startsWith(PREFIX));
    held.push(...stored.map((name) => name.slice(PREFIX.length)));
  } catch {
    held.push(...inMemory.keys());
  }
  return [...new Set(held)].filter((name) => name.startsWith(start));
}

/** @param {string} name */
export function forget(name) {
  inMemory.delete(name);
  try {
    localStorage.removeItem(PREFIX + name);
  } catch {
    refuse();
  }
}

/** Find out whether the browser keeps anything at all. */
export function tryStore() {
  keep("tried", 1);
  return !refused;
}

function refuse() {
  if (refused) return;
  refused = true;
  store.dispatchEvent(new Event("refused"));
}
