// @ts-check
import { all, fresh, list, one, say, show } from "./dom.js";

/**
 * @typedef {{texts: Record<string, string>, units: Record<string, string>, ways: Record<string, string>, more: boolean}} Typed
 *   what a person has typed and chosen, exactly
 * @typedef {{word: string, given: unknown, allowed: string, message: string}} Problem
 */

const LONG = 7;
const UNIT_TYPED = /[\p{L}%°"'′″]/u;

/** A form as it was typed. It reads, restores and marks; what the figures mean is the engine's business. */
export class Form extends EventTarget {
  /** @param {HTMLFormElement} root */
  constructor(root) {
    super();
    this.root = root;
    this.bare = this.typed();
    root.addEventListener("input", (event) => this.#changed(event));
    root.addEventListener("input", ({ target }) => target instanceof HTMLInputElement && fit(target));
    root.addEventListener("submit", (event) => {
      event.preventDefault();
      this.dispatchEvent(new Event("asked"));
    });
    root.addEventListener("click", (event) => {
      const link = event.target instanceof Element && event.target.closest("[data-go-to]");
      if (!(link instanceof HTMLElement)) return;
      event.preventDefault();
      this.reveal(link.dataset.goTo || "");
    });
    for (const more of all(root, "[data-more]")) more.addEventListener("toggle", () => this.#tell("folded"));
    this.#showAsked();
    root.dataset.live = "";
  }

  /** @returns {Typed} */
  typed() {
    /** @type {Typed} */
    const typed = { texts: {}, units: {}, ways: {}, more: false };
    for (const field of all(this.root, "[data-field]")) {
      const word = wordOf(field);
      const text = textIn(field);
      if (text !== "") typed.texts[word] = text;
      const unit = chosen(field, `unit-${word}`);
      if (unit) typed.units[word] = unit;
    }
    for (const way of all(this.root, "[data-way]"))
      typed.ways[way.dataset.way || ""] = chosen(way, `way-${way.dataset.way}`);
    typed.more = all(this.root, "[data-more]").some((more) => more.hasAttribute("open"));
    return typed;
  }

  /** @param {Typed} typed */
  restore(typed) {
    for (const field of all(this.root, "[data-field]")) {
      const word = wordOf(field);
      choose(field, `unit-${word}`, typed.units[word]);
      this.#showUnit(field, word);
      put(field, typed.texts[word] ?? this.bare.texts[word] ?? "");
    }
    for (const way of all(this.root, "[data-way]")) {
      choose(way, `way-${way.dataset.way}`, typed.ways[way.dataset.way || ""]);
      openWay(way);
    }
    for (const more of all(this.root, "[data-more]")) more.toggleAttribute("open", typed.more);
    this.#showAsked();
  }

  /** Fields that go with some values of a choice only are shown beside those. */
  #showAsked() {
    for (const field of all(this.root, "[data-only]")) {
      const choice = this.#field(field.dataset.only || "");
      if (choice) show(field, (field.dataset.onlyFor || "").split(" ").includes(textIn(choice)));
    }
  }

  /** Whether anything stands in the form that the page did not put there itself. */
  get touched() {
    const { texts } = this.typed();
    return Object.keys(texts).some((word) => texts[word] !== this.bare.texts[word]);
  }

  /**
   * What the engine is asked: text as typed where a unit was typed, else text and the chip's unit. A choice that still
   * stands where the page put it was not made, so the engine may doubt it.
   * @returns {Record<string, unknown>}
   */
  inputs() {
    return Object.fromEntries(
      this.#values()
        .filter(({ field, word, text }) => field.dataset.kind !== "choice" || text !== this.bare.texts[word])
        .map(({ word, value }) => [word, value]),
    );
  }

  /**
   * What was given or stands chosen, for links and cards: one text a word, its unit in it.
   * @returns {[string, string][]}
   */
  given() {
    return this.#values().map(({ word, value }) => [word, spoken(value, this.#onlyUnit(word))]);
  }

  /** Every field that counts and is not empty. */
  #values() {
    return this.#open().flatMap((field) => {
      const word = wordOf(field);
      const text = textIn(field);
      if (text === "") return [];
      const unit = chosen(field, `unit-${word}`);
      const typed = unit && (field.dataset.kind === "sizes" || !UNIT_TYPED.test(text)) ? { value: text, unit } : text;
      const { kind } = field.dataset;
      return [
        { field, word, text, value: kind === "flag" ? text === "yes" : kind === "upload" ? { upload: text } : typed },
      ];
    });
  }

  /**
   * Take over figures that came from elsewhere: each a text with its unit in it.
   * @param {[string, string][]} pairs
   * @param {Typed} [onto] what else stands in the form then
   */
  take(pairs, onto = this.bare) {
    const typed = { ...onto, texts: { ...onto.texts }, units: { ...onto.units }, ways: { ...onto.ways } };
    for (const [word, text] of pairs) {
      const field = this.#field(word);
      if (!field) continue;
      const unit = this.#units(field).find((unit) => text.endsWith(` ${unit}`));
      typed.texts[word] = unit ? text.slice(0, -unit.length - 1) : text;
      if (unit) typed.units[word] = unit;
      const panel = field.closest("[data-option]");
      const way = panel?.closest("[data-way]");
      if (panel instanceof HTMLElement && way instanceof HTMLElement)
        typed.ways[way.dataset.way || ""] = panel.dataset.option || "";
      if (field.closest("[data-more]") && text !== this.bare.texts[word]) typed.more = true;
    }
    this.restore(typed);
  }

  /**
   * Mark what is wrong at its fields; a field still empty is left in peace unless an answer was asked for.
   * @param {Problem[]} problems
   * @param {boolean} asked
   */
  mark(problems, asked) {
    for (const field of all(this.root, "[data-field]")) {
      const word = wordOf(field);
      const mine = problems.filter((problem) => problem.word === word && (asked || textIn(field) !== ""));
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

  /** @param {Problem[]} problems @param {boolean} asked */
  #summary(problems, asked) {
    const summary = one(this.root, "[data-summary]");
    list(
      summary,
      "problems",
      problems.map((problem) => this.#summaryLine(problem)),
    );
    if (!problems.length) show(summary, false);
    if (!asked || !problems.length) return;
    show(summary, true);
    summary.focus();
  }

  /** @param {Problem} problem */
  #summaryLine(problem) {
    const line = fresh("line");
    const place = one(line, "[data-slot=words]");
    const field = this.#field(problem.word);
    if (!field) {
      say(place, problem.message);
      return line;
    }
    const link = document.createElement("a");
    link.href = `#field-${problem.word}`;
    link.textContent = problem.message;
    link.dataset.goTo = problem.word;
    place.replaceChildren(link);
    return line;
  }

  /** Open whatever hides a field, and put the cursor in it. @param {string} word */
  reveal(word) {
    const field = this.#field(word);
    if (!field) return;
    const panel = field.closest("[data-option]");
    const way = panel?.closest("[data-way]");
    if (panel instanceof HTMLElement && way instanceof HTMLElement && panel.hidden) {
      choose(way, `way-${way.dataset.way}`, panel.dataset.option);
      openWay(way);
      this.#tell("changed");
    }
    field.closest("details")?.setAttribute("open", "");
    const box = all(
      field,
      "input[data-input], select[data-input], [data-input] input, [data-part], [data-upload]",
    ).find((box) => box.checkVisibility());
    box?.focus();
  }

  /** What a word's figure is a figure of, as its field says. @param {string} word */
  basis(word) {
    return this.#field(word)?.querySelector(".basis")?.textContent || "";
  }

  /** A word's text as a person says it, where the form keeps it otherwise. @param {string} word */
  words(word) {
    const field = this.#field(word);
    return (field && one(field, "[data-input]").dataset.words) || "";
  }

  /** The fields that count: those of a way that is not chosen do not, nor those that another choice asks for. */
  #open() {
    return all(this.root, "[data-field]").filter((field) => !field.hidden && !field.closest("[data-option][hidden]"));
  }

  /** @param {HTMLElement} field @returns {string[]} */
  #units(field) {
    const chips = all(field, `input[name="unit-${wordOf(field)}"]`).map(
      (chip) => /** @type {HTMLInputElement} */ (chip).value,
    );
    const own = one(field, "[data-input]").dataset.unit;
    return chips.length || !own ? chips : [own];
  }

  /** The unit of a word that has but one. @param {string} word */
  #onlyUnit(word) {
    const field = this.#field(word);
    const units = field ? this.#units(field) : [];
    return units.length === 1 ? units[0] : "";
  }

  /** @param {string} word */
  #field(word) {
    return all(this.root, "[data-field]").find((field) => wordOf(field) === word);
  }

  /** @param {Event} event */
  #changed(event) {
    const target = event.target;
    if (!(target instanceof HTMLInputElement || target instanceof HTMLSelectElement)) return;
    const way = target.closest("[data-way]");
    if (!way && !target.closest("[data-field]")) return;
    if (target.name.startsWith("unit-")) {
      this.dispatchEvent(new CustomEvent("unit", { detail: target.name.slice("unit-".length) }));
      return;
    }
    if (target.name.startsWith("way-") && way instanceof HTMLElement) openWay(way);
    this.#showAsked();
    this.#tell("changed");
  }

  /** @param {HTMLElement} field @param {string} word */
  #showUnit(field, word) {
    for (const shown of all(field, "[data-unit-shown]")) {
      const unit = chosen(field, `unit-${word}`);
      if (unit) say(shown, unit);
    }
  }

  /** @param {string} word the field whose unit chip decides what stands beside the box */
  unitShown(word) {
    const field = this.#field(word);
    if (field) this.#showUnit(field, word);
  }

  /** @param {string} kind */
  #tell(kind) {
    this.dispatchEvent(new Event(kind));
  }
}

