// @ts-check
/** The figures that a person always uses, as the settings keep them and as a form holds them. */

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
 * The form that holds these figures.
 * @param {Typed} bare
 * @param {OwnFigures} own
 * @returns {Typed}
 */
export function typedOf(bare, own) {
  const typed = { ...bare, texts: { ...bare.texts }, units: { ...bare.units } };
  for (const [word, { text, unit }] of Object.entries(own)) {
    typed.texts[word] = text;
    if (unit) typed.units[word] = unit;
  }
  return typed;
}
