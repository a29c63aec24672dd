// @ts-check
/** One field of a form: which word it asks for, what was typed and chosen, and how to fill it. */

import { all, around, one, say, show } from "./dom.js";
import { wishedUnit } from "./settings.js";

/** @import {Value} from "./amount-text.js" */

/** A text with more characters than this is written smaller. */
const LONG = 7;

/** @param {HTMLElement} field */
export function wordOf(field) {
  return field.dataset.field ?? "";
}

/** @param {HTMLElement} field */
export function inputOf(field) {
  return one(field, "[data-input]");
}

/**
 * Whether a field counts now: not if another way or another choice hides it.
 * @param {HTMLElement} field
 */
export function isAsked(field) {
  return !field.hidden && !field.closest("[data-option][hidden]");
}

/**
 * Whether a field holds a figure that is known elsewhere, and none that a person typed.
 * @param {HTMLElement} field
 */
export function isCarried(field) {
  return field.hasAttribute("data-carried");
}

/**
 * @param {HTMLElement} field
 * @param {boolean} carried
 */
export function setCarried(field, carried) {
  field.toggleAttribute("data-carried", carried);
}

/**
 * The text of a field, whatever kind it is; empty if nothing was given.
 * @param {HTMLElement} field
 */
export function textIn(field) {
  if (field.dataset.strange) return field.dataset.strange;
  return chosenText(field);
}

/** @param {HTMLElement} field */
function chosenText(field) {
  const place = inputOf(field);
  if (place instanceof HTMLInputElement && place.type === "checkbox") return place.checked ? "yes" : "no";
  if (place instanceof HTMLInputElement || place instanceof HTMLSelectElement) return place.value.trim();
  if (field.dataset.kind === "picks") return ticked(field).join(", ");
  return chosen(field, wordOf(field));
}

/**
 * What a field gives to the library: a figure always with the unit of its box, which counts if the text names none.
 * @param {HTMLElement} field
 * @returns {Value}
 */
export function valueOf(field) {
  const text = textIn(field);
  const unit = unitOf(field);
  if (field.dataset.kind === "flag") return text === "yes";
  if (field.dataset.kind === "upload") return { upload: text };
  return unit ? { value: text, unit } : text;
}

/**
 * Fill a field.
 * @param {HTMLElement} field
 * @param {string} text
 */
export function put(field, text) {
  setStrange(field, "");
  putChosen(field, text);
  if (text !== "" && takesKeys(field) && keysIn(chosenText(field)) !== keysIn(text)) setStrange(field, text);
}

/**
 * Whether a field holds a choice that it does not offer. The library says what such a choice means, if anything.
 * @param {HTMLElement} field
 */
export function isStrange(field) {
  return Boolean(field.dataset.strange);
}

/**
 * Note that a person chose something, so that a choice that the field does not offer is gone.
 * @param {HTMLElement} field
 */
export function chooseOwn(field) {
  if (isStrange(field)) setStrange(field, "");
}

/**
 * Hold a choice that the field does not offer, show it in words, and choose nothing that it offers.
 * @param {HTMLElement} field
 * @param {string} text empty for none
 */
function setStrange(field, text) {
  const place = field.querySelector("[data-strange-words]");
  if (!place) return;
  field.dataset.strange = text;
  say(place, text ? `Given here: “${text}”` : "");
  show(/** @type {HTMLElement} */ (place), text !== "");
  if (!text) return;
  const box = inputOf(field);
  if (box instanceof HTMLSelectElement) box.selectedIndex = -1;
  else tick(field, []);
}

/** @param {HTMLElement} field */
function takesKeys(field) {
  return ["choice", "picks"].includes(field.dataset.kind ?? "");
}

/**
 * The keys in a text, in any order.
 * @param {string} text
 */
function keysIn(text) {
  const keys = text.split(",").map((key) => key.trim());
  return keys.filter(Boolean).sort().join(",");
}

/**
 * @param {HTMLElement} field
 * @param {string} text
 */
function putChosen(field, text) {
  const place = inputOf(field);
  if (place instanceof HTMLInputElement && place.type === "checkbox") {
    place.checked = text === "yes";
  } else if (place instanceof HTMLInputElement || place instanceof HTMLSelectElement) {
    place.value = text;
    fit(place);
    place.dispatchEvent(new Event("put"));
  } else if (field.dataset.kind === "picks") {
    const keys = text.split(",").map((key) => key.trim());
    tick(field, keys);
  } else if (text === "") {
    tick(field, []);
  } else {
    choose(field, wordOf(field), text);
  }
}

