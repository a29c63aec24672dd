// @ts-check
/** The figures that a person always uses: a form whose boxes are kept as they are typed, each checked by the library. */

import { all, one, say } from "./dom.js";
import { FieldControls } from "./field-controls.js";
import { openInWishedUnit, unitOf as unitIn, unitsOf, wordOf } from "./fields.js";
import { Form } from "./form.js";
import { askTheEngine } from "./one-engine.js";
import { ownIn, typedOf } from "./own-typed.js";
import { problemText } from "./problems.js";
import { set, settings } from "./settings.js";

/** @import {Problem} from "./answer-types.js" */
/** @import {Value} from "./amount-text.js" */

/** @param {HTMLFormElement} root */
export function startOwnFigures(root) {
  const form = new Form(root);
  const fields = all(root, "[data-field]");
  const kept = (/** @type {boolean} */ isAsked) =>
    Object.fromEntries(
      Object.entries(settings().own ?? {}).filter(([word]) => form.wordsAsked.includes(word) === isAsked),
    );
  const fillIn = () => {
    for (const field of fields) {
      openInWishedUnit(field);
      if (wordOf(field) in form.bare.units) form.bare.units[wordOf(field)] = unitIn(field);
    }
    form.restore(typedOf(form.bare, kept(true), (word) => unitsOf(one(root, `[data-field="${word}"]`))));
  };
  fillIn();
  const controls = new FieldControls(form, askTheEngine);
  let turn = 0;
  const check = async (/** @type {boolean} */ asked) => {
    turn += 1;
    const mine = turn;
    const problems = await problemsIn(form);
    if (mine === turn) form.mark(problems, asked);
    return problems;
  };
  const said = one(root, "[data-form-said]");
  root.addEventListener("change", () => {
    check(false).then(
      (problems) => say(said, problemText({ problems })),
      () => {},
    );
  });
  form.addEventListener("changed", () => {
    set({ own: { ...kept(false), ...ownIn(form.typed()) } });
    check(false).catch(() => {});
  });
  form.addEventListener("asked", () => check(true).catch(() => {}));
  const fillAgain = () => {
    fillIn();
    controls.note();
  };
  addEventListener("wished", fillAgain);
  addEventListener("storage", ({ key }) => {
    if (key?.endsWith("settings") && !root.contains(document.activeElement)) fillAgain();
  });
  for (const more of all(root, "details")) {
    more.toggleAttribute(
      "open",
      all(more, "[data-field]").some((field) => form.holds(wordOf(field))),
    );
  }
  if (form.touched) check(false).catch(() => {});
}

/**
 * What the library says of each figure.
 * @param {Form} form
 * @returns {Promise<Problem[]>}
 */
async function problemsIn(form) {
  const asked = form.values().map(async ([word, given]) => {
    const answer = await askTheEngine({ job: "convert", inputs: { word, given, to: unitOf(given) } });
    return answer.ok ? [] : answer.problems;
  });
  return (await Promise.all(asked)).flat();
}

/** @param {Value} given */
function unitOf(given) {
  return typeof given === "object" && "unit" in given ? given.unit : "";
}
