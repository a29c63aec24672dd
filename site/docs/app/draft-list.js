// @ts-check
import { describeButtons, fill, fresh, one, show } from "./dom.js";
import { dropDraft } from "./drafts.js";
import { isSecondTap } from "./second-tap.js";

/** @import {Draft} from "./drafts.js" */

/** The list of entries that are not recorded yet and have no form on the screen. */
export class DraftList {
  /** What is shown now, as text. */
  #shown = "";

  /**
   * @param {HTMLElement} root
   * @param {(write: string) => unknown} goOn opens the form of a draft
   */
  constructor(root, goOn) {
    this.root = root;
    this.goOn = goOn;
  }

  /** @param {Draft[]} drafts */
  show(drafts) {
    const shown = JSON.stringify(drafts.map(({ write, words }) => [write, words]));
    show(this.root, drafts.length > 0);
    if (shown === this.#shown) return;
    this.#shown = shown;
    one(this.root, "[data-draft-list]").replaceChildren(...drafts.map((draft) => this.#row(draft, drafts)));
  }

  /**
   * @param {Draft} draft
   * @param {Draft[]} all
   */
  #row({ write, kind, righted, words }, all) {
    const item = fresh("draft");
    const blank = document.querySelector(`template[data-template="kind-${CSS.escape(kind)}"]`);
    const title = (blank instanceof HTMLTemplateElement && blank.content.querySelector("h3")?.textContent) || kind;
    fill(item, { words: [righted ? `${title}, corrected` : title, words].filter(Boolean).join(". ") });
    describeButtons(item, `draft-${write}`);
    one(item, "[data-go-on]").addEventListener("click", () => this.goOn(write));
    const drop = one(item, "[data-drop]");
    drop.addEventListener("click", () => {
      if (!isSecondTap(drop, "Tap again to throw it away")) return;
      dropDraft(write);
      this.show(all.filter((other) => other.write !== write));
    });
    return item;
  }
}
