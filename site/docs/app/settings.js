// @ts-check
/** What a person set once for all pages: the size of the text and the hand that holds the phone. `look.js` applies it. */

import { keep, recall } from "./local-storage.js";

/**
 * @typedef {object} Settings
 * @property {string} [text] the size of the text; none for the usual one
 * @property {string} [hand] the hand that holds the phone; none for the right one
 */

const SETTINGS = "settings";
const LOOK = "sandmix.look";

/** @returns {Settings} */
export function settings() {
  return recall(SETTINGS) ?? {};
}

/**
 * Keep changed settings, and let the page wear them.
 * @param {Settings} changed
 */
export function set(changed) {
  const all = { ...settings(), ...changed };
  keep(SETTINGS, Object.fromEntries(Object.entries(all).filter(([, value]) => value !== "")));
  wear(chosenLook());
}

/** The look that a person chose; empty for that of the device. */
export function chosenLook() {
  try {
    return localStorage.getItem(LOOK) ?? "";
  } catch {
    return "";
  }
}

/** @param {string} look empty for that of the device */
export function chooseLook(look) {
  try {
    if (look) localStorage.setItem(LOOK, look);
    else localStorage.removeItem(LOOK);
  } catch {
    // The browser keeps nothing: the look holds for this page.
  }
  wear(look);
}

/**
 * Have `look.js` apply what was chosen, also where the browser keeps nothing.
 * @param {string} look
 */
function wear(look) {
  dispatchEvent(new CustomEvent("wear", { detail: { look, chosen: settings() } }));
}
