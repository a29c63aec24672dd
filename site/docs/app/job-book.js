// @ts-check
/** What a job's page has of the heap book: the heap's figures for its form, and the entries that its answer can be recorded as. */

import { books } from "./books.js";
import { all, dataOf, fresh, one, say, show } from "./dom.js";
import { figureWithRange } from "./figure-text.js";
import { lastTest } from "./heap.js";
import { askHeap, heapCarries } from "./heap-figures.js";
import { BEGINS, JobEntries } from "./job-entries.js";
import { problemText } from "./problems.js";
import { dateOrToday, isoOf, testedText } from "./time-text.js";

/** @import {Answer} from "./answer-types.js" */
/** @import {Books} from "./books.js" */
/** @import {Calculator} from "./engine.js" */
/** @import {Job} from "./job.js" */
/** @import {DrawnEntry} from "./job-entries.js" */
/** @typedef {{pairs: [string, string][], words: string, when: string}} Found figures, from where, and from when */

/**
 * @param {HTMLElement} root
 * @param {Job} job
 * @param {Calculator} engine
 */
export async function startJobBook(root, job, engine) {
  const shelf = await books();
  const [take, write] = [fresh("book"), fresh("book", 1)];
  /** @type {DrawnEntry[]} */
  const drawn = dataOf(write, "entries", []);
  const any = Boolean(await shelf.inUse());
  if (!any && !write.matches(BEGINS)) return;
  new JobEntries(job, shelf, engine, write, drawn);
  if (!any) return;
  one(root, ".question").append(take);
  const units = dataOf(root, "units", {});
  if (!job.casting) carryHeap(take, job, shelf, engine);
  for (const each of all(take, "[data-take-heap]")) {
    each.addEventListener("click", async () => {
      const found = await figuresOfBook(shelf, engine, dataOf(each, "takeHeap", {}), units);
      if (found.pairs.length) job.take(found.pairs);
      say(each, found.words);
      const when = one(take, "[data-taken-when]");
      say(when, found.when);
      show(when, found.when !== "");
    });
  }
}

/**
 * Carry the figures of the heap into the form: those of the last answer at once, then those of today, and again whenever the
 * book changes.
 * @param {HTMLElement} place
 * @param {Job} job
 * @param {Books} shelf
 * @param {Calculator} engine
 */
async function carryHeap(place, job, shelf, engine) {
  /** @type {Record<string, string> | null} */
  const wanted = dataOf(place, "heapWords", null);
  if (!wanted) return;
  const units = dataOf(job.root, "units", {});
  /** @param {Answer} answer @param {number} at */
  const carry = (answer, at) => job.form.carried.show(heapCarries(answer, at, wanted, units, Date.now()), "heap");
  const refresh = async () => {
    const book = await shelf.inUse();
    if (!book) return job.form.carried.show([], "heap");
    const last = await shelf.lastAnswer(book);
    if (last) carry(last.answer, last.at);
    const answer = await askHeap(shelf, book, engine);
    if (answer.ok) carry(answer, Date.now());
  };
  shelf.addEventListener("changed", () => refresh().catch(() => {}));
  refresh().catch(() => {});
}

/**
 * What the book in use says of some words, each with its unit and its ±.
 * @param {Books} shelf
 * @param {Calculator} engine
 * @param {Record<string, string>} wanted a form's words, each with the heap's own
 * @param {Record<string, string>} units of the form's words
 * @returns {Promise<Found>}
 */
async function figuresOfBook(shelf, engine, wanted, units) {
  const book = await shelf.inUse();
  if (!book) return { pairs: [], words: "There is no book any more", when: "" };
  const answer = await engine.ask({ job: "heap", inputs: { book: await shelf.whole(book), now: isoOf(new Date()) } });
  if (!answer.ok) return { pairs: [], words: problemText(answer), when: "" };
  /** @type {[string, string][]} */
  const pairs = [];
  const taken = [];
  for (const [word, ours] of Object.entries(wanted)) {
    const text = figureWithRange(answer, ours, units[word] ?? "");
    if (text === undefined) continue;
    pairs.push([word, text]);
    taken.push(ours);
  }
  if (!pairs.length) return { pairs, words: "The book does not know these figures yet", when: "" };
  return { pairs, words: `Taken: ${book.name}`, when: whenText(answer, taken, Date.now()) };
}

/**
 * From when figures are: a reading from its own day, the sum of the book from now, with the day of the last test.
 * @param {Pick<Answer, "kept" | "result">} answer
 * @param {string[]} words
 * @param {number} now
 */
export function whenText(answer, words, now) {
  const readings = answer.kept.filter(({ word }) => words.includes(word));
  const lines = readings.map(({ label, at }) => `${label}: of ${dateOrToday(at, now)}.`);
  if (readings.length === words.length) return lines.join(" ");
  const rest = readings.length ? "The rest" : "This";
  return [...lines, `${rest} as the book has it now, ${testedText(lastTest(answer, now), now)}.`].join(" ");
}
