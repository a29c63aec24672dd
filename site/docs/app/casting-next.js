// @ts-check
/** What comes next for a casting: the next step of its plan or, once the metal is poured, the entry of the heap book. */

import { isTicked, runningIn } from "./casting-day.js";

/** @import {Kept, Sheet, SheetStep} from "./castings.js" */
/** @typedef {{job: string, label: string, address: string}} Way a job of "" is the sheet; the address is from the site's root */

/** The entry of a cast in the book, the step that waits for it, and the one with its clocks. */
export const CAST = "poured";
const POUR = "pour";
const AFTER = "burnout";
/** Where on the sheet the cast is recorded, and the list of what is ticked once the mould is closed. */
export const RECORD = "#record-cast";
export const MOULD = "mould";
/** The line of the sheet for the work by hand before the pour. */
export const MOULD_IT = "#before-pour";

/**
 * @param {Kept} kept
 * @param {Sheet} sheet
 * @param {number} now in ms
 * @returns {Way | undefined}
 */
export function nextOf({ key, casting }, { steps, records }, now) {
  const next = steps.find((step) => step.next);
  if (next?.stands?.word === "done") return { job: "", label: "It is finished", address: "#finish" };
  const isPour = next?.job === POUR;
  const isPoured = Boolean(runningIn(casting, AFTER, now)) || (isPour && isTicked(casting, POUR, now));
  if (isPoured && records.some(({ kind }) => kind === CAST)) {
    return { job: "", label: "Record this cast", address: RECORD };
  }
  if (!isPour) return wayTo(key, next);
  if (isPoured) {
    return wayTo(
      key,
      steps.find(({ job }) => job === AFTER),
    );
  }
  return isTicked(casting, MOULD, now) ? wayTo(key, next) : { job: "", label: "Mould it", address: MOULD_IT };
}

/**
 * @param {string} key
 * @param {SheetStep | undefined} step
 * @returns {Way | undefined}
 */
function wayTo(key, step) {
  return step && { job: step.job, label: step.label, address: `${step.job}/#casting=${key}` };
}
