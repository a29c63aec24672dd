// @ts-check
import { inBox, shownText } from "./amount-text.js";
import { withLink } from "./carried-rules.js";
import { Carried } from "./carried.js";
import { all, around, dataOf, fill, list, one, say, show, tapped } from "./dom.js";
import * as fields from "./fields.js";
import { summaryLine } from "./problems.js";
import { unitKept } from "./typed-units.js";

/** @import {Problem} from "./answer-types.js" */
/** @import {Value} from "./amount-text.js" */
/** @import {Carry, Own} from "./carried-rules.js" */
/**
 * @typedef {object} Typed what a person typed and chose, exactly: no figure that is known elsewhere is among it
 * @property {Record<string, string>} texts
 * @property {Record<string, string>} units
 * @property {string[]} [chosen] the words whose units a person chose for themselves
 * @property {Record<string, string>} ways
 * @property {boolean} more whether "More" is open
 * @property {Record<string, Value>} [others] what a link gave for words without an open box
 * @property {Record<string, number>} [at] when each own figure was typed; a word without a text was emptied
 * @property {Carry[]} [links] what links from other jobs carried here
 * @property {Record<string, Own>} [before] own figures that gave way to a link
 */

/** A form as it was typed. It reads, restores and marks; the library says what the figures mean. */
export class Form extends EventTarget {
  /** @type {Record<string, Value>} what a link gave for words without an open box */
  #others = {};

  /** @param {HTMLFormElement} root */
  constructor(root) {
    super();
    this.root = root;
    for (const field of this.#fields) fields.openInWishedUnit(field);
    this.bare = this.#bareTyped();
    this.carried = new Carried(this);
    root.addEventListener("input", (event) => this.#changed(event));
    root.addEventListener("submit", (event) => {
      event.preventDefault();
      this.dispatchEvent(new Event("asked"));
    });
    root.addEventListener("click", (event) => {
      const link = tapped(event, "[data-go-to]");
      if (!link) return;
      event.preventDefault();
      this.reveal(link.dataset.goTo ?? "");
    });
    one(root, "[data-leave-out]").addEventListener("click", () => {
      this.#others = {};
      this.#showOthers();
      this.dispatchEvent(new Event("changed"));
    });
    for (const more of all(root, "[data-more]")) {
      more.addEventListener("toggle", () => this.dispatchEvent(new Event("folded")));
    }
    this.#showAsked();
    root.dataset.live = "";
  }

  get #fields() {
    return all(this.root, "[data-field]");
  }

  get #ways() {
    return all(this.root, "[data-way]");
  }

  /** The words that have a field. */
  get wordsAsked() {
    return this.#fields.map(fields.wordOf);
  }

