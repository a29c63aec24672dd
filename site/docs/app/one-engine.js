// @ts-check
/** The calculator of a page, made only once. It starts at the first question, or when it is told to. */

import { Engine } from "./engine.js";
import { inWishedUnits, setUnitsAside } from "./settings.js";

/** @import {Ask, Request, WithFiles} from "./answer-types.js" */

/** @type {Engine | undefined} */
let engine;

export function theEngine() {
  engine ??= makeEngine();
  return engine;
}

/**
 * Ask the calculator.
 * @type {Ask}
 */
export const askTheEngine = /** @type {any} */ ((/** @type {Request} */ request) => theEngine().ask(request));

/** Wait until the calculator runs or has failed; at once where nothing asked for it. */
export function engineStarted() {
  return new Promise((resolve) => {
    if (engine?.state !== "loading") return resolve(undefined);
    engine.addEventListener("state", resolve, { once: true });
  });
}

function makeEngine() {
  const made = new Engine(new URL("worker.js", import.meta.url));
  const { ask } = made;
  made.ask = /** @type {any} */ (
    async (/** @type {Request} */ request, /** @type {WithFiles} */ more) => {
      const answer = await ask(inWishedUnits(request), more);
      if ("shown_in" in request || answer.ok || !answer.problems.some(({ word }) => word === "shown_in")) return answer;
      setUnitsAside();
      return ask(request, more);
    }
  );
  made.addEventListener("state", () => made.state === "ready" && prepareNextVisit(made));
  return made;
}

/** @param {Engine} started */
async function prepareNextVisit(started) {
  if (started.fromSnapshot) return void (document.documentElement.dataset.snapshot = "used");
  const { keepSnapshotWhenQuiet } = await import("./snapshot-keeper.js");
  await keepSnapshotWhenQuiet(started);
}
