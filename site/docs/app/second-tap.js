// @ts-check
import { say } from "./dom.js";

const SECOND_TAP_MS = 5000;

/**
 * Whether this tap is the second within a few seconds. The first one only makes the button ask.
 * @param {HTMLElement} button
 * @param {string} words what the button says between the two taps
 */
export function isSecondTap(button, words) {
  const plain = button.dataset.plain ?? button.textContent ?? "";
  const reset = () => {
    delete button.dataset.asked;
    say(button, plain);
  };
  if (button.dataset.asked) {
    reset();
    return true;
  }
  button.dataset.plain = plain;
  button.dataset.asked = "yes";
  say(button, words);
  setTimeout(reset, SECOND_TAP_MS);
  return false;
}
