// @ts-check
/**
 * The browser's database: heap books and patterns. An event is a row of its own under its book's key and its number, so
 * that one more event touches nothing that is there.
 *
 * @typedef {import("./answer-types.js").BookEvent} BookEvent
 * @typedef {{key: string, name: string}} Book
 * @typedef {{book: Book, events?: BookEvent[]}} BookChange a book, and all its events unless those stay as they are
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
 * @typedef {object} Database
 * @property {boolean} lasting whether it outlives the page
 * @property {() => Promise<Book[]>} books
 * @property {(key: string) => Promise<BookEvent[]>} events
 * @property {(key: string) => Promise<number>} count
 * @property {(key: string, after: number, event: BookEvent) => Promise<boolean>} append writes only if the book
 *   holds as
 *   many events as the writer saw, and says whether it did
 * @property {(changes: BookChange[]) => Promise<void>} put writes whole books, all or none
 * @property {(name: string) => Promise<any>} fact
 * @property {(name: string, value: unknown) => Promise<void>} note
 * @property {() => Promise<Pattern[]>} patterns
 * @property {(pattern: Pattern) => Promise<void>} keepPattern
 * @property {(name: string) => Promise<void>} dropPattern
 */

import { openDB } from "./idb.js";
import { memoryDatabase } from "./memory-database.js";

/** @import {IDBPDatabase} from "./idb.js" */

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
    append: (key, after, event) => append(db, key, after, event),
    put: (changes) => put(db, changes),
  };
}

/**
 * @param {IDBPDatabase} db
 * @param {string} key
 * @param {number} after
 * @param {BookEvent} event
 */
async function append(db, key, after, event) {
  const writing = db.transaction("events", "readwrite", STRICT);
  const fits = (await writing.store.count(eventsOf(key))) === after;
  if (fits) inTransaction(writing.store.add(event, [key, after]));
  await writing.done;
  return fits;
}

/**
 * @param {IDBPDatabase} db
 * @param {BookChange[]} changes
 */
async function put(db, changes) {
  const writing = db.transaction(["books", "events"], "readwrite", STRICT);
  const [books, events] = [writing.objectStore("books"), writing.objectStore("events")];
  for (const change of changes) {
    const { key } = change.book;
    inTransaction(books.put(change.book));
    if (!change.events) continue;
    inTransaction(events.delete(eventsOf(key)));
    change.events.forEach((event, at) => inTransaction(events.put(event, [key, at])));
  }
  await writing.done;
}

/**
 * A step of a transaction, whose failure the transaction itself reports.
 * @param {Promise<unknown>} step
 */
function inTransaction(step) {
  step.catch(() => {});
}