/** @param {HTMLElement} field */
export function wordOf(field) {
  return field.dataset.field || "";
}

/** @param {string} text */
export function hasUnit(text) {
  return UNIT_TYPED.test(text);
}

/** @param {HTMLElement} field @returns {string} */
export function textIn(field) {
  const place = one(field, "[data-input]");
  if (place instanceof HTMLInputElement && place.type === "checkbox") return place.checked ? "yes" : "no";
  if (place instanceof HTMLInputElement || place instanceof HTMLSelectElement) return place.value.trim();
  if (field.dataset.kind === "picks") return picked(field).join(", ");
  return chosen(field, wordOf(field));
}

/** @param {HTMLElement} field @param {string} text */
export function put(field, text) {
  const place = one(field, "[data-input]");
  if (place instanceof HTMLInputElement && place.type === "checkbox") place.checked = text === "yes";
  else if (place instanceof HTMLInputElement || place instanceof HTMLSelectElement) {
    place.value = text;
    fit(place);
    place.dispatchEvent(new Event("put"));
  } else if (field.dataset.kind === "picks")
    tick(
      field,
      text.split(",").map((key) => key.trim()),
    );
  else if (text === "") tick(field, []);
  else choose(field, wordOf(field), text);
}

/** @param {HTMLElement} field @returns {string[]} the keys of the tiles that are ticked */
function picked(field) {
  return all(field, "[data-tile] input").flatMap((box) =>
    box instanceof HTMLInputElement && box.checked ? [box.value] : [],
  );
}

