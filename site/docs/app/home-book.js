// @ts-check
import { books, isoOf } from "./books.js";
import { all, fill, one, show } from "./dom.js";
import { age, lastTest } from "./heap.js";

/** How old an answer of the book may be before it is asked for again. */
const FRESH_MS = 3_600_000;

/** @type {import("./engine.js").Engine | undefined} */
let engine;

/**
 * Where a book is in use, the home page's card is its heap's: as last answered, or asked anew.
 * @param {HTMLElement} root
 * @param {HTMLElement} card
 */
export async function bookOnTop(root, card) {
  const shelf = await books();
  const name = /** @type {HTMLInputElement} */ (one(card, "[data-heap-name]"));
  const refresh = async () => {
    const book = await shelf.inUse();
    if (!book) return;
    show(one(root, "[data-first-timer]"), false);
    show(card, true);
    show(one(card, "[data-book-ways]"), true);
    if (document.activeElement !== name) name.value = book.name;
    const last = await shelf.lastAnswer(book);
    showBook(card, last?.answer, last?.at);
    if (!last || Date.now() - last.at > FRESH_MS) await askAnew(shelf, book, card);
  };
  name.addEventListener("change", async () => {
    const book = await shelf.inUse();
    if (book && name.value.trim()) await shelf.rename(book, name.value.trim());
  });
  shelf.addEventListener("changed", refresh);
  await refresh();
}

/**
 * @param {import("./books.js").Books} shelf
 * @param {import("./database.js").Book} book
 * @param {HTMLElement} card
 */
async function askAnew(shelf, book, card) {
  const told = await shelf.told(book);
  try {
    const { Engine } = await import("./engine.js");
    engine ??= new Engine(new URL("worker.js", import.meta.url));
    const answer = await engine.ask({ job: "heap", inputs: { book: told, now: isoOf(new Date()) } });
    if (!answer.ok) return;
    await shelf.keepAnswer(book, told.events.length, answer);
    showBook(card, answer, Date.now());
  } catch {
    fill(card, { sentence: "The calculator did not start here; the book itself is kept." });
  }
}

/**
 * @param {HTMLElement} card
 * @param {any} answer to the book, or nothing where none was given yet
 * @param {number} at when it was given
 */
function showBook(card, answer, at) {
  const state = answer?.state ?? { word: "no answer yet", tone: "plain" };
  card.dataset.tone = state.tone;
  fill(card, {
    state: state.word,
    sentence: answer?.lead.sentence ?? "",
    age: answer ? age(lastTest(answer, at), Date.now()) : "",
  });
  for (const sign of all(card, "[data-sign]")) show(sign, sign.dataset.sign === state.tone);
  for (const place of all(card, "[data-figure]")) {
    const figure = answer?.shown.find((/** @type {any} */ row) => row.word === place.dataset.figure);
    fill(place, { text: figure?.text ?? "not known", range: figure?.range ?? "" });
  }
}
