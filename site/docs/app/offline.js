// @ts-check
import { all, one, say, show } from "./dom.js";

/** @typedef {"unknown" | "keeping" | "ready" | "cannot" | "broken"} Mark */

const WORDS = {
  unknown: "",
  keeping: "keeping…",
  ready: "ready offline",
  cannot: "online only",
  broken: "not kept",
};

/**
 * Keep the site for a shed without a network, say how that stands, and never swap it unasked.
 * @param {string} base
 */
export async function offline(base) {
  const why = whyNot();
  if (why) return mark("cannot", why);
  mark("keeping", "The site is being kept on this device.");
  try {
    const registration = await navigator.serviceWorker.register(new URL("sw.js", base), { updateViaCache: "none" });
    watch(registration);
    await settled(registration);
    await howItStands();
    await navigator.storage?.persist?.();
  } catch (error) {
    const kept = Boolean(navigator.serviceWorker.controller);
    mark(
      kept ? "ready" : "broken",
      kept
        ? ""
        : `Keeping the site failed: ${error instanceof Error ? error.message : error}. Open it again with a network.`,
    );
  }
  return undefined;
}

/** Why this page cannot keep itself, in words, or nothing. */
function whyNot() {
  if (!isSecureContext)
    return "This page came over plain http, and browsers keep a site offline only over https or from this machine itself. Serve it with --https.";
  if (!("serviceWorker" in navigator))
    return "This browser has no service worker (a private window often has none), so the site cannot be kept.";
  return "";
}

/** @param {Mark} state @param {string} why */
function mark(state, why) {
  for (const place of all(document, "[data-offline-mark]")) {
    place.dataset.offline = state;
    if (why) place.title = why;
    say(one(place, "[data-offline-words]"), WORDS[state]);
  }
  const stays = "What you type stays on this device.";
  const detail = state === "ready" ? "Everything is kept on this device: it works without a network." : why;
  for (const place of all(document, "[data-offline-why]")) say(place, detail ? `${detail} ${stays}` : stays);
}

/**
 * Wait for a worker that keeps the site. A first one whose installing fails is thrown away, and would be waited for without end.
 * @param {ServiceWorkerRegistration} registration
 */
function settled({ active, installing }) {
  const failed = new Promise((_, reject) => {
    if (active || !installing) return;
    installing.addEventListener(
      "statechange",
      () => installing.state === "redundant" && reject(new Error("one of its files did not come whole")),
    );
  });
  return Promise.race([navigator.serviceWorker.ready, failed]);
}

async function howItStands() {
  const worker = navigator.serviceWorker.controller || (await navigator.serviceWorker.ready).active;
  if (!worker) return;
  const { port1, port2 } = new MessageChannel();
  const said = new Promise((resolve) => (port1.onmessage = (event) => resolve(event.data)));
  worker.postMessage("how is it", [port2]);
  const { kept, of } = /** @type {{kept: number, of: number}} */ (await said);
  if (kept >= of) mark("ready", "");
  else mark("broken", `${kept} of ${of} files are kept. Open the site once more with a network.`);
}

/** @param {ServiceWorkerRegistration} registration */
function watch(registration) {
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
