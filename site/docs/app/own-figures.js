// @ts-check
/** The figures that a person always uses: a form whose boxes are kept as they are typed, each checked by the library. */

import { all } from "./dom.js";
import { FieldControls } from "./field-controls.js";
import { wordOf } from "./fields.js";
import { Form } from "./form.js";
import { askTheEngine } from "./one-engine.js";
import { ownIn, typedOf } from "./own-typed.js";
import { set, settings } from "./settings.js";

/** @import {Problem} from "./answer-types.js" */
/** @import {Value} from "./amount-text.js" */

/** @param {HTMLFormElement} root */
export function startOwnFigures(root) {
  const form = new Form(root);
  const fillIn = () => form.restore(typedOf(form.bare, settings().own ?? {}));
  fillIn();
  const controls = new FieldControls(form, askTheEngine);
  let turn = 0;
  const check = async (/** @type {boolean} */ asked) => {
    turn += 1;
    const mine = turn;
    const problems = await problemsIn(form);
    if (mine === turn) form.mark(problems, asked);
  };
  form.addEventListener("changed", () => {
    set({ own: ownIn(form.typed()) });
    check(false).catch(() => {});
  });
  form.addEventListener("asked", () => check(true).catch(() => {}));
  addEventListener("storage", ({ key }) => {
    if (!key?.endsWith("settings") || root.contains(document.activeElement)) return;
    fillIn();
    controls.note();
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
