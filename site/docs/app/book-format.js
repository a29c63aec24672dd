// @ts-check
/** Books as data: the file that holds them, what is new in one, and when the next export is due. */

import { FORMAT as CASTING_FORMAT } from "./castings.js";
import { DAY_MS, daysAgo, momentText, sinceMs } from "./time-text.js";

/** @import {BookData, BookEvent, CastingData} from "./answer-types.js" */
/** @import {Book} from "./database.js" */
/** @import {Device} from "./device-file.js" */
/** @typedef {{book: Book, events: BookEvent[]}} Here a book of this browser */
/** @typedef {{whole: BookData, same?: Book, here?: BookEvent[]}} Found a new book, and one here that has its name but other events */

export const FORMAT = "sandmix book";
export const VERSION = 4;
export const NO_NAME = "The heap";
const FILE_FORMAT = "sandmix books";
const OLDEST = 1;
const LONGEST_NAME = 40;
const REMIND_EVENTS = 10;
const REMIND_DAYS = 30;

/**
 * All books and castings as the text of one file, and with them everything else of a device.
 * @param {BookData[]} books
 * @param {CastingData[]} castings
 * @param {string} exported when
 * @param {Device} [device] settings, forms and patterns, if they go along
 */
export function fileText(books, castings, exported, device) {
  return JSON.stringify({ format: FILE_FORMAT, version: VERSION, exported, books, castings, device }, null, 1);
}

/**
 * The books and castings in the data of a file: of all that a device had, of one book or of one casting.
 * @param {any} given undefined if the file is no JSON
 * @returns {{books: unknown[], castings: unknown[], problem: string}}
 */
export function wholesIn(given) {
  const refused = (/** @type {string} */ problem) => ({ books: [], castings: [], problem });
  if (given === null) return refused("The file is empty. Choose one that was exported here.");
  if (given === undefined) return refused("The file is not JSON, or it is damaged. Choose one that was exported here.");
  if (given?.format === CASTING_FORMAT) return { books: [], castings: [given], problem: "" };
  if (given?.format !== FILE_FORMAT) return { books: [given], castings: [], problem: "" };
  const { version } = given;
  if (typeof version !== "number" || version < OLDEST || version > VERSION) {
    return refused(
      `The file has version ${JSON.stringify(version)}, and this page reads versions ${OLDEST} to ${VERSION}. ` +
        "Open it with the sandmix that wrote it, or a newer one.",
    );
  }
  const { books, castings = [], device } = given;
  if (holdsAnything(books, castings, device)) return { books, castings, problem: "" };
  return refused("There is no book and no casting in the file.");
}

/** What this page reads of a file, of its part for a device and of the settings there. */
const KNOWN = {
  file: ["format", "version", "exported", "books", "castings", "device"],
  book: ["format", "version", "name", "events"],
  device: ["version", "look", "entries", "patterns"],
  settings: ["text", "hand", "own", "shown_in"],
};

/**
 * What a file holds that this page has no use for, such as a part that only a newer sandmix knows.
 * @param {any} given
 * @returns {string[]}
 */
export function unknownIn(given) {
  const { books = [], device } = given;
  const isFile = given.format === FILE_FORMAT;
  const rest = (/** @type {any} */ part, /** @type {string[]} */ known) =>
    Object.keys(part ?? {}).filter((name) => !known.includes(name));
  return [
    ...(isFile ? rest(given, KNOWN.file) : []),
    ...(isFile ? books : []).flatMap((/** @type {any} */ book) => rest(book, KNOWN.book)),
    ...(given.format === FORMAT ? rest(given, KNOWN.book) : []),
    ...rest(device, KNOWN.device),
    ...rest(device?.entries?.settings, KNOWN.settings),
  ];
}

/**
 * @param {unknown} books
 * @param {unknown} castings
 * @param {unknown} device
 */
function holdsAnything(books, castings, device) {
  return Array.isArray(books) && Array.isArray(castings) && (Boolean(device) || books.length + castings.length > 0);
}

