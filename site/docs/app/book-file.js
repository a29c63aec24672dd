// @ts-check
/** Books as a file, out and in again. What comes in is looked through by the engine as a whole before a byte is written. */

import { VERSION, isoOf } from "./books.js";

/**
 * @typedef {import("./books.js").Told} Told
 * @typedef {import("./books.js").Books} Books
 * @typedef {{told: Told, same?: import("./books.js").Book}} Found a book in a file, and one here of that name with other events
 */

const FORMAT = "sandmix books";
const OLDEST = 1;
const MOST_BYTES = 20_000_000;
const DAY_MS = 86_400_000;
const LONGEST_NAME = 40;
const REMIND_EVENTS = 10;
const REMIND_DAYS = 30;

/** All books as the text of one file. @param {Books} books @param {Date} now */
export async function fileOf(books, now) {
  const all = await Promise.all((await books.all()).map((book) => books.told(book)));
  return JSON.stringify({ format: FORMAT, version: VERSION, exported: isoOf(now), books: all }, null, 1);
}

/**
 * The books of a file, if the engine takes every one of them.
 * @param {File} file
 * @param {Books} books
 * @param {(request: object) => Promise<any>} ask
 * @returns {Promise<{found: Found[], problems: string[]}>}
 */
export async function readFile(file, books, ask) {
  if (file.size > MOST_BYTES)
    return refused(
      `The file has ${Math.ceil(file.size / 1e6)} MB, and no book is that large: at most ${MOST_BYTES / 1e6} MB are read.`,
    );
  const given = parsed(await file.text());
  if (given === undefined) return refused("The file is no JSON, or it is damaged. Choose one that was exported here.");
  if (given?.format === FORMAT && !(given.version >= OLDEST && given.version <= VERSION))
    return refused(
      `The file is of version ${given.version}, and this page reads versions ${OLDEST} to ${VERSION}. Open it with the sandmix that wrote it, or a newer one.`,
    );
  const all = given?.format === FORMAT ? given.books : [given];
  if (!Array.isArray(all) || !all.length) return refused("There is no book in the file.");
  const problems = [];
  /**
   * @type {Told[]} as the engine reads them: of its own version, whatever theirs was, each event with its outcome
   */
  const whole = [];
  for (const book of all) {
    const answer = await ask({ job: "read_book", inputs: { book } });
    if (answer.ok) whole.push(answer.book);
    else problems.push(...answer.problems.map((/** @type {any} */ problem) => problem.message));
  }
  return problems.length ? { found: [], problems } : { found: await beside(whole, books), problems };
}

/**
 * @param {Told[]} all
 * @param {Books} books
 * @returns {Promise<Found[]>} those that are not here already, word for word
 */
async function beside(all, books) {
  const here = await Promise.all(
    (await books.all()).map(async (book) => ({ book, events: JSON.stringify(await books.events(book.key)) })),
  );
  return all
    .map((told) => ({ told, named: here.filter(({ book }) => book.name === told.name) }))
    .filter(({ told, named }) => !named.some(({ events }) => events === JSON.stringify(told.events)))
    .map(({ told, named }) => ({ told, same: named[0]?.book }));
}

/**
 * Write what was found, all or none: over the one of that name where so wished, else beside it.
 * @param {Books} books
 * @param {Found[]} found
 * @param {boolean[]} over
 */
export async function bringIn(books, found, over) {
  const names = (await books.all()).map(({ name }) => name);
  const wholes = found.map(({ told, same }, at) => {
    if (same && over[at]) return { key: same.key, name: told.name, events: told.events };
    const name = freeName(told.name, names);
    names.push(name);
    return { name, events: told.events };
  });
  const before = await books.exported();
  await books.put(wholes);
  const after = await books.exported();
  await books.noteExport(before.last.at, Math.max(0, before.last.events + after.events - before.events));
}

/**
 * All events of all books for a spreadsheet: a line each, a column a word, and what it did to the heap in kilograms.
 * @param {Books} books
 */
export async function csvOf(books) {
  const rows = [];
  for (const book of await books.all())
    for (const event of await books.events(book.key)) rows.push({ book: book.name, ...flat(event) });
  const columns = Array.from(new Set(["book", "at", "kind", "note", ...rows.flatMap((row) => Object.keys(row))]));
  const lines = [
    columns,
    ...rows.map((/** @type {Record<string, unknown>} */ row) => columns.map((column) => row[column])),
  ];
  return `\ufeff${lines.map((line) => line.map(cell).join(",")).join("\r\n")}\r\n`;
}

/**
 * Hand a text to the browser's downloads.
 * @param {string} name
 * @param {string} type
 * @param {string} text
 */
export function handOut(name, type, text) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/**
 * When the books were last exported, in words, and whether it is time again.
 * @param {{events: number, last: {at: number | null, events: number}, since: number | null}} how
 * @param {number} now
 */
export function reminder({ events, last, since }, now) {
  const fresh = Math.max(0, events - last.events);
  const days = Math.floor((now - (last.at ?? since ?? now)) / DAY_MS);
  const entries = fresh === 1 ? "1 entry" : `${fresh} entries`;
  const when = last.at
    ? `Last exported ${days === 0 ? "today" : days === 1 ? "yesterday" : `${days} days ago`}; ${fresh ? `${entries} since` : "nothing new since"}.`
    : "Not exported yet.";
  return { words: when, due: fresh >= REMIND_EVENTS || (fresh > 0 && days >= REMIND_DAYS), entries };
}

/** @param {string} why */
function refused(why) {
  return { found: [], problems: [why] };
}

/** @param {string} text @returns {any} */
function parsed(text) {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** @param {string} name @param {string[]} taken */
function freeName(name, taken) {
  let free = name;
  for (let number = 2; taken.includes(free); number += 1) free = `${name.slice(0, LONGEST_NAME)} (${number})`;
  return free;
}

/**
 * An object's leaves under their path.
 * @param {Record<string, unknown>} thing
 * @param {string} [before]
 * @returns {Record<string, unknown>}
 */
function flat(thing, before = "") {
  const parts = Object.entries(thing).map(([name, value]) => {
    const nested = value && typeof value === "object" && !Array.isArray(value);
    return nested
      ? flat(/** @type {Record<string, unknown>} */ (value), `${before}${name}.`)
      : { [before + name]: value };
  });
  return Object.assign({}, ...parts);
}

/** One cell: quoted where it must be, and never a formula. @param {unknown} value */
function cell(value) {
  if (value === null || value === undefined) return "";
  if (typeof value === "number") return String(value);
  const text = typeof value === "string" ? value : JSON.stringify(value);
  const tame = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(tame) ? `"${tame.replaceAll('"', '""')}"` : tame;
}
