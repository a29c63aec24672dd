// @ts-check
/**
 * Choices of units: which wish a person made of several. A wish names the unit to type and show by the library's unit that it stands
 * for; the library says which there are.
 *
 * @typedef {Record<string, string>} Wish
 */

/**
 * All units that a person chose, with one choice of a kind in place of the others of that kind.
 * @param {Wish} all
 * @param {Wish[]} ofKind
 * @param {Wish} chosen
 * @returns {Wish}
 */
export function withWish(all, ofKind, chosen) {
  const kind = new Set(ofKind.flatMap(Object.keys));
  const others = Object.entries(all).filter(([own]) => !kind.has(own));
  return { ...Object.fromEntries(others), ...chosen };
}

/**
 * Which of several wishes a person made, by its place: the one that is in all that was chosen and has nothing besides it.
 * @param {Wish} all
 * @param {Wish[]} wishes
 * @param {boolean} whole whether the wishes are for all kinds, so that nothing else may be chosen
 * @returns {number} -1 where none fits
 */
export function wishNow(all, wishes, whole) {
  const kind = new Set(wishes.flatMap(Object.keys));
  const mine = Object.entries(all).filter(([own]) => whole || kind.has(own));
  return wishes.findIndex(
    (wish) => mine.length === Object.keys(wish).length && mine.every(([own, to]) => wish[own] === to),
  );
}
