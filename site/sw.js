// @ts-check
/**
 * The worker that keeps the site under the hash of what was built. It takes over only with all of it. What has arrived before an
 * installation breaks off stays for the next try. The build writes BUILT above this.
 *
 * It answers to `take over`, to `how is it` and to `mend`; the last two want a port, and get a Kept on it. It tells the pages
 * why an installation failed, as `{broken: Kept}`.
 *
 * @typedef {{name: string, files: [string, string][]}} Built each file's path with the hash of its content
 * @typedef {object} Kept
 * @property {string} name
 * @property {number} kept how many files are here
 * @property {number} of how many there are
 * @property {number} mended how many were missing or damaged, and were fetched again
 * @property {boolean} full whether this device has no room for the rest
 */

const scope = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
// @ts-expect-error BUILT is declared only in the built file.
const built = /** @type {Built} */ (BUILT);
const OURS = "sandmix-";
const CACHE = OURS + built.name;
/** An entry of a cache that is not complete. */
const UNFINISHED = urlOf("unfinished");
/** More at once would leave many files half fetched when the network goes. */
const AT_ONCE = 8;

scope.addEventListener("install", (event) => event.waitUntil(install()));
scope.addEventListener("activate", (event) => event.waitUntil(takeOver()));
scope.addEventListener("message", (event) => {
  const [port] = event.ports;
  if (event.data === "take over") scope.skipWaiting();
  if (event.data === "how is it" && port) event.waitUntil(countKept().then((kept) => port.postMessage(kept)));
  if (event.data === "mend" && port) event.waitUntil(mend().then((kept) => port.postMessage(kept)));
});
scope.addEventListener("fetch", (event) => {
  const { request } = event;
  const ours = new URL(request.url).origin === scope.location.origin;
  if (request.method === "GET" && ours) event.respondWith(answer(request));
});

/** @param {string} path */
function urlOf(path) {
  return new URL(path, scope.registration.scope).href;
}

/** On a full device the room goes back to what a person keeps there. */
async function install() {
  try {
    await (await caches.open(CACHE)).put(UNFINISHED, new Response(""));
    await keepAll();
  } catch (error) {
    const kept = { ...(await countKept()), full: isFull(error) };
    if (kept.full) await caches.delete(CACHE);
    const pages = await scope.clients.matchAll({ includeUncontrolled: true, type: "window" });
    for (const page of pages) page.postMessage({ broken: kept });
    throw error;
  } finally {
    await dropUnfinished();
  }
}

/** Older caches go only when this one is complete. */
async function takeOver() {
  const { kept, of } = await countKept();
  const whole = kept === of || (await mend()).kept === of;
  if (whole) await dropOthers();
  await scope.clients.claim();
}

/**
 * Fetch what is missing or damaged.
 * @returns {Promise<Kept>}
 */
async function mend() {
  try {
    const mended = await keepAll();
    return { ...(await countKept()), mended };
  } catch (error) {
    return { ...(await countKept()), full: isFull(error) };
  }
}

/**
 * Keep every file that is not here whole: copied from another cache, or else fetched.
 * @returns {Promise<number>} how many these were
 */
async function keepAll() {
  const cache = await caches.open(CACHE);
  const others = await Promise.all((await otherNames()).map((name) => caches.open(name)));
  const left = built.files.values();
  /** @type {unknown[]} */
  const troubles = [];
  let mended = 0;
  const keepSome = async () => {
    for (const [path, hash] of left) {
      try {
        if (await keep(cache, others, urlOf(path), hash)) mended += 1;
      } catch (error) {
        troubles.push(error);
      }
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, keepSome));
  if (troubles.length) throw troubles.find(isFull) ?? troubles[0];
  await cache.delete(UNFINISHED);
  return mended;
}

/**
 * @param {Cache} cache
 * @param {Cache[]} others
 * @param {string} url
 * @param {string} hash
 * @returns {Promise<boolean>} whether it was not here
 */
async function keep(cache, others, url, hash) {
  if (await wholeIn(cache, url, hash)) return false;
  for (const other of others) {
    const found = await wholeIn(other, url, hash);
    if (found) return cache.put(url, found).then(() => true);
  }
  await cache.put(url, await fromNetwork(url, hash));
  return true;
}

/**
 * @param {Cache} cache
 * @param {string} url
 * @param {string} hash
 */
async function wholeIn(cache, url, hash) {
  const found = await cache.match(url);
  return found && (await hashOf(found).catch(() => "")) === hash ? found : undefined;
}

/**
 * A file as it was built. If the browser's own cache has another one, it is fetched past that.
 * @param {string} url
 * @param {string} hash
 */
async function fromNetwork(url, hash) {
  for (const cache of /** @type {const} */ (["no-cache", "reload"])) {
    const response = await fetch(url, { cache, redirect: "error" });
    if (!response.ok) throw new Error(`${url}: ${response.status}`);
    if ((await hashOf(response)) === hash) return response;
  }
  throw new Error(`${url}: not what was built`);
}

/** @param {Response} response */
async function hashOf(response) {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", await response.clone().arrayBuffer()));
  return Array.from(sum.slice(0, 8), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** @param {unknown} error */
function isFull(error) {
  return /** @type {{name?: string} | null} */ (error)?.name === "QuotaExceededError";
}

async function otherNames() {
  return (await caches.keys()).filter((name) => name.startsWith(OURS) && name !== CACHE);
}

async function dropOthers() {
  for (const name of await otherNames()) await caches.delete(name);
}

/** Drop what a build left that broke off and has been overtaken. */
async function dropUnfinished() {
  for (const name of await otherNames()) {
    const cache = await caches.open(name);
    if (await cache.match(UNFINISHED)) await caches.delete(name);
  }
}

/**
 * Kept files go before the network.
 * @param {Request} request
 */
async function answer(request) {
  const found = await answerFromCache(request).catch(() => undefined);
  if (found) return found;
  try {
    return await fetch(request);
  } catch (error) {
    if (request.mode !== "navigate") throw error;
    return notHere();
  }
}

/**
 * Whatever follows a question mark does not matter, nor does a folder's missing slash.
 * @param {Request} request
 */
async function answerFromCache(request) {
  const cache = await caches.open(CACHE);
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  const found = (await cache.match(url.href)) ?? (await cache.match(url.href.replace(/index\.html$/, "")));
  if (found) return found;
  const isFolder = request.mode === "navigate" && (await cache.match(`${url.href}/`));
  return isFolder ? Response.redirect(`${url.href}/`) : undefined;
}

function notHere() {
  const words = `<!doctype html>
<html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>Not on this device</title>
<h1>This page is not on this device, and there is no network</h1>
<p>Open it again when there is a network, or <a href="${scope.registration.scope}">go to the first page</a>.</p></html>`;
  return new Response(words, { status: 503, headers: { "Content-Type": "text/html; charset=utf-8" } });
}

/** @returns {Promise<Kept>} */
async function countKept() {
  const of = built.files.length;
  try {
    const cache = await caches.open(CACHE);
    const here = new Set((await cache.keys()).map(({ url }) => url));
    const kept = built.files.filter(([path]) => here.has(urlOf(path))).length;
    return { name: built.name, kept, of, mended: 0, full: false };
  } catch {
    return { name: built.name, kept: 0, of, mended: 0, full: false };
  }
}
