// @ts-check
/** Keeps the site for a workshop without a network, and shows whether that worked. */
import { all, one, say } from "./dom.js";
import { offerMended, offerNewVersion, watchVersions } from "./new-version.js";
import { reasonOf } from "./problems.js";

/** @typedef {"unknown" | "keeping" | "ready" | "cannot" | "broken"} OfflineState */
/** @typedef {{kept: number, of: number, mended: number, full: boolean}} Kept what the service worker says of its files */

/** @type {Record<OfflineState, string>} */
const WORDS = {
  unknown: "",
  keeping: "keeping…",
  ready: "ready offline",
  cannot: "online only",
  broken: "not kept",
};
const PRIVATE = "What you type stays on this device.";
const BLOCKED =
  "This browser does not keep the site offline: it blocks service workers (a private window or a setting can do that). The site works while there is a network.";
const READY = "Everything is kept on this device: it works without a network.";
const FULL =
  "This device has no room for the site. Free some space, then open it again. It works while there is a network.";
/** After a failure with a network it is tried again this much later, and then each time after twice as long. */
const AGAIN_MS = 30_000;
const TRIES = 5;
/** How long a worker may take to count its files, and to fetch them. */
const COUNT_MS = 10_000;
const MEND_MS = 300_000;

let base = "";
let trying = false;
let tries = 0;
/** @type {Kept | undefined} what a worker said when its installation broke off */
let brokenOff;

/**
 * Keep the site, and go on with it whenever the network comes back.
 * @param {string} address of the site
 */
export function keepOffline(address) {
  const why = whyNot();
  if (why) return showOffline("cannot", why);
  base = address;
  watchVersions();
  navigator.serviceWorker.addEventListener("message", ({ data }) => {
    if (!data?.broken) return;
    brokenOff = data.broken;
    if (isShown("broken")) showKept(brokenOff);
  });
  addEventListener("online", tryToKeep);
  return tryToKeep();
}

/** Have the service worker look at every file that it keeps, and fetch what is damaged. */
export async function mendKept() {
  const worker = navigator.serviceWorker?.controller;
  if (!worker) return;
  const { mended } = await ask(worker, "mend", MEND_MS);
  if (mended) offerMended();
}

async function tryToKeep() {
  if (trying) return;
  trying = true;
  if (!isShown("ready")) showOffline("keeping", "The site is being kept on this device.");
  try {
    await keepNow();
  } catch (error) {
    showOffline("broken", `The site could not be kept: ${reasonOf(error)}. Open it again with a network.`);
  }
  trying = false;
  if (isShown("ready")) tries = 0;
  if (!isShown("broken") || !navigator.onLine || brokenOff?.full || ++tries >= TRIES) return;
  setTimeout(tryToKeep, AGAIN_MS * 2 ** (tries - 1));
}

async function keepNow() {
  const registration = await register();
  if (!registration) return showOffline("cannot", BLOCKED);
  offerNewVersion(registration);
  if (!(await installed(registration))) return showKept(brokenOff);
  const worker = navigator.serviceWorker.controller ?? registration.active;
  if (!worker) return;
  const found = await ask(worker, "how is it", COUNT_MS);
  if (found.kept >= found.of) return showKept(found);
  showOffline("keeping", `${found.kept} of ${found.of} files are kept on this device. The rest is being fetched.`);
  const { kept, of, full } = await ask(worker, "mend", MEND_MS);
  showKept({ kept, of, full });
}

/**
 * The service worker of this site. One that is here already stays if it can't be asked for now.
 * @returns {Promise<ServiceWorkerRegistration | undefined>} nothing if the browser blocks service workers
 */
async function register() {
  try {
    return await navigator.serviceWorker.register(new URL("sw.js", base), { updateViaCache: "none" });
  } catch (error) {
    const before = await navigator.serviceWorker.getRegistration(base).catch(() => undefined);
    if (before?.active) return before;
    if (error instanceof DOMException && error.name === "SecurityError") return undefined;
    throw error;
  }
}

/** Why this page cannot be kept, or nothing. */
function whyNot() {
  if (!isSecureContext) {
    return "This page came over plain http. A browser keeps a site offline only over https, or from this machine itself. Serve it with --https.";
  }
  if (!navigator.serviceWorker) {
    return "This browser has no service worker (a private window often has none), so the site cannot be kept.";
  }
  return "";
}

/** @param {Pick<Kept, "kept" | "of" | "full"> | undefined} kept */
function showKept({ kept, of, full } = { kept: 0, of: 0, full: false }) {
  if (full) showOffline("broken", FULL);
  else if (kept && kept >= of) showOffline("ready", "");
  else {
    const some = kept ? `${kept} of ${of} files are kept on this device.` : "The site is not kept on this device yet.";
    showOffline("broken", `${some} The rest follows when this page is open and there is a network.`);
  }
}

/**
 * @param {OfflineState} state
 * @param {string} why
 */
function showOffline(state, why) {
  const detail = state === "ready" ? READY : why;
  for (const place of all(document, "[data-offline-mark]")) {
    place.dataset.offline = state;
    place.title = detail;
    say(one(place, "[data-offline-words]"), WORDS[state]);
  }
  for (const place of all(document, "[data-offline-why]")) say(place, [detail, PRIVATE].filter(Boolean).join(" "));
}

/** @param {OfflineState} state */
function isShown(state) {
  return all(document, "[data-offline-mark]").some((place) => place.dataset.offline === state);
}

/**
 * Wait until a worker keeps the site.
 * @param {ServiceWorkerRegistration} registration
 * @returns {Promise<boolean>} whether one does; a browser throws a first one away if its installation fails
 */
function installed({ active, waiting, installing }) {
  return new Promise((resolve) => {
    if (active || waiting) navigator.serviceWorker.ready.then(() => resolve(true));
    else if (!installing) resolve(false);
    installing?.addEventListener("statechange", () => {
      if (installing.state === "redundant" && !active) resolve(false);
      if (installing.state === "activated") resolve(true);
    });
  });
}

/**
 * @param {ServiceWorker} worker
 * @param {"how is it" | "mend"} text
 * @param {number} patience_ms
 * @returns {Promise<Kept>}
 */
function ask(worker, text, patience_ms) {
  const { port1, port2 } = new MessageChannel();
  return new Promise((resolve, reject) => {
    port1.onmessage = ({ data }) => resolve(data);
    setTimeout(() => reject(new Error("its worker gives no answer")), patience_ms);
    worker.postMessage(text, [port2]);
  });
}
