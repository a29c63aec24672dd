// @ts-check
/** Finding the trade words of a text: the longest first, whole words only, each once. `site/marking.py` does the same for what the build writes. */

/** @typedef {{key: string, name: string, forms: string[], meaning: string}} Term */
/** @typedef {{pattern: RegExp, keys: Map<string, string>}} Finder */
/** @typedef {{text: string, key?: string}} Piece */

/**
 * What finds any form of any word, and the key of each form.
 * @param {Term[]} terms
 * @returns {Finder}
 */
export function finderOf(terms) {
  const keys = new Map(terms.flatMap(({ key, forms }) => forms.map((form) => [form.toLowerCase(), key])));
  const longestFirst = [...keys.keys()].sort((one, two) => two.length - one.length);
  const either = longestFirst.map((form) => form.replaceAll(" ", "\\s+")).join("|");
  return { pattern: new RegExp(`(?<![\\p{L}\\p{N}_-])(?:${either})(?![\\p{L}\\p{N}_-])`, "giu"), keys };
}

/**
 * The text piece by piece; the piece that is a trade word has its key. A word in `used` is not marked; what is marked is added.
 * @param {string} text
 * @param {Finder} finder
 * @param {Set<string>} used
 * @returns {Piece[]}
 */
export function piecesOf(text, { pattern, keys }, used) {
  /** @type {Piece[]} */
  const pieces = [];
  let at = 0;
  for (const found of text.matchAll(pattern)) {
    const key = keys.get(found[0].toLowerCase().split(/\s+/u).join(" ")) ?? "";
    if (used.has(key)) continue;
    used.add(key);
    if (found.index > at) pieces.push({ text: text.slice(at, found.index) });
    pieces.push({ text: found[0], key });
    at = found.index + found[0].length;
  }
  if (at < text.length) pieces.push({ text: text.slice(at) });
  return pieces;
}
