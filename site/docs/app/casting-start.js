// @ts-check
/** The questions that begin a casting. Two answers are enough. */

import { books } from "./books.js";
import { allCastings, boxValue, freshName, newCasting } from "./castings.js";
import { all, one, show } from "./dom.js";
import { FieldControls } from "./field-controls.js";
import { focusOn } from "./focus.js";
import { Form } from "./form.js";
import { forget, keep, recall } from "./local-storage.js";
import { askTheEngine } from "./one-engine.js";
import { startRows } from "./rows.js";
import { isoOf, shortDateText } from "./time-text.js";

/** @import {CastingData} from "./answer-types.js" */
/** @import {Carry} from "./carried-rules.js" */
/** @import {Kept} from "./castings.js" */

const DRAFT = "start";
/** What stays the same from one casting to the next. */
const ON_HAND = ["flasks", "sand_bag_kg", "clay_bag_kg"];
/** Any one of these says how large the casting is. */
const SIZES = ["box_mm", "casting_volume_cm3", "casting_kg"];
const NO_SIZE = "The size is missing. Enter its length, width and height, its volume, or its mass.";

/**
 * @param {HTMLElement} root
 * @param {(casting: CastingData) => void} begin
 */
export function startCasting(root, begin) {
  const form = new Form(one(root, "[data-form]", HTMLFormElement));
  startRows(form.root);
  new FieldControls(form, askTheEngine);
  const typed = recall(DRAFT);
  if (typed) form.restore(typed);
  form.carried.show(carriedFrom(allCastings()), "shared");
  const away = one(root, "[data-start-away]");
  away.addEventListener("click", () => {
    show(root, false);
    one(document, "[data-casting-deed=new]").focus();
  });
  form.addEventListener("changed", () => keep(DRAFT, form.typed()));
  form.addEventListener("asked", () => {
    const figures = form.inputs();
    if (!SIZES.some((word) => word in figures)) return form.mark([noSize()], true);
    form.mark([], false);
    forget(DRAFT);
    form.restore({ ...form.bare });
    show(root, false);
    const now = new Date();
    begin(newCasting(freshName(`Casting, ${shortDateText(now)}`), isoOf(now), figures));
    scrollTo({ top: 0 });
  });
  books().then(async (shelf) => {
    const inUse = Boolean(await shelf.inUse());
    for (const each of all(root, "[data-without-book]")) show(each, !inUse);
  });
  return {
    /**
     * @param {boolean} shown
     * @param {boolean} [asked] whether a person asked for it, beside a casting that is open
     */
    show(shown, asked = false) {
      show(root, shown);
      show(away, asked);
      if (!asked) return;
      root.scrollIntoView();
      focusOn(one(root, "h2"));
    },
  };
}

/**
 * What is on hand, from the newest casting that says so.
 * @param {Kept[]} kept
 * @returns {Carry[]}
 */
export function carriedFrom(kept) {
  return ON_HAND.flatMap((word) => {
    const [found] = kept.filter(({ casting }) => word in casting.figures);
    if (!found) return [];
    const from = `from “${found.casting.name || "the casting before"}”`;
    return [{ word, value: boxValue(found.casting.figures[word]), from }];
  });
}

function noSize() {
  return { word: "box_mm", given: "nothing", allowed: "three sizes, a volume or a mass", message: NO_SIZE };
}
