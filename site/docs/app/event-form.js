// @ts-check
import { all, dataOf, fill, fresh, line, list, one, say, show, tapped } from "./dom.js";
import { DraftList } from "./draft-list.js";
import { drafts, dropDraft, keepDraft, noteOnScreen, onScreen } from "./drafts.js";
import { momentAndNote, noWordBoxes, plainBoxes } from "./event-boxes.js";
import { eventLike, linesOf, newEvent, shortly, wordsIn } from "./event-words.js";
import { FieldControls } from "./field-controls.js";
import { focusOn } from "./focus.js";
import { Form } from "./form.js";
import { freshKey } from "./fresh-key.js";
import { problemText, reasonOf } from "./problems.js";
import { figuresIn, othersIn } from "./share.js";
import { isoOf } from "./time-text.js";

/** @import {Ask, BookEvent, Refusal} from "./answer-types.js" */
/** @import {Book} from "./books.js" */
/** @import {Draft} from "./drafts.js" */
/** @typedef {{ok: true, told: string, tone: string}} Written */
/** @typedef {Draft & {to: Book, event: BookEvent}} Sent */
/** @typedef {{form: Form, draft: Draft, changed: boolean}} Open the form on the screen, and whether it was changed here */
/**
 * @typedef {object} Shelf what the form needs of the books
 * @property {(sent: Sent) => Promise<Written | Refusal>} write
 * @property {(write: string) => Promise<boolean>} isWritten
 * @property {() => Book | undefined} book the book that is shown
 */

/** The part of the page that adds an entry to the book: the last pour again, or a form of its own. */
export class EventForm {
  /** @type {Open | null} */
  #open = null;
  /** @type {{event: BookEvent, words: string, write: string} | null} the last pour, to be recorded again */
  #again = null;
  /** @type {Set<string>} the identities of the writes that are under way */
  #sending = new Set();
  #resumed = false;

