// @ts-check
/** Where the buttons − and + lead from a number. */

/**
 * A step for a number in a unit that is not the word's own: about a tenth of it, round.
 * @param {number} number
 */
export function niceStep(number) {
  return number > 0 ? 10 ** (Math.floor(Math.log10(number)) - 1) : 1;
}

/**
 * The next whole step up or down, never below zero.
 * @param {number} number
 * @param {number} step
 * @param {number} by above zero for up, below for down
 */
export function stepped(number, step, by) {
  const steps = Number((number / step).toFixed(6));
  const next = by > 0 ? Math.floor(steps) + 1 : Math.ceil(steps) - 1;
  return String(Number(Math.max(0, next * step).toFixed(decimals(step))));
}

/** @param {number} step */
function decimals(step) {
  return Math.max(0, Math.ceil(-Math.log10(step)) + (String(step).includes("5") ? 1 : 0));
}
