// @ts-check
/** The calculator of a page with a form: started with the page, and how far it is. */

import { one, say, show } from "./dom.js";
import { mendKept } from "./offline.js";
import { theEngine } from "./one-engine.js";
import { reasonOf } from "./problems.js";

/** @import {Calculator, Progress} from "./engine.js" */

/**
 * The engine, or a stand-in that says why there is none. What a person types is kept either way.
 * @param {HTMLElement} root
 * @returns {Calculator}
 */
export function startEngine(root) {
  try {
    const engine = theEngine();
    engine.addEventListener("state", () => showEngine(root, engine));
    engine.addEventListener("progress", (event) => showProgress(root, /** @type {CustomEvent} */ (event).detail));
    engine.start();
    return engine;
  } catch (error) {
    const trouble = `${reasonOf(error)}.`;
    const none = { state: "failed", trouble, ask: () => Promise.reject(new Error(trouble)) };
    showEngine(root, none);
    return none;
  }
}

/**
 * @param {HTMLElement} root
 * @param {Pick<Calculator, "state" | "trouble">} engine
 */
function showEngine(root, { state, trouble }) {
  const place = one(root, "[data-engine]");
  place.dataset.engine = state;
  document.documentElement.dataset.engine = state;
  show(place, state !== "ready");
  /** @type {Record<string, string>} */
  const words = {
    loading: loadingWords(),
    failed: `The calculator did not start here: ${trouble || "no reason was given."} What you type is saved.`,
  };
  if (state === "failed") mendKept().catch(() => {});
  say(one(place, "[data-engine-words]"), words[state] ?? "");
  show(one(place, "[data-engine-progress]"), state === "loading");
}

/** Where a service worker has the files, nothing is loaded over the network; where there can be none, each visit loads them. */
function loadingWords() {
  const { serviceWorker } = navigator;
  if (serviceWorker?.controller) return "Calculator starting";
  const megabytes = one(document, "script[data-runtime-mb]").dataset.runtimeMb;
  return `Calculator loading, ${megabytes} MB${serviceWorker ? ", once" : ""}`;
}

/**
 * @param {HTMLElement} root
 * @param {Progress} progress
 */
function showProgress(root, { loaded, total }) {
  const bar = one(root, "[data-engine-progress]", HTMLProgressElement);
  bar.max = total || 1;
  bar.value = loaded;
}
