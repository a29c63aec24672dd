// @ts-check
/**
 * The engine as the page knows it: ask an object, get an object. Whatever happens to the worker, a promise that was
 * given is kept: a question that the worker took with it is asked again once, of a new worker, and then refused in words.
 *
 * @typedef {"idle" | "loading" | "ready" | "failed"} State
 * @typedef {{text: string, tries: number, patience: number, resolve: (answer: any) => void, reject: (reason: Error) => void}} Question
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
   * @returns {Promise<any>}
   */
  ask(request) {
    if (this.#state === "failed") return Promise.reject(notStarted(this.#trouble));
    return new Promise((resolve, reject) => {
      const question = { text: JSON.stringify(request), tries: 0, patience: 0, resolve, reject };
      const id = ++this.#lastId;
      this.#questions.set(id, question);
      if (this.#worker) this.#send(id, question);
      else this.start();
    });
  }

  /** Drop the worker and start another; questions without an answer go to the new one. */
  restart() {
    this.#drop();
    this.start();
  }

  /** @param {number} id @param {Question} question */
  #send(id, question) {
    question.tries += 1;
    this.#worker?.postMessage({ id, text: question.text });
    if (this.#state === "ready") this.#waitForAnswer(question);
  }

  /** @param {Question} question */
  #waitForAnswer(question) {
    question.patience = setTimeout(() => this.#lose("it gave no answer."), ANSWER_MS);
  }

  #waitForStart() {
    clearTimeout(this.#startPatience);
    this.#startPatience = setTimeout(() => this.#lose("it took too long to start."), START_MS);
  }

  /** @param {{id?: number, text?: string, trouble?: string, ready?: boolean, progress?: {loaded: number, total: number}}} message */
  #hear({ id, text, trouble, ready, progress }) {
    if (progress) {
      this.#waitForStart();
      this.dispatchEvent(new CustomEvent("progress", { detail: progress }));
    } else if (ready) {
      clearTimeout(this.#startPatience);
      this.#enter("ready");
      for (const question of this.#questions.values()) this.#waitForAnswer(question);
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

/** @param {string} why */
function notStarted(why) {
  return new Error(`The calculator did not start: ${why} Open the page again to try once more.`);
}

/** @param {string} why */
function stoppedTwice(why) {
  return new Error(`The calculator stopped twice on this question: ${why} Change a figure and try again.`);
}
