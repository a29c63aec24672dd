// @ts-check
/** Figures in an address, and an answer as plain text. Both carry every unit and basis. */

/**
 * @param {string} page
 * @param {[string, unknown][]} given
 * @returns {string} the page's address with all inputs behind the #
 */
export function addressOf(page, given) {
  const pairs = given.map(([word, value]) => [word, String(value)]);
  const hash = new URLSearchParams(pairs).toString();
  return hash ? `${page}#${hash}` : page;
}

/**
 * The figures that came with an address, for the words that a form knows.
 * @param {string} hash
 * @param {string[]} words
 * @returns {[string, string][]}
 */
export function figuresIn(hash, words) {
  return Array.from(new URLSearchParams(hash.replace(/^#/, "")).entries()).filter(([word]) => words.includes(word));
}

/**
 * @param {string} title
 * @param {[string, string][]} given
 * @param {any} answer
 * @param {string} address
 * @returns {string}
 */
export function asText(title, given, answer, address) {
  const rows = answer.shown.map(
    (/** @type {any} */ row) =>
      `  ${row.label}: ${row.text}${row.range ? ` (${row.range}, 95 %)` : ""}${row.basis ? `, ${row.basis}` : ""}`,
  );
  const { state, lead } = answer;
  return [
    title,
    "Given:",
    ...given.map(([label, text]) => `  ${label}: ${text}`),
    `Answer: ${state.word}. ${[`${lead.label} ${lead.text}`, lead.then, lead.sentence].filter(Boolean).join(". ")}`,
    ...rows,
    ...answer.cautions,
    ...answer.remarks,
    address,
  ].join("\n");
}

/** @param {string} text @returns {Promise<boolean>} whether it is on the clipboard */
export async function copy(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return copyBySelection(text);
  }
}

/** The older way, for pages that are not served over https. @param {string} text */
function copyBySelection(text) {
  const box = document.createElement("textarea");
  box.value = text;
  box.className = "unseen";
  document.body.append(box);
  box.select();
  const copied = document.execCommand("copy");
  box.remove();
  return copied;
}
