// @ts-check
/** Patterns that are kept on this device: one more from the pattern's own page, one taken where a job goes on from it. */

import { NOTHING } from "./answer.js";
import { all, fresh, one, say, show } from "./dom.js";
import { shelf } from "./database.js";
import { second } from "./second-tap.js";

/** @typedef {import("./database.js").Pattern} Pattern */

/** @param {HTMLElement} root @param {import("./job.js").Job} job */
export async function patternTools(root, job) {
  if (!document.querySelector('template[data-template="pattern"]')) return;
  const kept = await shelf();
  const tools = fresh("pattern");
  if (tools.dataset.takes) {
    one(root, ".question").append(tools);
    await showList(tools, kept, job);
  } else {
    one(root, "[data-deeds]").before(tools);
    openKeep(tools, kept, job);
  }
}

/**
 * @param {HTMLElement} tools
 * @param {import("./database.js").Shelf} kept
 * @param {import("./job.js").Job} job
 */
function openKeep(tools, kept, job) {
  const box = /** @type {HTMLInputElement} */ (one(tools, "[data-pattern-name]"));
  const [button, said] = [one(tools, "[data-keep]"), one(tools, "[data-keep-said]")];
  const shown = () => {
    const hands = (job.answer.shown?.next || []).length > 0;
    show(tools, hands);
    say(said, "");
    if (!box.dataset.own) box.value = nameOf(job);
  };
  box.addEventListener("input", () => (box.dataset.own = "yes"));
  button.addEventListener("click", async () => {
    const name = box.value.trim();
    if (!name) return say(said, "Give it a name first.");
    const there = (await kept.patterns()).some((pattern) => pattern.name === name);
    if (there && !second(button, "Tap again to replace the one of that name")) return;
    await kept.keepPattern(
      patternOf(name, job.answer.shown, JSON.parse(tools.dataset.kept || "[]"), JSON.parse(tools.dataset.said || "[]")),
    );
    say(
      said,
      `Kept: ${name}.${kept.lasting ? "" : " This browser lets nothing be kept for longer than the page is open."}`,
    );
  });
  job.answer.addEventListener("shown", shown);
  shown();
}

/** What a file is called without its ending, else nothing. @param {import("./job.js").Job} job */
function nameOf(job) {
  const file = all(job.form.root, "[data-file-name]")[0]?.textContent || "";
  const length = Number(document.querySelector("[data-pattern-name]")?.getAttribute("maxlength"));
  return file.replace(/\.\w+$/, "").slice(0, length);
}

/**
 * @param {string} name
 * @param {any} answer
 * @param {string[]} words
 * @param {string[]} said
 * @returns {Pattern}
 */
function patternOf(name, answer, words, said) {
  const figures = Object.fromEntries(
    words.filter((word) => word in answer.result).map((word) => [word, answer.result[word]]),
  );
  const texts = answer.shown
    .filter((/** @type {any} */ row) => said.includes(row.word) && row.text !== NOTHING)
    .map((/** @type {any} */ row) => row.text);
  const hands = Object.fromEntries(answer.next.map((/** @type {any} */ next) => [next.job, next.inputs]));
  return { name, at: Date.now(), said: texts.join(", "), figures, hands };
}

/**
 * @param {HTMLElement} tools
 * @param {import("./database.js").Shelf} kept
 * @param {import("./job.js").Job} job
 */
async function showList(tools, kept, job) {
  const all = (await kept.patterns()).filter(({ hands }) => hands[job.name]).sort((a, b) => b.at - a.at);
  show(tools, all.length > 0);
  one(tools, "[data-patterns]").replaceChildren(...all.map((pattern) => rowOf(tools, pattern, kept, job)));
}

/**
 * @param {HTMLElement} tools
 * @param {Pattern} pattern
 * @param {import("./database.js").Shelf} kept
 * @param {import("./job.js").Job} job
 */
function rowOf(tools, pattern, kept, job) {
  const template = /** @type {HTMLTemplateElement} */ (one(tools, "template[data-pattern-row]"));
  const row = /** @type {HTMLElement} */ (template.content.children[0].cloneNode(true));
  const day = new Date(pattern.at).toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });
  say(one(row, "[data-slot=name]"), pattern.name);
  say(one(row, "[data-slot=said]"), [pattern.said, `kept ${day}`].filter(Boolean).join(", "));
  one(row, "[data-take]").addEventListener("click", () => {
    job.take(Object.entries(pattern.hands[job.name]));
    say(one(tools, "[data-take-said]"), `Taken: ${pattern.name}.`);
  });
  const forget = one(row, "[data-forget]");
  forget.setAttribute("aria-label", `Forget ${pattern.name}`);
  forget.addEventListener("click", async () => {
    if (!second(forget, "Tap again")) return;
    await kept.dropPattern(pattern.name);
    await showList(tools, kept, job);
  });
  return row;
}
