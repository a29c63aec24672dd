// @ts-check
/**
 * Which figure stands in a box: a person's own figure, else the newest measurement, else what is carried from
 * elsewhere, else what a person always uses, else the default of the form.
 */

import { shownText, withUnit } from "./amount-text.js";
import { DAY_MS, daysAgo } from "./time-text.js";

/** @import {Value} from "./amount-text.js" */
/** @import {Typed} from "./form.js" */
/**
 * @typedef {object} Carry a figure that is known elsewhere
 * @property {string} word
 * @property {Value} value
 * @property {string} from where it is known, for a person: "from the heap, tested 2 days ago"
 * @property {number} [at] when it was measured, or typed, in ms
 * @property {boolean} [measured] whether the newer one of two such figures counts
 * @property {boolean} [link] whether it came with a link that a person followed
 *
 * @typedef {{text: string, unit: string, at: number}} Own what a person had typed into a box, and when it gave way
 *
 * @typedef {object} Standing what stands in a box
 * @property {"own" | "carried" | "default"} whose
 * @property {Carry} [carry] the best figure that is known elsewhere, whether it stands in the box or not
 * @property {Own} [before] what a person had typed before a link's figure took its place
 */

/** Where figures are known, the more binding first if none of them was measured. */
export const LAYERS = /** @type {const} */ (["link", "casting", "heap", "shared", "settings"]);
/** @typedef {typeof LAYERS[number]} Layer */

/**
 * The figures that are known of a word, in the order of their layers; those of a plan may stand for the others.
 * @param {(layer: Layer) => Carry[]} inLayer the figures of a layer
 * @param {string} word
 * @returns {Carry[]}
 */
export function carriesOf(inLayer, word) {
  const ofWord = (/** @type {Layer} */ layer) => inLayer(layer).filter((carry) => carry.word === word);
  return withPlan(ofWord("casting"), LAYERS.flatMap(ofWord));
}

/** What a person typed less than this before is of the same visit. */
export const VISIT_MS = DAY_MS / 2;

/**
 * The figure that counts of those known elsewhere: the newest measurement, else the first. If a link only hands on what is
 * known at its origin, the origin counts, because that has the ± too.
 * @param {Carry[]} carries in the order of their layers
 * @returns {Carry | undefined}
 */
export function bestOf(carries) {
  const measured = carries.filter((carry) => carry.measured);
  if (!measured.length) return carries[0];
  const newest = measured.reduce((best, carry) => ((carry.at ?? 0) > (best.at ?? 0) ? carry : best));
  const origin = carries.find((carry) => !carry.link && figureOf(carry) === figureOf(newest));
  return newest.link && origin ? origin : newest;
}

/**
 * The figures that can stand in a box of a casting's step. A plan has read the heap already, so its figures stand for the heap's
 * until something newer is known.
 * @param {Carry[]} planned what the plan has for a word
 * @param {Carry[]} all the same, and what is known of it elsewhere
 */
export function withPlan(planned, all) {
  const plannedAt = planned[0]?.at ?? Infinity;
  const isNewer = all.some(({ measured, at = 0 }) => measured && at > plannedAt);
  return planned.length && !isNewer ? planned : all;
}

/**
 * A figure with its unit, without its ±.
 * @param {Carry} carry
 */
function figureOf({ value }) {
  return shownText(value).replace(/ ± [\d.]+/u, "");
}

/**
 * What stands in a box.
 * @param {boolean} own whether a person typed here, or emptied the box
 * @param {Carry[]} carries
 * @param {Own} [before]
 * @returns {Standing}
 */
export function standing(own, carries, before) {
  const carry = bestOf(carries);
  const held = before ? { before } : {};
  if (own) return { whose: "own", ...(carry ? { carry } : {}) };
  return carry ? { whose: "carried", carry, ...held } : { whose: "default", ...held };
}

/**
 * Whether an own figure gives way to a link that a person follows: only if it is of an earlier visit than the figure that the
 * link has.
 * @param {number} typedAt
 * @param {number} linkAt
 */
export function givesWay(typedAt, linkAt) {
  return typedAt < linkAt - VISIT_MS;
}

/**
 * A form with the figures of a link that leads on from an answer. Own figures of this visit stay; older ones give way, and are
 * kept to be brought back. A choice that decides what else is asked, such as which test, always gives way: it is what the
 * person tapped.
 * @param {Typed} typed
 * @param {Carry[]} figures
 * @param {string[]} [deciding] the words of such choices
 * @returns {Typed}
 */
export function withLink(typed, figures, deciding = []) {
  const [texts, at, before] = [{ ...typed.texts }, { ...typed.at }, { ...typed.before }];
  for (const { word, value, at: linkAt = 0 } of figures) {
    if (at[word] === undefined) continue;
    if (deciding.includes(word) ? texts[word] === value : !givesWay(at[word], linkAt)) continue;
    if (texts[word]) before[word] = { text: texts[word], unit: typed.units[word] ?? "", at: linkAt };
    delete texts[word];
    delete at[word];
  }
  const given = figures.map(({ word }) => word);
  const older = (typed.links ?? []).filter(({ word }) => !given.includes(word));
  return { ...typed, texts, at, before, links: [...figures, ...older] };
}

/**
 * The line under a box, and the words of its button.
 * @param {Standing} standing
 * @param {{text: string, unit: string}} box what the box holds
 * @param {number} now
 * @returns {{words: string, act: string}} both empty for none
 */
export function lineOf({ whose, carry, before }, box, now) {
  const from = carry ? originOf(carry, now) : "";
  if (whose === "own") return carry ? offerLine(carry, from, box) : { words: "", act: "" };
  if (!before || before.at < now - VISIT_MS) return { words: sentence(from), act: "" };
  const had = `You had ${withUnit(before.text, before.unit || box.unit)}`;
  return { words: [sentence(from), had].filter(Boolean).join(". "), act: "Bring it back" };
}

/**
 * The line under an own figure: what is known elsewhere, and the way to use that.
 * @param {Carry} carry
 * @param {string} from
 * @param {{text: string, unit: string}} box
 */
function offerLine({ value, link }, from, { text, unit }) {
  const known = shownText(value);
  if (known === withUnit(text, unit)) return { words: `Yours, and the same ${from}`, act: "" };
  const own = text === "" ? "Left empty." : "Yours.";
  return { words: `${own} ${sentence(from)}: ${known}`, act: link ? "Use it" : "Put back" };
}

/**
 * Where a figure is from; a link gets older while it stands.
 * @param {Carry} carry
 * @param {number} now
 */
function originOf({ from, at, link }, now) {
  return link ? fromWhen(from, at, now) : from;
}

/**
 * An origin with its age, if it is not of today.
 * @param {string} from
 * @param {number | undefined} at
 * @param {number} now
 */
export function fromWhen(from, at, now) {
  const age = at ? daysAgo(at, now) : "today";
  return age === "today" ? from : `${from}, ${age}`;
}

/** @param {string} words */
function sentence(words) {
  return words.charAt(0).toUpperCase() + words.slice(1);
}
