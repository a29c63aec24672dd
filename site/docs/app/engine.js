// @ts-check
/**
 * The engine as the page knows it: ask an object, get an object. Whatever happens to the worker, a promise that was
 * given is kept: a question that the worker took with it is asked again once, of a new worker, and then refused in words.
 * One with files may take as long as it likes, since it tells how it goes and can be given up.
 *
 * @typedef {"idle" | "loading" | "ready" | "failed"} State
 * @typedef {{read: number, of: number}} Read how many bytes of its files have been read
 * @typedef {{files?: Record<string, File>, signal?: AbortSignal, heard?: (read: Read) => void}} Beside what comes beside a question
 * @typedef {{text: string, beside: Beside, tries: number, patience: number, resolve: (answer: any) => void, reject: (reason: Error) => void}} Question
 */

/** How long a running engine may think before it counts as dead. */
const ANSWER_MS = 20_000;
/** How long a starting engine may go without a byte arriving or the start being over. */
const START_MS = 60_000;
const TRIES = 2;

export class Engine extends EventTarget {
  /** @type {State} */
  #state = "idle";
  /** @type {Worker | null} */
  #worker = null;
  /** @type {Map<number, Question>} */
  #questions = new Map();
  #lastId = 0;
  #startPatience = 0;
  #trouble = "";
  #workerUrl;

  /** @param {string | URL} workerUrl */
  constructor(workerUrl) {
    super();
    this.#workerUrl = workerUrl;
  }

  get state() {
    return this.#state;
  }

  /** What kept the engine from starting; empty otherwise. */
  get trouble() {
    return this.#trouble;
  }

  /** Start the worker, unless it runs; after a failure, try again. */
  start() {
    if (this.#worker) return;
    const worker = new Worker(this.#workerUrl, { type: "module" });
    this.#worker = worker;
    this.#enter("loading");
    this.#waitForStart();
    worker.addEventListener("message", ({ data }) => worker === this.#worker && this.#hear(data));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      if (worker === this.#worker) this.#lose(event.message || "its worker could not be loaded.");
    });
    for (const [id, question] of this.#questions) this.#send(id, question);
  }

  /**
   * The engine's answer; starts the engine where that has not been done.
   * @param {object} request
   * @param {Beside} [beside]
   * @returns {Promise<any>} rejected by an AbortError where it was given up, by Unread where a file cannot be read
   */
  ask(request, beside = {}) {
    if (this.#state === "failed") return Promise.reject(notStarted(this.#trouble));
    return new Promise((resolve, reject) => {
      const question = { text: JSON.stringify(request), beside, tries: 0, patience: 0, resolve, reject };
      const id = ++this.#lastId;
      this.#questions.set(id, question);
      beside.signal?.addEventListener("abort", () => this.#giveUp(id));
      if (this.#worker) this.#send(id, question);
      else this.start();
    });
  }

  /** Drop the worker and start another; questions without an answer go to the new one. */
  restart() {
    this.#drop();
    this.start();
  }

  /** Python cannot be stopped, only its worker can. @param {number} id */
  #giveUp(id) {
    if (!this.#questions.has(id)) return;
    this.#settle(id, ({ reject }) => reject(new DOMException("Given up.", "AbortError")));
    this.restart();
  }

  /** @param {number} id @param {Question} question */
  #send(id, question) {
    question.tries += 1;
    this.#worker?.postMessage({ id, text: question.text, files: question.beside.files });
    if (this.#state === "ready") this.#waitForAnswer(question);
  }

  /**
   * Nobody is hurried while a file is at work, which those behind it wait for.
   * @param {Question} question
   */
  #waitForAnswer(question) {
    const isSlow = () => Array.from(this.#questions.values()).some(({ beside }) => beside.files);
    question.patience = setTimeout(
      () => (isSlow() ? this.#waitForAnswer(question) : this.#lose("it gave no answer.")),
      ANSWER_MS,
    );
  }

  #waitForStart() {
    clearTimeout(this.#startPatience);
    this.#startPatience = setTimeout(() => this.#lose("it took too long to start."), START_MS);
  }

  /**
   * @param {{id?: number, text?: string, trouble?: string, unread?: string, read?: Read, ready?: boolean, progress?: {loaded: number, total: number}}} message
   */
  #hear({ id, text, trouble, unread, read, ready, progress }) {
    if (progress) {
      this.#waitForStart();
      this.dispatchEvent(new CustomEvent("progress", { detail: progress }));
    } else if (ready) {
      clearTimeout(this.#startPatience);
      this.#enter("ready");
      for (const question of this.#questions.values()) this.#waitForAnswer(question);
    } else if (read && id !== undefined) {
      this.#questions.get(id)?.beside.heard?.(read);
    } else if (unread !== undefined && id !== undefined) {
      this.#settle(id, ({ reject }) => reject(new Unread(unread)));
    } else if (text !== undefined && id !== undefined) {
      this.#settle(id, (question) => question.resolve(JSON.parse(text)));
    } else {
      this.#lose(trouble ?? "it said something that is not understood.");
    }
  }

  /** @param {number} id @param {(question: Question) => void} how */
  #settle(id, how) {
    const question = this.#questions.get(id);
    if (!question) return;
    clearTimeout(question.patience);
    this.#questions.delete(id);
    how(question);
  }

  /**
   * The worker is gone or of no use. One that had been running is replaced, and asked again what it left open;
   * one that did not start leaves the engine failed until someone starts it again.
   * @param {string} why
   */
  #lose(why) {
    const ran = this.#state === "ready";
    this.#drop();
    for (const [id, question] of this.#questions) {
      if (!ran) this.#settle(id, ({ reject }) => reject(notStarted(why)));
      else if (question.beside.files)
        this.#settle(id, ({ reject }) =>
          reject(
            new Unread("the calculator stopped at it, as where memory runs out. Save the shape with fewer facets."),
          ),
        );
      else if (question.tries >= TRIES) this.#settle(id, ({ reject }) => reject(stoppedTwice(why)));
    }
    if (ran) this.start();
    else this.#enter("failed", why);
  }

  #drop() {
    clearTimeout(this.#startPatience);
    for (const question of this.#questions.values()) clearTimeout(question.patience);
    this.#worker?.terminate();
    this.#worker = null;
  }

  /** @param {State} state @param {string} [trouble] */
  #enter(state, trouble = "") {
    this.#state = state;
    this.#trouble = trouble;
    this.dispatchEvent(new CustomEvent("state", { detail: { state, trouble } }));
  }
}

/** A file that could not be read or was too much, in words that go on from its name. */
export class Unread extends Error {
  name = "Unread";
}

/** @param {string} why */
function notStarted(why) {
  return new Error(`The calculator did not start: ${why} Open the page again to try once more.`);
}

/** @param {string} why */
function stoppedTwice(why) {
  return new Error(`The calculator stopped twice on this question: ${why} Change a figure and try again.`);
}
