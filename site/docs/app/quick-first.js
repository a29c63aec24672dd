// @ts-check
/**
 * An answer at once whose likely ranges follow, where an answer with them took long: a new heat is solved dozens of times for its range.
 * Nothing is recorded from an answer without ranges.
 */

/** @import {Answer, Refusal, Request} from "./answer-types.js" */
/** @import {Calculator} from "./engine.js" */
/** @typedef {Answer | Refusal} Reply */

const LONG_MS = 300;

export class QuickFirst {
  #engine;
  #takesLong = false;

  /** @param {Calculator} engine */
  constructor(engine) {
    this.#engine = engine;
  }

  /**
   * @param {Request} request
   * @param {(answer: Reply) => void} show is given the answer without ranges
   * @returns {Promise<Reply>}
   */
  async ask(request, show) {
    const { ask, state } = this.#engine;
    if (this.#takesLong) {
      const quick = await ask(Object.assign({}, request, { doubt: false }));
      if (!quick.ok) return quick;
      show(quick);
    }
    const from = performance.now();
    const answer = await ask(request);
    if (state === "ready") this.#takesLong ||= performance.now() - from > LONG_MS;
    return answer;
  }
}
