// @ts-check
import { Answer } from "./answer.js";
import { all, one, say, show } from "./dom.js";
import { Form } from "./form.js";
import { Handles } from "./field-controls.js";
import { addressOf, asText, copy, figuresIn } from "./share.js";
import { openParts } from "./rows.js";
import { forget, keep, recall } from "./local-storage.js";
import { remember } from "./heap.js";
import { openTests } from "./test-cards.js";
import { Uploads } from "./uploads.js";

const BUSY_AFTER_MS = 250;

/**
 * @typedef {{ask: (request: object, beside?: object) => Promise<any>, state: string}} Asked
 * @typedef {import("./form.js").Problem} Problem
 */

/** One job's page: what is typed is kept, asked and shown. */
export class Job {
  /** @param {HTMLElement} root @param {Asked} engine */
  constructor(root, engine) {
    this.root = root;
    this.engine = engine;
    this.name = root.dataset.job || "";
    this.labels = JSON.parse(root.dataset.labels || "{}");
    /**
     * @type {string[]} words that are a fact of the shed and no wish of this job, so that other jobs may know them
     */
    this.shared = JSON.parse(root.dataset.shared || "[]");
    this.answer = new Answer(root);
    this.form = new Form(/** @type {HTMLFormElement} */ (one(root, "[data-form]")));
    openParts(this.form.root);
    openTests(this.form.root, this.name);
    this.uploads = new Uploads(this.form);
    this.uploads.addEventListener("slow", () =>
      this.answer.wait(
        "Measuring",
        "Large files take their time. How far it is, and a way to stop it, stand beside the file.",
      ),
    );
    this.#fillIn();
    this.handles = new Handles(this.form, (request) => engine.ask(request));
    this.form.addEventListener("changed", () => this.#changed());
    this.form.addEventListener("folded", () => this.#keep());
    this.form.addEventListener("asked", () => this.ask(true));
    for (const button of all(root, "[data-deed]"))
      button.addEventListener("click", () => this.#deed(button.dataset.deed || ""));
    one(root, "[data-open-answer]").addEventListener("click", (event) => this.#open(event));
    addEventListener("hashchange", () => this.#fromAddress());
    if (this.form.touched) this.ask(false);
  }

  #asking = false;
  #again = false;

  /**
   * Ask for an answer; while one is under way the latest wish waits, and only the latest.
   * @param {boolean} aloud whether an answer was asked for outright: then what is wrong takes the focus
   */
  async ask(aloud) {
    if (!this.form.touched && !aloud) return;
    if (aloud) this.uploads.waits = false;
    if (this.#asking) {
      this.#again = true;
      if (!aloud) return;
    }
    const request = { job: this.name, inputs: this.form.inputs() };
    if (this.uploads.waits) return this.#stopped();
    const lost = this.uploads.lost();
    if (lost) return this.#without(lost, request, aloud);
    this.#asking = true;
    const busy = setTimeout(() => this.answer.busy(this.engine.state === "ready"), BUSY_AFTER_MS);
    if (this.engine.state !== "ready") this.#meanwhile(request);
    try {
      const answer = await this.uploads.asked(this.engine, request);
      if (answer.fault) throw new Error(answer.fault);
      if (answer.ok) keep(`last.${this.name}`, { request, answer });
      this.#show(answer, aloud);
    } catch (error) {
      if (!(error instanceof DOMException && error.name === "AbortError")) this.#fault(request, error);
      else if (this.uploads.waits) this.#stopped();
    } finally {
      clearTimeout(busy);
      this.answer.busy(false);
      this.#asking = false;
    }
    if (this.#again) {
      this.#again = false;
      await this.ask(false);
    }
  }

  /**
   * Before the calculator is here: the last answer, where it was to the very same figures.
   * @param {object} request
   */
  #meanwhile(request) {
    if (!this.#showLast(request))
      this.answer.wait("Kept", "What you typed is kept. It is answered as soon as the calculator is here.");
  }

  /**
   * @param {object} request
   * @returns {boolean} whether the last answer was to the very same figures
   */
  #showLast(request) {
    const last = recall(`last.${this.name}`);
    const same = Boolean(last) && JSON.stringify(last.request) === JSON.stringify(request);
    if (same) this.answer.show(last.answer, this.given());
    return same;
  }

  /**
   * A file that is not here any more: its last answer stays, and nothing new can be said.
   * @param {import("./uploads.js").Lost} lost
   * @param {object} request
   * @param {boolean} aloud
   */
  #without(lost, request, aloud) {
    if (!aloud && this.#showLast(request)) return this.form.mark([], false);
    return this.#show({ ok: false, problems: [{ given: "", allowed: "", ...lost }] }, aloud);
  }

  /** Given up by hand. */
  #stopped() {
    this.answer.wait(
      "Stopped",
      "Nothing you typed is lost. Press Answer to have the file measured after all, or choose another.",
    );
  }

  /** @param {any} answer @param {boolean} aloud */
  #show(answer, aloud) {
    if (this.#again && !aloud) return;
    /** @type {Problem[]} */
    const problems = answer.ok ? [] : answer.problems;
    this.form.mark(problems, aloud);
    if (this.#notice().querySelector("[data-report]")) show(this.#notice(), false);
    if (answer.ok) {
      const given = this.given();
      this.answer.show(answer, given);
      remember(this.name, answer, this.form.given(), this.#since);
      say(one(this.root, "[data-address]"), this.address());
    } else this.#refused(problems);
  }

  /** @param {Problem[]} problems */
  #refused(problems) {
    const typed = this.form.typed().texts;
    const wrong = problems.filter((problem) => !problem.word || typed[problem.word]);
    const missing = problems.filter((problem) => problem.word && !typed[problem.word]);
    if (wrong.length) this.answer.wait("Not answered yet", wrong[0].message);
    else
      this.answer.wait(
        "Still needed",
        missing.map((problem) => this.labels[problem.word] || problem.message).join(", "),
      );
  }

  /** Label and text of every input, as cards and copies list them. @returns {[string, string][]} */
  given() {
    return this.form.given().map(([word, text]) => {
      const basis = this.form.basis(word);
      return [(this.labels[word] || word) + (basis ? `, ${basis}` : ""), this.form.words(word) || text];
    });
  }

  /** This page's address with all inputs in it. */
  address() {
    return addressOf(location.href.split("#")[0], this.form.given());
  }

  /** Figures from elsewhere, over what stands in the form. @param {[string, string][]} figures */
  take(figures) {
    this.form.take(figures, this.form.typed());
    this.handles.note();
    this.#changed();
  }

  /** When the figures now in the form were last changed by hand. */
  #since = 0;

  #changed() {
    this.#since = Date.now();
    this.#keep();
    this.ask(false);
  }

  #keep() {
    const typed = this.form.typed();
    keep(`job.${this.name}`, { typed, since: this.#since });
    keep("words", { ...recall("words"), ...pairs(typed, this.shared) });
  }

  /** First what this job was left with, then what other jobs know; figures in the address come before both. */
  #fillIn() {
    const kept = recall(`job.${this.name}`);
    const words = recall("words") || {};
    const blank = this.form.typed();
    const known = { ...blank, texts: { ...blank.texts }, units: { ...blank.units } };
    for (const [word, pair] of Object.entries(words)) {
      if (this.shared.includes(word) && pair.text)
        Object.assign(known, {
          texts: { ...known.texts, [word]: pair.text },
          units: { ...known.units, ...(pair.unit ? { [word]: pair.unit } : {}) },
        });
    }
    this.form.restore(kept ? kept.typed : known);
    this.#since = kept ? kept.since : 0;
    this.#fromAddress();
  }

  #fromAddress() {
    const figures = figuresIn(location.hash, Object.keys(this.labels));
    if (!figures.length) return;
    const mine = recall(`job.${this.name}`);
    this.form.take(figures);
    history.replaceState(null, "", location.pathname + location.search);
    this.#since = Date.now();
    this.handles?.note();
    this.#keep();
    if (mine) this.#offerBack(mine);
    if (this.handles) this.ask(false);
  }

  /** @param {{typed: import("./form.js").Typed, since: number}} mine */
  #offerBack(mine) {
    const back = button("Bring back what stood here", () => {
      this.form.restore(mine.typed);
      this.handles.note();
      this.#since = mine.since;
      this.#keep();
      show(this.#notice(), false);
      this.ask(false);
    });
    this.#tell("These figures came with a link.", back);
  }

  /** @param {string} deed */
  async #deed(deed) {
    const said = one(this.root, "[data-deed-said]");
    if (deed === "print") return print();
    if (deed === "clear") return this.#clear();
    const text =
      deed === "link"
        ? this.address()
        : this.answer.shown &&
          asText(one(document, "h1").textContent || "", this.given(), this.answer.shown, this.address());
    if (!text) return say(said, "There is no answer of yours to copy yet.");
    const copied = await copy(text);
    return say(said, copied ? "Copied." : `This browser does not let a page copy. Here it is: ${text}`);
  }

  #clear() {
    const mine = recall(`job.${this.name}`);
    forget(`job.${this.name}`);
    this.form.restore({ ...this.form.bare });
    this.handles.note();
    this.form.mark([], false);
    this.answer.wait("Cleared", "Type a figure, and it is answered at once.");
    if (mine) this.#offerBack(mine);
    say(one(this.#notice(), "span"), "The form is empty.");
    scrollTo({ top: 0 });
  }

  /** @param {Event} event */
  #open(event) {
    event.preventDefault();
    this.answer.whole.scrollIntoView({ block: "start" });
    this.answer.whole.focus({ preventScroll: true });
  }

  /**
   * A fault of the program's own: nothing is lost, and the words to send are ready.
   * @param {object} request
   * @param {unknown} error
   */
  #fault(request, error) {
    if (this.engine.state === "failed")
      return this.answer.wait(
        "No calculator",
        "What you typed is kept. The method pages show how to work it out by hand.",
      );
    const report = `sandmix could not answer\npage: ${location.pathname}\nasked: ${JSON.stringify(request)}\nheard: ${error instanceof Error ? error.message : error}`;
    this.answer.wait("A fault of ours", "What you typed is kept. Send the words at the top of the page.");
    const shown = document.createElement("pre");
    shown.textContent = report;
    shown.dataset.report = "";
    return this.#tell(
      "The calculator stumbled; nothing you typed is lost. Open an issue where you got sandmix, with these words:",
      shown,
      button("Copy the words", () => copy(report)),
    );
  }

  #notice() {
    return one(this.root, "[data-notice]");
  }

  /** @param {string} words @param {HTMLElement[]} things */
  #tell(words, ...things) {
    const line = document.createElement("span");
    line.textContent = words;
    this.#notice().replaceChildren(line, ...things);
    show(this.#notice(), true);
  }
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

/** @param {import("./form.js").Typed} typed @param {string[]} words */
function pairs(typed, words) {
  const shared = Object.entries(typed.texts).filter(([word]) => words.includes(word));
  return Object.fromEntries(shared.map(([word, text]) => [word, { text, unit: typed.units[word] || "" }]));
}
