// @ts-check
/** Before the figures of an answer: the one thing to do next as a large door, and answers side by side as cards. */

import { all, fill, fresh, line, list, one, show } from "./dom.js";
import { addressOf } from "./share.js";

/**
 * @typedef {{name: string, texts: string[]}} Point
 * @typedef {{title: string, share_pct: number, text: string, points: Point[]}} Card
 * @typedef {{text: string, not_before: string[]}} First
 * @typedef {{job: string, label: string, inputs: Record<string, string>, foremost?: boolean}} Step
 */

/** @param {HTMLElement} root @param {Card[]} cards */
export function showCards(root, cards) {
  show(one(root, "[data-cards]"), cards.length > 0);
  list(root, "cards", cards.map(cardRow));
}

/**
 * What to do before anything else, and the door to it; which steps are left for the list at the end.
 * @param {HTMLElement} root
 * @param {First | null} first
 * @param {Step[]} steps
 */
export function showFirst(root, first, steps) {
  const box = one(root, "[data-first-step]");
  show(box, Boolean(first));
  fill(box, { first: first?.text || "" });
  list(box, "not-before", (first?.not_before || []).map(line));
  show(one(box, "[data-until]"), Boolean(first?.not_before.length));
  const foremost = steps.find((step) => step.foremost);
  const door = /** @type {HTMLAnchorElement} */ (one(box, "[data-first-door]"));
  show(door, Boolean(foremost));
  if (foremost) {
    door.href = addressOf(`../${foremost.job}/`, Object.entries(foremost.inputs));
    fill(door, { label: foremost.label });
    one(door, "[data-first-picture]").replaceChildren(...picture(foremost.inputs.test));
  }
  return steps.filter((step) => step !== foremost);
}

/** @param {Card} card */
function cardRow({ title, share_pct, text, points }) {
  const item = fresh("card");
  fill(item, { title, text });
  item.querySelector("[data-share]")?.setAttribute("width", String(Math.round(share_pct * 100) / 100));
  list(item, "points", points.map(pointRow));
  return item;
}

/** @param {Point} point */
function pointRow({ name, texts }) {
  const item = fresh("point");
  fill(item, { name });
  list(item, "texts", texts.map(line));
  return item;
}

/**
 * The drawing of a test, as the build has made it.
 * @param {string | undefined} key
 * @returns {Node[]}
 */
function picture(key) {
  const kept = /** @type {HTMLTemplateElement} */ (document.querySelector('template[data-template="pictures"]'));
  return all(kept.content, "[data-picture]")
    .filter((one) => one.dataset.picture === key)
    .flatMap((one) => Array.from(one.cloneNode(true).childNodes));
}
