// @ts-check
import { say } from "./dom.js";

const SECOND_TAP_MS = 5000;

/**
 * For deeds that want a second tap: the first asks, by the button's own words, and is forgotten after a while.
 * @param {HTMLElement} button
 * @param {string} words what the button says between the two
 * @returns {boolean} whether this tap was the second
 */
export function second(button, words) {
  const plain = button.dataset.plain ?? (button.textContent || "");
  const leave = () => {
    delete button.dataset.asked;
    say(button, plain);
  };
  if (button.dataset.asked) {
    leave();
    return true;
  }
  button.dataset.plain = plain;
  button.dataset.asked = "yes";
  say(button, words);
  setTimeout(leave, SECOND_TAP_MS);
  return false;
}
