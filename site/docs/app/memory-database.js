// @ts-check
/** A database that lasts as long as the page is open, for a browser that refuses a real one. */

/** @import {Book, BookEvent, Database, Pattern} from "./database.js" */

/** @returns {Database} */
export function memoryDatabase() {
  /** @type {Map<string, {book: Book, events: BookEvent[]}>} */
  const wholes = new Map();
  const facts = new Map();
  /** @type {Map<string, Pattern>} */
  const patterns = new Map();
  const eventsOf = (/** @type {string} */ key) => wholes.get(key)?.events ?? [];
  return {
    lasting: false,
    books: async () => Array.from(wholes.values(), ({ book }) => book),
    events: async (key) => [...eventsOf(key)],
    count: async (key) => eventsOf(key).length,
    fact: async (name) => facts.get(name),
    note: async (name, value) => void facts.set(name, value),
    patterns: async () => Array.from(patterns.values()),
    keepPattern: async (pattern) => void patterns.set(pattern.name, pattern),
    dropPattern: async (name) => void patterns.delete(name),
    append: async (key, after, event) => {
      const fits = wholes.has(key) && eventsOf(key).length === after;
      if (fits) eventsOf(key).push(event);
      return fits;
    },
    put: async (changes) => {
      for (const { book, events } of changes) {
        wholes.set(book.key, { book, events: [...(events ?? eventsOf(book.key))] });
      }
    },
  };
}
