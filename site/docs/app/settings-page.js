// @ts-check
/** The page of the settings: each choice is kept as soon as it is made. */

import { all, around, one, say } from "./dom.js";
import { choose, chosen } from "./fields.js";
import { startEverything } from "./everything.js";
import { startOwnFigures } from "./own-figures.js";
import { chooseLook, chosenLook, set, settings } from "./settings.js";
import { wishNow, withWish } from "./unit-wishes.js";

/** @param {HTMLElement} root */
export function startSettings(root) {
  showChoices(root);
  root.addEventListener("change", ({ target }) => {
    if (!(target instanceof HTMLInputElement) || !target.name.startsWith("setting-")) return;
    const wishes = around(target, "[data-wishes]");
    if (wishes) {
      set({ shown_in: chooseWish(wishes, target.value) });
      dispatchEvent(new Event("wished"));
    } else keepChoice(target.name.slice("setting-".length), target.value);
    showChoices(root);
    say(one(root, "[data-setting-said]"), "Kept.");
  });
  new MutationObserver(() => showChoices(root)).observe(document.documentElement, { attributeFilter: ["data-look"] });
  addEventListener("storage", () => showChoices(root));
  startEverything(one(root, "[data-everything]"));
  startOwnFigures(one(root, "[data-own-figures]", HTMLFormElement));
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
  const { text = "", hand = "", shown_in = {} } = settings();
  /** @type {Record<string, string>} */
  const kept = { text, hand, look: chosenLook() };
  for (const group of all(root, "[data-setting]")) {
    const name = group.dataset.setting ?? "";
    if (chosen(group, `setting-${name}`) !== (kept[name] ?? "")) choose(group, `setting-${name}`, kept[name] ?? "");
  }
  for (const group of all(root, "[data-wishes]")) showWish(group, shown_in);
}

/**
 * All units that are chosen once one chip is tapped: a choice for everything takes the place of all, another one of its own kind's.
 * @param {HTMLElement} group
 * @param {string} value the wish of the chip
 * @returns {Record<string, string>}
 */
function chooseWish(group, value) {
  if (group.dataset.wishes === "units") return JSON.parse(value);
  return withWish(settings().shown_in ?? {}, wishesOf(group), JSON.parse(value));
}

/**
 * Mark the chip whose wish is what a person chose; none where it is something of each.
 * @param {HTMLElement} group
 * @param {Record<string, string>} shownIn
 */
function showWish(group, shownIn) {
  const isWhole = group.dataset.wishes === "units";
  const found = wishNow(shownIn, wishesOf(group), isWhole);
  all(group, "input", HTMLInputElement).forEach((chip, at) => (chip.checked = at === found));
}

/**
 * @param {HTMLElement} group
 * @returns {Record<string, string>[]}
 */
function wishesOf(group) {
  return all(group, "input", HTMLInputElement).map(({ value }) => JSON.parse(value));
}
