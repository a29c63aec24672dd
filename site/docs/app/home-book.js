// @ts-check
import { books } from "./books.js";
import { all, fill, one, show, showFigures, showState } from "./dom.js";
import { lastTest } from "./heap.js";
import { askHeap } from "./heap-figures.js";
import { askTheEngine } from "./one-engine.js";
import { sinceMs, testedText } from "./time-text.js";

/** @import {Answer} from "./answer-types.js" */
/** @import {Book, Books} from "./books.js" */

/** An answer to the book that is older than this is asked for again. */
const FRESH_MS = 3_600_000;

/**
 * Where the main button leads by the word of the heap; by any other word, to a test.
 * @type {Record<string, string>}
 */
const FOREMOST = { ready: "cast", begin: "mix" };

/**
 * If a book is in use, the card on the home page shows its heap: as last answered, or asked again.
 * @param {HTMLElement} root
 * @param {HTMLElement} card
 */
export async function showBookOnHome(root, card) {
  const shelf = await books();
  const name = one(card, "[data-heap-name]", HTMLInputElement);
  const refresh = async () => {
    const book = await shelf.inUse();
    if (!book) return;
    show(one(root, "[data-first-timer]"), false);
    show(card, true);
    show(one(card, "[data-book-ways]"), true);
    if (document.activeElement !== name) name.value = book.name;
    const last = await shelf.lastAnswer(book);
    showBook(card, last);
    if (!last || sinceMs(last.at, Date.now()) > FRESH_MS) await askAgain(shelf, book, card);
  };
  name.addEventListener("change", async () => {
    const book = await shelf.inUse();
    if (book && name.value.trim()) await shelf.rename(book, name.value.trim());
  });
  shelf.addEventListener("changed", refresh);
  await refresh();
}

/**
 * @param {Books} shelf
 * @param {Book} book
 * @param {HTMLElement} card
 */
async function askAgain(shelf, book, card) {
  try {
    const answer = await askHeap(shelf, book, { ask: askTheEngine });
    if (answer.ok) showBook(card, { answer, at: Date.now() });
  } catch {
    fill(card, { sentence: "The calculator did not start here. The book itself is not lost." });
  }
}

/**
 * @param {HTMLElement} card
 * @param {{answer: Answer, at: number} | null} last the last answer to the book, if there is one
 */
function showBook(card, last) {
  const answer = last?.answer;
  showState(card, answer?.state ?? { word: "no answer yet", tone: "plain" });
  showWay(card, FOREMOST[answer?.state.word ?? ""] ?? "test");
  const tested = last ? lastTest(last.answer, last.at) : undefined;
  const age = tested ? testedText(tested, Date.now()) : "not tested yet";
  fill(card, { sentence: answer?.lead.sentence ?? "", age });
  showFigures(card, (word) => answer?.shown.find((row) => row.word === word));
}

/**
 * Let the main button lead to what the heap needs.
 * @param {HTMLElement} card
 * @param {string} foremost
 */
function showWay(card, foremost) {
  const ways = all(card, "[data-heap-way]");
  for (const way of ways) {
    const isFirst = way.dataset.heapWay === foremost;
    way.classList.toggle("quiet", !isFirst);
    if (isFirst) way.parentElement?.prepend(way, " ");
    if (way.dataset.heapWay === "mix") show(way, isFirst);
  }
}
