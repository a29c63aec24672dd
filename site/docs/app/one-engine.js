// @ts-check
/** The calculator of a page that has no form: started at the first question, and only once. */

/** @import {Ask, Request} from "./answer-types.js" */
/** @import {Engine} from "./engine.js" */

/** @type {Promise<Engine> | undefined} */
let engine;

/** @returns {Promise<Engine>} */
export function theEngine() {
  engine ??= import("./engine.js").then(({ Engine }) => new Engine(new URL("worker.js", import.meta.url)));
  return engine;
}

/**
 * Ask the calculator, which starts at the first question.
 * @type {Ask}
 */
export const askTheEngine = /** @type {any} */ (
  async (/** @type {Request} */ request) => (await theEngine()).ask(request)
);
