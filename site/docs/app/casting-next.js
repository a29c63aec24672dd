// @ts-check
/** What comes next for a casting: the next step of its plan or, once the metal is poured, the entry of the heap book. */

import { isTicked, runningIn } from "./casting-day.js";

/** @import {Kept, Sheet} from "./castings.js" */
/** @typedef {{job: string, label: string, address: string}} Way a job of "" is the sheet; the address is from the site's root */

/** The entry of a cast in the book, the step that waits for it, and the one with its clocks. */
export const CAST = "poured";
const POUR = "pour";
const AFTER = "burnout";

/**
 * @param {Kept} kept
 * @param {Sheet} sheet
 * @param {number} now in ms
 * @returns {Way | undefined}
 */
export function nextOf({ key, casting }, { steps, records }, now) {
  const next = steps.find((step) => step.next);
  const isPour = next?.job === POUR;
  const isPoured = Boolean(runningIn(casting, AFTER, now)) || (isPour && isTicked(casting, POUR, now));
  if (isPoured && records.some(({ kind }) => kind === CAST)) {
    return { job: "", label: "Record this cast", address: "#record-cast" };
  }
  const step = isPour && isPoured ? steps.find(({ job }) => job === AFTER) : next;
  return step && { job: step.job, label: step.label, address: `${step.job}/#casting=${key}` };
}
