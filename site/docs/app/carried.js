// @ts-check
/**
 * The figures of a form that are known elsewhere: each stands in its box with its origin until a person types over it, and can
 * be put back. They are never kept as if a person had typed them.
 */

import { inBox, showsUnit } from "./amount-text.js";
import { carriesOf, lineOf, standing } from "./carried-rules.js";
import { all, around, one, say, show, tapped } from "./dom.js";
import * as fields from "./fields.js";
import { ownCarries } from "./settings.js";

/** @import {Carry, Layer, Own, Standing} from "./carried-rules.js" */
/** @import {Typed} from "./form.js" */
/** @import {Value} from "./amount-text.js" */
/** @typedef {{text: string, unit: string}} Box what a box holds */

/** How the origin of a figure from the heap's book begins, here and in the library's plan. */
const FROM_BOOK = "from the heap";
const HANDED = { words: "In the heap book now", act: "" };

/**
 * It sends "own" (a person typed over a figure) and "back" (a figure was put back) with the word as detail, and "carried" when
 * figures from elsewhere changed what stands in the form.
 */
export class Carried extends EventTarget {
  /** @type {Map<Layer, Carry[]>} */
  #layers = new Map();
  /** @type {Map<string, number>} the words that a person typed, or emptied, and when */
  #own = new Map();
  /** @type {Map<string, Own>} what gave way to the figure of a link */
  #before = new Map();
  /** @type {Map<string, Carry>} what was put into each box */
  #put = new Map();
  /** @type {Map<string, number>} own figures that are in the heap book now, and when they were typed */
  #handed = new Map();
  /** @type {Map<string, Box>} what the library made of carried figures in the units that a person chose, by word and figure */
  #converted = new Map();
  /** Whether the form stays as it is, whatever becomes known elsewhere. */
  #still = false;
  /** @type {Map<string, Box>} what each box held when it was last looked at */
  #seen = new Map();

  /** @param {EventTarget & {root: HTMLElement, bare: Typed}} form */
  constructor(form) {
    super();
    this.form = form;
    form.addEventListener("changed", () => this.#look());
    form.root.addEventListener("click", (event) => {
      const act = tapped(event, "[data-carried-act]");
      const field = act && around(act, "[data-field]");
      if (field) this.#act(field);
    });
    if (!("ownFigures" in form.root.dataset)) this.#layers.set("settings", ownCarries());
    this.#apply();
  }

  get #fields() {
    return all(this.form.root, "[data-field]");
  }

