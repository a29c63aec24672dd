// @ts-check
/**
 * Entries of the heap book that are written in one tap: an answer suggests them, and a person can change them first, or undo
 * them. A second tap writes nothing twice, and what was sent when the page was closed is written when the book's page opens.
 */

import { fill, fresh, one, show } from "./dom.js";
import { dropDraft, keepDraft } from "./drafts.js";
import { freshKey } from "./fresh-key.js";
import { problemText, reasonOf } from "./problems.js";
import { addressOf } from "./share.js";
import { isoOf } from "./time-text.js";

/** @import {Ask, BookEvent, Recorded} from "./answer-types.js" */
/** @import {Books} from "./books.js" */
/** @typedef {{kind: string, label: string, words: Record<string, any>}} Entry an entry that an answer suggests */
/** @typedef {{entry: Entry, write: string, event: BookEvent, row: HTMLElement}} Written detail of "written" and of "undone" */

/** What was written, in words. */
export function writtenText(
  /** @type {Pick<Recorded, "headline" | "remarks">} */ { headline, remarks },
  /** @type {boolean} */ lasting,
) {
  const words = remarks.length ? `${headline.replace(/\.$/, "")} – ${remarks.join("; ")}.` : headline;
  return lasting ? `Saved. ${words}` : `Held until this page is closed. ${words}`;
}

/**
 * What was written, in words: what it is, and what it changes in the book.
 * @param {Pick<Recorded, "headline" | "remarks">} recorded
 * @param {boolean} lasting
 */
export function writtenParts({ headline, remarks }, lasting) {
  const changes = `${remarks.join("; ")}.`;
  return [
    writtenText({ headline, remarks: [] }, lasting),
    remarks.length ? changes[0].toUpperCase() + changes.slice(1) : "",
  ];
}

/** Sets a learned figure back: nobody needs that often. */
const SET_BACK = "forgotten";

/** It sends "begun" with the row when an entry is about to be written, "written" when it was written, and "undone" when it was undone. */
export class RecordTap extends EventTarget {
  /**
   * @param {Books} shelf
   * @param {Ask} ask
   * @param {{heapPage: string, newBook?: string}} place the address of the heap book's page from here, and the name of a book that
   *   is begun if there is none
   */
  constructor(shelf, ask, { heapPage, newBook = "The heap" }) {
    super();
    this.shelf = shelf;
    this.ask = ask;
    this.heapPage = heapPage;
    this.newBook = newBook;
  }

  /**
   * A row with the button that writes an entry.
   * @param {Entry} entry
   * @param {string} [identity] of the write: an entry with one that is written already is not written again
   * @returns {HTMLElement}
   */
  row(entry, identity = freshKey()) {
    const row = fresh("record");
    const state = { entry, write: identity, row };
    row.dataset.write = entry.kind;
    one(row, "[data-record-now]").classList.toggle("quiet", entry.kind === SET_BACK);
    fill(row, { label: entry.label });
    one(row, "[data-change]", HTMLAnchorElement).href = addressOf(this.heapPage, [
      ["kind", entry.kind],
      ...Object.entries(entry.words),
    ]);
    one(row, "[data-record-now]").addEventListener("click", () => this.#write(state));
    this.shelf.isWritten(identity).then((written) => {
      if (written) showKnown(state);
    });
    return row;
  }

  /** @param {{entry: Entry, write: string, row: HTMLElement}} state */
  async #write(state) {
    const { entry, write, row } = state;
    const button = one(row, "[data-record-now]", HTMLButtonElement);
    button.disabled = true;
    report(row, "Writing…", "plain");
    this.dispatchEvent(new CustomEvent("begun", { detail: row }));
    try {
      const book = (await this.shelf.inUse()) ?? (await this.shelf.begin(this.newBook));
      const event = { at: isoOf(new Date()), kind: entry.kind, ...entry.words };
      keepDraft({ write, kind: entry.kind, at: Date.now(), words: entry.label, to: book, event });
      const answer = await this.shelf.record(book, event, this.ask, write);
      if (!answer.ok) return refuse(row, `Not written. ${problemText(answer)}`);
      if (!answer.headline) return showKnown(state);
      this.shelf.askToKeep().catch(() => {});
      const [words, changes] = writtenParts(answer, this.shelf.lasting);
      report(row, words, this.shelf.lasting ? "go" : "care", changes);
      showOffer(row, false);
      const undo = one(row, "[data-undo-record]");
      show(undo, true);
      if (isHere(row)) undo.focus();
      undo.onclick = () => this.#undo(state, answer.event);
      this.#tell("written", { ...state, event: answer.event });
    } catch (error) {
      refuse(row, `Not written: ${reasonOf(error)}`);
    } finally {
      dropDraft(write);
    }
  }

  /**
   * @param {{entry: Entry, write: string, row: HTMLElement}} state
   * @param {BookEvent} event
   */
  async #undo(state, event) {
    const { row } = state;
    const undo = one(row, "[data-undo-record]", HTMLButtonElement);
    undo.disabled = true;
    try {
      const book = await this.shelf.inUse();
      if (!book) return;
      const answer = await this.shelf.record(book, { kind: "undone", of: event.id, at: isoOf(new Date()) }, this.ask);
      if (!answer.ok) return report(row, `Not undone. ${problemText(answer)}`, "stop");
      report(row, answer.headline, "plain");
      show(undo, false);
      state.write = freshKey();
      showOffer(row, true);
      if (isHere(row)) one(row, "[data-record-now]").focus();
      this.#tell("undone", { ...state, event });
    } catch (error) {
      report(row, `Not undone: ${reasonOf(error)}`, "stop");
    } finally {
      undo.disabled = false;
    }
  }

  /**
   * @param {string} name
   * @param {Written} detail
   */
  #tell(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { detail }));
  }
}

/**
 * The book has this entry: it can be recorded once more, as another one.
 * @param {{row: HTMLElement, write: string}} state
 */
function showKnown(state) {
  state.write = freshKey();
  showOffer(state.row, true);
  const button = one(state.row, "[data-record-now]");
  button.classList.add("quiet");
  fill(state.row, { label: "Record it once more" });
  report(state.row, "The book has this entry already.", "plain");
}

/**
 * Whether the focus is in a row, or was there: a button that is switched off loses it.
 * @param {HTMLElement} row
 */
function isHere(row) {
  return row.contains(document.activeElement) || document.activeElement === document.body;
}

/**
 * @param {HTMLElement} row
 * @param {string} words
 */
function refuse(row, words) {
  one(row, "[data-record-now]", HTMLButtonElement).disabled = false;
  report(row, words, "stop");
}

/**
 * @param {HTMLElement} row
 * @param {boolean} offered
 */
function showOffer(row, offered) {
  const button = one(row, "[data-record-now]", HTMLButtonElement);
  button.disabled = false;
  show(button, offered);
  show(one(row, "[data-change]"), offered);
}

/**
 * @param {HTMLElement} row
 * @param {string} words
 * @param {string} tone
 * @param {string} [changes] in the book, folded
 */
function report(row, words, tone, changes = "") {
  one(row, "[data-slot=recorded]").dataset.tone = tone;
  fill(row, { recorded: words, changes });
  show(one(row, "[data-changes]"), Boolean(changes));
}
