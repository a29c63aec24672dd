// @ts-check
/** Everything on this device besides books and castings: read for a file, written from one, and deleted. */

import { openDatabase } from "./database.js";
import { DEVICE_VERSION, addedStill, isExported, replacedBy } from "./device-file.js";
import { forget, keep, namesOf, recall } from "./local-storage.js";
import { chooseLook, chosenLook } from "./settings.js";

/** @import {Change, Device} from "./device-file.js" */

const BEFORE = "before-import";

/** @returns {Promise<Device>} */
export async function deviceHere() {
  const names = namesOf("").filter(isExported);
  const entries = names.map((name) => /** @type {[string, unknown]} */ ([name, recall(name)]));
  return {
    version: DEVICE_VERSION,
    look: chosenLook(),
    entries: Object.fromEntries(entries.filter(([, value]) => value !== null)),
    patterns: await (await openDatabase()).patterns(),
  };
}

/**
 * Write what a file has. What stood here is kept, so that it can be brought back.
 * @param {Change[]} changes
 */
export async function writeChanges(changes) {
  if (!changes.length) return;
  const device = replacedBy(changes, await deviceHere());
  const parts = changes.map(({ part }) => part);
  const names = parts.flatMap(({ entries }) => Object.keys(entries));
  keep(BEFORE, { at: Date.now(), device, names, patterns: parts.flatMap((part) => part.patterns) });
  for (const part of parts) await write(part);
}

/** @param {Device} device */
async function write({ look, entries, patterns }) {
  const database = await openDatabase();
  for (const pattern of patterns) await database.keepPattern(pattern);
  for (const [name, value] of Object.entries(entries)) keep(name, value);
  if (look !== undefined || "settings" in entries) chooseLook(look ?? chosenLook());
}

/** Whether an import has replaced something that can be brought back. */
export function canBringBack() {
  return recall(BEFORE) !== null;
}

/** Bring back the settings, forms and patterns from before the last import. */
export async function bringBack() {
  const before = recall(BEFORE);
  if (!before) return;
  for (const name of before.names) if (!(name in before.device.entries)) forget(name);
  const database = await openDatabase();
  for (const { name } of addedStill(before, await database.patterns())) await database.dropPattern(name);
  await write(before.device);
  forget(BEFORE);
}

/** Delete everything that this site keeps in this browser, besides the site itself. */
export async function deleteEverything() {
  await (await openDatabase()).clear();
  for (const name of namesOf("")) forget(name);
}
