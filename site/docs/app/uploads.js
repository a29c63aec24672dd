// @ts-check
/**
 * A form's files: picked, dropped or taken away. A browser keeps no file over a reload, so a form keeps its name alone, and
 * the file itself is read anew by the worker at each question: nothing of it is held here.
 */

import { all, one, say, show } from "./dom.js";
import { wordOf } from "./form.js";

/**
 * @typedef {{word: string, message: string}} Lost a file that stands in the form and is not here
 */

const TICK_MS = 1000;
const MB = 1e6;

/** The files of one form, and how a question with them goes. Tells `slow` where one takes its time. */
export class Uploads extends EventTarget {
  /** @type {Map<string, File>} by word */
  #files = new Map();
  /** @type {AbortController | null} */
  #running = null;
  /** Whether the files wait until an answer is asked for outright. */
  waits = false;

  /** @param {import("./form.js").Form} form */
  constructor(form) {
    super();
    this.fields = all(form.root, '[data-field][data-kind="upload"]');
    for (const field of this.fields) this.#open(field, form);
    form.addEventListener("changed", () => this.#stopUnlessAsked());
  }

  /**
   * The file that a form names and that is not here any more, if there is one.
   * @returns {Lost | undefined}
   */
  lost() {
    const field = this.fields.find((field) => counts(field) && textOf(field) && !this.#file(field));
    const word = field && wordOf(field);
    return word
      ? {
          word,
          message: `${labelOf(field)}: “${textOf(field)}” is not here any more, since a browser keeps no file. Choose it again.`,
        }
      : undefined;
  }

  /**
   * The engine's answer to a question with these files beside it; what is wrong with a file comes back as a problem of its field.
   * @param {{ask: (request: object, beside?: object) => Promise<any>}} engine
   * @param {object} request
   */
  async asked(engine, request) {
    const field = this.fields.find((field) => counts(field) && this.#file(field));
    if (!field) return engine.ask(request);
    const file = /** @type {File} */ (this.#file(field));
    this.#running = new AbortController();
    const way = new UnderWay(field, file, () => this.dispatchEvent(new Event("slow")));
    try {
      return await engine.ask(request, {
        files: { [file.name]: file },
        signal: this.#running.signal,
        heard: (/** @type {any} */ read) => way.reads(read),
      });
    } catch (error) {
      if (!(error instanceof Error) || error.name !== "Unread") throw error;
      return {
        ok: false,
        problems: [
          { word: wordOf(field), given: file.name, allowed: "", message: `${labelOf(field)}: ${error.message}` },
        ],
      };
    } finally {
      this.#running = null;
      way.over();
    }
  }

  /** A question is not gone on with where its file was cleared, or another way was chosen. */
  #stopUnlessAsked() {
    if (!this.fields.some((field) => counts(field) && this.#file(field))) this.#running?.abort();
  }

  /** @param {HTMLElement} field */
  #file(field) {
    const file = this.#files.get(wordOf(field));
    return file?.name === textOf(field) ? file : undefined;
  }

  /** @param {HTMLElement} field @param {import("./form.js").Form} form */
  #open(field, form) {
    const picker = pickerOf(field);
    const took = (/** @type {File | undefined} */ file) => {
      if (!file || !this.#fits(field, file)) return;
      this.#put(field, file);
    };
    picker.addEventListener("input", (event) => event.stopPropagation());
    picker.addEventListener("change", () => {
      took(picker.files?.[0]);
      picker.value = "";
    });
    one(field, "[data-take-away]").addEventListener("click", () => {
      this.#put(field, null);
      picker.focus();
    });
    one(field, "[data-cancel]").addEventListener("click", () => {
      this.waits = true;
      this.#running?.abort();
      picker.focus();
    });
    one(field, "[data-input]").addEventListener("put", () => {
      this.#show(field);
      this.#stopUnlessAsked();
    });
    document.addEventListener("dragover", (event) => {
      if (!hasFile(event)) return;
      event.preventDefault();
      if (counts(field)) field.dataset.over = "";
    });
    document.addEventListener("dragleave", (event) => event.relatedTarget || delete field.dataset.over);
    document.addEventListener("drop", (event) => {
      delete field.dataset.over;
      if (!hasFile(event)) return;
      event.preventDefault();
      form.reveal(wordOf(field));
      took(event.dataTransfer?.files[0]);
    });
    this.#show(field);
  }

  /**
   * A file that is too large is not even looked at.
   * @param {HTMLElement} field
   * @param {File} file
   */
  #fits(field, file) {
    const most = Number(pickerOf(field).dataset.mostBytes);
    const place = one(field, "[data-problem]");
    const fits = file.size <= most;
    if (!fits)
      say(
        place,
        `${labelOf(field)}: “${file.name}” has ${megabytes(file.size)}, and at most ${megabytes(most)} are read. Save it with fewer facets.`,
      );
    show(place, !fits);
    return fits;
  }

  /** @param {HTMLElement} field @param {File | null} file */
  #put(field, file) {
    this.waits = false;
    this.#running?.abort();
    if (file) this.#files.set(wordOf(field), file);
    const kept = /** @type {HTMLInputElement} */ (one(field, "[data-input]"));
    kept.value = file?.name ?? "";
    this.#show(field);
    kept.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** @param {HTMLElement} field */
  #show(field) {
    const [name, file] = [textOf(field), this.#file(field)];
    show(one(field, "[data-chosen]"), name !== "");
    say(one(field, "[data-file-name]"), name);
    say(one(field, "[data-file-size]"), file ? megabytes(file.size) : "");
    show(one(field, "[data-file-lost]"), name !== "" && !file);
    say(one(field, "[data-pick-words]"), name ? "Choose another file" : "Choose a file");
    one(field, ".pick").classList.toggle("quiet", Boolean(file));
  }
}

/** How far a file is, for as long as it is at work: read so many megabytes, then measured for so many seconds. */
class UnderWay {
  #since = Date.now();
  #words = "";
  #far = "";

  /**
   * @param {HTMLElement} field
   * @param {File} file
   * @param {() => void} slow what to do where it takes its time
   */
  constructor(field, file, slow) {
    this.field = field;
    this.file = file;
    this.bar = /** @type {HTMLProgressElement} */ (one(field, "[data-file-progress]"));
    this.bar.removeAttribute("value");
    this.#phase("waiting for the calculator");
    const place = one(field, "[data-under-way]");
    this.ticking = setInterval(() => {
      if (place.hidden) slow();
      show(place, true);
      say(one(field, "[data-file-said]"), `${file.name}: ${this.#words}`);
      this.#tick();
    }, TICK_MS);
  }

  /** @param {{read: number, of: number}} read */
  reads({ read, of }) {
    if (read < of) {
      this.bar.max = of;
      this.bar.value = read;
      this.#phase("reading", `${megabytes(read)} of ${megabytes(of)}`);
    } else {
      this.bar.removeAttribute("value");
      this.#phase("measuring");
    }
  }

  /** @param {string} words @param {string} [far] */
  #phase(words, far = "") {
    if (words !== this.#words) this.#since = Date.now();
    this.#words = words;
    this.#far = far;
    this.#tick();
  }

  #tick() {
    const seconds = Math.floor((Date.now() - this.#since) / 1000);
    say(
      one(this.field, "[data-file-words]"),
      `${this.file.name}: ${this.#words}${this.#far ? ` ${this.#far}` : `, ${seconds} s so far`}`,
    );
  }

  over() {
    clearInterval(this.ticking);
    show(one(this.field, "[data-under-way]"), false);
    say(one(this.field, "[data-file-said]"), "");
  }
}

/** @param {HTMLElement} field */
function pickerOf(field) {
  return /** @type {HTMLInputElement} */ (one(field, "[data-upload]"));
}

/** Whether a field is asked: not where another way was chosen. @param {HTMLElement} field */
function counts(field) {
  return !field.hidden && !field.closest("[data-option][hidden]");
}

/** @param {HTMLElement} field */
function textOf(field) {
  return /** @type {HTMLInputElement} */ (one(field, "[data-input]")).value;
}

/** @param {HTMLElement} field */
function labelOf(field) {
  return one(field, "label").textContent || "";
}

/** @param {DragEvent} event */
function hasFile(event) {
  return Boolean(event.dataTransfer?.types.includes("Files"));
}

/** @param {number} bytes */
function megabytes(bytes) {
  return bytes < MB ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / MB).toFixed(1)} MB`;
}
