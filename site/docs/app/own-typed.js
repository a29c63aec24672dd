// @ts-check
/** The figures that a person always uses, as the settings keep them and as a form holds them. */

import { inBox } from "./amount-text.js";

/** @import {Typed} from "./form.js" */
/** @typedef {Record<string, {text: string, unit: string}>} OwnFigures */

/**
 * What a form gives to keep.
 * @param {Pick<Typed, "texts" | "units">} typed
 * @returns {OwnFigures}
 */
export function ownIn({ texts, units }) {
  return Object.fromEntries(Object.entries(texts).map(([word, text]) => [word, { text, unit: units[word] ?? "" }]));
}

/**
 * The form that holds these figures. A unit that a box does not offer stands in its text, so that the library says what it means.
 * @param {Typed} bare
 * @param {OwnFigures} own
 * @param {(word: string) => string[]} unitsOf the units that the box of a word offers
 * @returns {Typed}
 */
export function typedOf(bare, own, unitsOf) {
  const typed = { ...bare, texts: { ...bare.texts }, units: { ...bare.units } };
  for (const [word, { text, unit }] of Object.entries(own)) {
    const held = inBox(unit ? { value: text, unit } : text, unitsOf(word));
    typed.texts[word] = unit ? held.text : text;
    if (unit && held.unit) typed.units[word] = held.unit;
  }
  return typed;
}
