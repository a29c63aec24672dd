// @ts-check
import { drawingRow, figureRow } from "./answer.js";
import { download, exportCsv, exportText } from "./book-file.js";
import { NO_NAME, exportReminder } from "./book-format.js";
import { BookImport } from "./book-import.js";
import { books } from "./books.js";
import { Charts } from "./charts.js";
import { all, button, fill, line, list, one, say, show, showFigures, showState, tapped } from "./dom.js";
import { EventForm } from "./event-form.js";
import { correctedEvent } from "./event-words.js";
import { focusOn } from "./focus.js";
import { lastTest } from "./heap.js";
import { startEngine } from "./page-engine.js";
import { problemText, reasonOf } from "./problems.js";
import { writtenText } from "./record-tap.js";
import { isoDay, isoOf, testedText } from "./time-text.js";
import { Timeline } from "./timeline.js";
import { cautionRow, openCaution } from "./to-do.js";

/** @import {Answer, BookEvent, Refusal} from "./answer-types.js" */
/** @import {Book, Books} from "./books.js" */
/** @import {Calculator} from "./engine.js" */
/** @import {Written} from "./event-form.js" */

const KEPT_WORDS = {
  promised: "This browser has promised not to clear the books when space runs short.",
  refused:
    "This browser has not promised to keep the books: it may delete them when space runs short, or when nobody opens the site for weeks. It cannot delete an exported file.",
  unknown: "The books are kept in this browser, on this device.",
  memory: "The books can't be kept now: what you write is gone when you close the page. Export it before you do that.",
};

/**
 * The promise is kept when the page listens.
 * @param {HTMLElement} root
 */
export async function startBookPage(root) {
  const engine = startEngine(root);
  new BookPage(root, engine, await books()).refresh();
}

/** The page of the heap book. The library says what is written, and what the heap is now. */
class BookPage {
  #turn = 0;
  #keptTurn = 0;
  #opened = false;
  /** The key of the book that was shown last. */
  #shown = "";
  /** @type {Book | undefined} */
  #book;

