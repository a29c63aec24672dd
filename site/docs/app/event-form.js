// @ts-check
import { all, fill, fresh, one, say, show } from "./dom.js";
import { isoOf } from "./books.js";
import { Form } from "./form.js";
import { Handles } from "./field-controls.js";
import { figuresIn } from "./share.js";
import { forget, keep, recall } from "./local-storage.js";

/** @type {string[]} in what a cast of the same pattern is alike, as the build says */
const ALIKE = JSON.parse(one(document, "[data-again-words]").dataset.againWords || "[]");
/** What an event has beside the words of its kind. */
const OWN = ["id", "kind", "at", "note", "outcome", "of"];
const UNFINISHED = "event";

/**
 * @typedef {import("./database.js").Event} Entry
 * @typedef {(event: Entry) => Promise<any>} Write has an event written and says what came of it
 */

/** The part of the page where something is put in the book: again what was last poured, or a form of its own. */
export class Recorder {
  /** @type {Form | null} */
  #form = null;
  /** @type {Entry | null} what was last poured */
  #last = null;
  #busy = false;

  /**
   * @param {HTMLElement} root
   * @param {(request: object) => Promise<any>} ask
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
    root.addEventListener("click", (event) => this.#tapped(event));
  }

  /**
   * What stood unfinished, or what came with the address.
   * @param {string} hash
   * @returns {boolean} whether the address brought something
   */
  open(hash) {
    const [found] = figuresIn(hash, ["kind"]);
    const unfinished = recall(UNFINISHED);
    if (found) this.#open(found[1], (form) => form.take(figuresIn(hash, wordsOf(form))));
    else if (unfinished) this.#open(unfinished.kind, (form) => restore(form, unfinished), unfinished.righted);
    return Boolean(found);
  }

  /**
   * What "again" stands for.
   * @param {Entry | undefined} event
   * @param {string} words how the engine tells it
   */
  offer(event, words) {
    this.#last = event ? { kind: event.kind, ...alike(event) } : null;
    const said = event?.pattern ? `${event.pattern}, ${spoken(event.metal_kg)} ${event.metal ?? ""}`.trim() : words;
    show(this.again, Boolean(event));
    show(this.first, !event);
    fill(this.again, { again: said });
    say(one(this.sure, "[data-again-said]"), said);
    if (!event) show(this.sure, false);
  }

  /** @param {globalThis.Event} event */
  #tapped(event) {
    const button = event.target instanceof Element && event.target.closest("[data-deed], [data-record]");
    if (!(button instanceof HTMLElement)) return;
    if (button.dataset.record) this.#open(button.dataset.record, () => {});
    else if (button.dataset.deed === "again") this.#ask(this.sure.hidden);
    else if (button.dataset.deed === "leave") this.#leave();
    else if (button.dataset.deed === "change") this.#change();
    else if (button.dataset.deed === "confirm" && this.#last) this.#send(this.#last);
  }

  /** @param {boolean} asking */
  #ask(asking) {
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
    if (last) this.#open(last.kind, (form) => form.take(pairsOf(last)));
  }

  /** A form with what was written, to be written once more as a correction. @param {Entry} event */
  correct(event) {
    this.#open(event.kind, (form) => form.take(pairsOf(event)), { of: event.id, words: Object.keys(wordsIn(event)) });
  }

  /**
   * @param {string} kind
   * @param {(form: Form) => void} fillIn
   * @param {{of: string, words: string[]}} [righted] the event that is put right, and its words
   */
  #open(kind, fillIn, righted) {
    if (!document.querySelector(`template[data-template="kind-${CSS.escape(kind)}"]`)) return;
    this.#leave();
    one(this.root, "[data-else]").removeAttribute("open");
    const root = /** @type {HTMLFormElement} */ (fresh(`kind-${kind}`));
    this.place.replaceChildren(root);
    const form = new Form(root);
    this.#form = form;
    fillIn(form);
    new Handles(form, this.ask);
    show(one(root, "[data-putting-right]"), Boolean(righted));
    const kept = () => keep(UNFINISHED, { kind, righted, typed: form.typed(), by: byHand(root) });
    form.addEventListener("changed", kept);
    root.addEventListener("input", kept);
    form.addEventListener("asked", () =>
      this.#send({ ...begun(kind, righted), ...Object.fromEntries(form.given()), ...momentAndNote(root) }),
    );
    root.scrollIntoView({ block: righted ? "start" : "nearest" });
  }

  /** @param {Entry} event */
  async #send(event) {
    if (this.#busy) return;
    this.#busy = true;
    const form = this.#form;
    this.#tell("Writing…", "plain");
    try {
      const answer = await this.write({ at: isoOf(new Date()), ...event });
      if (!answer.ok) {
        form?.mark(answer.problems, true);
        this.#tell(
          `Not written. ${answer.problems.map((/** @type {any} */ problem) => problem.message).join(" ")}`,
          "stop",
        );
        return;
      }
      this.#leave();
      this.#tell(answer.told, answer.tone);
    } catch (error) {
      this.#tell(`Not written: ${error instanceof Error ? error.message : error}`, "stop");
    } finally {
      this.#busy = false;
    }
  }

  /** @param {string} words @param {string} tone */
  #tell(words, tone) {
    this.saved.dataset.tone = tone;
    say(this.saved, words);
  }
}

/** @param {Entry} event the words of its kind, and no more */
export function wordsIn(event) {
  return Object.fromEntries(Object.entries(event).filter(([name]) => !OWN.includes(name)));
}

/** @param {Entry} event */
function alike(event) {
  return Object.fromEntries(Object.entries(event).filter(([word]) => ALIKE.includes(word)));
}

/** A word's value as a form takes it. @param {unknown} value */
function spoken(value) {
  return value && typeof value === "object" && "value" in value && "unit" in value
    ? `${value.value} ${value.unit}`
    : String(value ?? "");
}

/** @param {Entry} event @returns {[string, string][]} */
function pairsOf(event) {
  return Object.entries(wordsIn(event)).map(([word, value]) => [word, spoken(value)]);
}

/**
 * What an event is before its words: one that puts another right first empties what stood in that.
 * @param {string} kind
 * @param {{of: string, words: string[]}} [righted]
 * @returns {Entry}
 */
function begun(kind, righted) {
  return righted
    ? { kind: "corrected", of: righted.of, ...Object.fromEntries(righted.words.map((word) => [word, ""])) }
    : { kind };
}

/** @param {Form} form */
function wordsOf(form) {
  return Object.keys(JSON.parse(form.root.dataset.labels || "{}"));
}

/** @param {HTMLElement} root @returns {string[]} what stands in the boxes that are not words */
function byHand(root) {
  return all(root, "[data-at], [data-note]").map((box) => /** @type {HTMLInputElement} */ (box).value);
}

/** @param {Form} form @param {{typed: import("./form.js").Typed, by: string[]}} unfinished */
function restore(form, unfinished) {
  form.restore(unfinished.typed);
  all(form.root, "[data-at], [data-note]").forEach(
    (box, at) => /** @type {HTMLInputElement} */ ((box).value = unfinished.by[at] ?? ""),
  );
}

/** @param {HTMLElement} root */
function momentAndNote(root) {
  const [at, note] = ["[data-at]", "[data-note]"].map((box) =>
    /** @type {HTMLInputElement | null} */ (root.querySelector(box))?.value.trim(),
  );
  return { ...(at ? { at: isoOf(new Date(at)) } : {}), ...(note ? { note } : {}) };
}
