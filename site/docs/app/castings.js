// @ts-check
/** The castings of this device, each kept as the library saves it, and the one that is in use. */

import { freshKey } from "./fresh-key.js";
import { forget, keep, namesOf, recall } from "./local-storage.js";

/** @import {Value} from "./amount-text.js" */
/** @import {Answer, CastingData, DayStep} from "./answer-types.js" */
/** @typedef {{key: string, casting: CastingData}} Kept */
/** @typedef {Omit<DayStep, "inputs">} SheetStep a step without its inputs, which may hold a whole book */
/**
 * @typedef {object} Sheet what the plan of a casting last said
 * @property {number} at when, in ms
 * @property {Answer["state"]} state
 * @property {Answer["lead"]} lead
 * @property {Answer["remarks"]} remarks
 * @property {Answer["cautions"]} cautions
 * @property {Answer["records"]} records
 * @property {SheetStep[]} steps
 */

export const FORMAT = "sandmix casting";
export const VERSION = 1;
/** As the library has it. */
const LONGEST_NAME = 60;
const CASTING = "casting.";
const SHEET = "sheet.";
const IN_USE = "casting-in-use";

/** Sends "changed" when a casting is changed, here or on another page. */
export const castings = new EventTarget();

globalThis.addEventListener?.("storage", ({ key }) => {
  if (!key || key.includes(CASTING) || key.endsWith(IN_USE)) castings.dispatchEvent(new Event("changed"));
});

/** @returns {Kept[]} the newest first */
export function allCastings() {
  const found = namesOf(CASTING).map((name) => ({ key: name.slice(CASTING.length), casting: recall(name) }));
  return found.filter(({ casting }) => casting?.format === FORMAT).toSorted((a, b) => newest(b) - newest(a));
}

/** @param {Kept} kept */
function newest({ casting }) {
  return Date.parse(casting.begun) || 0;
}

/** @returns {Kept | undefined} the open casting that is in use */
export function castingInUse() {
  const key = recall(IN_USE);
  const found = typeof key === "string" ? castingOf(key) : undefined;
  return found && !found.casting.finished ? found : undefined;
}

/**
 * @param {string} key
 * @returns {Kept | undefined}
 */
export function castingOf(key) {
  const casting = recall(CASTING + key);
  return casting?.format === FORMAT ? { key, casting } : undefined;
}

/** @param {string} key empty for none */
export function useCasting(key) {
  keep(IN_USE, key);
  castings.dispatchEvent(new Event("changed"));
}

/**
 * @param {string} key
 * @param {CastingData} casting
 */
export function keepCasting(key, casting) {
  keep(CASTING + key, casting);
  castings.dispatchEvent(new Event("changed"));
}

/** @param {string} key */
export function dropCasting(key) {
  forget(CASTING + key);
  forget(SHEET + key);
  castings.dispatchEvent(new Event("changed"));
}

/**
 * Begin a casting and use it.
 * @param {CastingData} casting
 * @returns {string} its key
 */
export function addCasting(casting) {
  const key = freshKey();
  keep(CASTING + key, casting);
  useCasting(key);
  return key;
}

/**
 * Keep castings that come from a file, without using them.
 * @param {CastingData[]} given
 */
export function bringCastings(given) {
  for (const casting of given) keep(CASTING + freshKey(), casting);
  if (given.length) castings.dispatchEvent(new Event("changed"));
}

/**
 * A casting with these own figures, which the library reads later.
 * @param {string} name
 * @param {string} begun
 * @param {Record<string, unknown>} figures
 * @returns {CastingData}
 */
export function newCasting(name, begun, figures) {
  return {
    format: FORMAT,
    version: VERSION,
    name,
    begun,
    finished: "",
    figures,
    own: {},
    pattern: { name: "", figures: {} },
    ticks: [],
    clocks: [],
    recorded: [],
  };
}

/**
 * A casting with one figure as a person left it in a job: in the plan if the plan hands it on, else in that job alone.
 * An empty one is taken out, so that what is known without it counts again.
 * @param {CastingData} casting
 * @param {string} job
 * @param {string} word
 * @param {unknown} value
 * @param {string[]} takes the words that the plan hands on to this job
 * @returns {CastingData}
 */
export function withFigure(casting, job, word, value, takes) {
  const empty = value === "" || value === undefined || value === null;
  if (job === "plan" || takes.includes(word)) return { ...casting, figures: put(casting.figures, word, value, empty) };
  const own = put(casting.own[job] ?? {}, word, value, empty);
  const { [job]: _, ...others } = casting.own;
  return { ...casting, own: Object.keys(own).length ? { ...others, [job]: own } : others };
}

/**
 * What a person typed for a job of a casting.
 * @param {CastingData} casting
 * @param {string} job
 * @param {string[]} takes
 * @returns {Record<string, unknown>}
 */
export function ownFigures(casting, job, takes) {
  if (job === "plan") return casting.figures;
  const handedOn = Object.entries(casting.figures).filter(([word]) => takes.includes(word));
  return { ...Object.fromEntries(handedOn), ...casting.own[job] };
}

/**
 * @param {Record<string, unknown>} figures
 * @param {string} word
 * @param {unknown} value
 * @param {boolean} empty
 */
function put(figures, word, value, empty) {
  const { [word]: _, ...others } = figures;
  return empty ? others : { ...others, [word]: value };
}

/**
 * @param {string} key
 * @returns {Sheet | null}
 */
export function sheetOf(key) {
  return recall(SHEET + key);
}

/**
 * Keep what the plan of a casting says, for pages that open before the calculator is here.
 * @param {string} key
 * @param {Answer} answer
 * @param {number} at
 * @returns {Sheet}
 */
export function keepSheet(key, { state, lead, remarks, cautions, records, steps }, at) {
  const kept = steps.map(({ inputs: _, ...step }) => step);
  const sheet = { at, state, lead, remarks, cautions, records, steps: kept };
  keep(SHEET + key, sheet);
  return sheet;
}

/**
 * A name that no other casting of this device has.
 * @param {string} name
 */
export function freshName(name) {
  const taken = allCastings().map(({ casting }) => casting.name);
  return taken.includes(name) ? numbered(name, taken) : name;
}

/**
 * The name of a casting that is done once more: the same with a number, so that two can be told apart.
 * @param {string} name
 * @param {string[]} taken
 */
export function numbered(name, taken) {
  const base = (name || "A casting").replace(/ \(\d+\)$/, "").slice(0, LONGEST_NAME - " (999)".length);
  let number = 2;
  while (taken.includes(`${base} (${number})`)) number += 1;
  return `${base} (${number})`;
}

/**
 * A figure as a box takes it; rows go as their JSON text.
 * @param {unknown} value
 * @returns {Value}
 */
export function boxValue(value) {
  if (typeof value === "string" || typeof value === "boolean") return value;
  if (typeof value === "number") return String(value);
  const isAmount = typeof value === "object" && value !== null && "value" in value && "unit" in value;
  return isAmount ? { value: String(value.value), unit: String(value.unit) } : JSON.stringify(value);
}
