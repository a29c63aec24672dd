// @ts-check
/**
 * The heap books of this browser: which one is in use, what is in it, and how an event is added. All open pages
 * agree.
 */

import { FORMAT, NO_NAME, VERSION } from "./book-format.js";
import { freshKey } from "./fresh-key.js";
import { isKeptAnswer } from "./kept-shapes.js";

/** @import {Answer, Ask, BookData, BookEvent, Recorded, Refusal} from "./answer-types.js" */
/** @import {Database} from "./database.js" */
/** @typedef {import("./database.js").Book} Book */
/** @typedef {{key?: string, name: string, events: BookEvent[]}} BookToWrite without a key it becomes a new book */
/** @typedef {{id: string, key: string, events: BookEvent[]}} Replaced the events that a book had before a file replaced them */

const CHANNEL = "sandmix.books";
const TRIES = 5;
const REPLACED = "replaced";
/** Before the identity of a write, for the fact that it happened. */
const WRITE = "write ";

export class Books extends EventTarget {
  /** @type {Promise<unknown>} the write that the next one waits for */
  #queue = Promise.resolve();

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
    const all = (await this.database.books()).map(({ key, name }) => ({ key, name: nameOf(name) }));
    return all.sort((a, b) => a.name.localeCompare(b.name));
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
    await this.database.write(async (writing) => writing.putBook(book));
    await this.use(book.key);
    return book;
  }

  /**
   * @param {Book} book
   * @param {string} name
   */
  async rename(book, name) {
    await this.database.write(async (writing) => writing.putBook({ ...book, name }));
    this.#changed();
  }

  /**
   * Write whole books at once, all or none. What a book held before is kept.
   * @param {BookToWrite[]} given
   */
  async put(given) {
    await this.database.write(async (writing) => {
      /** @type {Replaced[]} */
      const replaced = (await writing.fact(REPLACED)) ?? [];
      for (const { key = freshKey(), name, events } of given) {
        const before = await writing.events(key);
        if (before.length) replaced.push({ id: freshKey(), key, events: before });
        writing.putBook({ key, name });
        writing.putEvents(key, events);
      }
      writing.note(REPLACED, replaced);
      writing.note("answer", null);
    });
    this.#changed();
  }

  /**
   * What books held before a file replaced them, each with its book.
   * @returns {Promise<(Replaced & {book: Book})[]>}
   */
  async replaced() {
    const [all, replaced] = await Promise.all([this.all(), this.database.fact(REPLACED)]);
    return (replaced ?? []).flatMap((/** @type {Replaced} */ one) => {
      const book = all.find(({ key }) => key === one.key);
      return book ? [{ ...one, book }] : [];
    });
  }

  /**
   * Bring back what a book held before. What it holds now is kept in its place.
   * @param {string} id
   */
  async bringBack(id) {
    await this.database.write(async (writing) => {
      /** @type {Replaced[]} */
      const replaced = (await writing.fact(REPLACED)) ?? [];
      const back = replaced.find((one) => one.id === id);
      if (!back) return;
      const now = await writing.events(back.key);
      const instead = now.length ? [{ id: freshKey(), key: back.key, events: now }] : [];
      writing.putEvents(back.key, back.events);
      writing.note(REPLACED, [...replaced.filter((one) => one !== back), ...instead]);
      writing.note("answer", null);
    });
    this.#changed();
  }

  /**
   * Keep no longer what a book held before.
   * @param {string} id
   */
  async dropReplaced(id) {
    await this.database.write(async (writing) => {
      /** @type {Replaced[]} */
      const replaced = (await writing.fact(REPLACED)) ?? [];
      writing.note(
        REPLACED,
        replaced.filter((one) => one.id !== id),
      );
    });
    this.#changed();
  }

  /**
   * Have the library complete an event, and write it, after all writes that were asked for before. If another page wrote
   * in between, the library is asked again with the newer book. When the promise is kept, the event is written or refused.
   * @param {Book} book
   * @param {BookEvent} event
   * @param {Ask} ask
   * @param {string} [write] the identity of this write: with one that is written already, nothing happens
   * @returns {Promise<Recorded | Refusal>}
   */
  record(book, event, ask, write = freshKey()) {
    const done = this.#queue.then(() => this.#record(book, event, ask, write));
    this.#queue = done.catch(() => {});
    return done;
  }

  /**
   * @param {Book} book
   * @param {BookEvent} event
   * @param {Ask} ask
   * @param {string} write
   * @returns {Promise<Recorded | Refusal>}
   */
  async #record(book, event, ask, write) {
    for (let tries = 0; tries < TRIES; tries += 1) {
      if (await this.isWritten(write)) return { ok: true, job: "record", event, headline: "", remarks: [] };
      const whole = await this.whole(book);
      const answer = await ask({ job: "record", inputs: { book: whole, event } });
      if (!answer.ok || (await this.append(book.key, whole.events.length, answer.event, write))) return answer;
    }
    throw new Error("other pages keep writing in this book. Close them and try again.");
  }

  /**
   * Whether the write with this identity has happened.
   * @param {string} write
   * @returns {Promise<boolean>}
   */
  async isWritten(write) {
    return Boolean(await this.database.fact(WRITE + write));
  }

  /**
   * Add an event behind those that the writer saw.
   * @param {string} key
   * @param {number} after
   * @param {BookEvent} event
   * @param {string} [write] the identity of this write
   * @returns {Promise<boolean>} whether it was written; not if the book has changed since, or if it was written before
   */
  async append(key, after, event, write = freshKey()) {
    const written = await this.database.write(async (writing) => {
      const [all, count, before] = await Promise.all([
        writing.books(),
        writing.count(key),
        writing.fact(WRITE + write),
      ]);
      if (before || count !== after || !all.some((book) => book.key === key)) return false;
      writing.addEvent(key, after, event);
      writing.note(WRITE + write, true);
      return true;
    });
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

  /** Whether the browser has promised not to clear the books. No prompt appears for this. */
  async isPersisted() {
    return Boolean(await navigator.storage?.persisted?.().catch(() => false));
  }

  /**
   * Ask the browser not to clear the books when space runs short.
   * @returns {Promise<boolean | undefined>} its answer; undefined if it cannot be asked
   */
  async askToPersist() {
    if (!this.lasting || !navigator.storage?.persist) return undefined;
    return (await navigator.storage.persisted()) || navigator.storage.persist();
  }

  /** With the first event that is saved, ask the browser to keep the books for good. No write waits for its reply. */
  async askToKeep() {
    if (await this.database.fact("since")) return;
    await this.database.note("since", Date.now());
    await this.database.note("promised", await this.askToPersist().catch(() => false));
  }

  /**
   * The last answer to a book as it is now, for pages that open before the calculator is here.
   * @param {Book} book
   * @returns {Promise<{answer: Answer, at: number} | null>}
   */
  async lastAnswer({ key }) {
    const last = await this.database.fact("answer");
    if (!isKeptAnswer(last) || last.key !== key) return null;
    return last.events === (await this.database.count(key)) ? last : null;
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

/** @param {unknown} kept of a book, which may be damaged */
function nameOf(kept) {
  return typeof kept === "string" && kept ? kept : NO_NAME;
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
