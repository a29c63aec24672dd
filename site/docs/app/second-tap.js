// @ts-check
import { say } from "./dom.js";

/** Long enough for a slow hand, and for a person who first hears what the button asks. */
const SECOND_TAP_MS = 20_000;

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
  announce(words);
  setTimeout(reset, SECOND_TAP_MS);
  return false;
}

/** @param {string} words what a screen reader says: few of them say that the words of the button with the focus have changed */
function announce(words) {
  const said = document.createElement("p");
  said.className = "unseen";
  said.role = "status";
  document.body.append(said);
  setTimeout(() => say(said, words), 100);
  setTimeout(() => said.remove(), SECOND_TAP_MS);
}
