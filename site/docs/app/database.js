// @ts-check
/**
 * The browser's database: heap books and patterns. An event is a row of its own under its book's key and its number, so
 * that one more event touches nothing that is there.
 *
 * @typedef {import("./answer-types.js").BookEvent} BookEvent
 * @typedef {{key: string, name: string}} Book
 */
/**
 * @typedef {object} Pattern
 * @property {string} name
 * @property {number} at when it was saved
 * @property {string} said what the list shows of it
 * @property {Record<string, unknown>} figures
 * @property {Record<string, Record<string, string>>} hands what it hands on, by job
 */
/**
 * @typedef {object} Writing what one transaction can read and write
 * @property {() => Promise<Book[]>} books
 * @property {(key: string) => Promise<BookEvent[]>} events
 * @property {(key: string) => Promise<number>} count
 * @property {(name: string) => Promise<any>} fact
 * @property {(book: Book) => void} putBook
 * @property {(key: string, at: number, event: BookEvent) => void} addEvent fails if there is an event of that number
 * @property {(key: string, events: BookEvent[]) => void} putEvents in place of all that the book holds
 * @property {(name: string, value: unknown) => void} note
 */
/**
 * @typedef {object} Database
 * @property {boolean} lasting whether it outlives the page
 * @property {() => Promise<Book[]>} books
 * @property {(key: string) => Promise<BookEvent[]>} events
 * @property {(key: string) => Promise<number>} count
 * @property {<T>(work: (writing: Writing) => Promise<T>) => Promise<T>} write does the work in one transaction, all of
 *   it or
 *   nothing; when the promise is kept, it is on the disk. The work waits for nothing but the transaction
 * @property {(name: string) => Promise<any>} fact
 * @property {(name: string, value: unknown) => Promise<void>} note
 * @property {() => Promise<Pattern[]>} patterns
 * @property {(pattern: Pattern) => Promise<void>} keepPattern
 * @property {(name: string) => Promise<void>} dropPattern
 * @property {() => Promise<void>} clear delete everything
 */

import { openDB } from "idb";
import { isPattern, wholeFact } from "./kept-shapes.js";
import { memoryDatabase } from "./memory-database.js";
import { noticeStorage } from "./storage-notice.js";

/** @import {IDBPDatabase} from "idb" */

const NAME = "sandmix.books";
const VERSION = 2;
/** A write counts as done only when it is on the disk. */
const STRICT = /** @type {const} */ ({ durability: "strict" });

/** A browser that has not answered after the first time is said to be slow, and after the second the page goes on without it. */
const SLOW_MS = 3_000;
const PATIENCE_MS = 10_000;
const HELD = "What you write in the book now is held until you close the page: export it before that.";
const WORDS = {
  refused: `This browser refuses to keep heap books and patterns. ${HELD}`,
  newer: `The heap books here are of a newer version of this site. Load this page again with a network. ${HELD}`,
  slow: "The storage of this browser has not answered yet. The heap books and patterns come as soon as it does.",
  blocked: "Another page of this site holds the heap books. Close the other pages of this site.",
  silent: `The storage of this browser does not answer, so your heap books and patterns are not shown. They are not lost: close all pages of this site, or restart the browser. ${HELD}`,
  answers: "The storage of this browser answers now. Export first what you wrote in the book since this page opened.",
  taken: "A newer version of this site has taken over the heap books. Load this page again; what you typed is kept.",
  closed: "The browser closed the storage of the heap books. Load this page again; what you typed is kept.",
};

/** @type {Promise<Database> | undefined} */
let opened;

/**
 * The database of the browser, or one in memory if the browser refuses or does not answer. The page says so at its top.
 * @returns {Promise<Database>}
 */
export function openDatabase() {
  opened ??= open();
  return opened;
}

async function open() {
  const slow = setTimeout(() => notice("slow"), SLOW_MS);
  const blocked = () => {
    clearTimeout(slow);
    notice("blocked");
  };
  const opening = openNow(blocked);
  try {
    const db = await Promise.race([opening, silence()]);
    notice("");
    return browserDatabase(db);
  } catch (error) {
    if (error === WORDS.silent) comeLate(opening);
    notice(reasonFor(error));
    return memoryDatabase();
  } finally {
    clearTimeout(slow);
  }
}

