// @ts-check
/** Figures in an address, and an answer as plain text. Both carry every unit and basis. */

import { isAmount, shownText } from "./amount-text.js";

/** @import {Answer} from "./answer-types.js" */
/** @import {Amount} from "./amount-text.js" */
/** @import {Carry} from "./carried-rules.js" */
/** @typedef {{from: string, at: number}} Origin a job, and when its figures were typed */

/** What comes before a word to name the unit of its figure. */
const UNIT = "unit-";
/** In a link that leads on from an answer: the job that it is from, and when the figures there were typed. */
const FROM = "from";
const SINCE = "since";

/**
 * The page's address with all inputs behind the #: a figure and the unit of its box each under a name of its own.
 * @param {string} page
 * @param {[string, unknown][]} given
 */
export function addressOf(page, given) {
  const pairs = given.flatMap(([word, value]) =>
    isAmount(value)
      ? [
          [word, String(value.value)],
          [UNIT + word, value.unit],
        ]
      : [[word, shownText(value)]],
  );
  const hash = new URLSearchParams(pairs).toString();
  return hash ? `${page}#${hash}` : page;
}

/**
 * The figures in an address, for the words that a form knows.
 * @param {string} hash
 * @param {string[]} words
 * @returns {[string, string | Amount][]}
 */
export function figuresIn(hash, words) {
  const given = new URLSearchParams(hash.replace(/^#/, ""));
  return Array.from(given.entries())
    .filter(([word]) => words.includes(word))
    .map(([word, value]) => {
      const unit = given.get(UNIT + word);
      return [word, unit ? { value, unit } : value];
    });
}

/**
 * What an address gives for words that a form does not know. A hash without "=" names a place of the page.
 * @param {string} hash
 * @param {string[]} words that the form knows, and other names that mean something to the page
 * @returns {[string, string | Amount][]}
 */
export function othersIn(hash, words) {
  if (!hash.includes("=")) return [];
  const names = Array.from(new URLSearchParams(hash.replace(/^#/, "")).keys());
  return figuresIn(
    hash,
    names.filter((name) => !words.includes(name) && !name.startsWith(UNIT)),
  );
}

/**
 * The address of another job's page, with the figures of an answer and where they are from.
 * @param {string} page
 * @param {[string, unknown][]} given
 * @param {Origin} origin
 */
export function leadingOn(page, given, { from, at }) {
  return given.length ? addressOf(page, [...given, [FROM, from], [SINCE, at]]) : page;
}

/**
 * The figures of a link that leads on from an answer.
 * @param {string} hash
 * @param {string[]} words that the form knows
 * @param {Record<string, string>} shorts the name of each job
 * @param {number} now
 * @returns {Carry[] | undefined} nothing for any other link, which has to give its answer exactly
 */
export function carriedIn(hash, words, shorts, now) {
  const given = new URLSearchParams(hash.replace(/^#/, ""));
  const short = shorts[given.get(FROM) ?? ""];
  if (!short || othersIn(hash, [...words, FROM, SINCE]).length) return undefined;
  const at = Math.min(Number(given.get(SINCE)) || now, now);
  const origin = { from: `from ${short}`, at, measured: true, link: true };
  return figuresIn(hash, words).map(([word, value]) => ({ word, value, ...origin }));
}

/**
 * @param {string} title
 * @param {[string, string][]} given label and text of each input
 * @param {Pick<Answer, "state" | "lead" | "todo" | "shown" | "steps" | "cautions" | "remarks">} answer
 * @param {string} address
 */
export function asText(title, given, answer, address) {
  const rows = answer.shown.map(({ label, text, range, basis }) => {
    const likely = range ? ` (likely range ${range})` : "";
    return `  ${label}: ${text}${likely}${basis ? `, ${basis}` : ""}`;
  });
  return [
    title,
    "Inputs:",
    ...given.map(([label, text]) => `  ${label}: ${text}`),
    `Answer: ${sentenceOf(answer)}`,
    ...(answer.todo.length ? ["What to do:"] : []),
    ...answer.todo.map(({ text, amount }, at) => `  ${at + 1}. ${amount ? `${text}: ${amount}` : text}`),
    ...answer.steps.map(({ label, state, line }) => `  ${label}, ${state.word}: ${line}`),
    ...rows,
    ...(answer.shown.some(({ range }) => range) ? ["A likely range holds the true figure 19 times in 20."] : []),
    ...answer.cautions,
    ...answer.remarks,
    address,
  ].join("\n");
}

/**
 * An answer in one sentence or two.
 * @param {Pick<Answer, "state" | "lead">} answer
 */
export function sentenceOf({ state, lead }) {
  return [`${state.word}. ${lead.label} ${lead.text}`, lead.then, lead.sentence].filter(Boolean).join(". ");
}

/**
 * @param {string} text
 * @returns {Promise<boolean>} whether it is on the clipboard
 */
export async function copy(text) {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch {
    return copyBySelection(text);
  }
}

/**
 * The older way, for pages that come without https.
 * @param {string} text
 */
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