  /**
   * Show figures that are known elsewhere, in place of those that the same layer had.
   * @param {Carry[]} figures
   * @param {Layer} [layer]
   */
  show(figures, layer = "casting") {
    this.#layers.set(layer, figures);
    if (this.#apply()) this.dispatchEvent(new Event("carried"));
  }

  /**
   * What stands in the box of a word.
   * @param {string} word
   * @returns {Standing}
   */
  stateOf(word) {
    const carries = carriesOf((layer) => this.#layers.get(layer) ?? [], word);
    return standing(this.#own.has(word), carries, this.#before.get(word));
  }

  /** What a form keeps of this: when each own figure was typed, what a link carried, and what gave way to it. */
  kept() {
    const links = this.#layers.get("link") ?? [];
    return {
      at: Object.fromEntries(this.#own),
      ...(links.length ? { links } : {}),
      ...(this.#before.size ? { before: Object.fromEntries(this.#before) } : {}),
    };
  }

  /**
   * Take what a form kept. Of an older form nobody knows when its figures were typed.
   * @param {Typed} typed
   */
  restore(typed) {
    const { texts } = typed;
    const old = Object.keys(texts).filter((word) => texts[word] !== this.form.bare.texts[word]);
    this.#own = new Map(Object.entries(typed.at ?? Object.fromEntries(old.map((word) => [word, 0]))));
    this.#before = new Map(Object.entries(typed.before ?? {}));
    this.#layers.set("link", typed.links ?? []);
    this.#put.clear();
    this.#handed.clear();
    this.#still = false;
    for (const field of this.#fields) fields.setCarried(field, false);
    this.#apply();
  }

  /** The words whose boxes count, and hold what the book of the heap says. */
  wordsOfBook() {
    const held = this.#fields.filter((field) => fields.isCarried(field) && fields.isAsked(field));
    return held.map(fields.wordOf).filter((word) => this.#put.get(word)?.from.startsWith(FROM_BOOK));
  }

  /**
   * These own figures, and all of words that the heap has too, are in the heap book now. They stay on the screen with their
   * answer, but are not kept as own figures, and the form takes no newer ones until it is opened again.
   * @param {string[]} words
   */
  handOver(words) {
    const ofHeap = (this.#layers.get("heap") ?? []).map(({ word }) => word);
    for (const word of [...words, ...ofHeap]) {
      const typedAt = this.#own.get(word);
      if (typedAt === undefined) continue;
      this.#own.delete(word);
      this.#handed.set(word, typedAt);
    }
    for (const field of this.#fields) if (this.#handed.has(fields.wordOf(field))) fields.setCarried(field, true);
    this.#still = true;
    this.#note();
  }

  /** What was handed over is a person's own again. */
  takeBack() {
    for (const [word, typedAt] of this.#handed) this.#own.set(word, typedAt);
    for (const field of this.#fields) if (this.#handed.has(fields.wordOf(field))) fields.setCarried(field, false);
    this.#handed.clear();
    this.#still = false;
    this.#note();
  }

  /** Put what is known elsewhere into the boxes without an own figure. A box that a person is in is left alone. */
  #apply() {
    if (this.#still) return false;
    let changed = false;
    for (const field of this.#fields) {
      const word = fields.wordOf(field);
      const { whose, carry } = this.stateOf(word);
      if (whose === "own" || (field.contains(document.activeElement) && fields.textIn(field) === "")) continue;
      if (whose === "default" ? !fields.isCarried(field) : isSame(this.#put.get(word), carry)) continue;
      if (carry) this.#fill(field, carry);
      else this.#empty(field);
      changed = true;
    }
    this.#note();
    return changed;
  }

  /**
   * @param {HTMLElement} field
   * @param {Carry} carry
   */
  #fill(field, carry) {
    putBox(field, this.#converted.get(keyOf(carry)) ?? inBox(carry.value, fields.unitsOf(field)));
    fields.setCarried(field, true);
    this.#put.set(fields.wordOf(field), carry);
  }

  /**
   * What a field gives to the library. A carried figure goes as it came, whatever unit it is shown in.
   * @param {HTMLElement} field
   * @returns {Value}
   */
  givenBy(field) {
    const carry = this.#put.get(fields.wordOf(field));
    const converted = carry && fields.isCarried(field) ? this.#converted.get(keyOf(carry)) : undefined;
    if (!carry || !converted || !isSameBox(converted, boxOf(field))) return fields.valueOf(field);
    const { text, unit } = inBox(carry.value, fields.unitsOf(field));
    return unit ? { value: text, unit } : text;
  }

  /**
   * The carried figures that stand in another unit than the form opens in.
   * @returns {{word: string, value: Value, to: string}[]}
   */
  inOtherUnits() {
    return this.#fields.flatMap((field) => {
      const word = fields.wordOf(field);
      const { [word]: to } = this.form.bare.units;
      const { text, unit } = boxOf(field);
      if (!to || unit === to || text === "" || showsUnit(text) || !fields.isCarried(field)) return [];
      return [{ word, value: { value: text, unit }, to }];
    });
  }

  /**
   * Show a carried figure as the library converted it, unless something else stands there by now.
   * @param {string} word
   * @param {Value} value as it stood
   * @param {Box} box
   */
  showConverted(word, value, box) {
    const field = this.#fields.find((each) => fields.wordOf(each) === word);
    const carry = this.#put.get(word);
    if (!field || !carry || !fields.isCarried(field)) return;
    if (JSON.stringify(fields.valueOf(field)) !== JSON.stringify(value)) return;
    this.#converted.set(keyOf(carry), box);
    putBox(field, box);
    this.#note();
  }

  /** @param {HTMLElement} field */
  #empty(field) {
    const word = fields.wordOf(field);
    const { texts, units } = this.form.bare;
    putBox(field, { text: texts[word] ?? "", unit: units[word] });
    fields.setCarried(field, false);
    this.#put.delete(word);
  }

  /** See which boxes a person changed. A figure in another unit is still the same figure. */
  #look() {
    for (const field of this.#fields) {
      const word = fields.wordOf(field);
      const [seen, now] = [this.#seen.get(word), boxOf(field)];
      if (!seen || seen.text === now.text) continue;
      if (fields.isCarried(field) && seen.unit !== now.unit) continue;
      this.#own.set(word, Date.now());
      this.#before.delete(word);
      this.#handed.delete(word);
      fields.setCarried(field, false);
      this.#put.delete(word);
      this.dispatchEvent(new CustomEvent("own", { detail: word }));
    }
    this.#note();
  }

  /** @param {HTMLElement} field */
  #act(field) {
    const word = fields.wordOf(field);
    const { whose, carry, before } = this.stateOf(word);
    if (whose === "own" && carry) {
      const box = boxOf(field);
      if (carry.link && box.text) this.#before.set(word, { ...box, at: Date.now() });
      this.#own.delete(word);
      this.#fill(field, carry);
    } else if (before) {
      putBox(field, before);
      fields.setCarried(field, false);
      this.#put.delete(word);
      this.#before.delete(word);
      this.#own.set(word, Date.now());
    }
    this.#note();
    one(field, "[data-carried-line]").focus({ preventScroll: true });
    this.#tell("back", word);
  }

  /**
   * @param {string} event
   * @param {string} word
   */
  #tell(event, word) {
    this.dispatchEvent(new CustomEvent(event, { detail: word }));
    this.form.dispatchEvent(new Event("changed"));
  }

  /** Write the line under each box, and how many figures stand under More. */
  #note() {
    for (const field of this.#fields) {
      const word = fields.wordOf(field);
      this.#seen.set(word, boxOf(field));
      const place = field.querySelector("[data-carried-line]");
      if (!(place instanceof HTMLElement)) continue;
      const { words, act } = this.#handed.has(word)
        ? HANDED
        : lineOf(this.#shownState(field), boxOf(field), Date.now());
      show(place, words !== "");
      say(one(place, "[data-slot=origin]"), words);
      const button = one(place, "[data-carried-act]");
      show(button, act !== "");
      say(button, act);
    }
    for (const more of all(this.form.root, "[data-more]")) this.#count(more);
  }

  /**
   * @param {HTMLElement} field
   * @returns {Standing}
   */
  #shownState(field) {
    const state = this.#inShownUnit(this.stateOf(fields.wordOf(field)));
    return state.whose === "carried" && !fields.isCarried(field) ? { ...state, whose: "own" } : state;
  }

  /**
   * What stands in a box, with the figure that is known elsewhere as it is shown.
   * @param {Standing} state
   * @returns {Standing}
   */
  #inShownUnit(state) {
    const converted = state.carry && this.#converted.get(keyOf(state.carry));
    if (!state.carry || !converted) return state;
    return { ...state, carry: { ...state.carry, value: { value: converted.text, unit: converted.unit } } };
  }

  /** @param {HTMLElement} more */
  #count(more) {
    const place = more.querySelector("[data-filled-in]");
    if (!place) return;
    const { texts } = this.form.bare;
    const count = all(more, "[data-field]").filter((field) => {
      const text = fields.textIn(field);
      return text !== "" && text !== texts[fields.wordOf(field)] && fields.isAsked(field);
    }).length;
    say(place, count ? `, ${count} filled in` : "");
  }
}

/**
 * @param {HTMLElement} field
 * @returns {Box}
 */
function boxOf(field) {
  return { text: fields.textIn(field), unit: fields.unitOf(field) };
}

/**
 * @param {HTMLElement} field
 * @param {{text: string, unit: string | undefined}} box
 */
function putBox(field, { text, unit }) {
  fields.choose(field, `unit-${fields.wordOf(field)}`, unit);
  fields.showUnit(field);
  fields.put(field, text);
}

/** @param {Carry} carry */
function keyOf({ word, value }) {
  return `${word} ${JSON.stringify(value)}`;
}

/**
 * @param {Box} before
 * @param {Box} after
 */
function isSameBox(before, after) {
  return before.text === after.text && before.unit === after.unit;
}

/**
 * @param {Carry | undefined} before
 * @param {Carry | undefined} after
 */
function isSame(before, after) {
  return (
    before?.word === after?.word &&
    before?.from === after?.from &&
    JSON.stringify(before?.value) === JSON.stringify(after?.value)
  );
}
