// @ts-check
import { all, one, say, show } from "./dom.js";
import { Job } from "./job.js";
import { offline } from "./offline.js";
import { today } from "./home.js";
import { store, tryStore } from "./local-storage.js";

const SCRIPT = /** @type {HTMLElement} */ (document.querySelector("script[data-base]"));
const BASE = new URL(`${SCRIPT.dataset.base || "."}/`, location.href).href;

store.addEventListener("refused", () => show(one(document, "[data-storage-refused]"), true));
tryStore();
pressable();
const home = document.querySelector("[data-today]");
if (home instanceof HTMLElement) today(home);
const job = document.querySelector("[data-job]");
if (job instanceof HTMLElement) openJob(job);
const book = document.querySelector("[data-book]");
if (book instanceof HTMLElement)
  startEngine(book).then(async (engine) => (await import("./book-page.js")).openBook(book, engine));
if (document.readyState === "complete") offline(BASE);
else addEventListener("load", () => offline(BASE));

/** @param {HTMLElement} root */
async function openJob(root) {
  liftBar(root);
  const engine = await startEngine(root);
  const job = new Job(root, engine);
  (await import("./job-book.js")).bookTools(root, job, engine);
  (await import("./patterns.js")).patternTools(root, job);
}

/**
 * The engine, or where there can be none a stand-in that says so: typing is kept either way.
 * @param {HTMLElement} root
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
    const trouble = `${error instanceof Error ? error.message : error}.`;
    const none = { state: "failed", trouble, ask: () => Promise.reject(new Error(trouble)) };
    showEngine(root, none);
    return none;
  }
}

/** @param {HTMLElement} root @param {{state: string, trouble?: string}} engine */
function showEngine(root, engine) {
  const place = one(root, "[data-engine]");
  place.dataset.engine = engine.state;
  document.documentElement.dataset.engine = engine.state;
  show(place, engine.state !== "ready");
  const failed = `The calculator did not start here: ${engine.trouble || "no reason was given."} What you type is kept.`;
  const words = { loading: `Calculator loading, ${SCRIPT.dataset.runtimeMb} MB, once`, failed }[engine.state];
  say(one(place, "[data-engine-words]"), words || "");
  show(one(place, "[data-engine-progress]"), engine.state === "loading");
}

/** @param {HTMLElement} root @param {{loaded: number, total: number}} detail */
function showProgress(root, { loaded, total }) {
  const bar = /** @type {HTMLProgressElement} */ (one(root, "[data-engine-progress]"));
  bar.max = total || 1;
  bar.value = loaded;
}

/** Labels that act as buttons answer to the space bar too; the theme's own script sees to Enter. */
function pressable() {
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
  const lift = () =>
    bar.style.setProperty("--lift", `${view ? Math.max(0, innerHeight - view.height - view.offsetTop) : 0}px`);
  view?.addEventListener("resize", lift);
  view?.addEventListener("scroll", lift);
  new ResizeObserver(() => document.documentElement.style.setProperty("--bar", `${bar.offsetHeight}px`)).observe(bar);
}