  /**
   * @param {HTMLElement} root
   * @param {Calculator} engine
   * @param {Books} shelf
   */
  constructor(root, engine, shelf) {
    this.root = root;
    this.books = shelf;
    this.ask = engine.ask;
    this.now = one(root, "[data-heap]");
    this.which = one(root, "[data-which]", HTMLSelectElement);
    this.charts = new Charts(one(root, "[data-open-book] [data-charts]"));
    this.timeline = new Timeline(one(root, "[data-timeline]"));
    this.import = new BookImport(root, shelf, engine.ask);
    this.eventForm = new EventForm(one(root, "[data-event-form]"), this.ask, {
      write: ({ to, event, write }) => this.#write(to, event, write),
      isWritten: (write) => shelf.isWritten(write),
      book: () => this.#book,
    });
    this.timeline.addEventListener("right", (event) => this.#correct(/** @type {CustomEvent} */ (event).detail));
    this.timeline.addEventListener("undo", (event) => this.#undo(/** @type {CustomEvent} */ (event).detail));
    this.which.addEventListener("change", () => shelf.use(this.which.value));
    root.addEventListener("click", (event) => this.#tapped(event));
    root.addEventListener("keydown", ({ key, target }) => {
      if (key !== "Enter" || !(target instanceof Element) || !target.matches("[data-name]")) return;
      target.closest(".named")?.querySelector("button")?.click();
    });
    shelf.addEventListener("changed", () => this.refresh());
    addEventListener("hashchange", () => this.#takeAddress());
  }

  /** Take what came with the address, and clear it there. */
  #takeAddress() {
    this.#opened = Boolean(this.#book);
    if (!this.#book) return;
    if (location.hash === "#record") one(this.root, "#record").scrollIntoView();
    if (this.eventForm.open(location.hash)) history.replaceState(null, "", location.pathname + location.search);
  }

  /** Show the book in use as it is now. A refresh that started later overtakes this one. */
  async refresh() {
    const turn = ++this.#turn;
    const [book, names] = await Promise.all([this.books.inUse(), this.books.all()]);
    const last = book ? await this.books.lastAnswer(book) : null;
    const events = book ? await this.books.events(book.key) : [];
    if (turn !== this.#turn) return;
    this.#book = book;
    this.#showWhetherAny(Boolean(book));
    await this.#showKept();
    if (!book || turn !== this.#turn) return;
    this.#showName(book, names);
    if (this.#shown !== book.key) this.#begin(events.length === 0);
    this.#shown = book.key;
    if (last) this.#showLast(last, events);
    if (!this.#opened) this.#takeAddress();
    else await this.eventForm.look();
    await this.#askHeap(book, turn, Boolean(last));
  }

  /**
   * @param {Book} book
   * @param {number} turn
   * @param {boolean} answered whether an older answer is shown already
   */
  async #askHeap(book, turn, answered) {
    const whole = await this.books.whole(book);
    try {
      const answer = await this.ask({ job: "heap", inputs: { book: whole, now: isoOf(new Date()) } });
      if (turn !== this.#turn) return;
      if (!answer.ok) return this.#notify(problemText(answer));
      this.#show(answer, whole.events, Date.now());
      await this.books.keepAnswer(book, whole.events.length, answer);
    } catch (error) {
      if (!answered) this.#notify(reasonOf(error));
    }
  }

  /** @param {boolean} any whether there is a book */
  #showWhetherAny(any) {
    const none = this.root.querySelector("[data-no-book]");
    const isBegun = any && none?.contains(document.activeElement);
    none?.removeAttribute("data-waiting");
    if (any) none?.remove();
    show(one(this.root, "[data-open-book]"), any);
    if (isBegun) focusOn(one(this.root, "#record > h2"));
  }

  /**
   * @param {Book} book
   * @param {Book[]} names
   */
  #showName(book, names) {
    const options = names.map(({ key, name }) => new Option(name, key, false, key === book.key));
    this.which.replaceChildren(...options);
    this.which.disabled = names.length < 2;
    const box = one(this.root, "#name-rename", HTMLInputElement);
    if (document.activeElement !== box) box.value = book.name;
  }

  /**
   * Show a book that was not shown before. One without entries offers all kinds of entries at once.
   * @param {boolean} bare whether it has no entries
   */
  #begin(bare) {
    this.#clear();
    one(this.root, "[data-else]").toggleAttribute("open", bare);
    if (bare) show(this.eventForm.first, false);
  }

  /** Show nothing of the book: nothing is known of it before the calculator is here. */
  #clear() {
    showState(this.now, { word: "no answer yet", tone: "plain" });
    fill(this.now, { sentence: "", age: "", text: "not known", range: "" });
    this.timeline.show([]);
    this.eventForm.offer(undefined);
    this.#reportUndo("", "plain");
    for (const part of all(this.root, "[data-rest]")) show(part, false);
  }

  /**
   * Show a kept answer. An older sandmix may have given it, without some of its parts.
   * @param {{answer: Answer, at: number}} last
   * @param {BookEvent[]} events
   */
  #showLast({ answer, at }, events) {
    try {
      this.#show(answer, events, at);
    } catch {
      this.#clear();
    }
  }

  /**
   * @param {Answer} answer
   * @param {BookEvent[]} events
   * @param {number} at when the answer was given
   */
  #show(answer, events, at) {
    const some = events.length > 0;
    showState(this.now, answer.state);
    fill(this.now, { sentence: answer.lead.sentence, age: testedText(lastTest(answer, at), Date.now()) });
    showFigures(this.now, (word) => (some ? answer.shown.find((row) => row.word === word) : undefined));
    const poured = answer.timeline.findLast(({ kind, undone }) => kind === this.root.dataset.again && !undone);
    this.eventForm.offer(poured && correctedEvent(events, poured.id));
    this.timeline.show(answer.timeline);
    for (const part of all(this.root, "[data-rest]")) show(part, some);
    list(this.root, "drawings", Object.values(answer.drawings).map(drawingRow));
    list(this.root, "cautions", answer.cautions.map(answer.state.tone === "stop" ? openCaution : cautionRow));
    list(this.root, "remarks", answer.remarks.map(line));
    list(this.root, "shown", answer.shown.map(figureRow));
    this.charts.show(answer.charts);
    show(one(this.now, ".heap-figures"), some);
    if (!some) show(this.eventForm.first, false);
  }

  /**
   * @param {Book} book
   * @param {BookEvent} event
   * @param {string} [write] the identity of this write
   * @returns {Promise<Written | Refusal>}
   */
  async #write(book, event, write) {
    const answer = await this.books.record(book, event, this.ask, write);
    if (!answer.ok) return answer;
    const { lasting } = this.books;
    if (lasting) this.#askToKeep().catch(() => {});
    return { ok: true, told: writtenText(answer, lasting), tone: lasting ? "go" : "care" };
  }

  /** @param {string} id */
  async #correct(id) {
    const event = this.#book && correctedEvent(await this.books.events(this.#book.key), id);
    if (event) this.eventForm.correct(event);
  }

