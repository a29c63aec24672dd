// @ts-check
/** The page of the settings: each choice is kept as soon as it is made. */

import { all, one, say } from "./dom.js";
import { choose, chosen } from "./fields.js";
import { chooseLook, chosenLook, set, settings } from "./settings.js";

/** @param {HTMLElement} root */
export function startSettings(root) {
  showChoices(root);
  root.addEventListener("change", ({ target }) => {
    if (!(target instanceof HTMLInputElement) || !target.name.startsWith("setting-")) return;
    keepChoice(target.name.slice("setting-".length), target.value);
    say(one(root, "[data-setting-said]"), "Kept.");
  });
  new MutationObserver(() => showChoices(root)).observe(document.documentElement, { attributeFilter: ["data-look"] });
  addEventListener("storage", () => showChoices(root));
  root.dataset.listens = "";
}

/**
 * @param {string} name
 * @param {string} value
 */
function keepChoice(name, value) {
  if (name === "look") chooseLook(value);
  else set({ [name]: value });
}

/** @param {HTMLElement} root */
function showChoices(root) {
  const kept = /** @type {Record<string, string>} */ ({ ...settings(), look: chosenLook() });
  for (const group of all(root, "[data-setting]")) {
    const name = group.dataset.setting ?? "";
    if (chosen(group, `setting-${name}`) !== (kept[name] ?? "")) choose(group, `setting-${name}`, kept[name] ?? "");
  }
}
