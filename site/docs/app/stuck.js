// @ts-check
/** Figures that kept the calculator busy until it was stopped or the page was closed: a page never asks them again by itself. */

import { forget, keep, recall } from "./local-storage.js";

/** @import {Request} from "./answer-types.js" */
/** @import {Calculator} from "./engine.js" */

const LONG_MS = 5_000;
/** What to do where figures were stopped, and where a person stopped a file. */
export const TRY_AGAIN =
  "These figures stopped the calculator the last time. Change one, or press Answer to try again.";
export const MEASURE_AGAIN = "Press Answer to measure the file after all, or choose another.";

export class Stuck {
  #key;
  #engine;

  /**
   * @param {string} job
   * @param {Calculator} engine
   */
  constructor(job, engine) {
    this.#key = `stuck.${job}`;
    this.#engine = engine;
  }

  /** @param {Request} request */
  isOn(request) {
    return JSON.stringify(recall(this.#key)) === JSON.stringify(request);
  }

  /**
   * The answer to a request, which is noted while it takes long.
   * @template T
   * @param {Request} request
   * @param {() => Promise<T>} ask
   */
  async during(request, ask) {
    const note = () => this.#engine.state === "ready" && keep(this.#key, request);
    const noting = setInterval(note, LONG_MS);
    try {
      const answer = await ask();
      forget(this.#key);
      return answer;
    } finally {
      clearInterval(noting);
    }
  }
}
