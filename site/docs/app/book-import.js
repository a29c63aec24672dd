// @ts-check
/** The import of books on the book's page: the file, the question which book to keep, and what a file replaced. */

import { asExported, importFile, readFile } from "./book-file.js";
import { extentText, newerText } from "./book-format.js";
import { all, button, describeButtons, fill, fresh, one, say, show } from "./dom.js";
import { reasonOf } from "./problems.js";
import { isSecondTap } from "./second-tap.js";

/** @import {Ask} from "./answer-types.js" */
/** @import {ReadFile} from "./book-file.js" */
/** @import {Change} from "./device-file.js" */
/** @import {Found} from "./book-format.js" */
/** @import {Book, Books, Replaced} from "./books.js" */

/** @type {Record<Change["kind"], string>} */
const KINDS = { settings: "the settings", forms: "what stands in the forms", patterns: "patterns" };

export class BookImport {
  /**
   * @param {HTMLElement} root
   * @param {Books} books
   * @param {Ask} ask
   */
  constructor(root, books, ask) {
    this.root = root;
    this.books = books;
    this.ask = ask;
    const file = one(root, "[data-import]", HTMLInputElement);
    file.addEventListener("change", () => this.#read(file));
    this.#read(file);
  }

  /** @param {HTMLInputElement} input */
  async #read(input) {
    const [file] = input.files ?? [];
    input.value = "";
    if (!file) return;
    this.#report("Reading…");
    try {
      const given = await readFile(file, this.books, this.ask);
      const { found, castings, changes, problems } = given;
      if (problems.length) this.#report(`Nothing was taken over. ${problems.join(" ")}`);
      else if (!found.length && !castings.length && !changes.length) {
        this.#report(`Everything in the file is here already.${unknownText(given)}`);
      } else if (found.some(({ same }) => same) || changes.length) this.#askWhich(given);
      else await this.#take(given, []);
    } catch (error) {
      this.#report(`Nothing was taken over: ${reasonOf(error)}`);
    }
  }

  /**
   * Ask what to do with each book whose name is here already, and with settings, forms and patterns.
   * @param {ReadFile} given
   */
  #askWhich(given) {
    const { found, changes } = given;
    const place = one(this.root, "[data-asking]");
    const rows = found.map((each, at) => (each.same ? clashRow(each, at) : null));
    const others = changes.map(changeRow);
    const chosen = (/** @type {HTMLElement | null} */ item) =>
      item?.querySelector("input:checked")?.getAttribute("value") === "replace";
    const take = button("Take them over", () => {
      const wanted = changes.filter((_, at) => chosen(others[at]));
      return this.#take({ ...given, changes: wanted }, rows.map(chosen));
    });
    const leave = button("Leave it", () => this.#report("Nothing was taken over."));
    place.replaceChildren(...rows.filter((item) => item !== null), ...others, take, leave);
    this.#report("");
    show(place, true);
  }

  /**
   * @param {ReadFile} given
   * @param {boolean[]} replace
   */
  async #take(given, replace) {
    try {
      await importFile(this.books, given, replace);
      const kept = replace.some(Boolean) ? ` What was here before is kept ${this.#keptWhere()}.` : "";
      const names = [
        ...given.found.map(({ whole }) => whole.name),
        ...given.castings.map(({ name }) => name),
        ...given.changes.map(({ kind }) => KINDS[kind]),
      ];
      const taken = names.length ? `Taken over: ${names.join(", ")}.${kept}` : "Nothing was taken over.";
      this.#report(taken + unknownText(given));
      if (given.changes.length) this.root.dispatchEvent(new Event("changed"));
    } catch (error) {
      this.#report(`Nothing was taken over: ${reasonOf(error)}`);
    }
  }

  /** Where the books that files replaced are listed. */
  #keptWhere() {
    return this.root.querySelector("[data-replaced]") ? "below" : "on the page of the heap book";
  }

  /** Show what files replaced, each with a way to bring it back. */
  async showReplaced() {
    const replaced = await this.books.replaced();
    const place = one(this.root, "[data-replaced]");
    place.replaceChildren(...replaced.map((each) => this.#replacedRow(each)));
    show(place, replaced.length > 0);
  }

  /** @param {Replaced & {book: Book}} replaced */
  #replacedRow({ id, book, events }) {
    const item = fresh("replaced");
    fill(item, { words: `Kept: what “${book.name}” held before (${extentText(events)}).` });
    describeButtons(item, `replaced-${id}`);
    one(item, "[data-bring-back]").addEventListener("click", async () => {
      await asExported(this.books, () => this.books.bringBack(id));
      this.#report(`“${book.name}” holds again what it held before.`);
    });
    const drop = one(item, "[data-drop]");
    drop.addEventListener("click", () => {
      if (isSecondTap(drop, "Tap again to throw it away")) this.books.dropReplaced(id);
    });
    return item;
  }

  /** @param {string} words */
  #report(words) {
    show(one(this.root, "[data-asking]"), false);
    say(one(this.root, "[data-file-said]"), words);
  }
}

/** What of a file has no use here, in words. */
function unknownText(/** @type {ReadFile} */ { unknown }) {
  const names = [...new Set(unknown)].map((name) => `“${name}”`).join(", ");
  return names && ` The file also holds ${names}: this sandmix is older and does nothing with it.`;
}

/**
 * What there is to choose from for one book: the one here, and the one in the file.
 * @param {Found} found
 * @param {number} at
 */
function clashRow({ whole, here = [] }, at) {
  const item = fresh("clash");
  fill(item, {
    words: `“${whole.name}” is here already, with other entries`,
    here: `Here: ${extentText(here)}.`,
    file: `In the file: ${extentText(whole.events)}.`,
    newer: newerText(here, whole.events),
  });
  for (const chip of all(item, "input")) chip.setAttribute("name", `clash-${at}`);
  return item;
}

/**
 * What there is to choose from for settings, forms or patterns of a file. What is here stays unless a person chooses otherwise.
 * @param {Change} change
 */
function changeRow({ kind, names, clashes }) {
  const item = fresh("change");
  const count = kind === "settings" ? "" : ` (${names.length})`;
  const other = clashes
    ? "Something else is here in its place; it can be brought back afterwards."
    : "Nothing of it is here yet.";
  fill(item, { words: `The file also holds ${KINDS[kind]}${count}. ${other}` });
  for (const chip of all(item, "input", HTMLInputElement)) {
    chip.name = `change-${kind}`;
    chip.checked = chip.value === (clashes ? "keep" : "replace");
  }
  return item;
}
