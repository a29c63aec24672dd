// @ts-check
/** An answer at once whose likely ranges follow, where an answer with them took long: a new heat is solved dozens of times for its range. */

/** @import {Answer, Refusal, Request} from "./answer-types.js" */
/** @typedef {Answer | Refusal} Reply */

const LONG_MS = 300;

export class QuickFirst {
  #takesLong = false;

  /**
   * @param {Request} request
   * @param {(request: Request) => Promise<Reply>} ask
   * @param {(answer: Reply) => void} show is given the answer without ranges
   */
  async ask(request, ask, show) {
    if (this.#takesLong) {
      const quick = await ask({ ...request, doubt: false });
      if (!quick.ok) return quick;
      show(quick);
    }
    const from = performance.now();
    const answer = await ask(request);
    this.#takesLong ||= performance.now() - from > LONG_MS;
    return answer;
  }
}
