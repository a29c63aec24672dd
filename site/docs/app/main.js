// @ts-check
/** The start of every page: what all pages have, and the modules of its kind. */

import { all, one } from "./dom.js";
import { keepFocus } from "./focus.js";
import { store, tryStore } from "./local-storage.js";
import { startMenus, startSearch } from "./menus.js";
import { keepOffline } from "./offline.js";
import { reachScrolled } from "./scrolled.js";
import { noticeStorage } from "./storage-notice.js";

const BASE = new URL(`${(one(document, "script[data-base]").dataset.base || ".").replace(/\/$/, "")}/`, location.href)
  .href;

const REFUSED =
  "This browser does not store what you type: it is lost when you close the page. Copy a link to keep the figures.";
/** @type {Set<string>} what was found damaged */
const damaged = new Set();

store.addEventListener("refused", () => noticeStorage("typed", REFUSED));
store.addEventListener("damaged", (event) => {
  damaged.add(/** @type {CustomEvent} */ (event).detail);
  noticeStorage(
    "healed",
    `What this page had kept was damaged, and was set aside: ${[...damaged].join(", ")}. Everything else is here.`,
  );
});
tryStore();
startMenus();
startSearch();
keepFocus();
const [[home], [job], [book], [settings]] = ["[data-today]", "[data-job]", "[data-book]", "[data-settings]"].map(
  (part) => all(document, part),
);
const forms = [
  home && started(import("./home.js").then(({ showHome }) => showHome(home))),
  job && started(import("./job-page.js").then(({ startJobPage }) => startJobPage(job))),
  book && started(import("./book-page.js").then(({ startBookPage }) => startBookPage(book))),
];
if (document.querySelector("details[id]")) import("./named.js").then(({ openNamed }) => openNamed()).catch(() => {});
if (settings) import("./settings-page.js").then(({ startSettings }) => startSettings(settings));
if (document.readyState === "complete") finish();
else addEventListener("load", finish);

/** What waits until the theme's script has wrapped the tables. */
async function finish() {
  reachScrolled();
  if (hasTerms()) import("./terms.js").then(({ startTerms }) => startTerms()).catch(() => {});
  if (!navigator.serviceWorker?.controller) await calculatorStarted().catch(() => {});
  keepOffline(BASE);
}

/** Whether the page, or a form that opens on it later, has a word of the glossary. */
function hasTerms() {
  const templates = Array.from(document.querySelectorAll("template"), ({ content }) => content);
  return [document, ...templates].some((place) => place.querySelector(".term"));
}

/**
 * On a first visit the calculator comes first: a service worker fetches the whole site, and both would take twice as long. Where a
 * script of it did not arrive, the service worker is what mends that.
 */
async function calculatorStarted() {
  await Promise.allSettled(forms);
  const { engineStarted } = await import("./one-engine.js");
  await engineStarted();
}

/**
 * Where a form listens, what `starting.js` would say of it is no longer due.
 * @param {Promise<void>} form
 */
async function started(form) {
  await form;
  delete one(document, "[data-not-started]").dataset.waits;
}
