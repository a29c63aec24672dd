// @ts-check
import { startCastingJob } from "./casting-job.js";
import { all, one, say, show } from "./dom.js";
import { showHome } from "./home.js";
import { Job } from "./job.js";
import { store, tryStore } from "./local-storage.js";
import { keepOffline } from "./offline.js";
import { reasonOf } from "./problems.js";

/** @import {Calculator, Progress} from "./engine.js" */

const SCRIPT = one(document, "script[data-base]");
const BASE = new URL(`${SCRIPT.dataset.base || "."}/`, location.href).href;

store.addEventListener("refused", () => show(one(document, "[data-storage-refused]"), true));
tryStore();
pressBySpace();
const [[home], [job], [book]] = ["[data-today]", "[data-job]", "[data-book]"].map((part) => all(document, part));
if (home) showHome(home);
if (job) startJob(job);
if (book) startBook(book);
if (document.readyState === "complete") keepOffline(BASE);
else addEventListener("load", () => keepOffline(BASE));

/** @param {HTMLElement} root */
async function startJob(root) {
  liftBar(root);
  const inputs = import("./book-inputs.js");
  const engine = await startEngine(root);
  const { askWithBookAlone, withBook } = await inputs;
  const page = new Job(root, withBook(root, engine));
  root.dataset.listens = "";
  startCastingJob(root, page, engine);
  askWithBookAlone(page);
  (await import("./job-book.js")).startJobBook(root, page, engine);
  (await import("./patterns.js")).startPatterns(root, page);
}

/** @param {HTMLElement} root */
async function startBook(root) {
  const engine = await startEngine(root);
  const { startBookPage } = await import("./book-page.js");
  await startBookPage(root, engine);
}

/**
 * The engine, or a stand-in that says why there is none. What a person types is kept either way.
 * @param {HTMLElement} root
 * @returns {Promise<Calculator>}
 */
async function startEngine(root) {
  try {
    const { Engine } = await import("./engine.js");
    const engine = new Engine(new URL("worker.js", import.meta.url));
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
    loading: `Calculator loading, ${SCRIPT.dataset.runtimeMb} MB, once`,
    failed: `The calculator did not start here: ${trouble || "no reason was given."} What you type is saved.`,
  };
  say(one(place, "[data-engine-words]"), words[state] ?? "");
  show(one(place, "[data-engine-progress]"), state === "loading");
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

/** Let labels that act as buttons answer to the space bar too; the theme's own script handles Enter. */
function pressBySpace() {
  for (const label of all(document, "[data-press]")) {
    label.addEventListener("keydown", (event) => {
      if (event.key !== " ") return;
      event.preventDefault();
      label.click();
    });
  }
}

/**
 * Keep the bar above a keyboard that covers the page, and the page's end above the bar.
 * @param {HTMLElement} root
 */
function liftBar(root) {
  const bar = one(root, "[data-bar]");
  const view = window.visualViewport;
  const covered = () => (view ? Math.max(0, innerHeight - view.height - view.offsetTop) : 0);
  const lift = () => bar.style.setProperty("--lift", `${covered()}px`);
  view?.addEventListener("resize", lift);
  view?.addEventListener("scroll", lift);
  const measure = () => document.documentElement.style.setProperty("--bar", `${bar.offsetHeight}px`);
  new ResizeObserver(measure).observe(bar);
}