/**
 * Why books hold nothing to take over, if they do.
 * @param {BookData[]} wholes
 */
export function emptyProblem(wholes) {
  if (wholes.some(({ events }) => events.length)) return "";
  return "The file has no entry, so it is no book. Choose one that was exported here.";
}

/**
 * The castings that are not here yet, part for part.
 * @param {CastingData[]} wholes
 * @param {CastingData[]} here
 */
export function newCastings(wholes, here) {
  const known = new Set(here.map((casting) => JSON.stringify(casting)));
  return wholes.filter((casting) => !known.has(JSON.stringify(casting)));
}

/**
 * The books that are not here yet, event for event. An empty book is new only if its name is.
 * @param {BookData[]} wholes
 * @param {Here[]} here
 * @returns {Found[]}
 */
export function newBooks(wholes, here) {
  return wholes.flatMap((whole) => {
    const named = here.filter(({ book }) => book.name === whole.name);
    const events = JSON.stringify(whole.events);
    if (named.length && !whole.events.length) return [];
    if (named.some((other) => JSON.stringify(other.events) === events)) return [];
    const [same] = named;
    return [same ? { whole, same: same.book, here: same.events } : { whole }];
  });
}

/**
 * The books to write: over the one with the same name if so wished, else under a free name.
 * @param {Found[]} found
 * @param {boolean[]} replace which of them replace the book with their name
 * @param {string[]} names that are taken
 */
export function booksToWrite(found, replace, names) {
  const taken = [...names];
  return found.map(({ whole: { name, events }, same }, at) => {
    if (same && replace[at]) return { key: same.key, name, events };
    const free = freeName(name, taken);
    taken.push(free);
    return { name: free, events };
  });
}

/**
 * How many entries there are, and from when the newest is.
 * @param {BookEvent[]} events
 */
export function extentText(events) {
  const newest = newestIn(events);
  return newest ? `${countText(events.length)}, the newest from ${momentText(newest.at)}` : countText(events.length);
}

/**
 * Which of two books of one name has the newer entry, in words.
 * @param {BookEvent[]} here
 * @param {BookEvent[]} inFile
 */
export function newerText(here, inFile) {
  const [ours, theirs] = [here, inFile].map((events) => Date.parse(newestIn(events)?.at ?? ""));
  if (ours === theirs) return "Their newest entries have the same time.";
  if (ours > theirs) return "The one here is newer.";
  return theirs > ours ? "The one in the file is newer." : "";
}

/**
 * The event with the latest moment.
 * @param {BookEvent[]} events
 */
function newestIn(events) {
  const dated = events.filter(({ at }) => !Number.isNaN(Date.parse(at)));
  return dated.toSorted((a, b) => Date.parse(a.at) - Date.parse(b.at)).at(-1);
}

/** @param {number} count */
function countText(count) {
  return count === 1 ? "1 entry" : `${count} entries`;
}

/**
 * When the books were last exported, in words, and whether the next export is due.
 * @param {{events: number, last: {at: number | null, events: number}, since: number | null}} how
 * @param {number} now
 */
export function exportReminder({ events, last, since }, now) {
  const fresh = Math.max(0, events - last.events);
  const entries = countText(fresh);
  const days = sinceMs(last.at ?? since ?? now, now) / DAY_MS;
  return {
    words: last.at
      ? `Last exported ${daysAgo(last.at, now)}; ${fresh ? `${entries} since` : "nothing new since"}.`
      : "Not exported yet.",
    due: fresh >= REMIND_EVENTS || (fresh > 0 && days >= REMIND_DAYS),
    entries,
  };
}

/**
 * @param {string} name
 * @param {string[]} taken
 */
function freeName(name, taken) {
  let free = name;
  for (let number = 2; taken.includes(free); number += 1) free = `${name.slice(0, LONGEST_NAME)} (${number})`;
  return free;
}
