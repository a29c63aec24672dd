// @ts-check
import { all, one, say, show } from "./dom.js";
import { choose, chosen, inputOf, put, textIn, unitOf, valueOf, wordOf } from "./fields.js";
import { niceStep, stepped } from "./stepping.js";

/** @import {Ask} from "./answer-types.js" */
/** @import {Value} from "./amount-text.js" */
/** @typedef {{unit: string, text: string}} Shown */

const FIRST_REPEAT_MS = 450;
const REPEAT_MS = 90;
/** What the buttons write themselves, and nothing that a person could mean in two ways. */
const PLAIN_NUMBER = /^\d+(\.\d+)?$/;

/** The controls around a box: its help, − and + that repeat while held, and unit chips. The library converts. */
export class FieldControls {
  /** @type {Map<string, Shown & {before: Shown | null}>} the unit that each box shows, and what it showed before */
  #shown = new Map();
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #timer;
  /** @type {Promise<void>} */
  #steps = Promise.resolve();

  /**
   * @param {import("./form.js").Form} form
   * @param {Ask} ask
   */
  constructor(form, ask) {
    this.form = form;
    this.ask = ask;
    form.addEventListener("unit", (event) => this.#changeUnit(/** @type {CustomEvent} */ (event).detail));
    for (const button of all(form.root, "[data-help]")) button.addEventListener("click", () => toggle(button));
    for (const button of all(form.root, "[data-stepper]")) this.#startStepper(button);
    for (const button of all(form.root, "[data-unit-open]")) {
      const chips = one(form.root, `[data-units="${button.dataset.unitOpen}"]`);
      button.addEventListener("click", () => show(chips, toggle(button)));
    }
    this.note();
  }

  /** Note which unit each box shows. Call it whenever the form was filled from outside. */
  note() {
    this.#shown.clear();
    for (const field of all(this.form.root, "[data-field]")) {
      const unit = chosen(field, `unit-${wordOf(field)}`);
      if (unit) this.#shown.set(wordOf(field), { unit, text: "", before: null });
    }
    for (const carried of this.form.carried.inOtherUnits()) this.#showInWishedUnit(carried).catch(() => {});
  }

  /**
   * Show a carried figure in the unit that the form opens in. It stays the same figure.
   * @param {{word: string, value: Value, to: string}} carried
   */
  async #showInWishedUnit({ word, value, to }) {
    const { text } = await this.#convert(word, value, to);
    if (text === undefined) return;
    this.form.carried.showConverted(word, value, { text, unit: to });
    const field = this.#field(word);
    if (unitOf(field) === to) this.#shown.set(word, { unit: to, text: textIn(field), before: null });
  }

