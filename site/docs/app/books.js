// @ts-check
/**
 * The heap books of this browser: which one is in use, what is in it, and how an event is added. All open pages
 * agree.
 */

import { FORMAT, VERSION } from "./book-format.js";

/** @import {Answer, Ask, BookData, BookEvent, Recorded, Refusal} from "./answer-types.js" */
/** @import {Database} from "./database.js" */
/** @typedef {import("./database.js").Book} Book */
/** @typedef {{key?: string, name: string, events: BookEvent[]}} BookToWrite without a key it becomes a new book */

const CHANNEL = "sandmix.books";
const TRIES = 5;

export class Books extends EventTarget {
  /** @param {Database} database */
  constructor(database) {
    super();
    this.database = database;
    this.channel = "BroadcastChannel" in globalThis ? new BroadcastChannel(CHANNEL) : null;
    this.channel?.addEventListener("message", () => this.dispatchEvent(new Event("changed")));
  }

  /** Whether what is written outlives the page. */
  get lasting() {
    return this.database.lasting;
  }

  /** @returns {Promise<Book[]>} by name */
  async all() {
    return (await this.database.books()).sort((a, b) => a.name.localeCompare(b.name));
  }

  /**
   * The book in use, if there is any.
   * @returns {Promise<Book | undefined>}
   */
  async inUse() {
    const [all, key] = await Promise.all([this.all(), this.database.fact("in use")]);
    return all.find((book) => book.key === key) ?? all[0];
  }

  /** @param {string} key */
  events(key) {
    return this.database.events(key);
  }

  /**
   * A book as the library takes it.
   * @param {Book} book
   * @returns {Promise<BookData>}
   */
  async whole({ key, name }) {
    return { format: FORMAT, version: VERSION, name, events: await this.events(key) };
  }

  /** @param {string} key */
  async use(key) {
    await this.database.note("in use", key);
    this.#changed();
  }

  /**
   * Start a new book and use it.
   * @param {string} name
   * @returns {Promise<Book>}
   */
  async begin(name) {
    const book = { key: freshKey(), name };
    await this.database.put([{ book, events: [] }]);
    await this.use(book.key);
    return book;
  }

  /**
   * @param {Book} book
   * @param {string} name
   */
  async rename(book, name) {
    await this.database.put([{ book: { ...book, name } }]);
    this.#changed();
  }

  /**
   * Write whole books at once, all or none.
   * @param {BookToWrite[]} given
   */
  async put(given) {
    await this.database.put(given.map(({ key = freshKey(), name, events }) => ({ book: { key, name }, events })));
    this.#changed();
  }

  /**
   * Have the library complete an event, and write it. If another page wrote in between, the library is asked again with
   * the newer book. When the promise is kept, the event is written or refused.
   * @param {Book} book
   * @param {BookEvent} event
   * @param {Ask} ask
   * @returns {Promise<Recorded | Refusal>}
   */
  async record(book, event, ask) {
    for (let tries = 0; tries < TRIES; tries += 1) {
      const whole = await this.whole(book);
      const answer = await ask({ job: "record", inputs: { book: whole, event } });
      if (!answer.ok || (await this.append(book.key, whole.events.length, answer.event))) return answer;
    }
    throw new Error("other pages keep writing in this book. Close them and try again.");
  }

  /**
   * Add an event behind those that the writer saw.
   * @param {string} key
   * @param {number} after
   * @param {BookEvent} event
   * @returns {Promise<boolean>} whether it was written; not if the book has changed since
   */
  async append(key, after, event) {
    const written = await this.database.append(key, after, event);
    if (written) this.#changed();
    return written;
  }

  /** How many events there are in all books, how many there were at the last export, and when that was. */
  async exported() {
    const counts = await Promise.all((await this.all()).map(({ key }) => this.database.count(key)));
    /** @type {{at: number | null, events: number}} */
    const last = (await this.database.fact("exported")) ?? { at: null, events: 0 };
    return { events: counts.reduce((sum, count) => sum + count, 0), last };
  }

  /**
   * @param {number | null} at in ms
   * @param {number} events how many of the events here are in a file
   */
  async noteExport(at, events) {
    await this.database.note("exported", { at, events });
    this.#changed();
  }

  /**
   * Ask the browser not to clear the books when space runs short.
   * @returns {Promise<boolean | undefined>} its answer; undefined if it cannot be asked
   */
  async askToPersist() {
    if (!this.lasting || !navigator.storage?.persist) return undefined;
    return (await navigator.storage.persisted()) || navigator.storage.persist();
  }

  /**
   * The last answer to a book as it is now, for pages that open before the calculator is here.
   * @param {Book} book
   * @returns {Promise<{answer: Answer, at: number} | null>}
   */
  async lastAnswer({ key }) {
    const last = await this.database.fact("answer");
    return last?.key === key && last.events === (await this.database.count(key)) ? last : null;
  }

  /**
   * @param {Book} book
   * @param {number} events
   * @param {Answer} answer
   */
  async keepAnswer({ key }, events, answer) {
    await this.database.note("answer", { key, events, at: Date.now(), answer });
  }

  #changed() {
    this.channel?.postMessage("changed");
    this.dispatchEvent(new Event("changed"));
  }
}

/** @type {Promise<Books> | undefined} */
let opened;

/** The one set of books of this page. */
export function books() {
  opened ??= open();
  return opened;
}

async function open() {
  const { openDatabase } = await import("./database.js");
  return new Books(await openDatabase());
}

function freshKey() {
  return Array.from(crypto.getRandomValues(new Uint32Array(4)), (part) => part.toString(36)).join("");
}
