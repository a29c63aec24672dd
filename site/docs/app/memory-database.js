// @ts-check
/** A database that lasts as long as the page is open, for a browser that refuses a real one. */

/** @import {Book, BookEvent, Database, Pattern, Writing} from "./database.js" */

/** @returns {Database} */
export function memoryDatabase() {
  /** @type {Map<string, {book: Book, events: BookEvent[]}>} */
  const wholes = new Map();
  const facts = new Map();
  /** @type {Map<string, Pattern>} */
  const patterns = new Map();
  const eventsOf = (/** @type {string} */ key) => wholes.get(key)?.events ?? [];
  /** @type {Writing} */
  const writing = {
    books: async () => Array.from(wholes.values(), ({ book }) => book),
    events: async (key) => [...eventsOf(key)],
    count: async (key) => eventsOf(key).length,
    fact: async (name) => facts.get(name),
    putBook: (book) => void wholes.set(book.key, { book, events: eventsOf(book.key) }),
    addEvent: (key, at, event) => void eventsOf(key).splice(at, 0, event),
    putEvents: (key, events) => void eventsOf(key).splice(0, Infinity, ...events),
    note: (name, value) => void facts.set(name, value),
  };
  const { books, events, count, fact, note } = writing;
  /** @type {Promise<unknown>} */
  let last = Promise.resolve();
  return {
    lasting: false,
    ...{ books, events, count, fact },
    note: async (name, value) => note(name, value),
    patterns: async () => Array.from(patterns.values()),
    keepPattern: async (pattern) => void patterns.set(pattern.name, pattern),
    dropPattern: async (name) => void patterns.delete(name),
    clear: async () => [wholes, facts, patterns].forEach((kept) => kept.clear()),
    write: (work) => {
      const done = last.then(() => work(writing));
      last = done.catch(() => {});
      return done;
    },
  };
}
