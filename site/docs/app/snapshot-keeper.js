// @ts-check
/**
 * Have a snapshot of the started calculator made while nobody waits for it: the next visit starts from it in a fraction of
 * the time. Whatever goes wrong here changes nothing for this visit.
 */

import { dropSnapshots, hasSnapshot, keepSnapshot } from "./snapshot.js";

/** @import {Engine} from "./engine.js" */

const QUIET_MS = 4_000;
const ROOM_BYTES = 150_000_000;
const LOW_BATTERY = 0.3;
const LOCK = "sandmix-snapshot";

/** @param {Engine} engine one that has just started from the site's files */
export async function keepSnapshotWhenQuiet(engine) {
  if (!navigator.serviceWorker || !navigator.locks) return;
  await navigator.serviceWorker.ready;
  do await pause(QUIET_MS);
  while (engine.busy || document.hidden);
  const keep = navigator.locks.request(LOCK, { ifAvailable: true }, (lock) => Boolean(lock) && keepOne());
  const kept = await keep.catch(() => false);
  document.documentElement.dataset.snapshot = kept ? "kept" : "none";
}

/** Keep the snapshot of this build in the place of all others, unless another tab has done so. */
async function keepOne() {
  if (await hasSnapshot()) return true;
  await dropSnapshots();
  if (!(await isWelcome())) return false;
  const made = await make();
  if (made) await keepSnapshot(made.bytes, made.answer);
  return Boolean(made);
}

/** Room and battery are left: what a browser does not tell counts as enough. */
async function isWelcome() {
  const { quota = Infinity, usage = 0 } = (await navigator.storage?.estimate?.()) ?? {};
  if (quota - usage < ROOM_BYTES) return false;
  const battery = await /** @type {any} */ (navigator).getBattery?.();
  return !battery || battery.charging || battery.level > LOW_BATTERY;
}

/**
 * The page keeps what the worker made: one engine forgets what a worker kept once that is gone.
 * @returns {Promise<{bytes: Uint8Array, answer: string} | null>} once the worker is gone; nothing if it failed
 */
function make() {
  const worker = new Worker(new URL("snapshot-worker.js", import.meta.url), { type: "module" });
  return new Promise((resolve) => {
    const end = (/** @type {any} */ made) => {
      worker.terminate();
      resolve(made);
    };
    worker.addEventListener("message", ({ data }) => end(data.bytes ? data : null));
    worker.addEventListener("error", (event) => {
      event.preventDefault();
      end(null);
    });
  });
}

/** @param {number} ms */
function pause(ms) {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