/** @param {HTMLElement} field @param {string[]} keys */
function tick(field, keys) {
  for (const box of all(field, "[data-input] input"))
    if (box instanceof HTMLInputElement) box.checked = keys.includes(box.value);
}

/**
 * A text that is longer than a number is written smaller, so that all of it is seen.
 * @param {HTMLElement} box
 */
export function fit(box) {
  if (box instanceof HTMLInputElement) box.toggleAttribute("data-long", box.value.length > LONG);
}

/** @param {ParentNode} root @param {string} name @returns {string} the chosen chip's value */
export function chosen(root, name) {
  const chip = root.querySelector(`input[name="${name}"]:checked`);
  return chip instanceof HTMLInputElement ? chip.value : "";
}

/** @param {ParentNode} root @param {string} name @param {string | undefined} value */
export function choose(root, name, value) {
  for (const chip of all(root, `input[name="${name}"]`)) {
    if (chip instanceof HTMLInputElement && chip.value === value) chip.checked = true;
  }
}

/** @param {unknown} value @param {string} unit the unit that goes without saying, if any */
function spoken(value, unit) {
  if (value && typeof value === "object" && "upload" in value) return String(value.upload);
  if (value && typeof value === "object" && "value" in value && "unit" in value) return `${value.value} ${value.unit}`;
  if (typeof value === "boolean") return value ? "yes" : "no";
  return unit && !UNIT_TYPED.test(String(value)) ? `${value} ${unit}` : String(value);
}

/** @param {HTMLElement} way */
function openWay(way) {
  const name = chosen(way, `way-${way.dataset.way}`);
  for (const panel of all(way, "[data-option]")) show(panel, panel.dataset.option === name);
}
