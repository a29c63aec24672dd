// @ts-check
/** The start of a job's page. */

import { askWithBookAlone, withBook } from "./book-inputs.js";
import { startCastingJob } from "./casting-job.js";
import { one } from "./dom.js";
import { startJobBook } from "./job-book.js";
import { Job } from "./job.js";
import { startEngine } from "./page-engine.js";
import { startPatterns } from "./patterns.js";

/** @param {HTMLElement} root */
export function startJobPage(root) {
  liftBar(root);
  const engine = startEngine(root);
  const page = new Job(root, withBook(root, engine));
  root.dataset.listens = "";
  page.answer.addEventListener("shown", () => markTerms(root));
  startCastingJob(root, page, engine);
  askWithBookAlone(page);
  startJobBook(root, page, engine);
  startPatterns(root, page);
}

/**
 * The answer counts without its marks: where their script does not arrive, nothing else stops.
 * @param {HTMLElement} root
 */
function markTerms(root) {
  import("./terms.js").then(({ markAnswer }) => markAnswer(root)).catch(() => {});
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
