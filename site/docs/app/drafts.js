// @ts-check
/**
 * Entries that are not in a book yet, kept on this device: half typed, or sent and not confirmed. Each has the identity of
 * its write, so that it is written once.
 */

import { freshKey } from "./fresh-key.js";
import { forget, keep, namesOf, recall } from "./local-storage.js";

/** @import {BookEvent} from "./answer-types.js" */
/** @import {Book} from "./books.js" */
/** @import {Corrected} from "./event-words.js" */
/** @import {Typed} from "./form.js" */
/**
 * @typedef {object} Draft
 * @property {string} write the identity of its write
 * @property {string} kind
 * @property {number} at when it was last changed, in ms
 * @property {string} words what it holds, for a list
 * @property {Corrected} [righted] the entry that it corrects
 * @property {string} [book] the key of the book of the entry that it corrects
 * @property {Typed} [typed]
 * @property {string[]} [by] what the boxes hold that are no words of the library
 * @property {boolean} [linked] whether it came with a link and nobody has changed it
 * @property {BookEvent} [event] what was sent
 * @property {Book} [to] the book that it was sent to, until that is confirmed or refused
 */

const DRAFT = "draft.";
const ON_SCREEN = "draft-on-screen";
/** Where an older page kept its only draft. */
const OLD = "event";

/** @returns {Draft[]} oldest first */
export function drafts() {
  adoptOld();
  const found = namesOf(DRAFT).map((name) => /** @type {Draft | null} */ (recall(name)));
  return found.filter((draft) => draft !== null).toSorted((a, b) => a.at - b.at);
}

/** @param {Draft} draft */
export function keepDraft(draft) {
  keep(DRAFT + draft.write, draft);
}

/** @param {string} write */
export function dropDraft(write) {
  forget(DRAFT + write);
}

/** @returns {string} the identity of the draft whose form is open; empty if none is */
export function onScreen() {
  return recall(ON_SCREEN) ?? "";
}

/** @param {string} write empty for none */
export function noteOnScreen(write) {
  keep(ON_SCREEN, write);
}

function adoptOld() {
  const old = recall(OLD);
  if (!old) return;
  const write = freshKey();
  keepDraft({ write, at: Date.now(), words: "", ...old });
  noteOnScreen(write);
  forget(OLD);
}
