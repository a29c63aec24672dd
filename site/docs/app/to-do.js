// @ts-check
/** The first part of an answer: the word and the main figure, what to do, the ways out of a problem, and the cautions. */

import { all, fill, fresh, line, list, one, show } from "./dom.js";

/** @import {Answer, ToDo} from "./answer-types.js" */

/**
 * @param {HTMLElement} whole
 * @param {Answer} answer
 */
export function showToDo(whole, answer) {
  const { label, text, then } = answer.lead;
  fill(one(whole, "[data-told]"), { label, text, then });
  const rows = isSaidFirst(answer) ? [] : answer.todo;
  list(whole, "todo", rows.map(todoRow));
  show(one(whole, "[data-todo]"), rows.length > 0);
  list(whole, "ways-out", answer.ways_out.map(line));
  const others = answer.remarks.filter((remark) => !answer.ways_out.includes(remark));
  list(whole, "remarks", others.map(line));
  show(one(whole, "[data-folded=remarks]"), others.length > 0);
  showCautions(one(whole, "[data-body]"), answer);
}

/**
 * Whether the box of the first step says all there is to do.
 * @param {Pick<Answer, "first" | "state">} answer
 */
function isSaidFirst({ first, state }) {
  return Boolean(first) && state.tone !== "stop";
}

/** @param {ToDo} row */
function todoRow({ text, amount }) {
  const item = fresh("todo");
  fill(item, { text, amount });
  return item;
}

/**
 * The cautions, open where the word is stop. One that a person opened stays open.
 * @param {HTMLElement} body
 * @param {Pick<Answer, "cautions" | "state">} answer
 */
function showCautions(body, { cautions, state }) {
  const open = all(body, ".cautions details[open] [data-slot=name]").map((name) => name.textContent);
  const isOpen = (/** @type {string} */ text) => state.tone === "stop" || open.includes(text.split(":")[0]);
  list(
    body,
    "cautions",
    cautions.map((text) => (isOpen(text) ? openCaution(text) : cautionRow(text))),
  );
}

/**
 * A caution as a line that opens; its name stands before the first colon.
 * @param {string} text
 */
export function cautionRow(text) {
  const [name, ...rest] = text.split(":");
  const item = fresh("caution", name.trim().toLowerCase() === "stop" ? 1 : 0);
  fill(item, { name, words: rest.join(":").trim() });
  return item;
}

/** @param {string} text */
export function openCaution(text) {
  const item = cautionRow(text);
  one(item, "details").setAttribute("open", "");
  return item;
}
