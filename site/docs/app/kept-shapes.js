// @ts-check
/**
 * What each entry in the storage of this device looks like, so that a damaged one never reaches the page. Only the parts that the
 * page relies on are looked at.
 */

/** @typedef {(value: unknown) => boolean} Is */

/** @type {Is} */
const text = (value) => typeof value === "string";
/** @type {Is} */
const number = (value) => Number.isFinite(value);
/** @param {unknown} value */
const isObject = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
/** @param {Is} is */
const maybe = (is) => (/** @type {unknown} */ value) => value === undefined || value === null || is(value);
/** @param {Is} is */
const listOf = (is) => (/** @type {unknown} */ value) => Array.isArray(value) && value.every(is);
/** @param {Is} is */
const mapOf = (is) => (/** @type {unknown} */ value) => isObject(value) && Object.values(value ?? {}).every(is);
/** @param {Record<string, Is>} parts */
const shape = (parts) => (/** @type {any} */ value) =>
  isObject(value) && Object.entries(parts).every(([name, is]) => is(value[name]));

const STATE = shape({ word: text, tone: text });
/** @type {Is} what a box takes */
const boxed = (value) => text(value) || typeof value === "boolean" || shape({ value: text, unit: text })(value);
const TYPED = shape({
  texts: mapOf(text),
  units: mapOf(text),
  ways: mapOf(text),
  others: maybe(mapOf(boxed)),
  chosen: maybe(listOf(text)),
  at: maybe(mapOf(number)),
  links: maybe(listOf(shape({ word: text, value: boxed, from: text }))),
  before: maybe(mapOf(shape({ text, unit: text }))),
});
const CLOCK = shape({ label: text, after_s: number, latest_s: maybe(number) });
const DRAFT = shape({
  write: text,
  kind: text,
  at: number,
  words: text,
  typed: maybe(TYPED),
  by: maybe(listOf(text)),
  righted: maybe(shape({ of: text, words: listOf(text) })),
  event: maybe(isObject),
  to: maybe(shape({ key: text })),
});
const CASTING = shape({
  name: text,
  begun: text,
  figures: isObject,
  own: mapOf(isObject),
  pattern: isObject,
  ticks: listOf(isObject),
  clocks: listOf(shape({ label: text, after_s: number })),
  recorded: listOf(isObject),
});
const STEP = shape({ job: text, label: text, state: STATE, lead: maybe(shape({ label: text, text })) });
const SHEET = shape({
  at: number,
  state: STATE,
  lead: shape({ sentence: text }),
  remarks: listOf(text),
  cautions: listOf(text),
  records: listOf(shape({ kind: text, label: text, words: isObject })),
  steps: listOf(STEP),
});
const ANSWER = shape({
  state: STATE,
  lead: shape({ sentence: text }),
  result: isObject,
  shown: listOf(shape({ word: text, text })),
  kept: listOf(shape({ word: text })),
  timeline: listOf(shape({ id: text, at: text })),
});

/** Whether a kept pattern has what the pages take from it. */
export const isPattern = shape({ name: text, at: number, said: text, figures: isObject, hands: mapOf(isObject) });

/**
 * The entries by how their names begin: what they are, what they are called, and whether they are only a copy that is made again.
 * @type {Record<string, {is: Is, called: string, copy?: true}>}
 */
const KINDS = {
  "job.": { is: shape({ typed: TYPED, since: maybe(number) }), called: "what was typed on the page of a job" },
  words: {
    is: mapOf(shape({ text, unit: text, from: maybe(text), at: maybe(number) })),
    called: "the figures that the pages share",
  },
  heap: {
    is: shape({
      figures: mapOf(shape({ text, range: text })),
      name: maybe(text),
      tested: maybe(number),
      state: maybe(STATE),
    }),
    called: "the last figures of the heap",
  },
  "clock.": { is: shape({ start: number, timers: listOf(CLOCK) }), called: "running clocks" },
  "draft.": { is: DRAFT, called: "an entry that was not recorded yet" },
  "draft-on-screen": { is: text, called: "", copy: true },
  settings: {
    is: shape({
      text: maybe(text),
      hand: maybe(text),
      shown_in: maybe(mapOf(text)),
      own: maybe(mapOf(shape({ text, unit: text }))),
    }),
    called: "your settings",
  },
  "before-import": {
    is: shape({
      device: shape({ entries: isObject, patterns: listOf(isPattern) }),
      names: listOf(text),
      patterns: maybe(listOf(isPattern)),
    }),
    called: "what an import replaced",
  },
  start: { is: TYPED, called: "the questions that begin a casting" },
  "casting-in-use": { is: text, called: "which casting is in use" },
  "casting.": { is: CASTING, called: "a casting" },
  "last.": { is: shape({ request: isObject, answer: isObject }), called: "", copy: true },
  "answer.": { is: shape({ state: STATE }), called: "", copy: true },
  "sheet.": { is: SHEET, called: "", copy: true },
};

/**
 * What is wrong with an entry.
 * @param {string} name
 * @param {unknown} value undefined if it cannot be read at all
 * @returns {{called: string, copy: boolean} | undefined} what is damaged, and whether it is only a copy; nothing if it is whole
 */
export function damageIn(name, value) {
  const [, kind] =
    Object.entries(KINDS).find(([start]) => (start.endsWith(".") ? name.startsWith(start) : name === start)) ?? [];
  if (value !== undefined && (!kind || value === null || kind.is(value))) return undefined;
  return { called: kind?.called ?? "an entry", copy: kind?.copy ?? false };
}

/** @type {Record<string, Is>} */
const FACTS = {
  exported: shape({ at: maybe(number), events: number }),
  replaced: listOf(shape({ id: text, key: text, events: listOf(isObject) })),
  since: number,
};

/**
 * A fact of the database; a damaged one counts as none.
 * @param {string} name
 * @param {any} value
 */
export function wholeFact(name, value) {
  const { [name]: is } = FACTS;
  return !is || is(value) ? value : undefined;
}

/**
 * Whether a kept answer to a book has what the pages show of it.
 * @param {unknown} last
 */
export function isKeptAnswer(last) {
  return shape({ key: text, events: number, at: number, answer: ANSWER })(last);
}
