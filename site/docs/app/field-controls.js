// @ts-check
import { all, one, say, show } from "./dom.js";
import { choose, chosen, hasUnit, put, textIn, wordOf } from "./form.js";

/** @typedef {(request: object) => Promise<any>} Ask */

const FIRST_REPEAT_MS = 450;
const REPEAT_MS = 90;

/** The handles at a box: its help; − and +, held to repeat; and unit chips, which convert through the engine and never re-read. */
export class Handles {
  /**
   * @type {Map<string, {unit: string, text: string, before: {unit: string, text: string} | null}>}
   */
  #stands = new Map();
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #timer;

  /** @param {import("./form.js").Form} form @param {Ask} ask */
  constructor(form, ask) {
    this.form = form;
    this.ask = ask;
    form.addEventListener("unit", (event) => this.#unit(/** @type {CustomEvent} */ (event).detail));
    for (const button of all(form.root, "[data-help]")) button.addEventListener("click", () => turn(button));
    for (const button of all(form.root, "[data-stepper]")) this.#hold(button);
    for (const button of all(form.root, "[data-unit-open]"))
      button.addEventListener("click", () => this.#openUnits(button));
    this.note();
  }

  /** Remember which unit each box stands in: called whenever the form was filled from outside. */
  note() {
    this.#stands.clear();
    for (const field of all(this.form.root, "[data-field]")) {
      const unit = chosen(field, `unit-${wordOf(field)}`);
      if (unit) this.#stands.set(wordOf(field), { unit, text: "", before: null });
    }
  }

  /** @param {HTMLElement} button */
  #openUnits(button) {
    show(one(this.form.root, `[data-units="${button.dataset.unitOpen}"]`), turn(button));
  }

  /** @param {string} word */
  async #unit(word) {
    const field = this.#field(word);
    const to = chosen(field, `unit-${word}`);
    const stood = this.#stands.get(word);
    if (!stood || stood.unit === to) return;
    const text = textIn(field);
    if (text === "") return this.#settle(field, word, to, "", null);
    if (stood.before?.unit === to && stood.text === text) return this.#settle(field, word, to, stood.before.text, null);
    choose(field, `unit-${word}`, stood.unit);
    const converted = await this.#convert(word, text, stood.unit, to);
    if (converted.text === undefined) return this.#refuse(field, converted.message);
    if (textIn(field) !== text) return undefined;
    return this.#settle(field, word, to, converted.text, { unit: stood.unit, text });
  }

  /**
   * @param {HTMLElement} field
   * @param {string} word
   * @param {string} unit
   * @param {string} text
   * @param {{unit: string, text: string} | null} before
   */
  #settle(field, word, unit, text, before) {
    choose(field, `unit-${word}`, unit);
    put(field, text);
    this.form.unitShown(word);
    this.#stands.set(word, { unit, text, before });
    this.form.dispatchEvent(new Event("changed"));
  }

  /** @param {HTMLElement} field @param {string} message */
  #refuse(field, message) {
    const place = one(field, "[data-problem]");
    say(place, message);
    show(place, true);
  }

  /** @param {string} word @param {string} text @param {string} unit @param {string} to */
  async #convert(word, text, unit, to) {
    const given = hasUnit(text) ? text : { value: text, unit };
    const answer = await this.ask({ job: "convert", inputs: { word, given, to } });
    return answer.ok ? { text: answer.text, message: "" } : { text: undefined, message: answer.problems[0].message };
  }

  /** @param {HTMLElement} button */
  #hold(button) {
    const word = button.dataset.stepper || "";
    const by = Number(button.dataset.by);
    button.addEventListener("pointerdown", (event) => {
      if (event.button === 0) this.#repeat(word, by, FIRST_REPEAT_MS);
    });
    for (const end of ["pointerup", "pointerleave", "pointercancel"])
      button.addEventListener(end, () => clearTimeout(this.#timer));
    button.addEventListener("contextmenu", (event) => event.preventDefault());
    button.addEventListener("click", (event) => {
      if (event.detail === 0) this.#step(word, by);
    });
  }

  /** @param {string} word @param {number} by @param {number} wait */
  #repeat(word, by, wait) {
    clearTimeout(this.#timer);
    this.#step(word, by);
    this.#timer = setTimeout(() => this.#repeat(word, by, REPEAT_MS), wait);
  }

  /** @param {string} word @param {number} by */
  async #step(word, by) {
    const field = this.#field(word);
    const box = one(field, "[data-input]");
    const text = textIn(field);
    const unit = chosen(field, `unit-${word}`) || box.dataset.unit || "";
    if (text === "") return this.#start(field, word, unit);
    let number = Number(text.replace(",", "."));
    if (Number.isNaN(number)) {
      const converted = await this.#convert(word, text, unit, unit);
      if (converted.text === undefined) return this.#refuse(field, converted.message);
      number = Number(converted.text);
    }
    const step = unit === box.dataset.unit ? Number(box.dataset.step || 1) : niceStep(number);
    return this.#write(field, stepped(number, step, by), text.includes(","));
  }

  /** @param {HTMLElement} field @param {string} word @param {string} unit */
  async #start(field, word, unit) {
    const { start = "0", unit: own = "" } = one(field, "[data-input]").dataset;
    if (unit === own) return this.#write(field, String(Number(start)), false);
    const converted = await this.#convert(word, start, own, unit);
    return this.#write(field, converted.text ?? "", false);
  }

  /** @param {HTMLElement} field @param {string} text @param {boolean} comma */
  #write(field, text, comma) {
    put(field, comma ? text.replace(".", ",") : text);
    this.form.dispatchEvent(new Event("changed"));
  }

  /** @param {string} word */
  #field(word) {
    return one(this.form.root, `[data-field="${word}"]`);
  }
}

/**
 * Open what a button opens, or close it.
 * @param {HTMLElement} button
 * @returns {boolean} whether it is open now
 */
function turn(button) {
  const open = button.getAttribute("aria-expanded") !== "true";
  button.setAttribute("aria-expanded", String(open));
  return open;
}

/**
 * A step that suits a number in a unit that is not the word's own: about a tenth of it, round.
 * @param {number} number
 */
export function niceStep(number) {
  return number > 0 ? 10 ** (Math.floor(Math.log10(number)) - 1) : 1;
}

/**
 * The next whole step up or down, never below nothing.
 * @param {number} number
 * @param {number} step
 * @param {number} by
 */
export function stepped(number, step, by) {
  const steps = Number((number / step).toFixed(6));
  const next = by > 0 ? Math.floor(steps) + 1 : Math.ceil(steps) - 1;
  return String(Number(Math.max(0, next * step).toFixed(decimals(step))));
}

/** @param {number} step */
function decimals(step) {
  return Math.max(0, Math.ceil(-Math.log10(step)) + (String(step).includes("5") ? 1 : 0));
}
