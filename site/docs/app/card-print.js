// @ts-check
/** Print the answer of a job as a card: fill it, make it fit its sheet, and take it away when it is printed. */

import { all, fill, fresh, list, one, say, show, showState } from "./dom.js";
import { QUIET, codeAddress, pathOf, widthOf } from "./qr-code.js";

/** @import {Answer} from "./answer-types.js" */
/** @import {Job} from "./job.js" */
/** @import {Squares} from "./qr-code.js" */
/**
 * @typedef {object} ToPrint
 * @property {string} title
 * @property {Answer} answer
 * @property {[string, string][]} given label and text of each input
 * @property {string} address for the code; empty if it is too long
 */

const SVG = "http://www.w3.org/2000/svg";
/** The library's word for a mass of zero, which a card leaves out. */
const NOTHING = "none";
/** A text with more characters than this is a sentence, which a card leaves out of its figures. */
const WORDY = 28;
/** The lists whose last rows a card may leave out. */
const SHORTENED = ["paper-figures", "paper-given"];
/** An input with more characters than this, such as a list of flasks, is the first that a card leaves out. */
const LONG = 90;
/**
 * The sheets in the order in which they are tried: how high a card may be, in mm, whether it is set closer, and how
 * many rows of the lists above stay on it at least.
 */
const SHEETS = [
  { name: "a6", highest_mm: 140, tight: false, least: 4 },
  { name: "a6", highest_mm: 140, tight: true, least: 0 },
  { name: "a5", highest_mm: 202, tight: false, least: 0 },
];
const MM = 96 / 25.4;

/**
 * Print the answer on a job's page, with the same inputs in its code.
 * @param {Job} job
 */
export async function printJob(job) {
  const { form, answer, root } = job;
  const said = one(root, "[data-deed-said]");
  if (!answer.shown) return say(said, "There is no answer of yours to print yet.");
  const { texts } = form.typed();
  const given = form.values();
  const changed = given.filter(([word]) => texts[word] === undefined || texts[word] !== form.bare.texts[word]);
  const address = codeAddress(location.href.split("#")[0], given, changed, form.bare.units);
  const title = one(document, "h1").textContent ?? "";
  await printCard({ title, answer: answer.shown, given: job.given(), address });
}

/**
 * Print one card. The code is drawn by a library that is loaded here for the first time.
 * @param {ToPrint} what
 */
export async function printCard(what) {
  for (const old of all(document, "[data-paper]")) old.remove();
  const card = filled(what);
  document.body.append(card);
  await drawCode(one(card, "[data-code]"), what.address);
  fit(card);
  document.documentElement.dataset.print = card.dataset.sheet;
  addEventListener("afterprint", () => remove(card), { once: true });
  print();
}

/** @param {HTMLElement} card */
function remove(card) {
  card.remove();
  delete document.documentElement.dataset.print;
}

/** @param {ToPrint} what */
function filled({ title, answer, given }) {
  const card = fresh("paper");
  const { label, text, then } = answer.lead;
  showState(card, answer.state);
  fill(card, { title, label, text, then, headline: answer.headline, cautions: cautionsText(answer.cautions) });
  list(card, "paper-lines", lines(answer));
  list(card, "paper-figures", figures(answer).map(pair("paper-figure")));
  const inputs = given.map(([name, value]) => pair("paper-given")({ label: name, text: value }));
  list(card, "paper-given", [...inputs.filter((row) => !isLong(row)), ...inputs.filter(isLong)]);
  return card;
}

/**
 * What to do, with a box each: the steps with their amounts, or those of a whole day, the list before the start, and the
 * waits. A time that a wait repeats is left to the wait, which has a blank for the clock.
 * @param {Answer} answer
 */
function lines({ todo, checklist, timers, steps }) {
  const waits = new Set(timers.map(({ text }) => text));
  const own = steps.length ? [] : todo.filter(({ amount }) => !waits.has(amount));
  return [
    ...own.map(({ text, amount }) => doLine(text, { amount })),
    ...steps.map(stepLine),
    ...checklist.map(({ tone, text }) => doLine(text, { done: tone === "go" })),
    ...timers.map(({ label, text }) => doLine(label, { amount: `after ${text}`, timed: true })),
  ];
}

