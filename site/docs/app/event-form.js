// @ts-check
import { shownText } from "./amount-text.js";
import { all, dataOf, fill, fresh, one, say, show, tapped } from "./dom.js";
import { eventLike, newEvent, wordsIn } from "./event-words.js";
import { FieldControls } from "./field-controls.js";
import { Form } from "./form.js";
import { forget, keep, recall } from "./local-storage.js";
import { problemText, reasonOf } from "./problems.js";
import { figuresIn } from "./share.js";
import { isoOf } from "./time-text.js";

/** @import {Ask, BookEvent, Refusal} from "./answer-types.js" */
/** @import {Corrected} from "./event-words.js" */
/** @import {Typed} from "./form.js" */
/** @typedef {{ok: true, told: string, tone: string}} Written */
/** @typedef {(event: BookEvent) => Promise<Written | Refusal>} Write */
/** @typedef {{kind: string, righted?: Corrected, typed: Typed, by: string[]}} Unfinished a form that was left open */

const UNFINISHED = "event";

/** The part of the page that adds an entry to the book: the last pour again, or a form of its own. */
export class EventForm {
  /** @type {Form | null} */
  #form = null;
  /** @type {BookEvent | null} the last pour */
  #last = null;
  #busy = false;

  /**
   * @param {HTMLElement} root
   * @param {Ask} ask
   * @param {Write} write
   */
  constructor(root, ask, write) {
    this.root = root;
    this.ask = ask;
    this.write = write;
    this.place = one(root, "[data-form-place]");
    this.sure = one(root, "[data-sure]");
    this.saved = one(root, "[data-saved]");
    this.again = one(root, "[data-deed=again]");
    this.first = one(root, ".again[data-record]");
    /** @type {string[]} the words that two pours of one pattern share */
    this.alike = dataOf(one(document, "[data-again-words]"), "againWords", []);
    root.addEventListener("click", (event) => this.#tapped(event));
  }

  /**
   * Open what came with the address, or what was left unfinished.
   * @param {string} hash
   * @returns {boolean} whether the address brought something
   */
  open(hash) {
    const kind = new URLSearchParams(hash.replace(/^#/, "")).get("kind");
    const unfinished = /** @type {Unfinished | null} */ (recall(UNFINISHED));
    if (kind) this.#open(kind, (form) => form.take(figuresIn(hash, wordsOf(form))));
    else if (unfinished) this.#open(unfinished.kind, (form) => restore(form, unfinished), unfinished.righted);
    return Boolean(kind);
  }

  /**
   * Offer the last pour again.
   * @param {BookEvent | undefined} event
   * @param {string} words how the library shows it
   */
  offer(event, words) {
    this.#last = event ? eventLike(event, this.alike) : null;
    const poured = event ? [shownText(event.metal_kg), event.metal].filter(Boolean).join(" ") : "";
    const shown = event?.pattern ? [event.pattern, poured].filter(Boolean).join(", ") : words;
    show(this.again, Boolean(event));
    show(this.first, !event);
    fill(this.again, { again: shown });
    say(one(this.sure, "[data-again-said]"), shown);
    if (!event) show(this.sure, false);
  }

  /** @param {Event} event */
  #tapped(event) {
    const button = tapped(event, "[data-deed], [data-record]");
    const { record, deed } = button?.dataset ?? {};
    if (record) this.#open(record, () => {});
    else if (deed === "again") this.#askIfSure(this.sure.hidden !== false);
    else if (deed === "leave") this.#leave();
    else if (deed === "change") this.#change();
    else if (deed === "confirm" && this.#last) this.#send(this.#last);
  }

  /** @param {boolean} asking */
  #askIfSure(asking) {
    this.#leave();
    show(this.sure, asking);
    if (asking) one(this.sure, "[data-deed=confirm]").focus({ preventScroll: true });
  }

  #leave() {
    forget(UNFINISHED);
    this.#form = null;
    this.place.replaceChildren();
    show(this.sure, false);
    say(this.saved, "");
  }

  #change() {
    const last = this.#last;
    if (last) this.#open(last.kind, (form) => form.take(Object.entries(wordsIn(last))));
  }

  /**
   * Open a form with an event, to write it once more as a correction.
   * @param {BookEvent} event
   */
  correct(event) {
    const words = wordsIn(event);
    const corrected = { of: event.id, words: Object.keys(words) };
    this.#open(event.kind, (form) => form.take(Object.entries(words)), corrected);
  }

  /**
   * @param {string} kind
   * @param {(form: Form) => void} fillIn
   * @param {Corrected} [corrected]
   */
  #open(kind, fillIn, corrected) {
    if (!document.querySelector(`template[data-template="kind-${CSS.escape(kind)}"]`)) return;
    this.#leave();
    one(this.root, "[data-else]").removeAttribute("open");
    const root = /** @type {HTMLFormElement} */ (fresh(`kind-${kind}`));
    this.place.replaceChildren(root);
    const form = new Form(root);
    this.#form = form;
    fillIn(form);
    new FieldControls(form, this.ask);
    show(one(root, "[data-putting-right]"), Boolean(corrected));
    const keepUnfinished = () =>
      keep(UNFINISHED, { kind, righted: corrected, typed: form.typed(), by: plainBoxes(root) });
    form.addEventListener("changed", keepUnfinished);
    root.addEventListener("input", keepUnfinished);
    form.addEventListener("asked", () => {
      this.#send({ ...newEvent(kind, corrected), ...Object.fromEntries(form.values()), ...momentAndNote(root) });
    });
    root.scrollIntoView({ block: corrected ? "start" : "nearest" });
  }

  /** @param {BookEvent} event */
  async #send(event) {
    if (this.#busy) return;
    this.#busy = true;
    const form = this.#form;
    this.#report("Writing…", "plain");
    try {
      const answer = await this.write({ at: isoOf(new Date()), ...event });
      if (answer.ok) {
        this.#leave();
        this.#report(answer.told, answer.tone);
      } else {
        form?.mark(answer.problems, true);
        this.#report(`Not written. ${problemText(answer)}`, "stop");
      }
    } catch (error) {
      this.#report(`Not written: ${reasonOf(error)}`, "stop");
    } finally {
      this.#busy = false;
    }
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

/** @param {Form} form */
function wordsOf(form) {
  return Object.keys(dataOf(form.root, "labels", {}));
}

/**
 * The boxes of a form that are not words of the library.
 * @param {HTMLElement} root
 */
function noWordBoxes(root) {
  return /** @type {(HTMLInputElement | HTMLTextAreaElement)[]} */ (all(root, "[data-at], [data-note]"));
}

/** @param {HTMLElement} root */
function plainBoxes(root) {
  return noWordBoxes(root).map((box) => box.value);
}

/**
 * @param {Form} form
 * @param {Unfinished} unfinished
 */
function restore(form, { typed, by }) {
  form.restore(typed);
  noWordBoxes(form.root).forEach((box, at) => (box.value = by[at] ?? ""));
}

/** @param {HTMLElement} root */
function momentAndNote(root) {
  const [at, note] = ["[data-at]", "[data-note]"].map((selector) => {
    const box = /** @type {HTMLInputElement | null} */ (root.querySelector(selector));
    return box?.value.trim();
  });
  return { ...(at ? { at: isoOf(new Date(at)) } : {}), ...(note ? { note } : {}) };
}
