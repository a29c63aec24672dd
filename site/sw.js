// @ts-check
/**
 * The worker that keeps the site: all of it or nothing, under the hash of what was built. The build writes BUILT
 * above this.
 *
 * @typedef {{name: string, files: [string, string][]}} Built each file's path with the hash of its content
 */

const scope = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
// @ts-expect-error BUILT is declared only in the built file.
const built = /** @type {Built} */ (BUILT);
const OURS = "sandmix-";
const CACHE = OURS + built.name;

scope.addEventListener("install", (event) => event.waitUntil(keepAll()));
scope.addEventListener("activate", (event) => event.waitUntil(dropOthers().then(() => scope.clients.claim())));
scope.addEventListener("message", ({ data, ports }) => {
  if (data === "take over") scope.skipWaiting();
  if (data === "how is it" && ports[0]) countKept().then((count) => ports[0].postMessage(count));
});
scope.addEventListener("fetch", (event) => {
  const { request } = event;
  const ours = new URL(request.url).origin === scope.location.origin;
  if (request.method === "GET" && ours) event.respondWith(answer(request));
});

/** Copy unchanged files from an older cache and fetch the rest. One failure undoes the whole. */
async function keepAll() {
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(built.files.map(([path, hash]) => keep(cache, path, hash)));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

/**
 * @param {Cache} cache
 * @param {string} path
 * @param {string} hash
 */
async function keep(cache, path, hash) {
  const url = new URL(path, scope.registration.scope).href;
  await cache.put(url, (await fromOlderCache(url, hash)) ?? (await fromNetwork(url, hash)));
}

/**
 * @param {string} url
 * @param {string} hash
 */
async function fromOlderCache(url, hash) {
  for (const name of await caches.keys()) {
    if (!name.startsWith(OURS) || name === CACHE) continue;
    const found = await (await caches.open(name)).match(url);
    if (found && (await hashOf(found)) === hash) return found;
  }
  return null;
}

/**
 * @param {string} url
 * @param {string} hash
 */
async function fromNetwork(url, hash) {
  const response = await fetch(url, { cache: "no-cache", redirect: "error" });
  if (!response.ok) throw new Error(`${url}: ${response.status}`);
  if ((await hashOf(response)) !== hash) throw new Error(`${url}: not what was built`);
  return response;
}

/** @param {Response} response */
async function hashOf(response) {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", await response.clone().arrayBuffer()));
  return Array.from(sum.slice(0, 8), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function dropOthers() {
  const others = (await caches.keys()).filter((name) => name.startsWith(OURS) && name !== CACHE);
  await Promise.all(others.map((name) => caches.delete(name)));
}

/**
 * Kept files go before the network. Whatever follows a question mark does not matter, nor does a folder's missing
 * slash.
 * @param {Request} request
 */
async function answer(request) {
  const cache = await caches.open(CACHE);
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  const found = (await cache.match(url.href)) ?? (await cache.match(url.href.replace(/index\.html$/, "")));
  if (found) return found;
  if (request.mode === "navigate" && (await cache.match(`${url.href}/`))) return Response.redirect(`${url.href}/`);
  return fetch(request);
}

async function countKept() {
  const cache = await caches.open(CACHE);
  return { name: built.name, kept: (await cache.keys()).length, of: built.files.length };
}