  /** @param {string} word */
  async #changeUnit(word) {
    const field = this.#field(word);
    const to = chosen(field, `unit-${word}`);
    const shown = this.#shown.get(word);
    if (!shown || shown.unit === to) return;
    const text = textIn(field);
    if (text === "") return this.#settle(field, { unit: to, text: "" }, null);
    if (shown.before?.unit === to && shown.text === text) {
      this.#settle(field, shown.before, null);
      return this.#announce(field);
    }
    choose(field, `unit-${word}`, shown.unit);
    const converted = await this.#convert(word, valueOf(field), to);
    if (converted.text === undefined) return refuse(field, converted.message);
    if (textIn(field) !== text) return;
    this.#settle(field, { unit: to, text: converted.text }, { unit: shown.unit, text });
    this.#announce(field);
  }

  /**
   * @param {HTMLElement} field
   * @param {Shown} shown
   * @param {Shown | null} before
   */
  #settle(field, { unit, text }, before) {
    const word = wordOf(field);
    choose(field, `unit-${word}`, unit);
    put(field, text);
    this.form.showUnit(word);
    this.#shown.set(word, { unit, text, before });
    this.form.dispatchEvent(new Event("changed"));
  }

  /**
   * Say what a figure is in its new unit.
   * @param {HTMLElement} field
   */
  #announce(field) {
    const label = one(field, "label").textContent;
    say(one(this.form.root, "[data-form-said]"), `${label}: ${textIn(field)} ${unitOf(field)}`);
  }

  /**
   * @param {string} word
   * @param {Value} given
   * @param {string} to
   */
  async #convert(word, given, to) {
    const answer = await this.ask({ job: "convert", inputs: { word, given, to } });
    return answer.ok ? { text: answer.text, message: "" } : { text: undefined, message: answer.problems[0].message };
  }

  /** @param {HTMLElement} button */
  #startStepper(button) {
    const word = button.dataset.stepper ?? "";
    const by = Number(button.dataset.by);
    button.addEventListener("pointerdown", (event) => {
      if (event.button === 0) this.#repeat(word, by, FIRST_REPEAT_MS);
    });
    for (const end of ["pointerup", "pointerleave", "pointercancel"]) {
      button.addEventListener(end, () => clearTimeout(this.#timer));
    }
    button.addEventListener("contextmenu", (event) => event.preventDefault());
    button.addEventListener("click", (event) => {
      if (event.detail === 0) this.#step(word, by);
    });
  }

  /**
   * @param {string} word
   * @param {number} by
   * @param {number} wait
   */
  #repeat(word, by, wait) {
    clearTimeout(this.#timer);
    this.#step(word, by);
    this.#timer = setTimeout(() => this.#repeat(word, by, REPEAT_MS), wait);
  }

  /**
   * One step after those that are still waiting for the library.
   * @param {string} word
   * @param {number} by
   */
  #step(word, by) {
    const field = this.#field(word);
    if (PLAIN_NUMBER.test(textIn(field))) return this.#write(field, Number(textIn(field)), by, false);
    this.#steps = this.#steps.then(() => this.#stepFromText(field, by)).catch(() => {});
  }

  /**
   * @param {HTMLElement} field
   * @param {number} by
   */
  async #stepFromText(field, by) {
    const text = textIn(field);
    if (text === "") return this.#start(field);
    const converted = await this.#convert(wordOf(field), valueOf(field), unitOf(field));
    if (converted.text === undefined) return refuse(field, converted.message);
    this.#write(field, Number(converted.text), by, text.includes(","));
  }

  /**
   * The first number in an empty box.
   * @param {HTMLElement} field
   */
  async #start(field) {
    const { start = "0", unit: own = "" } = inputOf(field).dataset;
    const unit = unitOf(field);
    const text = String(Number(start));
    const inUnit = unit === own ? text : (await this.#convert(wordOf(field), { value: text, unit: own }, unit)).text;
    put(field, inUnit ?? "");
    this.form.dispatchEvent(new Event("changed"));
  }

  /**
   * @param {HTMLElement} field
   * @param {number} number
   * @param {number} by
   * @param {boolean} comma whether the person writes decimals with a comma
   */
  #write(field, number, by, comma) {
    const { unit: own = "", step = "1" } = inputOf(field).dataset;
    const text = stepped(number, unitOf(field) === own ? Number(step) : niceStep(number), by);
    put(field, comma ? text.replace(".", ",") : text);
    this.form.dispatchEvent(new Event("changed"));
  }

  /** @param {string} word */
  #field(word) {
    return one(this.form.root, `[data-field="${word}"]`);
  }
}

/**
 * @param {HTMLElement} field
 * @param {string} message
 */
function refuse(field, message) {
  const place = one(field, "[data-problem]");
  say(place, message);
  show(place, true);
}

/**
 * Open what a button opens, or close it.
 * @param {HTMLElement} button
 * @returns {boolean} whether it is open now
 */
function toggle(button) {
  const open = button.getAttribute("aria-expanded") !== "true";
  button.setAttribute("aria-expanded", String(open));
  return open;
}
