// @ts-check
/**
 * The bar that offers to load the page again: for a new version, and for files that were mended. A page is never replaced under
 * a person's hands: it loads again by itself only where it is out of sight and nobody has typed on it.
 */
import { one, say, show } from "./dom.js";

/** If a new version has not taken over after this time, the page is loaded as it is. */
const PATIENCE_MS = 30_000;
const LOAD = "Load this page again";

let typed = false;
/** Whether this page is not of the version that is in use by now. */
let old = false;

/** Notice it when another page takes a new version. */
export function watchVersions() {
  const { serviceWorker } = navigator;
  let { controller } = serviceWorker;
  addEventListener("input", () => (typed = true), { capture: true });
  document.addEventListener("visibilitychange", loadUnseen);
  serviceWorker.addEventListener("controllerchange", () => {
    old ||= Boolean(controller);
    ({ controller } = serviceWorker);
    if (!old) return;
    offer("A new version is in use now. What you typed is kept.", LOAD, () => location.reload());
    loadUnseen();
  });
}

function loadUnseen() {
  if (old && !typed && document.visibilityState === "hidden") location.reload();
}

/**
 * Offer a new version of the site once it is here.
 * @param {ServiceWorkerRegistration} registration
 */
export function offerNewVersion(registration) {
  const look = () => {
    if (!registration.waiting || !navigator.serviceWorker.controller || old) return;
    offer("A new version is ready.", "Use it now", () => takeOver(registration));
  };
  look();
  registration.onupdatefound = () => registration.installing?.addEventListener("statechange", look);
}

/** @param {ServiceWorkerRegistration} registration */
function takeOver({ waiting }) {
  if (!waiting) return location.reload();
  say(button(), "Changing…");
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
  setTimeout(() => location.reload(), PATIENCE_MS);
  waiting.postMessage("take over");
}

/** Damaged files were fetched again. */
export function offerMended() {
  offer("A damaged file of this site was fetched again.", LOAD, () => location.reload());
}

/**
 * @param {string} words
 * @param {string} label
 * @param {() => void} act
 */
function offer(words, label, act) {
  const bar = one(document, "[data-new-version]");
  say(one(bar, "p"), words);
  say(button(), label);
  button().onclick = act;
  show(bar, true);
}

function button() {
  return one(document, "[data-new-version] button");
}
