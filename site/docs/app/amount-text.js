// @ts-check
/**
 * Amounts as text, for reading and for links. The library alone says what an amount means: it gets the text
 * together with
 * the unit of the box, and a unit in the text itself counts first.
 */

/**
 * @typedef {{value: string, unit: string}} Amount the text of a box, and the unit that is chosen for it
 * @typedef {string | boolean | Amount | {upload: string}} Value what one field gives
 */

const UNIT_SIGN = /[\p{L}%°"'′″]/u;
const EXPONENT = /(?<=\d)e(?=[+-]?\d)/giu;
const FIGURES_ALONE = /^[\d.,\s+±−×x-]+$/;

/**
 * Whether a text shows a unit of its own, so that a reader needs no other behind it.
 * @param {string} text
 */
export function showsUnit(text) {
  return UNIT_SIGN.test(text.replace(EXPONENT, ""));
}

/**
 * A text with its unit, as a person reads it.
 * @param {string} text
 * @param {string} unit
 */
export function withUnit(text, unit) {
  return unit === "" || text === "" || showsUnit(text) ? text : `${text} ${unit}`;
}

/**
 * @param {unknown} given
 * @returns {given is {value: string | number, unit: string}}
 */
export function isAmount(given) {
  return typeof given === "object" && given !== null && "value" in given && "unit" in given;
}

/**
 * Any value of a word as a person reads it.
 * @param {unknown} value
 */
export function shownText(value) {
  if (isAmount(value)) return withUnit(String(value.value), value.unit);
  if (typeof value === "object" && value !== null && "upload" in value) return String(value.upload);
  if (typeof value === "boolean") return value ? "yes" : "no";
  return String(value ?? "");
}

/**
 * The text and the unit of a box that holds this value. A unit at the end of a text moves to the box only if
 * figures alone
 * stand in front of it: "3 lb 4 oz" stays whole.
 * @param {unknown} value
 * @param {string[]} units the units that the box offers, its own first
 * @returns {{text: string, unit: string | undefined}} no unit if the box has no unit to choose
 */
export function inBox(value, units) {
  if (isAmount(value)) {
    const offered = units.includes(value.unit);
    return { text: offered ? String(value.value) : shownText(value), unit: offered ? value.unit : units[0] };
  }
  const text = shownText(value);
  const unit = units.find((each) => text.endsWith(` ${each}`) && FIGURES_ALONE.test(text.slice(0, -each.length)));
  return unit === undefined ? { text, unit: units[0] } : { text: text.slice(0, -unit.length - 1), unit };
}
