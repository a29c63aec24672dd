// @ts-check
/** What a job's page has of the heap book: the heap's figures for its form, and its answer for the book. */

import { NOTHING } from "./answer.js";
import { books, isoOf } from "./books.js";
import { all, fresh, one, say, show } from "./dom.js";
import { age, lastTest } from "./heap.js";
import { addressOf } from "./share.js";

const SURE_DIGITS = 4;

/**
 * @param {HTMLElement} root
 * @param {import("./job.js").Job} job
 * @param {{ask: (request: object) => Promise<any>}} engine
 */
export async function bookTools(root, job, engine) {
  const shelf = await books();
  if (!(await shelf.inUse())) return;
  const [take, write] = [fresh("book"), fresh("book", 1)];
  one(root, ".question").append(take);
  one(root, "[data-deeds]").before(write);
  const units = JSON.parse(root.dataset.units || "{}");
  for (const button of all(take, "[data-take-heap]")) {
    button.addEventListener("click", async () => {
      const found = await figures(shelf, engine, JSON.parse(button.dataset.takeHeap || "{}"), units);
      if (found.pairs.length) job.take(found.pairs);
      say(button, found.words);
      const when = one(take, "[data-taken-when]");
      say(when, found.when);
      show(when, found.when !== "");
    });
  }
  const doors = () => {
    for (const door of all(write, "[data-write]:not([data-told])"))
      showDoor(/** @type {HTMLAnchorElement} */ (door), job);
    for (const door of all(write, "[data-told]")) door.remove();
    write.append(...(job.answer.shown?.records ?? []).map(doorOf));
  };
  job.answer.addEventListener("shown", doors);
  doors();
}

/**
 * What the book in use says of some words, each with its unit and how far it may be off.
 * @param {import("./books.js").Books} shelf
 * @param {{ask: (request: object) => Promise<any>}} engine
 * @param {Record<string, string>} wanted a form's words, each with the heap's own
 * @param {Record<string, string>} units of the form's words
 * @returns {Promise<{pairs: [string, string][], words: string, when: string}>} what is taken, from where, and from when it is
 */
async function figures(shelf, engine, wanted, units) {
  const book = await shelf.inUse();
  if (!book) return { pairs: [], words: "There is no book any more", when: "" };
  const answer = await engine.ask({ job: "heap", inputs: { book: await shelf.told(book), now: isoOf(new Date()) } });
  if (!answer.ok) return { pairs: [], words: answer.problems[0].message, when: "" };
  const known = Object.entries(wanted).filter(([, ours]) => Number.isFinite(answer.result[ours]));
  if (!known.length) return { pairs: [], words: "The book does not know these figures yet", when: "" };
  return {
    pairs: known.map(([word, ours]) => [
      word,
      `${spoken(answer.result[ours], answer.doubt?.[ours])} ${units[word] ?? ""}`.trim(),
    ]),
    words: `Taken: ${book.name}`,
    when: dated(
      answer,
      known.map(([, ours]) => ours),
    ),
  };
}

/**
 * From when figures are: a reading from its own day, the sum of the book from now, and when that was last tested.
 * @param {any} answer
 * @param {string[]} words
 */
function dated(answer, words) {
  const read = (answer.kept || []).filter((/** @type {any} */ reading) => words.includes(reading.word));
  const readings = read.map((/** @type {any} */ { label, at }) => `${label}: of ${onDay(at)}.`);
  const summed =
    read.length < words.length
      ? [
          `${read.length ? "The rest" : "This"} as the book has it now, ${age(lastTest(answer, Date.now()), Date.now())}.`,
        ]
      : [];
  return [...readings, ...summed].join(" ");
}

/** @param {string} at */
function onDay(at) {
  const then = new Date(at);
  return then.toDateString() === new Date().toDateString()
    ? "today"
    : then.toLocaleDateString("en-GB", { day: "numeric", month: "long", year: "numeric" });
}

/**
 * A figure and its doubt to two figures, so that what is handed on to be computed with loses little of either.
 * @param {number} value
 * @param {[number, number] | undefined} band
 */
function spoken(value, band) {
  const half = band ? Math.max(band[1] - value, value - band[0]) : 0;
  if (!(half > 0)) return String(Number(value.toPrecision(SURE_DIGITS)));
  const decimals = Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(half))));
  return `${value.toFixed(decimals)} ± ${half.toFixed(decimals)}`;
}

/**
 * A door for an event that the answer itself tells.
 * @param {{kind: string, label: string, words: Record<string, string>}} record
 */
function doorOf({ kind, label, words }) {
  const door = document.createElement("a");
  door.className = "deed quiet";
  door.dataset.write = kind;
  door.dataset.told = "";
  door.textContent = label;
  door.href = addressOf("../heap/", [["kind", kind], ...Object.entries(words)]);
  return door;
}

/** @param {HTMLAnchorElement} door @param {import("./job.js").Job} job */
function showDoor(door, job) {
  const answer = job.answer.shown;
  /** @type {Record<string, string>} */
  const words = JSON.parse(door.dataset.words || "{}");
  /** @type {Record<string, string> | null} the units of what is written with its doubt */
  const doubted = JSON.parse(door.dataset.doubted || "null");
  const given = new Map(job.form.given());
  const pairs = Object.entries(words).flatMap(([word, from]) => {
    if (doubted)
      return Number.isFinite(answer?.result[from])
        ? [
            /** @type {[string, string]} */ ([
              word,
              `${spoken(answer.result[from], answer.doubt?.[from])} ${doubted[from]}`.trim(),
            ]),
          ]
        : [];
    const row = answer?.shown.find((/** @type {any} */ shown) => shown.word === from);
    const text = row ? row.text : given.get(from);
    return text && text !== NOTHING ? [/** @type {[string, string]} */ ([word, text])] : [];
  });
  const ready = Boolean(answer) && pairs.length > 0;
  const own = (door.dataset.notWith || "").split(" ").some((word) => given.has(word));
  show(door, ready && !own);
  const instead = door.parentElement?.querySelector("[data-not-written]");
  if (instead instanceof HTMLElement) show(instead, ready && own);
  door.href = addressOf("../heap/", [["kind", door.dataset.write], ...pairs]);
}
