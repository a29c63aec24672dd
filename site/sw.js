/* The worker that keeps the site: all of it or nothing, under the hash of what was built; BUILT stands above. */
/* global BUILT */

const CACHE = `sandmix-${BUILT.name}`;

self.addEventListener("install", (event) => event.waitUntil(keepAll()));
self.addEventListener("activate", (event) => event.waitUntil(dropOthers().then(() => self.clients.claim())));
self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
  if (event.data === "how is it" && event.ports[0]) howIsIt().then((said) => event.ports[0].postMessage(said));
});
self.addEventListener("fetch", (event) => {
  const request = event.request;
  if (request.method === "GET" && new URL(request.url).origin === location.origin) event.respondWith(answer(request));
});

/** Copy what an older cache holds unchanged; fetch the rest; one failure undoes the whole. */
async function keepAll() {
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(BUILT.files.map(([path, hash]) => keep(cache, path, hash)));
  } catch (error) {
    await caches.delete(CACHE);
    throw error;
  }
}

async function keep(cache, path, hash) {
  const url = new URL(path, self.registration.scope).href;
  const response = (await older(url, hash)) || (await fetched(url, hash));
  await cache.put(url, response);
}

async function older(url, hash) {
  for (const name of await caches.keys()) {
    if (!name.startsWith("sandmix-") || name === CACHE) continue;
    const found = await (await caches.open(name)).match(url);
    if (found && (await digest(await found.clone().arrayBuffer())) === hash) return found;
  }
  return null;
}

async function fetched(url, hash) {
  const response = await fetch(url, { cache: "no-cache", redirect: "error" });
  if (!response.ok) throw new Error(`${url}: ${response.status}`);
  if ((await digest(await response.clone().arrayBuffer())) !== hash) throw new Error(`${url}: not what was built`);
  return response;
}

async function digest(bytes) {
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(sum.slice(0, 8), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

async function dropOthers() {
  const names = await caches.keys();
  await Promise.all(
    names.filter((name) => name.startsWith("sandmix-") && name !== CACHE).map((name) => caches.delete(name)),
  );
}

/** Kept files answer first; a question mark and what follows do not matter, nor a folder's missing slash. */
async function answer(request) {
  const cache = await caches.open(CACHE);
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  const found = (await cache.match(url.href)) || (await cache.match(url.href.replace(/index\.html$/, "")));
  if (found) return found;
  if (request.mode === "navigate" && (await cache.match(`${url.href}/`))) return Response.redirect(`${url.href}/`);
  return fetch(request);
}

async function howIsIt() {
  const cache = await caches.open(CACHE);
  return { name: BUILT.name, kept: (await cache.keys()).length, of: BUILT.files.length };
}
