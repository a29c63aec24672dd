// @ts-check
/** Asks the library for the plan of a casting, with the heap book in use. */

import { books } from "./books.js";
import { castingOf, keepSheet } from "./castings.js";
import { isoOf } from "./time-text.js";

/** @import {Ask, Inputs, Refusal} from "./answer-types.js" */
/** @import {Sheet} from "./castings.js" */

/**
 * The plan of a casting as it is now. It is kept, so that the next page opens with it.
 * @param {string} key
 * @param {Ask} ask
 * @returns {Promise<Sheet | Refusal | undefined>} nothing if there is no such casting any more
 */
export async function planOf(key, ask) {
  const kept = castingOf(key);
  if (!kept) return undefined;
  const shelf = await books();
  const book = await shelf.inUse();
  const now = isoOf(new Date());
  /** @type {Inputs} */
  const inputs = { casting: kept.casting, ...(book ? { book: await shelf.whole(book), now } : {}) };
  const answer = await ask({ job: "plan", inputs });
  return answer.ok ? keepSheet(key, answer, Date.now()) : answer;
}
