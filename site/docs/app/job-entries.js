// @ts-check
/** The entries of the heap book that a job's answer can be recorded as, each in one tap. */

import { shownText } from "./amount-text.js";
import { NOTHING } from "./answer.js";
import { askingFor } from "./casting-record.js";
import { CAST } from "./casting-next.js";
import { castingOf } from "./castings.js";
import { dataOf, one, show } from "./dom.js";
import { figureWithRange } from "./figure-text.js";
import { heap } from "./heap.js";
import { RecordTap } from "./record-tap.js";

/** @import {Answer} from "./answer-types.js" */
/** @import {Book, Books} from "./books.js" */
/** @import {Calculator} from "./engine.js" */
/** @import {Job} from "./job.js" */
/** @import {Entry, Written} from "./record-tap.js" */
/**
 * @typedef {object} DrawnEntry an entry that the build drew for a job
 * @property {string} kind
 * @property {string} label
 * @property {Record<string, string>} words each word of the entry, and the word of the answer or of the form that fills it
 * @property {Record<string, string> | null} units of the figures that go along with their ±
 * @property {string[]} not_with the form's words with which the book would count itself twice
 */

/** A part of a page whose entries begin the book where there is none. */
export const BEGINS = "[data-begins]";
/** A test of the sand. */
const TEST = "measured";

/** The part of a job's page that writes into the heap book. */
export class JobEntries {
  /** @type {Map<string, HTMLElement>} the rows by the identity of their write, and their words */
  #rows = new Map();
  /** @type {HTMLElement | undefined} the row that was tapped last: it stays and says what became of it, even if a new answer comes meanwhile */
  #tapped;

  /**
   * @param {Job} job
   * @param {Books} shelf
   * @param {Pick<Calculator, "ask">} engine
   * @param {HTMLElement} place
   * @param {DrawnEntry[]} drawn
   */
  constructor(job, shelf, engine, place, drawn) {
    this.job = job;
    this.shelf = shelf;
    this.drawn = drawn;
    this.place = place;
    this.rows = one(place, "[data-record-rows]");
    /** @type {string[]} */
    this.tested = dataOf(place, "testedHere", []);
    const asking = job.casting ? askingFor(job.casting.key, engine.ask) : null;
    this.tap = new RecordTap(shelf, asking?.ask ?? engine.ask, {
      heapPage: "../heap/",
      newBook: heap().name || "The heap",
    });
    asking?.keepAfter(this.tap);
    this.tap.addEventListener("begun", (event) => (this.#tapped = /** @type {CustomEvent} */ (event).detail));
    this.tap.addEventListener("written", (event) => this.#noteWritten(/** @type {CustomEvent} */ (event).detail));
    this.tap.addEventListener("undone", () => job.takeBack());
    one(job.root, "[data-next-box]").before(place);
    job.answer.addEventListener("shown", () => this.#show());
    this.#show();
  }

  /** The entries of the answer; of one whose ranges are still to come there are none. */
  async #show() {
    const book = await this.shelf.inUse();
    const [begun, isPoured] = [Boolean(book), await this.#isPoured(book)];
    const { shown } = this.job.answer;
    const answer = shown?.doubt && shown;
    const given = new Map(this.job.form.values());
    const isOffered = begun || this.place.matches(BEGINS);
    const entries = answer && isOffered ? [...this.#ownEntries(answer, given), ...answer.records] : [];
    const ofBook = this.job.form.carried.wordsOfBook();
    const isOwn = (/** @type {Entry} */ { kind, words }) => kind === TEST && ofBook.some((word) => word in words);
    const told = entries.filter((entry) => !("withheld" in entry) && !isOwn(entry));
    const rows = told.filter(({ kind }) => kind !== CAST || !isPoured).map((entry, at) => this.#rowOf(entry, at));
    const before = this.#tapped && !rows.includes(this.#tapped) ? [this.#tapped] : [];
    this.rows.replaceChildren(...before, ...rows);
    show(one(this.place, "[data-not-written]"), told.length < entries.length);
  }

  /**
   * Whether the book has the cast of this casting already, from its sheet or from another of its pages.
   * @param {Book | undefined} book
   */
  async #isPoured(book) {
    const noted = castingOf(this.job.casting?.key ?? "")?.casting.recorded ?? [];
    const poured = noted.flatMap(({ kind, id }) => (kind === CAST ? [id] : []));
    if (!book || !poured.length) return false;
    const events = await this.shelf.events(book.key);
    const undone = events.flatMap(({ kind, of }) => (kind === "undone" ? [of] : []));
    return poured.some((id) => !undone.includes(id) && events.some((event) => event.id === id));
  }

  /**
   * The entries that the build drew, as far as the answer fills them.
   * @param {Answer} answer
   * @param {Map<string, unknown>} given
   * @returns {(Entry & {withheld?: true})[]}
   */
  #ownEntries(answer, given) {
    return this.drawn.flatMap((drawn) => {
      const words = Object.fromEntries(entryWords(drawn, answer, given));
      if (!Object.keys(words).length) return [];
      const withheld = drawn.not_with.some((word) => given.has(word));
      return [
        { kind: drawn.kind, label: drawn.label, words, ...(withheld ? { withheld: /** @type {const} */ (true) } : {}) },
      ];
    });
  }

  /**
   * The row of an entry. What was typed once is one entry, even if the heap changes meanwhile.
   * @param {Entry} entry
   * @param {number} at its place among the entries of the answer
   */
  #rowOf(entry, at) {
    const { name, since, casting } = this.job;
    const words = JSON.stringify(entry.words);
    const identity = [name, casting?.key ?? "", entry.kind, at, since || words].join(" ");
    const key = `${identity} ${words}`;
    const row = this.#rows.get(key) ?? this.tap.row(entry, identity);
    this.#rows.set(key, row);
    return row;
  }

  /** @param {Written} written */
  #noteWritten({ entry }) {
    this.job.handOver(entry.kind === TEST ? this.tested : []);
  }
}

/**
 * The words of an entry out of an answer: a test with its ±, anything else as it is shown, or as it was given.
 * @param {DrawnEntry} drawn
 * @param {Answer} answer
 * @param {Map<string, unknown>} given
 * @returns {[string, unknown][]}
 */
export function entryWords({ words, units }, answer, given) {
  return Object.entries(words).flatMap(([word, from]) => {
    const row = answer.shown.find((shown) => shown.word === from);
    const value = units ? figureWithRange(answer, from, units[from]) : (row?.text ?? given.get(from));
    const filled = value !== undefined && value !== NOTHING && shownText(value) !== "";
    return filled ? [/** @type {[string, unknown]} */ ([word, value])] : [];
  });
}
