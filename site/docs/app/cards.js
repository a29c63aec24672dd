// @ts-check
/** What comes before the figures of an answer: the one thing to do next, and answers side by side as cards. */

import { all, fill, fresh, line, list, one, show } from "./dom.js";
import { leadingOn } from "./share.js";

/** @import {Answer, Card, CardPoint, First, NextStep} from "./answer-types.js" */
/** @import {Origin} from "./share.js" */

/**
 * @param {HTMLElement} root
 * @param {Pick<Answer, "cards" | "cards_titles">} answer
 */
export function showCards(root, { cards, cards_titles: [title, fold] }) {
  const section = one(root, "[data-cards]");
  show(section, cards.length > 0);
  fill(section, { "cards-title": title });
  list(
    root,
    "cards",
    cards.map((card) => cardRow(card, fold)),
  );
}

/**
 * Show what to do before anything else, and the door to it.
 * @param {HTMLElement} root
 * @param {First | null} first
 * @param {NextStep[]} steps
 * @param {Origin} origin
 * @returns {NextStep[]} the steps that are left for the list at the end
 */
export function showFirst(root, first, steps, origin) {
  const box = one(root, "[data-first-step]");
  show(box, Boolean(first));
  fill(box, { first: first?.text ?? "" });
  list(box, "not-before", (first?.not_before ?? []).map(line));
  show(one(box, "[data-until]"), Boolean(first?.not_before.length));
  const foremost = steps.find((step) => step.foremost);
  const door = one(box, "[data-first-door]", HTMLAnchorElement);
  show(door, Boolean(foremost));
  if (foremost) {
    door.href = doorOf(foremost, origin);
    fill(door, { label: foremost.label });
    one(door, "[data-first-picture]").replaceChildren(...picture(foremost.inputs.test));
  }
  return steps.filter((step) => step !== foremost);
}

/**
 * The address of another job's page with the figures that it takes along.
 * @param {NextStep} step
 * @param {Origin} origin
 */
export function doorOf({ job, inputs }, origin) {
  return leadingOn(`../${job}/`, Object.entries(inputs), origin);
}

/**
 * @param {Card} card
 * @param {string} fold the name of its fold
 */
function cardRow({ title, share_pct, text, points }, fold) {
  const item = fresh("card");
  fill(item, { title, text, fold });
  item.querySelector("[data-share]")?.setAttribute("width", String(Math.round(share_pct * 100) / 100));
  list(item, "points", points.map(pointRow));
  return item;
}

/** @param {CardPoint} point */
function pointRow({ name, texts }) {
  const item = fresh("point");
  fill(item, { name });
  list(item, "texts", texts.map(line));
  return item;
}

/**
 * The drawing of a test, as the build made it.
 * @param {string | undefined} key
 */
function picture(key) {
  const kept = one(document, 'template[data-template="pictures"]', HTMLTemplateElement);
  return all(kept.content, "[data-picture]")
    .filter((each) => each.dataset.picture === key)
    .flatMap((each) => Array.from(each.cloneNode(true).childNodes));
}
