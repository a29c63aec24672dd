// @ts-check
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import vm from "node:vm";

const SITE = "https://example.org/sand/";
const SOURCE = readFileSync(new URL("../../site/sw.js", import.meta.url), "utf8");

/** @param {string} text */
const hashOf = (text) => createHash("sha256").update(text).digest("hex").slice(0, 16);

/** What a full device throws. */
const NO_ROOM = Object.assign(new Error("no room"), { name: "QuotaExceededError" });

/** The browser's caches, as far as the worker uses them. */
class FakeCaches {
  /** @type {Map<string, Map<string, Response>>} */
  all = new Map();
  /** How many files fit. */
  room = Infinity;
  broken = false;

  /** @param {string} name */
  async open(name) {
    if (this.broken) throw new Error("the storage is broken");
    const held = this.all.get(name) ?? new Map();
    this.all.set(name, held);
    return {
      put: async (/** @type {string} */ url, /** @type {Response} */ response) => {
        if (held.size >= this.room) throw NO_ROOM;
        held.set(url, response);
      },
      match: async (/** @type {string} */ url) => held.get(url)?.clone(),
      delete: async (/** @type {string} */ url) => held.delete(url),
      keys: async () => Array.from(held.keys(), (url) => ({ url })),
    };
  }

  keys = async () => Array.from(this.all.keys());
  delete = async (/** @type {string} */ name) => this.all.delete(name);

  /** The paths that a build's cache holds. @param {string} name */
  paths(name) {
    return Array.from(this.all.get(`sandmix-${name}`)?.keys() ?? [], (url) => url.replace(SITE, "")).sort();
  }
}

/** @typedef {Record<string, string>} Files text by path */

/** @param {Files} files */
const nameOf = (files) => hashOf(JSON.stringify(files));

/**
 * The worker of a build, over caches and a network of the test.
 * @param {Files} files of the build
 * @param {FakeCaches} caches
 * @param {Files} network what the server has
 * @param {Files} [stale] what the browser's own cache has in place of it
 */
function workerOf(files, caches, network, stale = {}) {
  /** @type {Record<string, (event: any) => void>} */
  const listeners = {};
  /** @type {string[]} */
  const fetched = [];
  /** @type {any[]} what the pages were told */
  const told = [];
  const fetchFake = async (/** @type {string | Request} */ input, /** @type {RequestInit} */ { cache } = {}) => {
    const path = String(input instanceof Request ? input.url : input).replace(SITE, "");
    fetched.push(path);
    if (path in stale && cache !== "reload") return new Response(stale[path]);
    if (!(path in network)) throw new TypeError("no network");
    return new Response(network[path]);
  };
  const built = {
    name: nameOf(files),
    files: Object.entries(files).map(([path, text]) => [path, hashOf(text)]),
  };
  const self = {
    addEventListener: (/** @type {string} */ kind, /** @type {any} */ listener) => (listeners[kind] = listener),
    registration: { scope: SITE },
    location: new URL(SITE),
    clients: {
      claim: async () => {},
      matchAll: async () => [{ postMessage: (/** @type {any} */ data) => told.push(structuredClone(data)) }],
    },
    skipWaiting: () => {},
  };
  const names = { self, caches, fetch: fetchFake, URL, Response, crypto: globalThis.crypto, Uint8Array };
  vm.runInNewContext(`const BUILT = ${JSON.stringify(built)};\n${SOURCE}`, names);
  const wait = (/** @type {string} */ kind, event = {}) =>
    new Promise((resolve, reject) => {
      const settle = (/** @type {Promise<unknown>} */ promise) => promise.then(resolve, reject);
      listeners[kind]({ ...event, waitUntil: settle, respondWith: settle });
    });
  /** @param {string} path */
  const open = async (path, mode = "navigate") => {
    const request = Object.defineProperty(new Request(SITE + path), "mode", { value: mode });
    return /** @type {Response} */ (await wait("fetch", { request }));
  };
  /** @param {string} data */
  const ask = async (data) => {
    /** @type {any} */
    let answer;
    await wait("message", {
      data,
      ports: [{ postMessage: (/** @type {any} */ kept) => (answer = structuredClone(kept)) }],
    });
    return answer;
  };
  return { install: () => wait("install"), activate: () => wait("activate"), open, ask, fetched, told };
}

