// @ts-check
import { caution, row, strip } from "./answer.js";
import { fileOf, csvOf, bringIn, handOut, readFile, reminder } from "./book-file.js";
import { NO_NAME, books, isoOf } from "./books.js";
import { Charts } from "./charts.js";
import { all, fill, fresh, line, list, one, say, show } from "./dom.js";
import { age, lastTest } from "./heap.js";
import { Recorder, wordsIn } from "./event-form.js";
import { Timeline } from "./timeline.js";

/**
 * @typedef {{ask: (request: object) => Promise<any>, state: string}} Asked
 * @typedef {import("./books.js").Book} Book
 * @typedef {import("./database.js").Event} Entry
 */

/** @param {HTMLElement} root @param {Asked} engine */
export async function openBook(root, engine) {
  await new BookPage(root, engine, await books()).refresh();
}

/** The page of the heap book. What is written, and what the heap is now, the engine says. */
class BookPage {
  #turn = 0;
  #opened = false;
  /** The key of the book that was shown last. */
  #shown = "";
  /** @type {Book | undefined} */
  #book;

  /** @param {HTMLElement} root @param {Asked} engine @param {import("./books.js").Books} books */
  constructor(root, engine, books) {
    this.root = root;
    this.books = books;
    this.ask = (/** @type {object} */ request) => engine.ask(request);
    this.now = one(root, "[data-heap]");
    this.which = /** @type {HTMLSelectElement} */ (one(root, "[data-which]"));
    this.charts = new Charts(one(root, "[data-open-book] [data-charts]"));
    this.timeline = new Timeline(one(root, "[data-timeline]"));
    this.recorder = new Recorder(one(root, "[data-recording]"), this.ask, (event) => this.#write(event));
    this.timeline.addEventListener("right", (event) => this.#putRight(/** @type {CustomEvent} */ (event).detail));
    this.timeline.addEventListener("undo", (event) => this.#undo(/** @type {CustomEvent} */ (event).detail));
    this.which.addEventListener("change", () => books.use(this.which.value));
    const file = /** @type {HTMLInputElement} */ (one(root, "[data-import]"));
    file.addEventListener("change", () => this.#import(file));
    this.#import(file);
    root.addEventListener("click", (event) => this.#tapped(event));
    books.addEventListener("changed", () => this.refresh());
    addEventListener("hashchange", () => this.#open());
  }

  /** Take what came with the address; it is no longer there afterwards. */
  #open() {
    this.#opened = Boolean(this.#book);
    if (this.#book && location.hash === "#record") one(this.root, "#record").scrollIntoView();
    if (this.#book && this.recorder.open(location.hash))
      history.replaceState(null, "", location.pathname + location.search);
  }

  /** Show the book in use as it stands now. */
  async refresh() {
    const turn = ++this.#turn;
    const [book, all] = await Promise.all([this.books.inUse(), this.books.all()]);
    const last = book && (await this.books.lastAnswer(book));
    const told = book && (await this.books.told(book));
    if (turn !== this.#turn) return;
    this.#book = book;
    const none = this.root.querySelector("[data-no-book]");
    none?.removeAttribute("data-waiting");
    if (book) none?.remove();
    show(one(this.root, "[data-open-book]"), Boolean(book));
    await this.#howKept();
    if (!book || !told || turn !== this.#turn) return;
    this.#name(book, all);
    if (this.#shown !== book.key) this.#blank();
    this.#shown = book.key;
    if (last) this.#showKept(last, told.events);
    if (!this.#opened) this.#open();
    try {
      const answer = await this.ask({ job: "heap", inputs: { book: told, now: isoOf(new Date()) } });
      if (turn !== this.#turn) return;
      if (!answer.ok)
        return this.#notice(answer.problems.map((/** @type {any} */ problem) => problem.message).join(" "));
      this.#show(answer, told.events, Date.now());
      await this.books.keepAnswer(book, told.events.length, answer);
    } catch (error) {
      if (!last) this.#notice(error instanceof Error ? error.message : String(error));
    }
  }

  /** @param {Book} book @param {Book[]} all */
  #name(book, all) {
    const options = all.map(({ key, name }) => new Option(name, key, false, key === book.key));
    this.which.replaceChildren(...options);
    this.which.disabled = all.length < 2;
    const box = /** @type {HTMLInputElement} */ (one(this.root, "#name-rename"));
    if (document.activeElement !== box) box.value = book.name;
  }

  /** A book of which nothing is known before the engine is here. */
  #blank() {
    this.#tone({ word: "no answer yet", tone: "plain" });
    fill(this.now, { sentence: "", age: "", text: "not known", range: "" });
    this.timeline.show([]);
    this.recorder.offer(undefined, "");
    one(this.root, "[data-else]").removeAttribute("open");
    for (const part of all(this.root, "[data-rest]")) show(part, false);
  }

  /**
   * An answer that was kept may be of an older sandmix, which told less.
   * @param {{answer: any, at: number}} last
   * @param {Entry[]} events
   */
  #showKept({ answer, at }, events) {
    try {
      this.#show(answer, events, at);
    } catch {
      this.#blank();
    }
  }

  /** @param {any} answer @param {Entry[]} events @param {number} at when the answer was given */
  #show(answer, events, at) {
    this.#tone(answer.state);
    fill(this.now, { sentence: answer.lead.sentence || "", age: age(lastTest(answer, at), Date.now()) });
    this.#figures(events.length ? answer.shown : []);
    /** @type {import("./timeline.js").Entry[]} */
    const entries = answer.timeline;
    const poured = entries.findLast(({ kind, undone }) => kind === this.root.dataset.again && !undone);
    this.recorder.offer(poured && standing(events, poured.id), poured?.text ?? "");
    this.timeline.show(entries);
    for (const part of all(this.root, "[data-rest]")) show(part, events.length > 0);
    list(this.root, "drawings", Object.values(answer.drawings).map(strip));
    list(this.root, "cautions", answer.cautions.map(caution));
    list(this.root, "remarks", answer.remarks.map(line));
    list(this.root, "shown", answer.shown.map(row));
    this.charts.show(answer.charts);
    show(one(this.now, ".heap-figures"), events.length > 0);
    if (events.length) return;
    show(this.recorder.first, false);
    one(this.root, "[data-else]").setAttribute("open", "");
  }

  /** @param {any[]} shown */
  #figures(shown) {
    for (const place of all(this.now, "[data-figure]")) {
      const found = shown.find(({ word }) => word === place.dataset.figure);
      fill(place, { text: found ? found.text : "not known", range: found?.range || "" });
    }
  }

  /** @param {{word: string, tone: string}} state */
  #tone(state) {
    this.now.dataset.tone = state.tone;
    fill(this.now, { state: state.word });
    for (const sign of all(this.now, "[data-sign]")) show(sign, sign.dataset.sign === state.tone);
  }

  /** @param {Entry} event */
  async #write(event) {
    const answer = await this.books.record(/** @type {Book} */ (this.#book), event, this.ask);
    if (!answer.ok) return answer;
    const notes = [answer.headline, (answer.remarks ?? []).join("; "), ...(answer.cautions ?? [])]
      .filter(Boolean)
      .join(" ");
    if (!this.books.lasting) return { ok: true, told: `Held until this page is closed. ${notes}`, tone: "care" };
    await this.#first();
    return { ok: true, told: `Saved. ${notes}`, tone: "go" };
  }

  /** @param {string} id */
  async #putRight(id) {
    const event = this.#book && standing(await this.books.events(this.#book.key), id);
    if (event) this.recorder.correct(event);
  }

  /** @param {string} id */
  async #undo(id) {
    try {
      const answer = await this.#write({ kind: "undone", of: id, at: isoOf(new Date()) });
      this.#notice(
        answer.ok ? answer.told : answer.problems.map((/** @type {any} */ problem) => problem.message).join(" "),
      );
    } catch (error) {
      this.#notice(`Not undone: ${error instanceof Error ? error.message : error}`);
    }
  }

  /** With the first event that is saved, the browser is asked to keep the books for good. */
  async #first() {
    if (await this.books.shelf.fact("since")) return;
    await this.books.shelf.note("since", Date.now());
    const promised = await this.books.askToPersist().catch(() => false);
    await this.books.shelf.note("promised", promised);
    await this.#howKept();
  }

  /** How well the books are kept here, and whether it is time to export them. */
  async #howKept() {
    const { books } = this;
    const [promised, since, exported] = [
      await books.shelf.fact("promised"),
      await books.shelf.fact("since"),
      await books.exported(),
    ];
    const lasts = promised
      ? "This browser has promised not to clear the books when space runs short."
      : promised === false
        ? "This browser has not promised to keep the books: it may clear them when space runs short, or when the site goes unused for weeks. An exported file outlives that."
        : "The books are kept in this browser, on this device.";
    say(
      one(this.root, "[data-kept-words]"),
      books.lasting
        ? lasts
        : "This browser refuses to keep books: what you write is gone when the page is closed. Export it before.",
    );
    const told = reminder({ ...exported, since: since ?? null }, Date.now());
    say(one(this.root, "[data-export-words]"), told.words);
    if (told.due)
      this.#notice(
        `${told.entries} are in no exported file yet.`,
        button("Export now", () => this.#export()),
      );
  }

  /** @param {globalThis.Event} event */
  #tapped(event) {
    const tapped = event.target instanceof Element && event.target.closest("[data-deed]");
    if (!(tapped instanceof HTMLElement)) return;
    const name = tapped.closest(".named")?.querySelector("input")?.value.trim() || NO_NAME;
    const deeds = /** @type {Record<string, () => unknown>} */ ({
      begin: () => this.books.begin(name),
      another: () => this.books.begin(name),
      rename: () => this.#book && this.books.rename(this.#book, name),
      export: () => this.#export(),
      csv: async () => handOut(`sandmix-events-${today()}.csv`, "text/csv", await csvOf(this.books)),
    });
    deeds[tapped.dataset.deed || ""]?.();
  }

  async #export() {
    const now = new Date();
    handOut(`sandmix-books-${today()}.json`, "application/json", await fileOf(this.books, now));
    const { events } = await this.books.exported();
    this.#notice("");
    await this.books.noteExport(now.getTime(), events);
  }

