// @ts-check
/** The heap book in use and the time, as inputs of a job that reads a book. The book is never kept with what was typed. */

import { books } from "./books.js";
import { dataOf } from "./dom.js";
import { isoOf } from "./time-text.js";

/** @import {Ask, Inputs, Request, WithFiles} from "./answer-types.js" */
/** @import {Calculator} from "./engine.js" */
/** @import {Job} from "./job.js" */

/**
 * The calculator as a job's page asks it: its own questions come with the book in use, if the job reads one.
 * @param {HTMLElement} root
 * @param {Calculator} engine
 * @returns {Calculator}
 */
export function withBook(root, engine) {
  /** @type {string[]} */
  const words = dataOf(root, "bookWords", []);
  if (!words.length) return engine;
  /** @param {Request} request */
  const whole = async (request) =>
    request.job === root.dataset.job
      ? { ...request, inputs: { ...(await bookInputs(words)), ...request.inputs } }
      : request;
  return {
    get state() {
      return engine.state;
    },
    get trouble() {
      return engine.trouble;
    },
    ask: /** @type {Ask} */ (
      async (/** @type {Request} */ request, /** @type {WithFiles} */ more) => engine.ask(await whole(request), more)
    ),
  };
}

/**
 * Answer at once where the book is all that the job needs.
 * @param {Job} job
 */
export async function askWithBookAlone(job) {
  if (!("bookAlone" in job.root.dataset)) return;
  const shelf = await books();
  if (await shelf.inUse()) job.ask(true);
}

/**
 * What the page fills in by itself; nothing if there is no book yet.
 * @param {string[]} words those that the job has
 * @returns {Promise<Inputs>}
 */
async function bookInputs(words) {
  const shelf = await books();
  const book = await shelf.inUse();
  if (!book) return {};
  /** @type {Inputs} */
  const own = { book: await shelf.whole(book), now: isoOf(new Date()) };
  return Object.fromEntries(words.map((word) => [word, own[word]]));
}
