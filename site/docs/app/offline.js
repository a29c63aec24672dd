// @ts-check
import { all, one, say, show } from "./dom.js";
import { reasonOf } from "./problems.js";

/** @typedef {"unknown" | "keeping" | "ready" | "cannot" | "broken"} OfflineState */

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

/**
 * Keep the site for a workshop without a network, show whether that worked, and never replace it unasked.
 * @param {string} base
 */
export async function keepOffline(base) {
  const why = whyNot();
  if (why) return showOffline("cannot", why);
  showOffline("keeping", "The site is being kept on this device.");
  try {
    const registration = await register(base);
    if (!registration) return showOffline("cannot", BLOCKED);
    offerNewVersion(registration);
    await installed(registration);
    await checkKept();
  } catch (error) {
    if (navigator.serviceWorker.controller) showOffline("ready", "");
    else showOffline("broken", `The site could not be kept: ${reasonOf(error)}. Open it again with a network.`);
  }
}

/**
 * Register the service worker.
 * @param {string} base
 * @returns {Promise<ServiceWorkerRegistration | undefined>} nothing if the browser blocks service workers
 */
async function register(base) {
  try {
    return await navigator.serviceWorker.register(new URL("sw.js", base), { updateViaCache: "none" });
  } catch (error) {
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

/**
 * @param {OfflineState} state
 * @param {string} why
 */
function showOffline(state, why) {
  for (const place of all(document, "[data-offline-mark]")) {
    place.dataset.offline = state;
    if (why) place.title = why;
    say(one(place, "[data-offline-words]"), WORDS[state]);
  }
  const detail = state === "ready" ? READY : why;
  for (const place of all(document, "[data-offline-why]")) say(place, [detail, PRIVATE].filter(Boolean).join(" "));
}

/**
 * Wait for a worker that keeps the site. The browser throws a first one away if its installation fails, and
 * "ready" would
 * then never come.
 * @param {ServiceWorkerRegistration} registration
 */
function installed({ active, installing }) {
  const failed = new Promise((_, reject) => {
    if (active || !installing) return;
    installing.addEventListener("statechange", () => {
      if (installing.state === "redundant") reject(new Error("one of its files did not arrive complete"));
    });
  });
  return Promise.race([navigator.serviceWorker.ready, failed]);
}

/** Ask the worker how many files it has, and show it. */
async function checkKept() {
  const worker = navigator.serviceWorker.controller ?? (await navigator.serviceWorker.ready).active;
  if (!worker) return;
  const { port1, port2 } = new MessageChannel();
  /** @type {Promise<{kept: number, of: number}>} */
  const answer = new Promise((resolve) => (port1.onmessage = ({ data }) => resolve(data)));
  worker.postMessage("how is it", [port2]);
  const { kept, of } = await answer;
  if (kept >= of) showOffline("ready", "");
  else showOffline("broken", `${kept} of ${of} files are kept. Open the site once more with a network.`);
}

/**
 * Offer a new version of the site once it is here, and reload when a person takes it.
 * @param {ServiceWorkerRegistration} registration
 */
function offerNewVersion(registration) {
  const offer = () => {
    if (registration.waiting && navigator.serviceWorker.controller) show(one(document, "[data-new-version]"), true);
  };
  offer();
  registration.addEventListener("updatefound", () => registration.installing?.addEventListener("statechange", offer));
  one(document, "[data-take-new]").addEventListener("click", () => {
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
    registration.waiting?.postMessage("take over");
  });
}
