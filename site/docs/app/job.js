// @ts-check
import { Answer } from "./answer.js";
import { CastingFigures, castingFor } from "./casting-job.js";
import { all, button, dataOf, one, say, show } from "./dom.js";
import { FieldControls } from "./field-controls.js";
import { focusOn } from "./focus.js";
import { Form } from "./form.js";
import { remember } from "./heap.js";
import { forget, keep, recall } from "./local-storage.js";
import { neededOf } from "./needed.js";
import { reportOf } from "./problems.js";
import { QuickFirst } from "./quick-first.js";
import { startRows } from "./rows.js";
import { addressOf, asText, carriedIn, copy, figuresIn, othersIn } from "./share.js";
import { MEASURE_AGAIN, Stuck, TRY_AGAIN } from "./stuck.js";
import { startTestCards } from "./test-cards.js";
import { carriedWords, sharedWords } from "./typed-words.js";
import { Uploads } from "./uploads.js";

/** @import {Problem, Refusal, Request} from "./answer-types.js" */
/** @import {Calculator} from "./engine.js" */
/** @import {Typed} from "./form.js" */
/** @import {LostFile} from "./uploads.js" */
/** @typedef {import("./answer-types.js").Answer | Refusal} Reply */

const BUSY_AFTER_MS = 250;

/** The page of one job. It keeps what is typed, asks the library, and shows the answer. */
export class Job {
  #asking = false;
  #askAgain = false;
  /** When a person last changed the figures in the form. */
  #since = 0;

