// @ts-check
/**
 * A form's files: picked, dropped or taken away. A browser keeps no file over a reload, so a form keeps only its
 * name, and
 * the worker reads the file again for each question.
 */

import { all, one, say, show } from "./dom.js";
import { inputOf, isAsked, textIn, wordOf } from "./fields.js";
import { sizeText } from "./figure-text.js";

/** @import {Problem, Request} from "./answer-types.js" */
/** @import {Calculator} from "./engine.js" */
/** @typedef {{word: string, message: string}} LostFile a file whose name the form holds, and that is gone */

const TICK_MS = 1000;

/** The files of one form, and the progress of a question with them. It sends "slow" when a question takes a while. */
export class Uploads extends EventTarget {
  /** @type {Map<string, File>} by word */
  #files = new Map();
  /** @type {AbortController | null} */
  #running = null;
  /** Whether the files wait until a person asks for an answer. */
  waits = false;

  /** @param {import("./form.js").Form} form */
  constructor(form) {
    super();
    this.fields = all(form.root, '[data-field][data-kind="upload"]');
    for (const field of this.fields) this.#start(field, form);
    form.addEventListener("changed", () => this.#stopUnlessAsked());
  }

  /**
   * The file that a form names and that is gone, if there is one.
   * @returns {LostFile | undefined}
   */
  lost() {
    const field = this.fields.find((each) => isAsked(each) && textIn(each) && !this.#fileOf(each));
    if (!field) return undefined;
    const words = `“${textIn(field)}” is not here any more, since a browser keeps no file. Choose it again.`;
    return { word: wordOf(field), message: `${labelOf(field)}: ${words}` };
  }

  /**
   * The answer to a question with these files. What is wrong with a file comes back as a problem of its field.
   * @param {Calculator} engine
   * @param {Request} request
   */
  async ask(engine, request) {
    const field = this.#askedField();
    const file = field && this.#fileOf(field);
    if (!field || !file) return engine.ask(request);
    this.#running = new AbortController();
    const { signal } = this.#running;
    const progress = new FileProgress(field, file, () => this.dispatchEvent(new Event("slow")));
    try {
      return await engine.ask(request, {
        files: { [nameOf(file)]: file },
        signal,
        onRead: (read) => progress.show(read),
      });
    } catch (error) {
      if (!(error instanceof Error) || error.name !== "UnreadFile") throw error;
      /** @type {Problem} */
      const problem = {
        word: wordOf(field),
        given: file.name,
        allowed: "",
        message: `${labelOf(field)}: ${error.message}`,
      };
      return { ok: /** @type {const} */ (false), problems: [problem] };
    } finally {
      this.#running = null;
      progress.end();
    }
  }

  #askedField() {
    return this.fields.find((field) => isAsked(field) && this.#fileOf(field));
  }

  /** Stop a question if its file was cleared, or if another way was chosen. */
  #stopUnlessAsked() {
    if (!this.#askedField()) this.#running?.abort();
  }

  /** @param {HTMLElement} field */
  #fileOf(field) {
    const file = this.#files.get(wordOf(field));
    return file && nameOf(file) === textIn(field) ? file : undefined;
  }

  /**
   * @param {HTMLElement} field
   * @param {import("./form.js").Form} form
   */
  #start(field, form) {
    const picker = pickerOf(field);
    const take = (/** @type {File | undefined} */ file) => {
      if (file && fits(field, file)) this.#put(field, file);
    };
    picker.addEventListener("input", (event) => event.stopPropagation());
    picker.addEventListener("change", () => {
      take(picker.files?.[0]);
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
    inputOf(field).addEventListener("put", () => {
      this.#show(field);
      this.#stopUnlessAsked();
    });
    document.addEventListener("dragover", (event) => {
      if (!hasFile(event)) return;
      event.preventDefault();
      if (isAsked(field)) field.dataset.over = "";
    });
    document.addEventListener("dragleave", (event) => event.relatedTarget || delete field.dataset.over);
    document.addEventListener("drop", (event) => {
      delete field.dataset.over;
      if (!hasFile(event)) return;
      event.preventDefault();
      form.chooseWayOf(wordOf(field));
      form.reveal(wordOf(field));
      take(event.dataTransfer?.files[0]);
    });
    this.#show(field);
  }

  /**
   * @param {HTMLElement} field
   * @param {File | null} file
   */
  #put(field, file) {
    this.waits = false;
    this.#running?.abort();
    if (file) this.#files.set(wordOf(field), file);
    const name = /** @type {HTMLInputElement} */ (inputOf(field));
    name.value = file ? nameOf(file) : "";
    this.#show(field);
    name.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** @param {HTMLElement} field */
  #show(field) {
    const [name, file] = [textIn(field), this.#fileOf(field)];
    show(one(field, "[data-chosen]"), name !== "");
    say(one(field, "[data-file-name]"), name);
    say(one(field, "[data-file-size]"), file ? sizeText(file.size) : "");
    show(one(field, "[data-file-lost]"), name !== "" && !file);
    say(one(field, "[data-pick-words]"), name ? "Choose another file" : "Choose a file");
    one(field, ".pick").classList.toggle("quiet", Boolean(file));
  }
}

/** How far a file is while it is being read and measured. */
class FileProgress {
  #since = Date.now();
  #phase = "";
  #read = "";

  /**
   * @param {HTMLElement} field
   * @param {File} file
   * @param {() => void} onSlow called once it takes a while
   */
  constructor(field, file, onSlow) {
    this.field = field;
    this.file = file;
    this.place = one(field, "[data-under-way]");
    this.bar = one(field, "[data-file-progress]", HTMLProgressElement);
    this.#enter("waiting for the calculator");
    this.ticking = setInterval(() => {
      if (this.place.hidden) onSlow();
      show(this.place, true);
      say(one(field, "[data-file-said]"), `${file.name}: ${this.#phase}`);
      this.#tick();
    }, TICK_MS);
  }

  /** @param {{read: number, of: number}} read in bytes */
  show({ read, of }) {
    if (read >= of) return this.#enter("measuring");
    this.#enter("reading", `${sizeText(read)} of ${sizeText(of)}`);
    this.bar.max = of;
    this.bar.value = read;
  }

  end() {
    clearInterval(this.ticking);
    show(this.place, false);
    say(one(this.field, "[data-file-said]"), "");
  }

  /**
   * @param {string} phase
   * @param {string} [read] how much has been read
   */
  #enter(phase, read = "") {
    if (phase !== this.#phase) this.#since = Date.now();
    this.#phase = phase;
    this.#read = read;
    if (!read) this.bar.removeAttribute("value");
    this.#tick();
  }

  #tick() {
    const seconds = Math.floor((Date.now() - this.#since) / 1000);
    const far = this.#read ? ` ${this.#read}` : `, ${seconds} s so far`;
    say(one(this.field, "[data-file-words]"), `${this.file.name}: ${this.#phase}${far}`);
  }
}

/**
 * Whether a file is small enough to be read at all; if not, its field says so.
 * @param {HTMLElement} field
 * @param {File} file
 */
function fits(field, file) {
  const most = Number(pickerOf(field).dataset.mostBytes);
  const place = one(field, "[data-problem]");
  const small = file.size <= most;
  if (!small) {
    const sizes = `“${file.name}” has ${sizeText(file.size)}, and at most ${sizeText(most)} are read.`;
    say(place, `${labelOf(field)}: ${sizes} Save it with fewer facets.`);
  }
  show(place, !small);
  return small;
}

/**
 * The name of a file as a form keeps it.
 * @param {File} file
 */
function nameOf(file) {
  return file.name.trim();
}

/** @param {HTMLElement} field */
function pickerOf(field) {
  return one(field, "[data-upload]", HTMLInputElement);
}

/** @param {HTMLElement} field */
function labelOf(field) {
  return one(field, "label").textContent ?? "";
}

/** @param {DragEvent} event */
function hasFile(event) {
  return Boolean(event.dataTransfer?.types.includes("Files"));
}
