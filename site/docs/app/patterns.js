// @ts-check
/**
 * Patterns that this device keeps: saved on the pattern's own page, taken on the page of a job that goes on from it.
 */

import { NOTHING } from "./answer.js";
import { all, copyOf, dataOf, fill, fresh, one, say, show } from "./dom.js";
import { openDatabase } from "./database.js";
import { isSecondTap } from "./second-tap.js";
import { dateText } from "./time-text.js";

/** @import {Database, Pattern} from "./database.js" */
/** @import {Job} from "./job.js" */
/** @typedef {import("./answer-types.js").Answer} AnswerData */

/**
 * @param {HTMLElement} root
 * @param {Job} job
 */
export async function startPatterns(root, job) {
  if (!document.querySelector('template[data-template="pattern"]')) return;
  const kept = await openDatabase();
  const tools = fresh("pattern");
  if (tools.dataset.takes) {
    one(root, ".question").append(tools);
    await showPatterns(tools, kept, job);
  } else {
    one(root, "[data-deeds]").before(tools);
    startKeeping(tools, kept, job);
  }
}

/**
 * @param {HTMLElement} tools
 * @param {Database} kept
 * @param {Job} job
 */
function startKeeping(tools, kept, job) {
  const box = one(tools, "[data-pattern-name]", HTMLInputElement);
  const [button, said] = [one(tools, "[data-keep]"), one(tools, "[data-keep-said]")];
  const refresh = () => {
    show(tools, Boolean(job.answer.shown?.next.length));
    say(said, "");
    if (!box.dataset.own) box.value = fileNameIn(job).slice(0, box.maxLength);
  };
  box.addEventListener("input", () => (box.dataset.own = "yes"));
  button.addEventListener("click", async () => {
    const name = box.value.trim();
    const answer = job.answer.shown;
    if (!name || !answer) return say(said, "Give it a name first.");
    const exists = (await kept.patterns()).some((pattern) => pattern.name === name);
    if (exists && !isSecondTap(button, "Tap again to replace the one with that name")) return;
    await kept.keepPattern(patternOf(name, answer, dataOf(tools, "kept", []), dataOf(tools, "said", [])));
    say(said, `Kept: ${name}.${kept.lasting ? "" : " This browser keeps nothing for longer than the page is open."}`);
  });
  job.answer.addEventListener("shown", refresh);
  refresh();
}

/**
 * The name of the form's file without its ending.
 * @param {Job} job
 */
function fileNameIn(job) {
  const [place] = all(job.form.root, "[data-file-name]");
  return (place?.textContent ?? "").replace(/\.\w+$/, "");
}

/**
 * @param {string} name
 * @param {AnswerData} answer
 * @param {string[]} words which figures are kept
 * @param {string[]} shown which figures are shown in the list
 * @returns {Pattern}
 */
function patternOf(name, answer, words, shown) {
  const figures = words.filter((word) => word in answer.result).map((word) => [word, answer.result[word]]);
  const rows = answer.shown.filter(({ word, text }) => shown.includes(word) && text !== NOTHING);
  return {
    name,
    at: Date.now(),
    said: rows.map(({ text }) => text).join(", "),
    figures: Object.fromEntries(figures),
    hands: Object.fromEntries(answer.next.map(({ job, inputs }) => [job, inputs])),
  };
}

/**
 * @param {HTMLElement} tools
 * @param {Database} kept
 * @param {Job} job
 */
async function showPatterns(tools, kept, job) {
  const patterns = (await kept.patterns()).filter(({ hands }) => hands[job.name]);
  const newestFirst = patterns.toSorted((a, b) => b.at - a.at);
  show(tools, patterns.length > 0);
  one(tools, "[data-patterns]").replaceChildren(...newestFirst.map((pattern) => patternRow(tools, pattern, kept, job)));
}

/**
 * @param {HTMLElement} tools
 * @param {Pattern} pattern
 * @param {Database} kept
 * @param {Job} job
 */
function patternRow(tools, { name, at, said, hands }, kept, job) {
  const row = copyOf(one(tools, "template[data-pattern-row]", HTMLTemplateElement));
  fill(row, { name, said: [said, `kept ${dateText(at)}`].filter(Boolean).join(", ") });
  one(row, "[data-take]").addEventListener("click", () => {
    if (job.name === "plan" && job.casting) job.casting.takePattern(name, hands.plan, job.form);
    else job.take(Object.entries(hands[job.name]));
    say(one(tools, "[data-take-said]"), `Taken: ${name}.`);
  });
  const forget = one(row, "[data-forget]");
  forget.setAttribute("aria-label", `Forget ${name}`);
  forget.addEventListener("click", async () => {
    if (!isSecondTap(forget, "Tap again")) return;
    await kept.dropPattern(name);
    await showPatterns(tools, kept, job);
  });
  return row;
}