  /**
   * @param {HTMLElement} root
   * @param {Calculator} engine
   */
  constructor(root, engine) {
    this.root = root;
    this.engine = engine;
    this.name = root.dataset.job ?? "";
    this.stuck = new Stuck(this.name, engine);
    this.quickFirst = new QuickFirst(engine);
    /** @type {Record<string, string>} */
    this.labels = dataOf(root, "labels", {});
    /** @type {string[]} words that are facts of the workshop, which other jobs may know too */
    this.shared = dataOf(root, "shared", []);
    /** @type {Record<string, string>} the name of each job */
    this.shorts = dataOf(root, "shorts", {});
    const casting = castingFor(this.name, location.hash);
    /** The figures of the casting that this page is for, if it is for one. */
    this.casting = casting ? new CastingFigures(casting, this.name) : null;
    this.notice = one(root, "[data-notice]");
    this.answer = new Answer(root);
    this.form = new Form(one(root, "[data-form]", HTMLFormElement));
    startRows(this.form.root);
    startTestCards(this.form.root, this.name);
    this.uploads = new Uploads(this.form);
    this.uploads.addEventListener("slow", () => this.answer.measuring());
    this.#fillIn();
    this.controls = new FieldControls(this.form, engine.ask);
    this.form.addEventListener("changed", () => this.#changed());
    this.form.addEventListener("folded", () => this.#keep());
    this.form.carried.addEventListener("carried", () => this.#carried());
    this.form.addEventListener("asked", () => this.ask(true));
    for (const each of all(root, "[data-deed]")) {
      each.addEventListener("click", () => this.#act(each.dataset.deed ?? ""));
    }
    one(root, "[data-open-answer]").addEventListener("click", (event) => this.answer.open(event));
    addEventListener("hashchange", () => this.#changeAddress());
    if (this.form.touched) this.ask(false);
  }

  /**
   * Ask for an answer. While one is under way, only the latest wish waits.
   * @param {boolean} aloud whether a person asked for it; then what is wrong takes the focus
   */
  async ask(aloud) {
    if (!this.form.touched && !aloud) return;
    if (aloud) this.uploads.waits = false;
    if (this.#asking) {
      this.#askAgain = true;
      if (!aloud) return;
    }
    const request = { job: this.name, inputs: this.form.inputs() };
    const lost = this.uploads.lost();
    const next = this.#holdsBack(request, aloud);
    if (next) return this.answer.stop(next);
    if (lost) return this.#showLost(lost, request, aloud);
    if (this.engine.state !== "ready") this.#showMeanwhile(request);
    this.#asking = true;
    const busy = setTimeout(() => this.answer.busy(this.engine.state === "ready"), BUSY_AFTER_MS);
    try {
      this.#take(await this.stuck.during(request, () => this.#reply(request)), request, aloud);
    } catch (error) {
      this.#showError(error, request);
    } finally {
      clearTimeout(busy);
      this.answer.busy(false);
      this.#asking = false;
    }
    if (!this.#askAgain) return;
    this.#askAgain = false;
    await this.ask(false);
  }

  /** @param {Request} request */
  #reply(request) {
    if (this.uploads.fields.length) return this.uploads.ask(this.engine, request);
    return this.quickFirst.ask(request, (answer) => this.#show(answer, false));
  }

  /**
   * @param {Reply} answer
   * @param {Request} request
   * @param {boolean} aloud
   */
  #take(answer, request, aloud) {
    if (!answer.ok && answer.fault) throw new Error(answer.fault);
    if (answer.ok) keep(`last.${this.name}`, { request, answer });
    this.#show(answer, aloud);
  }

  /**
   * @param {unknown} error
   * @param {Request} request
   */
  #showError(error, request) {
    const givenUp = error instanceof DOMException && error.name === "AbortError";
    if (!givenUp) this.#showFault(request, error);
    else if (this.uploads.waits) this.answer.stop(MEASURE_AGAIN);
  }

  /**
   * Before the calculator is here: the last answer, if it was to the same figures, or what the plan said of this step.
   * @param {Request} request
   */
  #showMeanwhile(request) {
    if (this.#showLast(request)) return;
    if (!this.#since && this.casting?.preview(this.answer)) return;
    this.answer.wait("Saved", "What you typed is saved. The answer comes as soon as the calculator is here.");
  }

  /**
   * @param {Request} request
   * @returns {boolean} whether the last answer was to the same figures, and could be shown
   */
  #showLast(request) {
    const last = recall(`last.${this.name}`);
    if (!last || JSON.stringify(last.request) !== JSON.stringify(request)) return false;
    this.answer.origin.at = this.#since || Date.now();
    try {
      this.answer.show(last.answer, this.given());
      return true;
    } catch {
      forget(`last.${this.name}`);
      return false;
    }
  }

  /**
   * A file is gone: its last answer stays, and there can be no new one.
   * @param {LostFile} lost
   * @param {Request} request
   * @param {boolean} aloud
   */
  #showLost(lost, request, aloud) {
    if (!aloud && this.#showLast(request)) return this.form.mark([], false);
    this.#show({ ok: false, problems: [{ given: "", allowed: "", ...lost }] }, aloud);
  }

  /**
   * What to do where a question is not asked by itself; empty where it is.
   * @param {Request} request
   * @param {boolean} aloud
   */
  #holdsBack(request, aloud) {
    if (this.uploads.waits) return MEASURE_AGAIN;
    return !aloud && this.stuck.isOn(request) ? TRY_AGAIN : "";
  }

  /**
   * @param {Reply} answer
   * @param {boolean} aloud
   */
  #show(answer, aloud) {
    if (this.#askAgain && !aloud) return;
    this.form.mark(answer.ok ? [] : answer.problems, aloud);
    if (this.notice.querySelector("[data-report]")) show(this.notice, false);
    if (!answer.ok) return this.#showRefused(answer.problems);
    this.answer.origin.at = this.#since || Date.now();
    this.answer.show(answer, this.given());
    if (!this.casting) remember(this.name, answer, this.form.shown(), this.#since);
  }

  /** @param {Problem[]} problems */
  #showRefused(problems) {
    const [wrong] = problems.filter(({ word }) => !word || this.form.holds(word));
    if (wrong) return this.answer.wait("Not answered yet", wrong.message);
    const { label, text: what, sentence } = neededOf(problems, this.labels);
    this.answer.wait(label, sentence, what);
  }

  /**
   * Label and text of every input, as cards and copies list them; a book is no text for people.
   * @returns {[string, string][]}
   */
  given() {
    const ofBook = new Set(dataOf(this.root, "bookWords", []));
    const shown = this.form.shown().filter(([word]) => !ofBook.has(word));
    return shown.map(([word, text]) => {
      const label = [this.labels[word] ?? word, this.form.basis(word)].filter(Boolean).join(", ");
      return [label, this.form.words(word) || text];
    });
  }

  /** This page's address with all inputs in it. */
  address() {
    return addressOf(location.href.split("#")[0], this.form.values());
  }

  /**
   * Put figures from elsewhere over those in the form.
   * @param {[string, unknown][]} figures
   */
  take(figures) {
    this.form.take(figures, this.form.typed());
    this.controls.note();
    this.#changed();
  }

  /** When a person last changed the figures in the form; 0 if nobody did. */
  get since() {
    return this.#since;
  }

  /**
   * An entry of the heap book was written from these figures: they are the heap's, and the next visit has the heap of that day.
   * @param {string[]} words in addition to those that the form has from the heap
   */
  handOver(words) {
    this.form.carried.handOver(words);
    this.#keep();
  }

  /** The entry was undone: the figures are the person's own again. */
  takeBack() {
    this.form.carried.takeBack();
    this.#since = Date.now();
    this.#keep();
  }

  /** Answer with the figures that came from elsewhere. No person typed them, so nothing is kept. */
  #carried() {
    this.controls.note();
    this.ask(false);
  }

  #changed() {
    this.#since = Date.now();
    this.#keep();
    this.ask(false);
  }

  #keep() {
    if (this.casting) return this.casting.keep(this.form);
    const typed = this.form.typed();
    keep(`job.${this.name}`, { typed, since: this.#since });
    keep("words", sharedWords(recall("words") ?? {}, typed, this.#toShare(), this.name));
  }

  /** The shared words that other jobs may take from here: not a choice that only a link knows. */
  #toShare() {
    return this.shared.filter((word) => !this.form.isStrange(word));
  }

  /** Fill in what the casting knows, or what this job had last and what other jobs know. */
  #fillIn() {
    if (this.casting) return this.#fillInCasting(this.casting);
    const kept = recall(`job.${this.name}`);
    this.form.restore(kept?.typed ?? this.form.bare);
    const known = carriedWords(recall("words") ?? {}, this.shared, this.name, this.shorts, Date.now());
    this.form.carried.show(known, "shared");
    this.#since = kept?.since ?? 0;
    this.#takeAddress();
  }

  /** @param {CastingFigures} casting */
  #fillInCasting(casting) {
    this.form.take(casting.own(), this.form.bare);
    const carried = casting.carried();
    this.form.openFor(carried.map(({ word }) => word));
    this.form.carried.show(carried, "casting");
    history.replaceState(null, "", location.pathname + location.search);
  }

  /** An address with figures is taken over; one that names a casting, or none, loads the page again. */
  #changeAddress() {
    if (this.casting || castingFor(this.name, location.hash)) location.reload();
    else this.#takeAddress();
  }

