// @ts-check
/**
 * The library as the page knows it: ask an object, get an object. Every promise is kept, whatever happens to the
 * worker: a question that the worker lost is asked once more, of a new worker, and then refused in words. A question with
 * files may take as long as it likes, since it shows how far it is and can be given up. A worker that started from a snapshot
 * and was lost, for whatever reason, is followed by one that starts from the site's files.
 */

import { FROM_FILES } from "./snapshot.js";

/** @import {Ask, WithFiles} from "./answer-types.js" */
/**
 * @typedef {"idle" | "loading" | "ready" | "failed"} EngineState
 * @typedef {{ask: Ask, state: string, trouble: string}} Calculator the engine, or what stands in for it
 * @typedef {{loaded: number, total: number}} Progress in bytes; the total is 0 if it is not known
 */
/**
 * @typedef {object} Early a worker that the page has started already
 * @property {string} address
 * @property {Worker} worker
 * @property {Message[]} said what it has said until now
 * @property {boolean} works
 */
/**
 * @typedef {object} Question
 * @property {string} text
 * @property {WithFiles} more
 * @property {number} tries
 * @property {ReturnType<typeof setTimeout> | undefined} patience
 * @property {(answer: any) => void} resolve
 * @property {(reason: Error) => void} reject
 */
/**
 * @typedef {object} Message what a worker says
 * @property {number} [id]
 * @property {string} [text] the answer
 * @property {string} [trouble]
 * @property {string} [unread] why a file could not be read
 * @property {{read: number, of: number}} [read]
 * @property {"snapshot"} [begins] it starts from a snapshot
 * @property {boolean} [ready]
 * @property {Progress} [progress]
 */

/** An engine that thinks longer than this counts as dead. */
export const ANSWER_MS = 20_000;
/** A start that goes this long without a byte or an end counts as failed. */
export const START_MS = 60_000;
/** A start from a snapshot takes a second or two on a slow phone. */
export const SNAPSHOT_MS = 15_000;
const TRIES = 2;
const TOO_LARGE =
  "the calculator stopped while it read this file, probably because memory ran out. Save the shape with fewer facets.";

export class Engine extends EventTarget {
  /** @type {EngineState} */
  #state = "idle";
  /** @type {Worker | null} */
  #worker = null;
  /** @type {Map<number, Question>} */
  #questions = new Map();
  #lastId = 0;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #startPatience;
  #trouble = "";
  #workerUrl;
  #fromSnapshot = false;
  #trustsSnapshots = true;

  /** @param {string | URL} workerUrl */
  constructor(workerUrl) {
    super();
    this.#workerUrl = workerUrl;
  }

  get state() {
    return this.#state;
  }

  /** Why the engine did not start; empty otherwise. */
  get trouble() {
    return this.#trouble;
  }

  /** Whether the worker started from a snapshot, not from the site's files. */
  get fromSnapshot() {
    return this.#fromSnapshot;
  }

  /** Whether a question waits for its answer. */
  get busy() {
    return this.#questions.size > 0;
  }

