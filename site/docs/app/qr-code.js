// @ts-check
/** An address as a QR code: what goes into it, and the drawing of its dark squares. */

import { isAmount } from "./amount-text.js";
import { addressOf } from "./share.js";

/** @typedef {{size: number, get: (x: number, y: number) => boolean}} Squares whether a square is dark, from the left and from the top */

/**
 * The longest address, in characters. Its code has 85 squares a side, each 0.39 mm wide in the largest drawing on the
 * card (own choice, tried by reading printed cards at 300 dots per inch).
 */
export const LONGEST = 600;
/** White squares around the code, which readers need (ISO/IEC 18004, from memory). */
export const QUIET = 4;
const SQUARE_MM = 0.45;
const LEAST_MM = 22;
const MOST_MM = 36;

/** Escaped signs that an address may hold as they are, behind the #. */
const ALLOWED = { "%3A": ":", "%2C": ",", "%3B": ";", "%2F": "/", "%28": "(", "%29": ")" };

/**
 * The address for a code: with all inputs, or without those that stand in the form by default, or none if that is
 * still too long.
 * @param {string} page
 * @param {[string, unknown][]} given
 * @param {[string, unknown][]} changed those of them that a person gave
 * @param {Record<string, string>} units the unit of each box before anybody chooses another: a code leaves it out
 */
export function codeAddress(page, given, changed, units) {
  const addresses = [given, changed].map((pairs) => shorter(addressOf(page, pairs.map(plain(units)))));
  return addresses.find((address) => address.length <= LONGEST) ?? "";
}

/**
 * An input without the unit that its box has anyway, and rows without spaces.
 * @param {Record<string, string>} units
 */
function plain(units) {
  return (/** @type {[string, unknown]} */ [word, value]) => {
    if (isAmount(value)) {
      return /** @type {[string, unknown]} */ ([word, value.unit === units[word] ? value.value : value]);
    }
    return /** @type {[string, unknown]} */ ([word, withoutSpaces(value)]);
  };
}

/**
 * Rows and tables written as JSON, without the spaces between their parts.
 * @param {unknown} value
 */
function withoutSpaces(value) {
  if (typeof value !== "string" || !/^\s*[[{]/.test(value)) return value;
  try {
    return JSON.stringify(JSON.parse(value));
  } catch {
    return value;
  }
}

/**
 * The same address with fewer escapes.
 * @param {string} address
 */
function shorter(address) {
  return Object.entries(ALLOWED).reduce((text, [escaped, sign]) => text.replaceAll(escaped, sign), address);
}

/**
 * The dark squares as the path of a drawing: one step for each run of a row, inside the quiet zone.
 * @param {Squares} squares
 */
export function pathOf({ size, get }) {
  const steps = [];
  for (let y = 0; y < size; y += 1) {
    for (let x = 0; x < size; x += 1) {
      const from = x;
      while (x < size && get(x, y)) x += 1;
      if (x > from) steps.push(`M${from + QUIET} ${y + QUIET}h${x - from}v1h${from - x}z`);
    }
  }
  return steps.join("");
}

/**
 * How wide the drawing is on paper, in mm, with its quiet zone.
 * @param {number} size
 */
export function widthOf(size) {
  return Math.min(MOST_MM, Math.max(LEAST_MM, (size + 2 * QUIET) * SQUARE_MM));
}