test("every file of the build is kept, and answered without a network", async () => {
  const files = { "./": "home", "temper/": "temper", "app/main.js": "code" };
  const network = { "": "home", "temper/": "temper", "app/main.js": "code" };
  const caches = new FakeCaches();
  const worker = workerOf(files, caches, network);
  await worker.install();
  worker.fetched.length = 0;
  assert.equal(await (await worker.open("temper/?x=1")).text(), "temper");
  assert.equal(await (await worker.open("temper/index.html")).text(), "temper");
  assert.equal(await (await worker.open("app/main.js", "no-cors")).text(), "code");
  assert.deepEqual(worker.fetched, []);
});

test("a folder without its slash leads to its page", async () => {
  const worker = workerOf({ "temper/": "temper" }, new FakeCaches(), { "temper/": "temper" });
  await worker.install();
  const response = await worker.open("temper");
  assert.equal(response.headers.get("location"), `${SITE}temper/`);
});

test("an installation that breaks off at any file goes on later with what is missing, and the old build works until then", async () => {
  const old = { a: "1", b: "1", c: "1", d: "1" };
  const files = { a: "2", b: "2", c: "2", d: "1" };
  for (const missing of ["a", "b", "c"]) {
    const caches = new FakeCaches();
    const before = workerOf(old, caches, old);
    await before.install();
    await before.activate();
    const { [/** @type {"a"} */ (missing)]: _, ...most } = files;
    const first = workerOf(files, caches, most);
    await assert.rejects(first.install(), /no network/);
    assert.deepEqual(first.told, [{ broken: { name: nameOf(files), kept: 3, of: 4, mended: 0, full: false } }]);
    for (const path of Object.keys(old)) assert.equal(await (await before.open(path)).text(), "1");
    const second = workerOf(files, caches, files);
    await second.install();
    assert.deepEqual(second.fetched, [missing]);
    await second.activate();
    assert.deepEqual(await caches.keys(), [`sandmix-${nameOf(files)}`]);
    assert.deepEqual(caches.paths(nameOf(files)), ["a", "b", "c", "d"]);
  }
});

test("a file that is not the one that was built is never kept", async () => {
  const caches = new FakeCaches();
  const worker = workerOf({ a: "1", b: "2" }, caches, { a: "other", b: "2" });
  await assert.rejects(worker.install(), /not what was built/);
  assert.deepEqual(caches.paths(nameOf({ a: "1", b: "2" })), ["b", "unfinished"]);
});

test("a file that the browser's own cache has in another version is fetched past it", async () => {
  const worker = workerOf({ a: "1" }, new FakeCaches(), { a: "1" }, { a: "old" });
  await worker.install();
  assert.equal(await (await worker.open("a")).text(), "1");
});

test("what a half written cache holds wrong is fetched again", async () => {
  const files = { a: "1", b: "2" };
  const caches = new FakeCaches();
  const held = await caches.open(`sandmix-${nameOf(files)}`);
  await held.put(`${SITE}a`, new Response(""));
  await held.put(`${SITE}b`, new Response("2"));
  const worker = workerOf(files, caches, files);
  await worker.install();
  assert.deepEqual(worker.fetched, ["a"]);
});

test("a new build fetches only what has changed, and drops the old build when it takes over", async () => {
  const caches = new FakeCaches();
  await workerOf({ a: "1", b: "2" }, caches, { a: "1", b: "2" }).install();
  const next = workerOf({ a: "1", b: "3" }, caches, { a: "1", b: "3" });
  await next.install();
  assert.deepEqual(next.fetched, ["b"]);
  assert.equal((await caches.keys()).length, 2);
  await next.activate();
  assert.equal((await caches.keys()).length, 1);
  assert.equal(await (await next.open("b")).text(), "3");
});

test("a build whose files went before it took over fetches them again, and drops no other until it is whole", async () => {
  const [old, files] = [{ a: "1" }, { a: "2" }];
  const caches = new FakeCaches();
  await workerOf(old, caches, old).install();
  const network = { ...files };
  const next = workerOf(files, caches, network);
  await next.install();
  await caches.delete(`sandmix-${nameOf(files)}`);
  Reflect.deleteProperty(network, "a");
  await next.activate();
  assert.deepEqual(caches.paths(nameOf(old)), ["a"]);
  await caches.delete(`sandmix-${nameOf(files)}`);
  network.a = "2";
  await next.activate();
  assert.deepEqual(await caches.keys(), [`sandmix-${nameOf(files)}`]);
});

