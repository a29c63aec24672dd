// @ts-check
/** Asks the library for the plan of a casting, with the heap book in use. */

import { books } from "./books.js";
import { castingOf, keepSheet } from "./castings.js";
import { one } from "./dom.js";
import { ownCarries } from "./settings.js";
import { isoOf } from "./time-text.js";

/** @import {Ask, CastingData, Inputs, Refusal} from "./answer-types.js" */
/** @import {Sheet} from "./castings.js" */

/**
 * The plan of a casting as it is now. It is kept, so that the next page opens with it.
 * @param {string} key
 * @param {Ask} ask
 * @returns {Promise<Sheet | Refusal | undefined>} nothing if there is no such casting any more
 */
export async function planOf(key, ask) {
  const shelf = await books();
  const book = await shelf.inUse();
  const whole = book && (await shelf.whole(book));
  // read last, so that of two questions at once the later one knows the newer figures
  const kept = castingOf(key);
  if (!kept) return undefined;
  const now = isoOf(new Date());
  /** @type {Inputs} */
  const inputs = {
    ...alwaysUsed(kept.casting),
    casting: kept.casting,
    ...(whole ? { book: whole, now } : {}),
  };
  const answer = await ask({ job: "plan", inputs });
  return answer.ok ? keepSheet(key, answer, Date.now()) : answer;
}

/**
 * What a person always uses, where the casting has no figure of its own and the plan takes one.
 * @param {CastingData} casting
 * @returns {Inputs}
 */
function alwaysUsed({ figures, pattern }) {
  const takes = (one(document, "script[data-plan-takes]").dataset.planTakes ?? "").split(" ");
  const known = { ...pattern.figures, ...figures };
  const left = ownCarries().filter(({ word }) => takes.includes(word) && !(word in known));
  return Object.fromEntries(left.map(({ word, value }) => [word, value]));
}