  #takeAddress() {
    const words = Object.keys(this.labels);
    const carries = carriedIn(location.hash, words, this.shorts, Date.now());
    const [figures, others] = [figuresIn(location.hash, words), othersIn(location.hash, words)];
    if (!carries && !figures.length && !others.length) return;
    const mine = recall(`job.${this.name}`);
    if (carries) this.form.takeCarried(carries);
    else this.form.takeLink(figures, others);
    history.replaceState(null, "", location.pathname + location.search);
    this.#since = Date.now();
    this.controls?.note();
    this.#keep();
    if (mine && !carries) this.#offerBack(mine, "These figures came with a link.");
    if (this.controls) this.ask(false);
  }

  /**
   * @param {{typed: Typed, since: number}} mine
   * @param {string} words
   */
  #offerBack(mine, words) {
    const back = button("Bring back what stood here", () => {
      this.form.restore(mine.typed);
      this.controls.note();
      this.#since = mine.since;
      this.#keep();
      show(this.notice, false);
      this.form.root.focus();
      this.ask(false);
    });
    this.#notify(words, back);
  }

  /** @param {string} action */
  async #act(action) {
    if (action === "print") return (await import("./card-print.js")).printJob(this);
    if (action === "clear") return this.#clear();
    const text = action === "link" ? this.address() : this.#answerText();
    const said = one(this.root, "[data-deed-said]");
    if (!text) return say(said, "There is no answer of yours to copy yet.");
    const copied = await copy(text);
    say(said, copied ? "Copied." : `This browser does not let a page copy. Here it is: ${text}`);
  }

  #answerText() {
    const { shown } = this.answer;
    return shown && asText(one(document, "h1").textContent ?? "", this.given(), shown, this.address());
  }

  #clear() {
    const mine = this.casting ? { typed: this.form.typed(), since: this.#since } : recall(`job.${this.name}`);
    forget(`job.${this.name}`);
    this.form.restore({ ...this.form.bare });
    if (this.casting) this.#keep();
    this.controls.note();
    this.form.mark([], false);
    this.answer.clear();
    if (mine) this.#offerBack(mine, "Your own figures are cleared.");
    this.ask(false);
    scrollTo({ top: 0 });
    focusOn(mine ? this.notice : one(this.root, "h1"));
  }

  /**
   * A fault of the program: nothing is lost, and the words to send are ready.
   * @param {Request} request
   * @param {unknown} error
   */
  #showFault(request, error) {
    if (this.engine.state === "failed") {
      return this.answer.wait(
        "No calculator",
        "What you typed is saved. The method pages show how to work it out by hand.",
      );
    }
    this.answer.wait("A fault of ours", "What you typed is saved. Send the words at the top of the page.");
    const report = document.createElement("pre");
    report.textContent = reportOf(location.pathname, request, error);
    report.dataset.report = "";
    this.#notify(
      "The calculator has a fault. Nothing you typed is lost. Open an issue where you got sandmix, with these words:",
      report,
      button("Copy the words", () => copy(report.textContent ?? "")),
    );
  }

  /**
   * @param {string} words
   * @param {HTMLElement[]} things
   */
  #notify(words, ...things) {
    const line = document.createElement("span");
    line.textContent = words;
    this.notice.replaceChildren(line, ...things);
    show(this.notice, true);
  }
}