/**
 * Even asking for it fails in a browser that refuses all storage.
 * @param {() => void} blocked
 */
async function openNow(blocked) {
  return openDB(NAME, VERSION, {
    upgrade,
    blocked,
    blocking: closeForNewer,
    terminated: () => notice("closed", true),
  });
}

/**
 * @param {keyof typeof WORDS | ""} about
 * @param {boolean} [again]
 */
function notice(about, again = false) {
  noticeStorage("books", about && WORDS[about], again);
}

/** @returns {Promise<never>} rejected when the browser has had enough time */
function silence() {
  return new Promise((_, reject) => {
    setTimeout(() => reject(WORDS.silent), PATIENCE_MS);
  });
}

/** @param {unknown} error */
function reasonFor(error) {
  if (error === WORDS.silent) return "silent";
  return error instanceof DOMException && error.name === "VersionError" ? "newer" : "refused";
}

/**
 * The page has gone on without the database by now.
 * @param {Promise<IDBPDatabase>} opening
 */
function comeLate(opening) {
  opening.then(
    () => notice("answers", true),
    (error) => notice(reasonFor(error)),
  );
}

/**
 * Add what each version brought. What was there stays as it is.
 * @param {IDBPDatabase} db
 * @param {number} from the version that was there, 0 for none
 */
function upgrade(db, from) {
  if (from < 1) {
    db.createObjectStore("books", { keyPath: "key" });
    db.createObjectStore("events");
    db.createObjectStore("facts");
  }
  if (from < 2) db.createObjectStore("patterns", { keyPath: "name" });
}

/**
 * A newer page wants to upgrade the database, which waits until this one lets go.
 * @param {number} _
 * @param {number | null} __
 * @param {IDBVersionChangeEvent} event
 */
function closeForNewer(_, __, event) {
  /** @type {IDBDatabase} */ (event.target).close();
  notice("taken", true);
}

/**
 * All events of a book.
 * @param {string} key
 */
function eventsOf(key) {
  return IDBKeyRange.bound([key, 0], [key, Infinity]);
}

/**
 * @param {IDBPDatabase} db
 * @returns {Database}
 */
function browserDatabase(db) {
  return {
    lasting: true,
    books: () => db.getAll("books"),
    events: (key) => db.getAll("events", eventsOf(key)),
    count: (key) => db.count("events", eventsOf(key)),
    fact: async (name) => wholeFact(name, await db.get("facts", name)),
    note: async (name, value) => void (await db.put("facts", value, name)),
    patterns: async () => (await db.getAll("patterns")).filter(isPattern),
    keepPattern: async (pattern) => void (await db.put("patterns", pattern)),
    dropPattern: (name) => db.delete("patterns", name),
    clear: () => clear(db),
    write: (work) => write(db, work),
  };
}

/**
 * @template T
 * @param {IDBPDatabase} db
 * @param {(writing: Writing) => Promise<T>} work
 */
async function write(db, work) {
  const transaction = db.transaction(["books", "events", "facts"], "readwrite", STRICT);
  inTransaction(transaction.done);
  const [books, events, facts] = [
    transaction.objectStore("books"),
    transaction.objectStore("events"),
    transaction.objectStore("facts"),
  ];
  const result = await work({
    books: () => books.getAll(),
    events: (key) => events.getAll(eventsOf(key)),
    count: (key) => events.count(eventsOf(key)),
    fact: async (name) => wholeFact(name, await facts.get(name)),
    putBook: (book) => inTransaction(books.put(book)),
    addEvent: (key, at, event) => inTransaction(events.add(event, [key, at])),
    putEvents: (key, all) => {
      inTransaction(events.delete(eventsOf(key)));
      all.forEach((event, at) => inTransaction(events.put(event, [key, at])));
    },
    note: (name, value) => inTransaction(facts.put(value, name)),
  });
  await transaction.done;
  return result;
}

/**
 * A step of a transaction, whose failure the transaction itself reports.
 * @param {Promise<unknown>} step
 */
function inTransaction(step) {
  step.catch(() => {});
}

/**
 * Delete all rows of all stores, or none.
 * @param {IDBPDatabase} db
 */
async function clear(db) {
  const transaction = db.transaction(db.objectStoreNames, "readwrite", STRICT);
  for (const name of db.objectStoreNames) inTransaction(transaction.objectStore(name).clear());
  await transaction.done;
}
