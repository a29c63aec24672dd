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

/** The browser's caches, as far as the worker uses them. */
class FakeCaches {
  /** @type {Map<string, Map<string, Response>>} */
  all = new Map();

  /** @param {string} name */
  async open(name) {
    const held = this.all.get(name) ?? new Map();
    this.all.set(name, held);
    return {
      put: async (/** @type {string} */ url, /** @type {Response} */ response) => void held.set(url, response),
      match: async (/** @type {string} */ url) => held.get(url)?.clone(),
      keys: async () => Array.from(held.keys()),
    };
  }

  keys = async () => Array.from(this.all.keys());
  delete = async (/** @type {string} */ name) => this.all.delete(name);
}

/**
 * The worker of a build, over caches and a network of the test.
 * @param {Record<string, string>} files of the build, by path
 * @param {FakeCaches} caches
 * @param {Record<string, string>} network what the server has, by path
 */
function workerOf(files, caches, network) {
  /** @type {Record<string, (event: any) => void>} */
  const listeners = {};
  /** @type {string[]} */
  const fetched = [];
  const fetchFake = async (/** @type {string | Request} */ input) => {
    const path = String(input instanceof Request ? input.url : input).replace(SITE, "");
    fetched.push(path);
    return path in network ? new Response(network[path]) : new Response("", { status: 404 });
  };
  const built = {
    name: hashOf(JSON.stringify(files)),
    files: Object.entries(files).map(([path, text]) => [path, hashOf(text)]),
  };
  const self = {
    addEventListener: (/** @type {string} */ kind, /** @type {any} */ listener) => (listeners[kind] = listener),
    registration: { scope: SITE },
    location: new URL(SITE),
    clients: { claim: async () => {} },
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
  return { install: () => wait("install"), activate: () => wait("activate"), open, fetched };
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

test("one missing file undoes the whole", async () => {
  const caches = new FakeCaches();
  const worker = workerOf({ a: "1", b: "2" }, caches, { a: "1" });
  await assert.rejects(worker.install(), /404/);
  assert.deepEqual(await caches.keys(), []);
});

test("a file that is not the one that was built undoes the whole", async () => {
  const caches = new FakeCaches();
  const worker = workerOf({ a: "1" }, caches, { a: "other" });
  await assert.rejects(worker.install(), /not what was built/);
  assert.deepEqual(await caches.keys(), []);
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

test("what is not kept comes from the network", async () => {
  const worker = workerOf({ a: "1" }, new FakeCaches(), { a: "1", other: "far" });
  await worker.install();
  assert.equal(await (await worker.open("other", "no-cors")).text(), "far");
});