  /** @param {string} id */
  async #undo(id) {
    if (!this.#book) return;
    this.#reportUndo("Writing…", "plain");
    try {
      const answer = await this.#write(this.#book, { kind: "undone", of: id, at: isoOf(new Date()) });
      if (answer.ok) this.#reportUndo(answer.told, answer.tone);
      else this.#reportUndo(`Not undone. ${problemText(answer)}`, "stop");
    } catch (error) {
      this.#reportUndo(`Not undone: ${reasonOf(error)}`, "stop");
    }
  }

  /**
   * @param {string} words
   * @param {string} tone
   */
  #reportUndo(words, tone) {
    const place = one(this.root, "[data-undone-said]");
    place.dataset.tone = tone;
    say(place, words);
    if (words) focusOn(place);
  }

  async #askToKeep() {
    await this.books.askToKeep();
    await this.#showKept();
  }

  /** Show how well the books are kept here, and whether it is time to export them. What was asked last is shown. */
  async #showKept() {
    const turn = ++this.#keptTurn;
    const { database, lasting } = this.books;
    const [promised, since, exported] = await Promise.all([
      database.fact("promised"),
      database.fact("since"),
      this.books.exported(),
    ]);
    const kept = promised ?? ((await this.books.isPersisted()) || undefined);
    if (turn !== this.#keptTurn) return;
    say(one(this.root, "[data-kept-words]"), KEPT_WORDS[lasting ? keptBy(kept) : "memory"]);
    const reminder = exportReminder({ ...exported, since: since ?? null }, Date.now());
    say(one(this.root, "[data-export-words]"), reminder.words);
    const place = one(this.root, "[data-reminder]");
    const words = `${reminder.entries} are in no exported file yet.`;
    if (reminder.due && place.firstChild?.textContent !== words) {
      place.replaceChildren(
        words,
        button("Export now", () => this.#export()),
      );
    }
    show(place, reminder.due);
    await this.import.showReplaced();
  }

  /** @param {Event} event */
  #tapped(event) {
    const place = tapped(event, "[data-deed]");
    if (!place) return;
    const name = place.closest(".named")?.querySelector("input")?.value.trim() || NO_NAME;
    /** @type {Record<string, () => unknown>} */
    const actions = {
      begin: () => this.books.begin(name),
      another: () => this.books.begin(name),
      rename: () => this.#book && this.books.rename(this.#book, name),
      export: () => this.#export(),
      csv: async () => download(`sandmix-events-${isoDay(new Date())}.csv`, "text/csv", await exportCsv(this.books)),
    };
    actions[place.dataset.deed ?? ""]?.();
  }

  async #export() {
    const now = new Date();
    download(`sandmix-books-${isoDay(now)}.json`, "application/json", await exportText(this.books, now));
    const { events } = await this.books.exported();
    await this.books.noteExport(now.getTime(), events);
  }

  /** @param {string} words */
  #notify(words) {
    const place = one(this.root, "[data-notice]");
    say(place, words);
    show(place, Boolean(words));
  }
}

/** @param {boolean | undefined} promised what the browser said when it was asked to keep the books */
function keptBy(promised) {
  if (promised === undefined) return "unknown";
  return promised ? "promised" : "refused";
}