  /** Start the worker unless it runs. After a failure this tries again. */
  start() {
    if (this.#worker) return;
    const { worker, said } = this.#newWorker();
    this.#worker = worker;
    this.#fromSnapshot = false;
    this.#enter("loading");
    this.#waitForStart();
    worker.addEventListener("message", ({ data }) => worker === this.#worker && this.#receive(data));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      if (worker === this.#worker) this.#lose(event.message || "its worker could not be loaded.");
    });
    for (const message of said) this.#receive(message);
    for (const [id, question] of this.#questions) this.#send(id, question);
  }

  /** The worker that the page has started already, or a new one; and what it has said until now. */
  #newWorker() {
    const early = takeEarly();
    if (early?.works && early.address === String(this.#workerUrl)) return early;
    early?.worker.terminate();
    const name = this.#trustsSnapshots ? "" : FROM_FILES;
    return { worker: new Worker(this.#workerUrl, { type: "module", name }), said: [] };
  }

  /**
   * Ask a question. This starts the engine if nothing else did. The promise is rejected with an AbortError if the
   * question
   * was given up, and with an UnreadFile if a file cannot be read.
   * @type {Ask}
   */
  ask = (/** @type {object} */ request, /** @type {WithFiles} */ more = {}) => {
    if (this.#state === "failed") return Promise.reject(notStarted(this.#trouble));
    return new Promise((/** @type {(answer: any) => void} */ resolve, reject) => {
      const id = ++this.#lastId;
      /** @type {Question} */
      const question = { text: JSON.stringify(request), more, tries: 0, patience: undefined, resolve, reject };
      this.#questions.set(id, question);
      more.signal?.addEventListener("abort", () => this.#giveUp(id));
      if (this.#worker) this.#send(id, question);
      else this.start();
    });
  };

  /** Replace the worker. The new one gets the questions that have no answer yet. */
  restart() {
    this.#drop();
    this.start();
  }

  /**
   * Python cannot be stopped; its worker can.
   * @param {number} id
   */
  #giveUp(id) {
    if (!this.#questions.has(id)) return;
    this.#settle(id, ({ reject }) => reject(new DOMException("Given up.", "AbortError")));
    this.restart();
  }

  /**
   * @param {number} id
   * @param {Question} question
   */
  #send(id, question) {
    question.tries += 1;
    this.#worker?.postMessage({ id, text: question.text, files: question.more.files });
    if (this.#state === "ready") this.#waitForAnswer(question);
  }

  /**
   * Nothing is hurried while a file is being read, since all later questions wait for it.
   * @param {Question} question
   */
  #waitForAnswer(question) {
    const readsFiles = () => Array.from(this.#questions.values()).some(({ more }) => more.files);
    clearTimeout(question.patience);
    question.patience = setTimeout(() => {
      if (readsFiles()) this.#waitForAnswer(question);
      else this.#lose("it gave no answer.");
    }, ANSWER_MS);
  }

  #waitForStart(ms = START_MS) {
    clearTimeout(this.#startPatience);
    this.#startPatience = setTimeout(() => this.#lose("it took too long to start."), ms);
  }

  /** @param {Message} message */
  #receive({ id = 0, text, trouble, unread, read, begins, ready, progress }) {
    if (begins) {
      this.#fromSnapshot = true;
      this.#waitForStart(SNAPSHOT_MS);
    } else if (progress) {
      this.#waitForStart();
      this.dispatchEvent(new CustomEvent("progress", { detail: progress }));
    } else if (ready) {
      clearTimeout(this.#startPatience);
      this.#enter("ready");
      for (const question of this.#questions.values()) this.#waitForAnswer(question);
    } else if (read) {
      this.#questions.get(id)?.more.onRead?.(read);
    } else if (unread !== undefined) {
      this.#settle(id, ({ reject }) => reject(new UnreadFile(unread)));
    } else if (text !== undefined) {
      this.#settle(id, ({ resolve }) => resolve(JSON.parse(text)));
    } else {
      this.#lose(trouble ?? "it sent something that this page does not understand.");
    }
  }

  /**
   * @param {number} id
   * @param {(question: Question) => void} how
   */
  #settle(id, how) {
    const question = this.#questions.get(id);
    if (!question) return;
    clearTimeout(question.patience);
    this.#questions.delete(id);
    how(question);
  }

  /**
   * The worker is gone or of no use. A worker that had been running is replaced, and its open questions are asked
   * again. A worker that did not start from a snapshot is followed by one that starts from the files. One that did not
   * start from these leaves the engine failed until someone starts it again.
   * @param {string} why
   */
  #lose(why) {
    const ran = this.#state === "ready";
    const fromSnapshot = this.#fromSnapshot;
    if (fromSnapshot) this.#trustsSnapshots = false;
    this.#drop();
    if (fromSnapshot && !ran) return this.#startAgain();
    for (const [id, { more, tries }] of this.#questions) {
      const reason = ran ? lostReason(more, tries, why) : notStarted(why);
      if (reason) this.#settle(id, ({ reject }) => reject(reason));
    }
    if (ran) this.start();
    else this.#enter("failed", why);
  }

  /** Start another worker; that the last one did not start has nothing to do with the questions. */
  #startAgain() {
    for (const question of this.#questions.values()) question.tries = 0;
    this.start();
  }

  #drop() {
    clearTimeout(this.#startPatience);
    for (const question of this.#questions.values()) clearTimeout(question.patience);
    this.#worker?.terminate();
    this.#worker = null;
  }

  /**
   * @param {EngineState} state
   * @param {string} [trouble]
   */
  #enter(state, trouble = "") {
    this.#state = state;
    this.#trouble = trouble;
    this.dispatchEvent(new CustomEvent("state", { detail: { state, trouble } }));
  }
}

/**
 * The worker that `early.js` has started, once.
 * @returns {Early | undefined}
 */
function takeEarly() {
  const { earlyWorker } = /** @type {{earlyWorker?: Early}} */ (globalThis);
  if (!earlyWorker) return undefined;
  Object.assign(globalThis, { earlyWorker: undefined });
  Object.assign(earlyWorker.worker, { onmessage: null, onerror: null });
  return earlyWorker;
}

/** A file that could not be read or was too much. The message goes on from the file's name. */
export class UnreadFile extends Error {
  /** @override */
  name = "UnreadFile";
}

/**
 * Why a question is not asked again after its worker was lost; nothing if it is.
 * @param {WithFiles} more
 * @param {number} tries
 * @param {string} why
 */
function lostReason({ files }, tries, why) {
  if (files) return new UnreadFile(TOO_LARGE);
  if (tries < TRIES) return undefined;
  return new Error(`The calculator stopped twice on this question: ${why} Change a figure and try again.`);
}

/** @param {string} why */
function notStarted(why) {
  return new Error(`The calculator did not start: ${why} Open the page again to try once more.`);
}
