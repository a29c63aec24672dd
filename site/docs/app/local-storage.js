// @ts-check
/**
 * Small named values that this device keeps as JSON. If the browser refuses, the page is told once and goes on. A damaged value
 * is set aside, so that it troubles the page only once.
 */

import { damageIn } from "./kept-shapes.js";

const PREFIX = "sandmix.";

/** @type {Map<string, unknown>} values that last as long as the page is open, for a browser that refuses */
const inMemory = new Map();
let refused = false;

/**
 * Sends "refused" when the browser refuses to keep anything, and "damaged" when a value was set aside, with what it was as
 * detail.
 */
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
  const text = textOf(name);
  if (!text) return null;
  const value = parsed(text);
  const damage = damageIn(name, value);
  if (!damage) return value;
  setAside(name, text);
  if (!damage.copy) store.dispatchEvent(new CustomEvent("damaged", { detail: damage.called }));
  return null;
}

/** @param {string} name */
function textOf(name) {
  try {
    return localStorage.getItem(PREFIX + name);
  } catch {
    return null;
  }
}

/** @param {string} text */
function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/**
 * @param {string} name
 * @param {string} text
 */
function setAside(name, text) {
  try {
    localStorage.removeItem(PREFIX + name);
    localStorage.setItem(PREFIX + copyName(name, text), text);
  } catch {
    refuse();
  }
}

/**
 * The name for a copy of something damaged: an earlier copy of something else stays.
 * @param {string} name
 * @param {string} text
 */
function copyName(name, text) {
  let free = `damaged.${name}`;
  for (let number = 2; ![null, text].includes(textOf(free)); number += 1) free = `damaged.${name}.${number}`;
  return free;
}

/**
 * Keep a copy of what turned out to be damaged, and let the page say so.
 * @param {string} name
 * @param {unknown} value
 * @param {string} called what it is, in words
 */
export function keepDamaged(name, value, called) {
  keep(copyName(name, JSON.stringify(value)), value);
  store.dispatchEvent(new CustomEvent("damaged", { detail: called }));
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