/** @param {Answer["steps"][number]} step */
function stepLine({ label, state, line }) {
  return doLine(line, { name: label, amount: state.tone === "go" ? "" : state.word });
}

/**
 * @param {string} words
 * @param {{name?: string, amount?: string, done?: boolean, timed?: boolean}} [more]
 */
function doLine(words, { name = "", amount = "", done = false, timed = false } = {}) {
  const row = fresh("paper-line");
  fill(row, { name, words, amount });
  row.toggleAttribute("data-done", done);
  row.toggleAttribute("data-timed", timed);
  return row;
}

/**
 * The figures that are not on the card already.
 * @param {Answer} answer
 */
function figures({ lead, shown, todo, timers, state }) {
  const amounts = new Set([lead.text, ...todo.map(({ amount }) => amount), ...timers.map(({ text }) => text)]);
  const isNew = (/** @type {string} */ text) =>
    text !== NOTHING && text.length <= WORDY && !amounts.has(text) && !text.startsWith(state.word);
  return shown.filter(({ word, text }) => word !== lead.word && isNew(text));
}

/** @param {string} name of the template */
function pair(name) {
  return (/** @type {{label: string, text: string}} */ { label, text }) => {
    const row = fresh(name);
    fill(row, { label, text });
    return row;
  };
}

/**
 * The names of the cautions, which stand before their first colon.
 * @param {string[]} cautions
 */
export function cautionsText(cautions) {
  const names = cautions.map((text) => text.split(":")[0].trim());
  return names.length ? `Read on the page first: ${[...new Set(names)].join(" · ")}` : "";
}

/**
 * @param {HTMLElement} place
 * @param {string} address
 */
async function drawCode(place, address) {
  const words = one(place, "[data-slot=no-code]");
  say(words, (address ? "" : words.dataset.tooLong) ?? "");
  if (!address) return;
  try {
    const { generate } = await import("lean-qr");
    place.append(drawn(generate(address)));
    show(words, false);
  } catch {
    say(words, words.dataset.notDrawn ?? "");
  }
}

/** @param {Squares} code */
function drawn(code) {
  const svg = document.createElementNS(SVG, "svg");
  const side = code.size + 2 * QUIET;
  svg.setAttribute("viewBox", `0 0 ${side} ${side}`);
  svg.setAttribute("width", `${widthOf(code.size)}mm`);
  svg.setAttribute("height", `${widthOf(code.size)}mm`);
  svg.setAttribute("shape-rendering", "crispEdges");
  const path = document.createElementNS(SVG, "path");
  path.setAttribute("d", pathOf(code));
  svg.append(path);
  return svg;
}

/**
 * Leave out the last figures and inputs until the card fits the small sheet, then set it closer; if it never fits, take
 * the larger one.
 * @param {HTMLElement} card
 */
function fit(card) {
  const whole = SHORTENED.map((name) => ({ name, rows: rowsOf(card, name) }));
  for (const { name: sheet, highest_mm, tight, least } of SHEETS) {
    card.dataset.sheet = sheet;
    card.toggleAttribute("data-tight", tight);
    for (const { name, rows } of whole) list(card, name, rows);
    const isTooHigh = () => card.offsetHeight > highest_mm * MM;
    while (isTooHigh() && dropOne(card, least));
    if (!isTooHigh()) return;
  }
}

/**
 * @param {HTMLElement} card
 * @param {number} least
 * @returns {boolean} whether there was a row to leave out
 */
function dropOne(card, least) {
  const lists = SHORTENED.map((name) => rowsOf(card, name));
  const shortened = lists.find((rows) => rows.some(isLong)) ?? lists.find((rows) => rows.length > least);
  shortened?.at(-1)?.remove();
  return shortened !== undefined;
}

/** @param {HTMLElement} row */
function isLong(row) {
  return (row.textContent ?? "").length > LONG;
}

/**
 * @param {HTMLElement} card
 * @param {string} name
 */
function rowsOf(card, name) {
  return all(one(card, `[data-list="${name}"]`), ":scope > div");
}
