// @ts-check
/** Books as a file, out and in again. The library checks the whole file before anything is written. */

import { booksIn, booksToWrite, emptyProblem, fileText, newBooks } from "./book-format.js";
import { csvText } from "./csv.js";
import { fromJson } from "./table-text.js";
import { isoOf } from "./time-text.js";

/** @import {Ask, BookData} from "./answer-types.js" */
/** @import {Found} from "./book-format.js" */
/** @import {Books} from "./books.js" */

const MB = 1e6;
const MOST_BYTES = 20 * MB;
const REVOKE_AFTER_MS = 60_000;

/**
 * All books as the text of one file.
 * @param {Books} books
 * @param {Date} now
 */
export async function exportText(books, now) {
  const all = await books.all();
  return fileText(await Promise.all(all.map((book) => books.whole(book))), isoOf(now));
}

/**
 * The new books of a file, if the library takes every book in it.
 * @param {File} file
 * @param {Books} books
 * @param {Ask} ask
 * @returns {Promise<{found: Found[], problems: string[]}>}
 */
export async function readFile(file, books, ask) {
  if (file.size > MOST_BYTES) {
    const words = `The file has ${Math.ceil(file.size / MB)} MB. No book is that large: at most ${MOST_BYTES / MB} MB are read.`;
    return { found: [], problems: [words] };
  }
  const text = await file.text();
  if (!text.trim()) return { found: [], problems: ["The file is empty. Choose one that was exported here."] };
  const { books: given, problem } = booksIn(fromJson(text));
  if (problem) return { found: [], problems: [problem] };
  const problems = [];
  /** @type {BookData[]} as the library reads them: in its own version, each event with its outcome */
  const wholes = [];
  for (const book of given) {
    const answer = await ask({ job: "read_book", inputs: { book } });
    if (answer.ok) wholes.push(answer.book);
    else problems.push(...answer.problems.map(({ message }) => message));
  }
  const empty = problems.length ? "" : emptyProblem(wholes);
  if (empty) problems.push(empty);
  if (problems.length) return { found: [], problems };
  const all = await books.all();
  const here = await Promise.all(all.map(async (book) => ({ book, events: await books.events(book.key) })));
  return { found: newBooks(wholes, here), problems };
}

/**
 * Write the books of a file, all or none.
 * @param {Books} books
 * @param {Found[]} found
 * @param {boolean[]} replace which of them replace the book with their name
 */
export async function importBooks(books, found, replace) {
  const names = (await books.all()).map(({ name }) => name);
  await asExported(books, () => books.put(booksToWrite(found, replace, names)));
}

/**
 * Do what moves entries between books and files, so that the entries that come or go do not count as new.
 * @param {Books} books
 * @param {() => Promise<void>} work
 */
export async function asExported(books, work) {
  const before = await books.exported();
  await work();
  const after = await books.exported();
  await books.noteExport(before.last.at, Math.max(0, before.last.events + after.events - before.events));
}

/**
 * All events of all books for a spreadsheet: what was typed, and what it did to the heap in kilograms.
 * @param {Books} books
 */
export async function exportCsv(books) {
  const rows = [];
  for (const { key, name } of await books.all()) {
    for (const event of await books.events(key)) rows.push({ book: name, ...event });
  }
  return csvText(rows, ["book", "at", "kind", "note"]);
}

/**
 * Save a text as a file.
 * @param {string} name
 * @param {string} type
 * @param {string} text
 */
export function download(name, type, text) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), REVOKE_AFTER_MS);
}
