// @ts-check
/** Writing an entry of the heap book for a casting: the library takes the figures over from the casting. */

import { castingOf, keepCasting } from "./castings.js";

/** @import {Ask, CastingData} from "./answer-types.js" */
/** @import {RecordTap} from "./record-tap.js" */

/**
 * A way to ask that sends the casting along with an entry, and keeps it as the library gives it back, once the entry is written.
 * @param {string} key
 * @param {Ask} ask
 * @returns {{ask: Ask, keepAfter: (tap: RecordTap) => void}}
 */
export function askingFor(key, ask) {
  /** @type {CastingData | undefined} */
  let after;
  const asking = async (/** @type {any} */ request, /** @type {any} */ more) => {
    if (request.job !== "record") return ask(request, more);
    const casting = castingOf(key)?.casting;
    const answer = await ask({ ...request, inputs: { ...request.inputs, ...(casting ? { casting } : {}) } });
    after = answer.ok ? answer.casting : undefined;
    return answer;
  };
  return {
    ask: /** @type {Ask} */ (asking),
    keepAfter: (tap) =>
      tap.addEventListener("written", () => {
        if (after && castingOf(key)) keepCasting(key, after);
      }),
  };
}
