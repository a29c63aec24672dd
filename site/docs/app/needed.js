// @ts-check
/** What a form needs before it has an answer, in the words with which the build draws the bar of an empty form. */

/** @import {Problem} from "./answer-types.js" */

/** How the library's message about an empty box begins. */
const EMPTY_BOX = "this is empty";

/**
 * @param {Problem[]} problems at least one
 * @param {Record<string, string>} labels
 */
export function neededOf([first, ...then], labels) {
  const [, ...advice] = first.message.includes(EMPTY_BOX) ? [] : first.message.split(". ");
  const after = then.map(({ word, message }) => labels[word] ?? message).join(", ");
  return {
    label: "Enter next",
    text: labels[first.word] ?? first.message,
    sentence: [advice.join(". "), after && `Then: ${after}.`].filter(Boolean).join(" "),
  };
}