/**
 * The unit that a field's figure is read in; empty if it has none.
 * @param {HTMLElement} field
 */
export function unitOf(field) {
  return chosen(field, `unit-${wordOf(field)}`) || inputOf(field).dataset.unit || "";
}

/**
 * The units that a field offers, its own first.
 * @param {HTMLElement} field
 * @returns {string[]}
 */
export function unitsOf(field) {
  const chips = all(field, `input[name="unit-${wordOf(field)}"]`, HTMLInputElement).map(({ value }) => value);
  const own = inputOf(field).dataset.unit;
  return chips.length || !own ? chips : [own];
}

/**
 * Show the chosen unit beside the box, and the usual range and the default in it.
 * @param {HTMLElement} field
 */
export function showUnit(field) {
  const unit = chosen(field, `unit-${wordOf(field)}`);
  if (!unit) return;
  for (const place of all(field, "[data-unit-shown]")) say(place, unit);
  for (const place of all(field, "[data-in-unit]")) {
    const isShown = place.dataset.inUnit === unit;
    // empty where it is not shown: a screen reader reads all text of a help that is folded away, also of hidden parts
    say(place, (isShown && place.dataset.said) || "");
    show(place, isShown);
  }
}

/**
 * Open a field in the unit that a person chose for all amounts of its kind, if the field offers it.
 * @param {HTMLElement} field
 */
export function openInWishedUnit(field) {
  const [own] = unitsOf(field);
  if (!own) return;
  choose(field, `unit-${wordOf(field)}`, wishedUnit(own));
  showUnit(field);
}

/**
 * The way of asking that hides a field or shows it, and the option that it belongs to.
 * @param {HTMLElement} field
 */
export function optionOf(field) {
  const panel = around(field, "[data-option]");
  const way = panel && around(panel, "[data-way]");
  return panel && way ? { way, panel, option: panel.dataset.option ?? "" } : undefined;
}

/**
 * Show the fields of the chosen way.
 * @param {HTMLElement} way
 */
export function openWay(way) {
  const name = chosen(way, `way-${way.dataset.way}`);
  for (const panel of all(way, "[data-option]")) show(panel, panel.dataset.option === name);
}

/**
 * Write a text that is longer than a number smaller, so that all of it is seen.
 * @param {HTMLElement} box
 */
export function fit(box) {
  if (box instanceof HTMLInputElement) box.toggleAttribute("data-long", box.value.length > LONG);
}

/**
 * The value of the chosen chip.
 * @param {ParentNode} root
 * @param {string} name
 */
export function chosen(root, name) {
  const chip = root.querySelector(`input[name="${name}"]:checked`);
  return chip instanceof HTMLInputElement ? chip.value : "";
}

/**
 * @param {ParentNode} root
 * @param {string} name
 * @param {string | undefined} value
 */
export function choose(root, name, value) {
  for (const chip of all(root, `input[name="${name}"]`, HTMLInputElement)) {
    if (chip.value === value) chip.checked = true;
  }
}

/**
 * The keys of the tiles that are ticked.
 * @param {HTMLElement} field
 */
function ticked(field) {
  return all(field, "[data-tile] input", HTMLInputElement).flatMap((box) => (box.checked ? [box.value] : []));
}

/**
 * Rows, a table or a choice as the page says it; empty for a figure or a choice that the field does not offer.
 * @param {HTMLElement} field
 */
export function wordsIn(field) {
  const place = inputOf(field);
  if (place.dataset.words || isStrange(field)) return place.dataset.words ?? "";
  if (place instanceof HTMLSelectElement) return place.selectedOptions[0]?.textContent?.trim() ?? "";
  const boxes = all(place, "input:checked", HTMLInputElement);
  return boxes.map((box) => around(box, "label")?.textContent?.trim()).join(", ");
}

/**
 * @param {HTMLElement} field
 * @param {string[]} keys
 */
function tick(field, keys) {
  for (const box of all(field, "[data-input] input", HTMLInputElement)) box.checked = keys.includes(box.value);
}