  /**
   * @param {HTMLElement} root
   * @param {Ask} ask
   * @param {Shelf} shelf
   */
  constructor(root, ask, shelf) {
    this.root = root;
    this.ask = ask;
    this.shelf = shelf;
    this.place = one(root, "[data-form-place]");
    this.sure = one(root, "[data-sure]");
    this.saved = one(root, "[data-saved]");
    this.list = new DraftList(one(root, "[data-drafts]"), (write) => goOn(this.#reopen(write)));
    this.again = one(root, "[data-deed=again]");
    this.first = one(root, ".again[data-record]");
    /** @type {string[]} the words that two pours of one pattern share */
    this.alike = dataOf(one(document, "[data-again-words]"), "againWords", []);
    root.addEventListener("click", (event) => this.#tapped(event));
  }

  /**
   * Open what came with the address, or what was left open. What was sent and never confirmed is sent again first.
   * @param {string} hash
   * @returns {boolean} whether the address brought something
   */
  open(hash) {
    const kind = new URLSearchParams(hash.replace(/^#/, "")).get("kind");
    if (!this.#resumed) for (const draft of drafts()) if (isSent(draft)) this.#send(draft);
    this.#resumed = true;
    if (kind) this.#openLink(kind, hash);
    else if (!this.#open) this.#reopen(onScreen());
    this.#list();
    return Boolean(kind);
  }

  /**
   * Offer the last pour again: only the words that two pours share, and exactly these are shown and written.
   * @param {BookEvent | undefined} last
   */
  offer(last) {
    const event = last && eventLike(last, this.alike);
    this.#again = event ? { event, words: shortly(event), write: freshKey() } : null;
    show(this.again, Boolean(event));
    show(this.first, !event);
    if (!event) return show(this.sure, false);
    fill(this.again, { again: shortly(event) });
    list(this.sure, "again-words", linesOf(event, ...namesOf(event.kind)).map(line));
  }

  /** See what other pages, or another choice of book, changed: an entry that is written needs no form any more. */
  async look() {
    const open = this.#open;
    this.#list();
    if (!open) return;
    if (!this.#isOfBook(open.draft)) return this.#putAside();
    const written = await this.shelf.isWritten(open.draft.write);
    if (!written || this.#open !== open || this.#sending.has(open.draft.write)) return;
    dropDraft(open.draft.write);
    if (!open.changed) return this.#putAside();
    open.draft = { ...open.draft, write: freshKey() };
    this.#keep(open);
  }

  /** @param {Event} event */
  #tapped(event) {
    const button = tapped(event, "[data-deed], [data-record]");
    const { record, deed } = button?.dataset ?? {};
    if (record) goOn(this.#show(newDraft(record), () => {}));
    else if (deed === "again") this.#askIfSure(this.sure.hidden !== false);
    else if (deed === "leave") this.#leave();
    else if (deed === "change") this.#change();
    else if (deed === "confirm") this.#confirm();
  }

  /** @param {boolean} asking */
  #askIfSure(asking) {
    this.#putAside();
    show(this.sure, asking);
    if (asking) one(this.sure, "[data-deed=confirm]").focus({ preventScroll: true });
  }

  #confirm() {
    const book = this.shelf.book();
    if (!this.#again || !book) return;
    const { event, words, write } = this.#again;
    this.#again.write = freshKey();
    show(this.sure, false);
    this.#send({ ...newDraft(event.kind), write, words, event: { at: isoOf(new Date()), ...event }, to: book });
  }

  /** Close the form. What a person typed stays among what is not recorded yet. */
  #leave() {
    if (this.#open?.draft.linked) dropDraft(this.#open.draft.write);
    this.#putAside();
    const starts = [this.again, this.first, one(this.root, "[data-else] > summary")];
    starts.find((start) => start.checkVisibility())?.focus();
  }

  /** Take the form off the screen. What it holds is kept. */
  #putAside() {
    this.#open = null;
    noteOnScreen("");
    this.place.replaceChildren();
    show(this.sure, false);
    if (!this.#sending.size) say(this.saved, "");
    this.#list();
  }

  #change() {
    if (!this.#again) return;
    const { event } = this.#again;
    goOn(this.#show(newDraft(event.kind), (form) => form.take(Object.entries(wordsIn(event)))));
  }

  /**
   * Open a form with an event, to write it once more as a correction.
   * @param {BookEvent} event
   */
  correct(event) {
    const words = wordsIn(event);
    const righted = { of: event.id, words: Object.keys(words) };
    const draft = { ...newDraft(event.kind), righted, book: this.shelf.book()?.key };
    goOn(this.#show(draft, (form) => form.take(Object.entries(words))));
  }

  /**
   * @param {string} kind
   * @param {string} hash
   */
  #openLink(kind, hash) {
    const filled = (/** @type {Form} */ form) => {
      const words = Object.keys(dataOf(form.root, "labels", {}));
      form.takeLink(figuresIn(hash, words), othersIn(hash, ["kind", ...words]));
    };
    const open = this.#show({ ...newDraft(kind), linked: true }, filled);
    if (!open) return this.#report(`The link asks for an entry “${kind}”. The book has no such entry.`, "stop");
    const older = drafts().filter((draft) => draft.linked && draft.kind === kind && !isSent(draft));
    for (const { write } of older) dropDraft(write);
    this.#keep(open);
    goOn(open);
  }

  /** @param {string} write */
  #reopen(write) {
    const draft = drafts().find((each) => each.write === write);
    if (!draft || isSent(draft) || !this.#isOfBook(draft)) return undefined;
    return this.#show(draft, (form) => restore(form, draft));
  }

  /**
   * Open the form of an entry.
   * @param {Draft} draft
   * @param {(form: Form) => void} fillIn
   * @returns {Open | undefined} nothing if there is no such entry
   */
  #show(draft, fillIn) {
    const { kind, righted } = draft;
    if (!document.querySelector(`template[data-template="kind-${CSS.escape(kind)}"]`)) return undefined;
    this.#putAside();
    one(this.root, "[data-else]").removeAttribute("open");
    const root = /** @type {HTMLFormElement} */ (fresh(`kind-${kind}`));
    this.place.replaceChildren(root);
    const form = new Form(root);
    fillIn(form);
    new FieldControls(form, this.ask);
    show(one(root, "[data-putting-right]"), Boolean(righted));
    const open = { form, draft, changed: false };
    const changed = () => {
      open.changed = true;
      delete open.draft.linked;
      this.#keep(open);
    };
    form.addEventListener("changed", changed);
    root.addEventListener("input", changed);
    form.addEventListener("asked", () => this.#sendForm(open));
    this.#open = open;
    noteOnScreen(draft.write);
    this.#list();
    root.scrollIntoView({ block: righted ? "start" : "nearest" });
    return open;
  }

  /**
   * Keep what a form holds, if it holds anything.
   * @param {Open} open
   */
  #keep(open) {
    const { form } = open;
    const by = plainBoxes(form.root);
    open.draft = { ...open.draft, at: Date.now(), words: wordsOf(form, by), typed: form.typed(), by };
    if (form.touched || by.some(Boolean)) keepDraft(open.draft);
    else dropDraft(open.draft.write);
    if (this.#open === open) noteOnScreen(open.draft.write);
  }

  /** @param {Open} open */
  #sendForm(open) {
    const to = this.shelf.book();
    if (!to) return;
    this.#keep(open);
    const { form, draft } = open;
    const event = {
      at: isoOf(new Date()),
      ...newEvent(draft.kind, draft.righted),
      ...Object.fromEntries(form.values()),
      ...momentAndNote(form.root),
    };
    form.root.inert = true;
    this.#send({ ...draft, event, to });
  }

  /**
   * Send an entry to its book. It is kept here until the book has it.
   * @param {Sent} sent
   */
  async #send(sent) {
    const { write } = sent;
    keepDraft(sent);
    this.#sending.add(write);
    this.#report("Writing…", "plain");
    try {
      const answer = await this.shelf.write(sent);
      this.#sending.delete(write);
      if (answer.ok) this.#close(sent, answer);
      else this.#refuse(sent, `Not written. ${problemText(answer)}`, answer);
    } catch (error) {
      this.#sending.delete(write);
      this.#refuse(sent, `Not written: ${reasonOf(error)}`);
    }
  }

  /**
   * @param {Sent} sent
   * @param {Written} written
   */
  #close({ write }, { told, tone }) {
    const isHere = this.#open?.draft.write === write || this.root.contains(document.activeElement);
    dropDraft(write);
    if (this.#open?.draft.write === write) this.#putAside();
    this.#report(this.#sending.size ? `${told} Writing the next entry…` : told, tone);
    this.#list();
    if (!isHere || this.#open) return;
    focusOn(this.saved);
    if (this.saved.offsetHeight > innerHeight / 2) this.saved.scrollIntoView();
  }

  /**
   * An entry was not written: its form opens again, or the list shows it if another form is open.
   * @param {Sent} sent
   * @param {string} words
   * @param {Refusal} [refusal]
   */
  #refuse({ to, ...draft }, words, refusal) {
    keepDraft(draft);
    const open = this.#open ?? this.#reopen(draft.write);
    if (open?.draft.write === draft.write) {
      open.form.root.inert = false;
      open.form.mark(refusal?.problems ?? [], true);
    }
    this.#report(words, "stop");
    this.#list();
  }

  /**
   * Whether a draft fits the book that is shown: a correction fits only its own.
   * @param {Draft} draft
   */
  #isOfBook({ book }) {
    return book === undefined || book === this.shelf.book()?.key;
  }

  /** Show what is not recorded yet and has no form on the screen. */
  #list() {
    const others = drafts().filter(
      (draft) => draft.write !== this.#open?.draft.write && !isSent(draft) && this.#isOfBook(draft),
    );
    this.list.show(others);
  }

  /**
   * @param {string} words
   * @param {string} tone
   */
  #report(words, tone) {
    this.saved.dataset.tone = tone;
    say(this.saved, words);
  }
}

/**
 * Put the focus on the title of a form that a person opened.
 * @param {Open | undefined} open
 */
function goOn(open) {
  if (open) focusOn(one(open.form.root, "h3"));
}

/**
 * @param {string} kind
 * @returns {Draft}
 */
function newDraft(kind) {
  return { write: freshKey(), kind, at: Date.now(), words: "" };
}

/**
 * @param {Draft} draft
 * @returns {draft is Sent}
 */
function isSent(draft) {
  return Boolean(draft.to && draft.event);
}

/**
 * What a person put into a form, in words.
 * @param {Form} form
 * @param {string[]} by
 */
function wordsOf(form, by) {
  /** @type {Record<string, string>} */
  const labels = dataOf(form.root, "labels", {});
  const { texts } = form.typed();
  const own = form.shown().filter(([word]) => texts[word] !== form.bare.texts[word]);
  const parts = own.map(([word, text]) => `${labels[word] ?? word}: ${form.words(word) || text}`);
  return [...parts, ...by.filter(Boolean)].join(", ");
}

/**
 * @param {Form} form
 * @param {Draft} draft
 */
function restore(form, { typed, by, event }) {
  if (typed) form.restore(typed);
  else if (event) form.take(Object.entries(wordsIn(event)));
  noWordBoxes(form.root).forEach((box, at) => (box.value = by?.[at] ?? ""));
}

/**
 * The labels of an entry's form, and what its choices are called.
 * @param {string} kind
 * @returns {[Record<string, string>, Record<string, string>]}
 */
function namesOf(kind) {
  const root = fresh(`kind-${kind}`);
  /** @type {[string, string][]} */
  const options = all(root, "[data-field] option", HTMLOptionElement).map((option) => [
    `${option.closest("[data-field]")?.getAttribute("data-field")} ${option.value}`,
    option.textContent ?? "",
  ]);
  return [dataOf(root, "labels", {}), Object.fromEntries(options)];
}
