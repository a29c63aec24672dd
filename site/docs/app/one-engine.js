// @ts-check
/** The calculator of a page that has no form: started at the first question, and only once. */

import { Engine } from "./engine.js";

/** @import {Ask, Request} from "./answer-types.js" */

/** @type {Engine | undefined} */
let engine;

/**
 * Ask the calculator, which starts at the first question.
 * @type {Ask}
 */
export const askTheEngine = /** @type {any} */ (
  (/** @type {Request} */ request) => {
    engine ??= new Engine(new URL("worker.js", import.meta.url));
    return engine.ask(request);
  }
);
