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
 */

import { openDB } from "idb";
import { memoryDatabase } from "./memory-database.js";

/** @import {IDBPDatabase} from "idb" */

const NAME = "sandmix.books";
const VERSION = 2;
/** A write counts as done only when it is on the disk. */
const STRICT = /** @type {const} */ ({ durability: "strict" });

/**
 * The database of the browser, or one in memory if the browser refuses.
 * @returns {Promise<Database>}
 */
export async function openDatabase() {
  try {
    return browserDatabase(await openDB(NAME, VERSION, { upgrade, blocking: closeForNewer }));
  } catch {
    return memoryDatabase();
  }
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
    fact: (name) => db.get("facts", name),
    note: async (name, value) => void (await db.put("facts", value, name)),
    patterns: () => db.getAll("patterns"),
    keepPattern: async (pattern) => void (await db.put("patterns", pattern)),
    dropPattern: (name) => db.delete("patterns", name),
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
    fact: (name) => facts.get(name),
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