  /** @param {string} word */
  #field(word) {
    return this.#fields.find((field) => fields.wordOf(field) === word);
  }

  /** @returns {Typed} */
  typed() {
    return { ...this.#bareTyped(), ...this.carried.kept() };
  }

  #bareTyped() {
    /** @type {Typed} */
    const typed = { texts: {}, units: {}, chosen: [], ways: {}, more: false };
    for (const field of this.#fields) {
      if (fields.isCarried(field)) continue;
      const word = fields.wordOf(field);
      const text = fields.textIn(field);
      const unit = fields.chosen(field, `unit-${word}`);
      if (text !== "") typed.texts[word] = text;
      if (unit) typed.units[word] = unit;
      if (this.bare && unit !== this.bare.units[word]) typed.chosen?.push(word);
    }
    for (const way of this.#ways) {
      typed.ways[way.dataset.way ?? ""] = fields.chosen(way, `way-${way.dataset.way}`);
    }
    typed.more = all(this.root, "[data-more]").some((more) => more.hasAttribute("open"));
    if (Object.keys(this.#others).length) typed.others = this.#others;
    return typed;
  }

  /** @param {Typed} typed */
  restore(typed) {
    for (const field of this.#fields) {
      const word = fields.wordOf(field);
      fields.choose(field, `unit-${word}`, unitKept(typed, word, fields.unitsOf(field)[0]) ?? this.bare.units[word]);
      fields.showUnit(field);
      fields.put(field, typed.texts[word] ?? this.bare.texts[word] ?? "");
    }
    for (const way of this.#ways) {
      fields.choose(way, `way-${way.dataset.way}`, typed.ways[way.dataset.way ?? ""]);
      fields.openWay(way);
    }
    for (const more of all(this.root, "[data-more]")) more.toggleAttribute("open", typed.more);
    this.#others = { ...typed.others };
    this.carried.restore(typed);
    this.#showAsked();
  }

  /**
   * Fill in what a link gives. What has no box that is open stays too, so that the library sees the whole link.
   * @param {[string, Value][]} pairs for words of this form
   * @param {[string, Value][]} others for any other words
   */
  takeLink(pairs, others) {
    const now = Date.now();
    const exact = this.#fields.map((field) => /** @type {[string, number]} */ ([fields.wordOf(field), now]));
    this.take(pairs, { ...this.bare, at: Object.fromEntries(exact) });
    const closed = pairs.filter(([word]) => !this.#isOpen(word));
    this.#others = Object.fromEntries([...closed, ...others]);
    this.#showOthers();
  }

  /**
   * Carry in what a link from another job gives. What was typed in this visit stays, and what is older stays on offer.
   * @param {Carry[]} figures
   */
  takeCarried(figures) {
    const deciding = all(this.root, "[data-only]").map((field) => field.dataset.only ?? "");
    const typed = withLink(this.typed(), figures, deciding);
    for (const { word } of figures) this.#openOption(word, typed);
    this.restore(typed);
  }

  /**
   * Open the boxes of words that are known elsewhere.
   * @param {string[]} words
   */
  openFor(words) {
    const typed = this.typed();
    for (const word of words) this.#openOption(word, typed);
    this.restore(typed);
  }

  /**
   * Choose the way of giving that has a word's box, unless the way that is open has an own figure.
   * @param {string} word
   * @param {Typed} typed
   */
  #openOption(word, typed) {
    const field = this.#field(word);
    const place = field && fields.optionOf(field);
    if (!place) return;
    const open = all(place.way, "[data-option]:not([hidden]) [data-field]");
    if (!open.some((each) => typed.at?.[fields.wordOf(each)] !== undefined)) {
      typed.ways = { ...typed.ways, [place.way.dataset.way ?? ""]: place.option };
    }
  }

  /**
   * Whether the form gives anything for a word.
   * @param {string} word
   */
  holds(word) {
    return this.values().some(([given]) => given === word);
  }

  /** @param {string} word */
  #isOpen(word) {
    const field = this.#field(word);
    return field !== undefined && fields.isAsked(field);
  }

  /**
   * Whether a field holds a choice that it does not offer.
   * @param {string} word
   */
  isStrange(word) {
    const field = this.#field(word);
    return field !== undefined && fields.isStrange(field);
  }

  /** What a link gave, less what has an open box by now. */
  #othersNow() {
    return Object.entries(this.#others).filter(([word]) => !this.#isOpen(word));
  }

  #showOthers() {
    const place = one(this.root, "[data-others]");
    const others = this.#othersNow();
    /** @type {Record<string, string>} */
    const labels = dataOf(this.root.closest("[data-labels]") ?? this.root, "labels", {});
    const shown = others.map(([word, value]) => `${labels[word] ?? word}: ${shownText(value)}`);
    fill(place, {
      others: `The link also gives: ${shown.join("; ")}. No box is open for it here, but it goes into the answer.`,
    });
    show(place, others.length > 0);
  }

  /** Show a field that belongs to some values of a choice only if one of these is chosen. */
  #showAsked() {
    for (const field of all(this.root, "[data-only]")) {
      const choice = this.#field(field.dataset.only ?? "");
      if (choice) show(field, (field.dataset.onlyFor ?? "").split(" ").includes(fields.textIn(choice)));
    }
    this.#showOthers();
  }

  /** Whether the form holds anything that the page did not put there itself. */
  get touched() {
    const { texts } = this.bare;
    const filled = this.#fields.some((field) => fields.textIn(field) !== (texts[fields.wordOf(field)] ?? ""));
    return filled || Object.keys(this.#others).length > 0;
  }

  /** Every field that counts and is not empty. */
  #given() {
    return this.#fields.filter((field) => fields.isAsked(field) && fields.textIn(field) !== "");
  }

  /**
   * The inputs of a question. A choice that is still as the page put it was not made by a person, so it is left out, and the library
   * may doubt it.
   * @returns {Record<string, Value>}
   */
  inputs() {
    const made = this.#given().filter((field) => {
      const { [fields.wordOf(field)]: bare } = this.bare.texts;
      return field.dataset.kind !== "choice" || fields.textIn(field) !== bare;
    });
    return Object.fromEntries([
      ...this.#othersNow(),
      ...made.map((field) => /** @type {[string, Value]} */ ([fields.wordOf(field), this.carried.givenBy(field)])),
    ]);
  }

  /**
   * All that was given or is chosen, for links and for the book.
   * @returns {[string, Value][]}
   */
  values() {
    const given = this.#given().map(
      (field) => /** @type {[string, Value]} */ ([fields.wordOf(field), fields.valueOf(field)]),
    );
    return [...given, ...this.#othersNow()];
  }

  /**
   * The same as a person reads it.
   * @returns {[string, string][]}
   */
  shown() {
    return this.values().map(([word, value]) => [word, shownText(value)]);
  }

  /**
   * Fill in figures that come from elsewhere.
   * @param {[string, unknown][]} pairs
   * @param {Typed} [onto] what else the form holds then
   */
  take(pairs, onto = this.bare) {
    const typed = { ...onto, texts: { ...onto.texts }, units: { ...onto.units }, ways: { ...onto.ways } };
    /** @type {Record<string, number>} */
    const at = (typed.at = { ...onto.at });
    for (const [word, value] of pairs) {
      const field = this.#field(word);
      if (!field) continue;
      const { text, unit } = inBox(value, fields.unitsOf(field));
      typed.texts[word] = text;
      at[word] = Date.now();
      if (unit) typed.units[word] = unit;
      const place = fields.optionOf(field);
      if (place) typed.ways[place.way.dataset.way ?? ""] = place.option;
    }
    this.restore(typed);
  }

  /**
   * Mark what is wrong at its fields. An empty field stays unmarked unless a person asked for an answer.
   * @param {Problem[]} problems
   * @param {boolean} asked
   */
  mark(problems, asked) {
    for (const field of this.#fields) {
      const word = fields.wordOf(field);
      const mine = problems.filter((problem) => problem.word === word && (asked || fields.textIn(field) !== ""));
      const place = one(field, "[data-problem]");
      say(place, mine.map((problem) => problem.message).join(" "));
      show(place, mine.length > 0);
      field.toggleAttribute("data-wrong", mine.length > 0);
      for (const box of all(field, "[data-input], [data-upload]")) {
        if (mine.length) box.setAttribute("aria-invalid", "true");
        else box.removeAttribute("aria-invalid");
      }
    }
    this.#summary(problems, asked);
  }

  /**
   * @param {Problem[]} problems
   * @param {boolean} asked
   */
  #summary(problems, asked) {
    const summary = one(this.root, "[data-summary]");
    const lines = problems.map((problem) => summaryLine(problem, this.#field(problem.word) !== undefined));
    list(summary, "problems", lines);
    if (!problems.length) show(summary, false);
    if (!asked || !problems.length) return;
    show(summary, true);
    summary.focus();
  }

  /**
   * Choose the way of giving that has a word's box, as a person does who drops a file on the page.
   * @param {string} word
   */
  chooseWayOf(word) {
    const field = this.#field(word);
    const place = field && fields.optionOf(field);
    if (!place?.panel.hidden) return;
    fields.choose(place.way, `way-${place.way.dataset.way}`, place.option);
    fields.openWay(place.way);
    this.dispatchEvent(new Event("changed"));
  }

  /**
   * Open whatever folds a field away, and put the cursor in it. The way that a person chose stays: a field of another way leads to the
   * choice between them.
   * @param {string} word
   * @returns {void}
   */
  reveal(word) {
    const field = this.#field(word);
    if (!field) return;
    if (field.hidden && field.dataset.only) return this.reveal(field.dataset.only);
    const place = fields.optionOf(field);
    field.closest("details")?.setAttribute("open", "");
    if (place?.panel.hidden) return one(place.way, "input:checked", HTMLInputElement).focus();
    for (const row of all(field, "[data-row-folded]")) delete row.dataset.rowFolded;
    const boxes = "input[data-input], select[data-input], [data-input] input, [data-part], [data-upload]";
    all(field, boxes)
      .find((box) => box.checkVisibility())
      ?.focus();
  }

  /**
   * The basis of a word's figure, as its field says.
   * @param {string} word
   */
  basis(word) {
    return this.#field(word)?.querySelector(".basis")?.textContent ?? "";
  }

  /**
   * Rows, a table or a choice in plain words; empty for every other word.
   * @param {string} word
   */
  words(word) {
    const field = this.#field(word);
    return field ? fields.wordsIn(field) : "";
  }

  /**
   * Show the chosen unit of a word beside its box.
   * @param {string} word
   */
  showUnit(word) {
    const field = this.#field(word);
    if (field) fields.showUnit(field);
  }

  /** @param {Event} event */
  #changed({ target }) {
    if (!(target instanceof HTMLInputElement || target instanceof HTMLSelectElement)) return;
    fields.fit(target);
    const way = target.closest("[data-way]");
    const field = around(target, "[data-field]");
    if (!way && !field) return;
    if (target.name.startsWith("unit-")) {
      this.dispatchEvent(new CustomEvent("unit", { detail: target.name.slice("unit-".length) }));
      return;
    }
    if (target.name.startsWith("way-") && way instanceof HTMLElement) fields.openWay(way);
    else if (field) fields.chooseOwn(field);
    this.#showAsked();
    this.dispatchEvent(new Event("changed"));
  }
}
