// @ts-check
/** The figures of the heap in use, as a form carries them: from the last stored answer at once, then from the library. */

import { figureWithRange } from "./figure-text.js";
import { lastTest } from "./heap.js";
import { dateOrToday, isoOf, testedText } from "./time-text.js";

/** @import {Answer, Refusal} from "./answer-types.js" */
/** @import {Book, Books} from "./books.js" */
/** @import {Carry} from "./carried-rules.js" */
/** @import {Calculator} from "./engine.js" */

/**
 * What a book says of the heap now; the answer is kept for the pages that open next.
 * @param {Books} shelf
 * @param {Book} book
 * @param {Pick<Calculator, "ask">} engine
 * @returns {Promise<Answer | Refusal>}
 */
export async function askHeap(shelf, book, engine) {
  const whole = await shelf.whole(book);
  const answer = await engine.ask({ job: "heap", inputs: { book: whole, now: isoOf(new Date()) } });
  if (answer.ok) await shelf.keepAnswer(book, whole.events.length, answer);
  return answer;
}

/**
 * The heap's figures that a form carries, each with its ±, its origin and the age of the last test.
 * @param {Pick<Answer, "result" | "doubt" | "kept" | "timeline">} answer
 * @param {number} answeredAt
 * @param {Record<string, string>} wanted a form's words, each with the heap's own
 * @param {Record<string, string>} units of the form's words
 * @param {number} now
 * @returns {Carry[]}
 */
export function heapCarries(answer, answeredAt, wanted, units, now) {
  const tested = lastTest(answer, answeredAt);
  const from = `from the heap, ${tested ? testedText(tested, now) : "not tested yet"}`;
  const at = lastEntry(answer) ?? tested ?? answeredAt;
  return Object.entries(wanted).flatMap(([word, ours]) => {
    const value = figureWithRange(answer, ours, units[word] ?? "");
    if (value === undefined) return [];
    const reading = answer.kept.find((each) => each.word === ours);
    if (!reading) return [{ word, value, from, at, measured: true }];
    const read = `from the heap, ${reading.from ? `${reading.from}, ` : ""}${dateOrToday(reading.at, now)}`;
    return [{ word, value, from: read, at: Date.parse(reading.at), measured: true }];
  });
}

/**
 * When the last entry of a book happened: from then on its figures count.
 * @param {Pick<Answer, "timeline">} answer
 */
function lastEntry({ timeline }) {
  const moments = timeline.map(({ at }) => Date.parse(at)).filter((at) => !Number.isNaN(at));
  return moments.length ? Math.max(...moments) : undefined;
}
