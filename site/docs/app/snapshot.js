// @ts-check
/**
 * Where a snapshot of the started interpreter is kept on this device: one for each build and browser version, with the hash
 * of its bytes and of its answer to one question, so that no other is ever used.
 */
import { RUNTIME } from "./built.js";

const OURS = "engine-";
const CACHE = OURS + RUNTIME.split("/").at(-2);
const BYTES_HASH = "X-Bytes-Hash";
const ANSWER_HASH = "X-Answer-Hash";
/** The name of a worker that is to start from the site's files, whatever is kept. */
export const FROM_FILES = "from files";
/** What is asked before a snapshot is taken, and again after a start from it. */
export const QUESTION = '{"job": "temper", "inputs": {"heap_kg": 25, "moisture_pct_wet": 2}}';

/**
 * The kept snapshot: its bytes, whether they are whole, and whether an answer is the one that it gave before.
 * @typedef {{bytes: Uint8Array, whole: Promise<boolean>, answers: (text: string) => Promise<boolean>}} Snapshot
 * @returns {Promise<Snapshot | null>} nothing if there is none, or where nothing can be kept
 */
export async function findSnapshot() {
  try {
    const response = await caches.match(address(), { cacheName: CACHE });
    if (!response) return null;
    const bytes = new Uint8Array(await response.arrayBuffer());
    const is = async (/** @type {string} */ header, /** @type {Uint8Array | string} */ data) =>
      (await hashOf(data)) === response.headers.get(header);
    return { bytes, whole: is(BYTES_HASH, bytes), answers: (text) => is(ANSWER_HASH, text) };
  } catch {
    return null;
  }
}

/** Whether there is a snapshot for this build and browser. */
export async function hasSnapshot() {
  return Boolean(await caches.match(address(), { cacheName: CACHE }));
}

/**
 * Keep a snapshot.
 * @param {Uint8Array} bytes
 * @param {string} answer its answer to QUESTION
 */
export async function keepSnapshot(bytes, answer) {
  const headers = { [BYTES_HASH]: await hashOf(bytes), [ANSWER_HASH]: await hashOf(answer) };
  const cache = await caches.open(CACHE);
  await cache.put(address(), new Response(/** @type {BodyInit} */ (/** @type {unknown} */ (bytes)), { headers }));
}

/** Drop every snapshot, of this build and of others. */
export async function dropSnapshots() {
  try {
    const ours = (await caches.keys()).filter((name) => name.startsWith(OURS));
    await Promise.all(ours.map((name) => caches.delete(name)));
  } catch {
    // where nothing can be kept, there is nothing to drop
  }
}

/** Another version of the browser may start Python in another way, so it has a snapshot of its own. */
function address() {
  return new URL(`snapshot?${encodeURIComponent(navigator.userAgent)}`, RUNTIME).href;
}

/** @param {Uint8Array | string} data */
async function hashOf(data) {
  const bytes = typeof data === "string" ? new TextEncoder().encode(data) : data;
  const sum = new Uint8Array(await crypto.subtle.digest("SHA-256", /** @type {BufferSource} */ (bytes)));
  return Array.from(sum, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
