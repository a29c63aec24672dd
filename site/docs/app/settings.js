// @ts-check
/**
 * What a person set once for all pages: the size of the text and the hand that holds the phone, which `look.js` applies, and the units
 * in which amounts are typed and shown, and the figures that a person always uses.
 */

import { keep, keepDamaged, recall } from "./local-storage.js";

/** @import {Carry} from "./carried-rules.js" */
/**
 * @typedef {object} Settings
 * @property {string} [text] the size of the text; none for the usual one
 * @property {string} [hand] the hand that holds the phone; none for the right one
 * @property {Record<string, {text: string, unit: string}>} [own] what the person always uses, by word
 * @property {Record<string, string>} [shown_in] the unit to type and show, by the library's unit that it stands for
 */

const SETTINGS = "settings";
const LOOK = "sandmix.look";

/** @returns {Settings} */
export function settings() {
  const kept = Object.entries(recall(SETTINGS) ?? {});
  return Object.fromEntries(kept.filter(([, value]) => value !== null));
}

/**
 * Keep changed settings, and let the page wear them.
 * @param {Settings} changed
 */
export function set(changed) {
  const all = { ...settings(), ...changed };
  keep(SETTINGS, Object.fromEntries(Object.entries(all).filter(([, value]) => !isUsual(value))));
  wear(chosenLook());
}

/** @param {unknown} value */
function isUsual(value) {
  return value === "" || (typeof value === "object" && value !== null && !Object.keys(value).length);
}

/**
 * The unit that a person chose for all amounts of a kind.
 * @param {string} own the library's unit
 * @returns {string} the same where nothing else was chosen
 */
export function wishedUnit(own) {
  return settings().shown_in?.[own] ?? own;
}

/**
 * A question that says in which units its answer is to be written.
 * @template {object} R
 * @param {R} request
 * @returns {R}
 */
export function inWishedUnits(request) {
  const { shown_in } = settings();
  return shown_in ? { shown_in, ...request } : request;
}

/**
 * Set the chosen units aside, where the library refuses one of them and with it every question. The page says so once.
 */
export function setUnitsAside() {
  const { shown_in } = settings();
  if (!shown_in) return;
  keepDamaged("units", shown_in, "the units that you chose");
  set({ shown_in: {} });
}

/**
 * The figures that a person always uses, as a form carries them.
 * @returns {Carry[]}
 */
export function ownCarries() {
  return Object.entries(settings().own ?? {}).map(([word, { text, unit }]) => ({
    word,
    value: unit ? { value: text, unit } : text,
    from: "from your settings",
  }));
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