  /** @param {HTMLInputElement} input */
  async #import(input) {
    const [file] = input.files ?? [];
    input.value = "";
    if (!file) return;
    this.#said("Reading…");
    try {
      const { found, problems } = await readFile(file, this.books, this.ask);
      if (problems.length) this.#said(`Nothing was taken over. ${problems.join(" ")}`);
      else if (!found.length) this.#said("Everything in the file stands here already.");
      else if (found.some(({ same }) => same)) this.#askWhich(found);
      else await this.#bringIn(found, []);
    } catch (error) {
      this.#said(`Nothing was taken over: ${error instanceof Error ? error.message : error}`);
    }
  }

  /** @param {import("./book-file.js").Found[]} found */
  #askWhich(found) {
    const place = one(this.root, "[data-asking]");
    const rows = found.map(({ told, same }, at) => {
      if (!same) return null;
      const item = fresh("clash");
      fill(item, { words: `“${told.name}” is here already, with other entries` });
      for (const chip of all(item, "input")) chip.setAttribute("name", `clash-${at}`);
      return item;
    });
    const over = () => rows.map((item) => item?.querySelector("input:checked")?.getAttribute("value") === "replace");
    const take = button("Take them over", () => this.#bringIn(found, over()));
    const leave = button("Leave it", () => this.#said("Nothing was taken over."));
    place.replaceChildren(...rows.filter((item) => item !== null), take, leave);
    this.#said("");
    show(place, true);
  }

  /** @param {import("./book-file.js").Found[]} found @param {boolean[]} over */
  async #bringIn(found, over) {
    await bringIn(this.books, found, over);
    this.#said(`Taken over: ${found.map(({ told }) => told.name).join(", ")}.`);
  }

  /** @param {string} words */
  #said(words) {
    show(one(this.root, "[data-asking]"), false);
    say(one(this.root, "[data-file-said]"), words);
  }

  /** @param {string} words @param {HTMLElement[]} things */
  #notice(words, ...things) {
    const place = one(this.root, "[data-notice]");
    place.replaceChildren(words, ...things);
    show(place, Boolean(words));
  }
}

/**
 * An event with the words that it has by now, after what was put right in it.
 * @param {Entry[]} events
 * @param {string} id
 * @returns {Entry | undefined}
 */
function standing(events, id) {
  const first = events.find((event) => event.id === id);
  const later = events.filter((event) => event.kind === "corrected" && event.of === id);
  return first && Object.assign({}, first, ...later.map(wordsIn));
}

/** @param {string} label @param {() => unknown} deed */
function button(label, deed) {
  const made = document.createElement("button");
  made.type = "button";
  made.className = "deed quiet";
  made.textContent = label;
  made.addEventListener("click", deed);
  return made;
}

/** The day, as names of files have it. */
function today() {
  return isoOf(new Date()).slice(0, 10);
}
