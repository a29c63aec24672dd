// @ts-check
/** The heap books of this browser: which is in use, what is in it, and one more event in it. All open pages agree. */

import { shelf } from "./database.js";

/**
 * @typedef {import("./database.js").Book} Book
 * @typedef {import("./database.js").Event} Event
 * @typedef {{format: string, version: number, name: string, events: Event[]}} Told a book as the engine takes it
 * @typedef {(request: object) => Promise<any>} Ask
 */

export const FORMAT = "sandmix book";
export const VERSION = 2;
export const NO_NAME = "The heap";
const CHANNEL = "sandmix.books";
const TRIES = 5;

export class Books extends EventTarget {
  /** @param {import("./database.js").Shelf} shelf */
  constructor(shelf) {
    super();
    this.shelf = shelf;
    this.channel = "BroadcastChannel" in globalThis ? new BroadcastChannel(CHANNEL) : null;
    this.channel?.addEventListener("message", () => this.dispatchEvent(new Event("changed")));
  }

  /** Whether what is written outlives the page. */
  get lasting() {
    return this.shelf.lasting;
  }

  /** @returns {Promise<Book[]>} by name */
  async all() {
    return (await this.shelf.books()).sort((a, b) => a.name.localeCompare(b.name));
  }

  /** The book in use, if there is any. @returns {Promise<Book | undefined>} */
  async inUse() {
    const [all, key] = await Promise.all([this.all(), this.shelf.fact("in use")]);
    return all.find((book) => book.key === key) ?? all[0];
  }

  /** @param {string} key */
  events(key) {
    return this.shelf.events(key);
  }

  /** @param {Book} book @returns {Promise<Told>} */
  async told(book) {
    return { format: FORMAT, version: VERSION, name: book.name, events: await this.events(book.key) };
  }

  /** @param {string} key */
  async use(key) {
    await this.shelf.note("in use", key);
    this.#tell();
  }

  /** A new book under a name, in use from now on. @param {string} name @returns {Promise<Book>} */
  async begin(name) {
    const book = { key: freshKey(), name };
    await this.shelf.put([{ book, events: [] }]);
    await this.use(book.key);
    return book;
  }

  /** @param {Book} book @param {string} name */
  async rename(book, name) {
    await this.shelf.put([{ book: { ...book, name } }]);
    this.#tell();
  }

  /**
   * Whole books at once, all or none: each under its key, or a new one where it has none.
   * @param {{key?: string, name: string, events: Event[]}[]} given
   */
  async put(given) {
    await this.shelf.put(given.map(({ key, name, events }) => ({ book: { key: key ?? freshKey(), name }, events })));
    this.#tell();
  }

  /**
   * Have the engine complete an event, and write that. Where another page wrote in between, the engine is asked again
   * with what now stands there. When the promise is kept, the event is written.
   * @param {Book} book
   * @param {Event} event
   * @param {Ask} ask
   * @returns {Promise<any>} the engine's answer, refused or with the event as it was written
   */
  async record(book, event, ask) {
    for (let tries = 0; tries < TRIES; tries += 1) {
      const told = await this.told(book);
      const answer = await ask({ job: "record", inputs: { book: told, event } });
      if (!answer.ok || (await this.append(book.key, told.events.length, answer.event))) return answer;
    }
    throw new Error("other pages write in this book all the time. Close them and try again.");
  }

  /**
   * One more event behind those that the writer saw.
   * @param {string} key
   * @param {number} after
   * @param {Event} event
   * @returns {Promise<boolean>} whether it was written; not where the book has changed since
   */
  async append(key, after, event) {
    const written = await this.shelf.append(key, after, event);
    if (written) this.#tell();
    return written;
  }

  /** How many events there are in all books, how many there were at the last export, and when that was. */
  async exported() {
    const counts = await Promise.all((await this.all()).map(({ key }) => this.shelf.count(key)));
    const last = (await this.shelf.fact("exported")) ?? { at: null, events: 0 };
    return { events: counts.reduce((sum, count) => sum + count, 0), last };
  }

  /**
   * @param {number | null} at in ms
   * @param {number} events how many of those that stand here are in a file
   */
  async noteExport(at, events) {
    await this.shelf.note("exported", { at, events });
    this.#tell();
  }

  /**
   * Ask the browser, once, not to clear the books when space runs short; its answer is remembered.
   * @returns {Promise<boolean | undefined>} what it said; nothing where it cannot be asked
   */
  async askToPersist() {
    if (!this.lasting || !navigator.storage?.persist) return undefined;
    return (await navigator.storage.persisted()) || navigator.storage.persist();
  }

  /**
   * The last answer to a book as it stands, for pages that open before the engine is here.
   * @param {Book} book
   */
  async lastAnswer(book) {
    const last = await this.shelf.fact("answer");
    return last?.key === book.key && last.events === (await this.shelf.count(book.key)) ? last : null;
  }

  /** @param {Book} book @param {number} events @param {any} answer */
  async keepAnswer(book, events, answer) {
    await this.shelf.note("answer", { key: book.key, events, at: Date.now(), answer });
  }

  #tell() {
    this.channel?.postMessage("changed");
    this.dispatchEvent(new Event("changed"));
  }
}

/** @type {Promise<Books> | undefined} */
let opened;

/** The one set of books of this page. */
export function books() {
  opened ??= shelf().then((found) => new Books(found));
  return opened;
}

/** A moment as ISO 8601 with the zone of this clock. @param {Date} moment */
export function isoOf(moment) {
  const ahead = -moment.getTimezoneOffset();
  const local = new Date(moment.getTime() + ahead * 60_000).toISOString().slice(0, 19);
  const [hours, minutes] = [Math.floor(Math.abs(ahead) / 60), Math.abs(ahead) % 60].map((part) =>
    String(part).padStart(2, "0"),
  );
  return `${local}${ahead < 0 ? "-" : "+"}${hours}:${minutes}`;
}

function freshKey() {
  return Array.from(crypto.getRandomValues(new Uint32Array(4)), (part) => part.toString(36)).join("");
}
