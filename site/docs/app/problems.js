// @ts-check
/** What went wrong, as text, and as lines of the summary over a form. */

import { fresh, one, say } from "./dom.js";

/** @import {Problem, Refusal} from "./answer-types.js" */

/**
 * What browsers report by a name.
 * @type {Record<string, string>}
 */
const NAMED = {
  QuotaExceededError: "this device has no room left. Free some space and try again",
  InvalidStateError: "the browser closed its storage. Load this page again",
};

/**
 * The words of an error.
 * @param {unknown} error
 */
export function reasonOf(error) {
  if (!(error instanceof Error)) return String(error);
  return NAMED[error.name] ?? error.message;
}

/**
 * The words to send when the program has a fault.
 * @param {string} page
 * @param {unknown} asked
 * @param {unknown} error
 */
export function reportOf(page, asked, error) {
  const lines = [`page: ${page}`, `asked: ${JSON.stringify(asked)}`, `error: ${reasonOf(error)}`];
  return ["sandmix could not answer", ...lines].join("\n");
}

/**
 * All problems of a refusal in one text.
 * @param {Pick<Refusal, "problems">} refusal
 */
export function problemText({ problems }) {
  return problems.map(({ message }) => message).join(" ");
}

/**
 * A problem as a line of the summary, with a link to its field if there is one.
 * @param {Problem} problem
 * @param {boolean} linked
 */
export function summaryLine({ word, message }, linked) {
  const line = fresh("line");
  const place = one(line, "[data-slot=words]");
  if (!linked) {
    say(place, message);
    return line;
  }
  const link = document.createElement("a");
  link.href = `#field-${word}`;
  link.textContent = message;
  link.dataset.goTo = word;
  place.replaceChildren(link);
  return line;
}