test("what a build that was overtaken left unfinished is used and dropped, and a whole one stays", async () => {
  const caches = new FakeCaches();
  await workerOf({ a: "1" }, caches, { a: "1" }).install();
  await assert.rejects(workerOf({ a: "1", b: "2", c: "2" }, caches, { b: "2" }).install());
  const next = workerOf({ a: "1", b: "2", c: "3" }, caches, { a: "1", b: "2" });
  await assert.rejects(next.install());
  assert.deepEqual(
    next.fetched.filter((path) => path !== "c"),
    [],
  );
  assert.deepEqual(
    await caches.keys(),
    [nameOf({ a: "1" }), nameOf({ a: "1", b: "2", c: "3" })].map((name) => `sandmix-${name}`),
  );
});

test("caches of anything else are left alone", async () => {
  const caches = new FakeCaches();
  for (const name of ["engine-1f", "other"]) {
    await (await caches.open(name)).put(`${SITE}unfinished`, new Response("x"));
  }
  const worker = workerOf({ a: "1" }, caches, { a: "1" });
  await worker.install();
  await worker.activate();
  assert.deepEqual(await caches.keys(), ["engine-1f", "other", `sandmix-${nameOf({ a: "1" })}`]);
});

test("on a full device an installation leaves nothing behind and says so", async () => {
  const caches = new FakeCaches();
  caches.room = 2;
  const worker = workerOf({ a: "1", b: "2" }, caches, { a: "1", b: "2" });
  await assert.rejects(worker.install(), /no room/);
  assert.deepEqual(await caches.keys(), []);
  assert.equal(worker.told[0].broken.full, true);
});

test("a cache that lost files counts them, and mends itself when there is a network", async () => {
  const files = { a: "1", b: "2", c: "3" };
  const caches = new FakeCaches();
  /** @type {Files} */
  const network = { ...files };
  const worker = workerOf(files, caches, network);
  await worker.install();
  const held = await caches.open(`sandmix-${nameOf(files)}`);
  await held.delete(`${SITE}a`);
  await held.put(`${SITE}b`, new Response("damaged"));
  for (const path of Object.keys(files)) delete network[path];
  worker.fetched.length = 0;
  assert.deepEqual(await worker.ask("how is it"), { name: nameOf(files), kept: 2, of: 3, mended: 0, full: false });
  assert.deepEqual(await worker.ask("mend"), { name: nameOf(files), kept: 2, of: 3, mended: 0, full: false });
  assert.deepEqual(worker.fetched, ["a", "b"]);
  Object.assign(network, files);
  assert.deepEqual(await worker.ask("mend"), { name: nameOf(files), kept: 3, of: 3, mended: 2, full: false });
  assert.equal(await (await worker.open("b")).text(), "2");
});

test("a build in use that could not mend itself is not taken for an unfinished one", async () => {
  const caches = new FakeCaches();
  const worker = workerOf({ a: "1", b: "1" }, caches, { a: "1", b: "1" });
  await worker.install();
  caches.all.get(`sandmix-${nameOf({ a: "1", b: "1" })}`)?.delete(`${SITE}b`);
  const offline = workerOf({ a: "1", b: "1" }, caches, {});
  await offline.ask("mend");
  await workerOf({ a: "2" }, caches, { a: "2" }).install();
  assert.equal(await (await worker.open("a")).text(), "1");
});

test("what is not kept comes from the network", async () => {
  const worker = workerOf({ a: "1" }, new FakeCaches(), { a: "1", other: "far" });
  await worker.install();
  assert.equal(await (await worker.open("other", "no-cors")).text(), "far");
});

test("a page comes from the network where the storage is broken", async () => {
  const caches = new FakeCaches();
  const worker = workerOf({ a: "1" }, caches, { a: "1" });
  caches.broken = true;
  assert.equal(await (await worker.open("a")).text(), "1");
  assert.equal((await worker.ask("how is it")).kept, 0);
});

test("a page that is neither here nor reachable says so, and any other file fails as it would without a worker", async () => {
  const worker = workerOf({ a: "1" }, new FakeCaches(), {});
  const answer = await worker.open("temper/");
  assert.equal(answer.status, 503);
  assert.match(await answer.text(), /not on this device, and there is no network/);
  await assert.rejects(worker.open("app/main.js", "no-cors"), /no network/);
});
