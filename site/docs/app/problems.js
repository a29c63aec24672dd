// @ts-check
/** What went wrong, as text. */

/** @import {Refusal} from "./answer-types.js" */

/**
 * The words of an error.
 * @param {unknown} error
 */
export function reasonOf(error) {
  return error instanceof Error ? error.message : String(error);
}

/**
 * All problems of a refusal in one text.
 * @param {Pick<Refusal, "problems">} refusal
 */
export function problemText({ problems }) {
  return problems.map(({ message }) => message).join(" ");
}
