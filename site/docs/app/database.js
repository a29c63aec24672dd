// @ts-check
/**
 * Where heap books stand: in this browser's database, or in memory where the browser refuses one. A book's events are
 * rows of their own under the book's key and their number, so that writing one more touches nothing that was there. Beside
 * them stand patterns by name: each with what it measures, and what it hands on to which job.
 *
 * @typedef {Record<string, any>} Event one flat object, as the engine gave it
 * @typedef {{key: string, name: string}} Book
 * @typedef {{book: Book, events?: Event[]}} Whole a book, and its events unless those stay as they are
 * @typedef {{name: string, at: number, said: string, figures: Record<string, any>, hands: Record<string, Record<string, string>>}} Pattern
 * @typedef {{
 *   lasting: boolean,
 *   books: () => Promise<Book[]>,
 *   events: (key: string) => Promise<Event[]>,
 *   count: (key: string) => Promise<number>,
 *   append: (key: string, after: number, event: Event) => Promise<boolean>,
 *   put: (wholes: Whole[]) => Promise<void>,
 *   fact: (name: string) => Promise<any>,
 *   note: (name: string, value: unknown) => Promise<void>,
 *   patterns: () => Promise<Pattern[]>,
 *   keepPattern: (pattern: Pattern) => Promise<void>,
 *   dropPattern: (name: string) => Promise<void>,
 * }} Shelf `append` writes only where the book holds as many events as the writer saw, and says whether it did; `put`
 *   writes whole books, all or none
 */

import { openDB } from "./idb.js";

const NAME = "sandmix.books";
const VERSION = 2;
const STRICT = /** @type {IDBTransactionOptions} */ ({ durability: "strict" });

/** The browser's own shelf, or one in memory. @returns {Promise<Shelf>} */
export async function shelf() {
  try {
    return kept(
      await openDB(NAME, VERSION, {
        upgrade,
        blocking: (_, __, event) => /** @type {IDBDatabase} */ (event.target).close(),
      }),
    );
  } catch {
    return held();
  }
}

/**
 * What each version added; what was there stays as it is.
 * @param {any} db
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

/** @param {string} key all the events of one book */
function under(key) {
  return IDBKeyRange.bound([key, 0], [key, Infinity]);
}

/** @param {any} db @returns {Shelf} */
function kept(db) {
  return {
    lasting: true,
    books: () => db.getAll("books"),
    events: (key) => db.getAll("events", under(key)),
    count: (key) => db.count("events", under(key)),
    fact: (name) => db.get("facts", name),
    note: async (name, value) => {
      await db.put("facts", value, name);
    },
    patterns: () => db.getAll("patterns"),
    keepPattern: async (pattern) => {
      await db.put("patterns", pattern);
    },
    dropPattern: (name) => db.delete("patterns", name),
    append: async (key, after, event) => {
      const writing = db.transaction("events", "readwrite", STRICT);
      const fits = (await writing.store.count(under(key))) === after;
      if (fits) writing.store.add(event, [key, after]).catch(() => {});
      await writing.done;
      return fits;
    },
    put: async (wholes) => {
      const writing = db.transaction(["books", "events"], "readwrite", STRICT);
      const [books, events] = ["books", "events"].map((name) => writing.objectStore(name));
      for (const whole of wholes) {
        const { key } = whole.book;
        const anew = whole.events
          ? [events.delete(under(key)), ...whole.events.map((event, at) => events.put(event, [key, at]))]
          : [];
        for (const step of [books.put(whole.book), ...anew]) step.catch(() => {});
      }
      await writing.done;
    },
  };
}

/** For as long as the page is open. @returns {Shelf} */
export function held() {
  /** @type {Map<string, {book: Book, events: Event[]}>} */
  const wholes = new Map();
  const facts = new Map();
  /** @type {Map<string, Pattern>} */
  const patterns = new Map();
  return {
    lasting: false,
    books: async () => Array.from(wholes.values(), ({ book }) => book),
    events: async (key) => [...(wholes.get(key)?.events ?? [])],
    count: async (key) => wholes.get(key)?.events.length ?? 0,
    fact: async (name) => facts.get(name),
    note: async (name, value) => void facts.set(name, value),
    patterns: async () => Array.from(patterns.values()),
    keepPattern: async (pattern) => void patterns.set(pattern.name, pattern),
    dropPattern: async (name) => void patterns.delete(name),
    append: async (key, after, event) => {
      const events = wholes.get(key)?.events ?? [];
      if (events.length === after) events.push(event);
      return events.length === after + 1 && events[after] === event;
    },
    put: async (given) => {
      for (const { book, events } of given)
        wholes.set(book.key, { book, events: [...(events ?? wholes.get(book.key)?.events ?? [])] });
    },
  };
}
