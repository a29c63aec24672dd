// @ts-check
/** The start of every page: what all pages have, and the modules of its kind. */

import { all, one, show } from "./dom.js";
import { store, tryStore } from "./local-storage.js";
import { keepOffline } from "./offline.js";

const BASE = new URL(`${one(document, "script[data-base]").dataset.base || "."}/`, location.href).href;

store.addEventListener("refused", () => show(one(document, "[data-storage-refused]"), true));
tryStore();
pressBySpace();
const [[home], [job], [book]] = ["[data-today]", "[data-job]", "[data-book]"].map((part) => all(document, part));
if (home) import("./home.js").then(({ showHome }) => showHome(home));
if (job) import("./job-page.js").then(({ startJobPage }) => startJobPage(job));
if (book) import("./book-page.js").then(({ startBookPage }) => startBookPage(book));
if (document.readyState === "complete") keepOffline(BASE);
else addEventListener("load", () => keepOffline(BASE));

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
