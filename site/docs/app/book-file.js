// @ts-check
/** Books and castings as a file, out and in again. The library checks the whole file before anything is written. */

import { booksToWrite, emptyProblem, fileText, newBooks, newCastings, unknownIn, wholesIn } from "./book-format.js";
import { allCastings, bringCastings } from "./castings.js";
import { csvText } from "./csv.js";
import { changesIn, problemsOf } from "./device-file.js";
import { deviceHere, writeChanges } from "./device.js";
import { fromJson, repeatsName } from "./table-text.js";
import { isoOf } from "./time-text.js";

/** @import {Ask, BookData, CastingData} from "./answer-types.js" */
/** @import {Found} from "./book-format.js" */
/** @import {Books} from "./books.js" */
/** @import {Change} from "./device-file.js" */
/** @typedef {{found: Found[], castings: CastingData[], changes: Change[], unknown: string[], problems: string[]}} ReadFile what is new in a file, what is unknown here, or what is wrong with it */

const OLDER_COPY = "It was edited by hand or is damaged. Use an older copy.";
const MB = 1e6;
const MOST_BYTES = 20 * MB;
const REVOKE_AFTER_MS = 60_000;

/**
 * Everything of this device as the text of one file.
 * @param {Books} books
 * @param {Date} now
 */
export async function exportText(books, now) {
  const all = await books.all();
  const wholes = await Promise.all(all.map((book) => books.whole(book)));
  const castings = allCastings().map(({ casting }) => casting);
  return fileText(wholes, castings, isoOf(now), await deviceHere());
}

/**
 * What is new in a file, if the library takes every book and every casting in it.
 * @param {File} file
 * @param {Books} books
 * @param {Ask} ask
 * @returns {Promise<ReadFile>}
 */
export async function readFile(file, books, ask) {
  if (file.size > MOST_BYTES) {
    const words = `The file has ${Math.ceil(file.size / MB)} MB. No book is that large: at most ${MOST_BYTES / MB} MB are read.`;
    return refused(words);
  }
  const text = await file.text();
  if (!text.trim()) return refused("The file is empty. Choose one that was exported here.");
  const data = fromJson(text);
  const { books: given, castings: others, problem } = wholesIn(data);
  if (problem) return refused(problem);
  if (repeatsName(text, data)) return refused(`The file gives a name twice in one place. ${OLDER_COPY}`);
  const { wholes, castings, problems } = await readParts(given, others, ask);
  problems.push(...problemsOf(data.device), ...(await unitProblems(data.device, ask)));
  const empty = problems.length || castings.length || data.device ? "" : emptyProblem(wholes);
  if (empty) problems.push(empty);
  if (problems.length) return refused(...problems);
  const all = await books.all();
  const here = await Promise.all(all.map(async (book) => ({ book, events: await books.events(book.key) })));
  const known = allCastings().map(({ casting }) => casting);
  const changes = data.device ? changesIn(data.device, await deviceHere()) : [];
  return {
    found: newBooks(wholes, here),
    castings: newCastings(castings, known),
    changes,
    unknown: unknownIn(data),
    problems,
  };
}

/**
 * Every book and casting as the library reads it: in its own version, each event with its outcome.
 * @param {unknown[]} given
 * @param {unknown[]} others
 * @param {Ask} ask
 */
async function readParts(given, others, ask) {
  /** @type {BookData[]} */
  const wholes = [];
  /** @type {CastingData[]} */
  const castings = [];
  /** @type {string[]} */
  const problems = [];
  for (const book of given) {
    const answer = await ask({ job: "read_book", inputs: { book } });
    if (answer.ok) wholes.push(answer.book);
    else problems.push(...answer.problems.map(({ message }) => message));
  }
  for (const casting of others) {
    const answer = await ask({ job: "read_casting", inputs: { casting } });
    if (answer.ok) castings.push(answer.casting);
    else problems.push(...answer.problems.map(({ message }) => message));
  }
  return { wholes, castings, problems };
}

/**
 * What the library says of the units in a file's settings.
 * @param {any} device
 * @param {Ask} ask
 * @returns {Promise<string[]>}
 */
async function unitProblems(device, ask) {
  const shown_in = device?.entries?.settings?.shown_in;
  if (shown_in === undefined) return [];
  const answer = await ask(/** @type {any} */ ({ job: "shopping", inputs: {}, shown_in }));
  return answer.ok ? [] : answer.problems.filter(({ word }) => word === "shown_in").map(({ message }) => message);
}

/**
 * @param {string[]} problems
 * @returns {ReadFile}
 */
function refused(...problems) {
  return { found: [], castings: [], changes: [], unknown: [], problems };
}

/**
 * Write what is new in a file: all of its books or none, its castings, and the rest that a person wants.
 * @param {Books} books
 * @param {Pick<ReadFile, "found" | "castings" | "changes">} file
 * @param {boolean[]} replace which books replace the one with their name
 */
export async function importFile(books, { found, castings, changes }, replace) {
  const names = (await books.all()).map(({ name }) => name);
  if (found.length) await asExported(books, () => books.put(booksToWrite(found, replace, names)));
  bringCastings(castings);
  await writeChanges(changes);
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
