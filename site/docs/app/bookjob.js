// @ts-check
/** What a job's page has of the heap book: the heap's figures for its form, and its answer for the book. */

import { NOTHING } from "./answer.js";
import { books, isoOf } from "./books.js";
import { all, fresh, one, say, show } from "./dom.js";
import { addressOf } from "./share.js";

const SURE_DIGITS = 4;

/** @param {HTMLElement} root @param {import("./job.js").Job} job @param {{ask: (request: object) => Promise<any>}} engine */
export async function bookTools(root, job, engine) {
  const shelf = await books();
  if (!(await shelf.inUse())) return;
  const [take, write] = [fresh("book"), fresh("book", 1)];
  one(root, ".question").append(take);
  one(root, "[data-deeds]").before(write);
  const units = JSON.parse(root.dataset.units || "{}");
  for (const button of all(take, "[data-take-heap]")) {
    button.addEventListener("click", async () => {
      const found = await figures(shelf, engine, JSON.parse(button.dataset.takeHeap || "[]"), units);
      if (found.pairs.length) job.take(found.pairs);
      say(button, found.words);
    });
  }
  const doors = () => {
    for (const door of all(write, "[data-write]")) showDoor(/** @type {HTMLAnchorElement} */ (door), job);
  };
  job.answer.addEventListener("shown", doors);
  doors();
}

/**
 * What the book in use says of some words, each with its unit and how far it may be off.
 * @param {import("./books.js").Books} shelf @param {{ask: (request: object) => Promise<any>}} engine
 * @param {string[]} wanted @param {Record<string, string>} units
 * @returns {Promise<{pairs: [string, string][], words: string}>}
 */
async function figures(shelf, engine, wanted, units) {
  const book = await shelf.inUse();
  if (!book) return { pairs: [], words: "There is no book any more" };
  const answer = await engine.ask({ job: "heap", inputs: { book: await shelf.told(book), now: isoOf(new Date()) } });
  if (!answer.ok) return { pairs: [], words: answer.problems[0].message };
  const known = wanted.filter((word) => Number.isFinite(answer.result[word]));
  if (!known.length) return { pairs: [], words: "The book does not know these figures yet" };
  return { pairs: known.map((word) => [word, `${spoken(answer.result[word], answer.doubt?.[word])} ${units[word] ?? ""}`.trim()]), words: `Taken: ${book.name}` };
}

/** A figure and its doubt to two figures, so that what is handed on to be computed with loses little of either. @param {number} value @param {[number, number] | undefined} band */
function spoken(value, band) {
  const half = band ? Math.max(band[1] - value, value - band[0]) : 0;
  if (!(half > 0)) return String(Number(value.toPrecision(SURE_DIGITS)));
  const decimals = Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(half))));
  return `${value.toFixed(decimals)} ± ${half.toFixed(decimals)}`;
}

/** @param {HTMLAnchorElement} door @param {import("./job.js").Job} job */
function showDoor(door, job) {
  const answer = job.answer.shown;
  /** @type {Record<string, string>} */
  const words = JSON.parse(door.dataset.words || "{}");
  const given = new Map(job.form.given());
  const pairs = Object.entries(words).flatMap(([word, from]) => {
    const row = answer?.shown.find((/** @type {any} */ shown) => shown.word === from);
    const text = row ? row.text : given.get(from);
    return text && text !== NOTHING ? [/** @type {[string, string]} */ ([word, text])] : [];
  });
  show(door, Boolean(answer) && pairs.length > 0);
  door.href = addressOf("../heap/", [["kind", door.dataset.write], ...pairs]);
}
