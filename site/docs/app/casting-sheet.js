// @ts-check
/** The sheet of the casting in use, on the home page: what to do next, and one line for each step of the day. */

import { books } from "./books.js";
import { askingFor } from "./casting-record.js";
import {
  addCasting,
  allCastings,
  castingInUse,
  castingOf,
  castings,
  dropCasting,
  keepCasting,
  numbered,
  sheetOf,
  useCasting,
} from "./castings.js";
import { isTicked, runningIn, ticksIn } from "./casting-day.js";
import { CAST, MOULD, MOULD_IT, RECORD, nextOf } from "./casting-next.js";
import { planOf } from "./casting-plan.js";
import { startCasting } from "./casting-start.js";
import { all, fill, fresh, freshFor, line, list, one, show, showState, tapped } from "./dom.js";
import { focusOn } from "./focus.js";
import { askTheEngine } from "./one-engine.js";
import { problemText, reasonOf } from "./problems.js";
import { RecordTap } from "./record-tap.js";
import { isSecondTap } from "./second-tap.js";
import { dateText, isoOf, sinceMs } from "./time-text.js";
import { nextText } from "./timers.js";
import { cautionRow, openCaution } from "./to-do.js";

/** @import {CastingData} from "./answer-types.js" */
/** @import {Kept, Sheet, SheetStep} from "./castings.js" */

/** A plan that is older than this is asked for again, since the heap dries. */
const FRESH_MS = 3_600_000;

/** The part of the home page that belongs to castings. */
export class CastingSheet {
  /** What the plan on the screen was asked for. */
  #asked = "";
  /** @type {Map<string, {told: string, row: HTMLElement}>} the rows that write an entry, by casting and kind */
  #entries = new Map();

  /** @param {HTMLElement} root */
  constructor(root) {
    this.root = root;
    this.sheet = one(root, "[data-casting]");
    this.badge = one(this.sheet, "[data-badge]");
    this.bar = one(root, "[data-casting-bar]");
    this.others = one(root, "[data-castings]");
    this.start = startCasting(one(root, "[data-start]"), (casting) => {
      addCasting(casting);
      focusOn(this.sheet);
    });
    this.name = one(this.sheet, "[data-casting-name]", HTMLInputElement);
    this.name.addEventListener("change", () => this.#rename());
    root.addEventListener("click", (event) => this.#tapped(event));
    this.bar.addEventListener("click", (event) => {
      if (tapped(event, `[href$="${MOULD_IT}"]`)) unfoldMould();
    });
    castings.addEventListener("changed", () => this.#show());
    this.#show();
    books().then((shelf) => shelf.addEventListener("changed", () => this.#ask(true)));
  }

  #show() {
    const kept = castingInUse();
    document.documentElement.removeAttribute("data-casting-open");
    show(this.sheet, Boolean(kept));
    show(this.bar, Boolean(kept));
    document.body.toggleAttribute("data-has-bar", Boolean(kept));
    if (kept) show(one(this.root, "[data-first-timer]"), false);
    one(this.root, "[data-tools]").toggleAttribute("open", !kept);
    this.start.show(!kept);
    this.#showOthers(kept?.key);
    if (!kept) return one(this.sheet, "[data-casting-entries]").replaceChildren();
    if (document.activeElement !== this.name) this.name.value = kept.casting.name;
    fill(this.sheet, { about: aboutText(kept.casting) });
    const sheet = sheetOf(kept.key);
    if (sheet) this.#fill(kept, sheet);
    else {
      this.#wait("The plan comes as soon as the calculator is here.");
      for (const part of [this.bar, this.badge]) show(part, false);
    }
    this.#ask(!sheet || sinceMs(sheet.at, Date.now()) > FRESH_MS || this.#isNew(kept));
  }

  /**
   * Whether the plan was not asked for yet with the figures that the casting has now.
   * @param {Kept} kept
   */
  #isNew({ key, casting }) {
    const before = this.#asked;
    this.#asked = JSON.stringify([key, casting.figures, casting.own, casting.pattern, casting.recorded]);
    return this.#asked !== before;
  }

  /** @param {boolean} needed */
  async #ask(needed) {
    const kept = castingInUse();
    if (!kept || !needed) return;
    try {
      const plan = await planOf(kept.key, askTheEngine);
      const now = castingInUse(); // it may have been ticked while the plan was worked out
      if (now?.key !== kept.key || !plan) return;
      if ("steps" in plan) this.#fill(now, plan);
      else this.#wait(problemText(plan));
    } catch (error) {
      this.#wait(`The calculator did not start here: ${reasonOf(error)}. The casting is kept.`);
    }
  }

  /** @param {string} words */
  #wait(words) {
    show(this.badge, true);
    showState(this.sheet, { word: "no answer yet", tone: "plain" });
    fill(this.sheet, { sentence: words });
    for (const name of ["casting-steps", "casting-cautions"]) list(this.sheet, name, []);
    this.#showRemarks([]);
    this.#setNext("Change its figures", "plan/");
  }

  /**
   * @param {Kept} kept
   * @param {Sheet} sheet
   */
  #fill(kept, sheet) {
    const { key } = kept;
    const next = nextOf(kept, sheet, Date.now());
    show(this.badge, true);
    const now = sheet.steps.find((step) => step.next);
    const isPoured = sheet.steps.some(({ past }) => past);
    showState(this.sheet, isPoured && now ? now.state : sheet.state);
    fill(this.sheet, { sentence: sheet.lead.sentence });
    const [first, ...others] = sheet.cautions;
    const cautions = [...(first ? [openCaution(first)] : []), ...others.map(cautionRow)];
    list(this.sheet, "casting-cautions", cautions);
    const unfolded = all(this.sheet, "[data-before]:has(> details[open])").map((row) => row.dataset.before);
    list(
      this.sheet,
      "casting-steps",
      buyingFirst(sheet.steps).flatMap((step) => [
        ...freshFor("handwork", `[data-before=${step.job}]`),
        stepRow(step, key, clockText(key, step.job)),
      ]),
    );
    for (const job of unfolded) one(this.sheet, `[data-before="${job}"] > details`, HTMLDetailsElement).open = true;
    this.#showRemarks(sheet.remarks);
    this.#showMould(kept);
    this.#showEntries(key, sheet, next?.address === RECORD);
    if (next) this.#setNext(next.label, next.address);
  }

  /**
   * The tick of the work by hand before the pour, and its line opened for whoever was led there.
   * @param {Kept} kept
   */
  #showMould({ key, casting }) {
    const tick = one(this.sheet, `${MOULD_IT} [data-hand-tick]`, HTMLInputElement);
    tick.checked = isTicked(casting, MOULD, Date.now());
    tick.addEventListener("change", () => ticksIn(key, MOULD).write(tick.checked ? [MOULD] : [], 1));
    if (location.hash === MOULD_IT && !tick.checked) unfoldMould();
  }

  /** @param {Sheet["remarks"]} remarks */
  #showRemarks(remarks) {
    show(one(this.sheet, "[data-casting-remarks]"), remarks.length > 0);
    fill(this.sheet, { remarks: `(${remarks.length})` });
    list(this.sheet, "casting-remarks", remarks.map(line));
  }

  /**
   * The entries of the heap book that the day leads to, each written in one tap. A row that says what it wrote stays.
   * @param {string} key
   * @param {Sheet} sheet
   * @param {boolean} isPoured whether the entry of the cast comes next
   */
  async #showEntries(key, { records }, isPoured) {
    const shelf = await books();
    const place = one(this.sheet, "[data-casting-entries]");
    const rows = records.map((record) => {
      const identity = [key, record.kind].join(" ");
      const shown = this.#entries.get(identity);
      if (shown && shown.told === JSON.stringify(record)) return shown.row;
      const asking = askingFor(key, askTheEngine);
      const tap = new RecordTap(shelf, asking.ask, { heapPage: "heap/" });
      asking.keepAfter(tap);
      tap.addEventListener("undone", () => this.#ask(true));
      const row = tap.row(record, identity);
      row.dataset.ofCasting = key;
      this.#entries.set(identity, { told: JSON.stringify(record), row });
      return row;
    });
    for (const row of rows.filter(({ dataset }) => dataset.write === CAST)) {
      one(row, "[data-record-now]").classList.toggle("quiet", !isPoured);
    }
    const before = all(place, "[data-write]").filter(
      (row) => row.dataset.ofCasting === key && !row.querySelector("[data-undo-record]")?.hasAttribute("hidden"),
    );
    place.replaceChildren(...new Set([...before, ...rows]));
  }

  /**
   * @param {string} label
   * @param {string} address
   */
  #setNext(label, address) {
    show(this.bar, true);
    const door = one(this.bar, "[data-casting-next]", HTMLAnchorElement);
    fill(door, { label: `Next: ${label}` });
    door.href = address;
  }

  /** @param {string | undefined} inUse */
  #showOthers(inUse) {
    const others = allCastings().filter(({ key }) => key !== inUse);
    show(this.others, others.length > 0);
    fill(this.others, { count: `(${others.length})` });
    list(this.others, "castings", others.map(otherRow));
  }

  #rename() {
    const kept = castingInUse();
    const name = this.name.value.trim();
    if (kept && name) keepCasting(kept.key, { ...kept.casting, name });
  }

  /** @param {Event} event */
  #tapped(event) {
    const button = tapped(event, "[data-casting-deed]");
    if (!button) return;
    const { castingDeed: deed = "" } = button.dataset;
    const other = castingOf(button.closest("li")?.dataset.key ?? "");
    if (other) this.#act(deed, other, button);
    else if (deed === "new") this.start.show(true, true);
    else this.#finish(button);
  }

  /** @param {HTMLElement} button */
  #finish(button) {
    const kept = castingInUse();
    if (!kept || !isSecondTap(button, "Tap again: it is finished")) return;
    keepCasting(kept.key, { ...kept.casting, finished: isoOf(new Date()) });
    useCasting("");
    focusOn(one(this.root, "[data-start] > h2"));
  }

  /**
   * Do what a button of another casting says.
   * @param {string} deed
   * @param {Kept} other
   * @param {HTMLElement} button
   */
  async #act(deed, other, button) {
    if (deed === "drop") {
      if (isSecondTap(button, "Tap again to throw it away")) dropCasting(other.key);
      return;
    }
    if (deed === "open") open(other);
    else await again(other);
    focusOn(this.sheet);
  }
}

function unfoldMould() {
  const work = one(document, `${MOULD_IT} > details`, HTMLDetailsElement);
  work.open = true;
  work.scrollIntoView({ block: "nearest" });
}

/** @param {Kept} kept */
function open({ key, casting }) {
  if (casting.finished) keepCasting(key, { ...casting, finished: "" });
  useCasting(key);
}

/**
 * Begin the same casting once more. The library says what goes along.
 * @param {Kept} kept
 */
async function again({ casting }) {
  const answer = await askTheEngine({ job: "again", inputs: { casting, at: isoOf(new Date()) } });
  const taken = allCastings().map((each) => each.casting.name);
  if (answer.ok) addCasting({ ...answer.casting, name: numbered(casting.name, taken) });
}

/** @param {CastingData} casting */
function aboutText({ figures, begun, finished }) {
  const metal = typeof figures.metal === "string" ? figures.metal.replaceAll("_", " ") : "";
  const day = finished || begun;
  const when = day ? `${finished ? "finished" : "begun"} ${dateText(day)}` : "";
  return [metal, when].filter(Boolean).join(", ");
}

/**
 * What the clocks of a step wait for, if any run.
 * @param {string} key
 * @param {string} job
 */
function clockText(key, job) {
  const running = runningIn(castingOf(key)?.casting, job, Date.now());
  return running ? nextText(running, Date.now()) : "";
}

/**
 * What to buy stands before the mixing that it is for. The plan works it out after it.
 * @param {SheetStep[]} steps
 */
function buyingFirst(steps) {
  const buying = steps.filter(({ job }) => job === "shopping");
  const others = steps.filter((step) => !buying.includes(step));
  return others.flatMap((step) => (step.job === "mix" ? [...buying, step] : [step]));
}

/**
 * @param {SheetStep} step
 * @param {string} key
 * @param {string} clock what its clocks wait for
 */
function stepRow(step, key, clock) {
  const item = fresh("sheet-step");
  const door = one(item, "a", HTMLAnchorElement);
  if (step.locked) {
    door.removeAttribute("href");
    door.classList.add("still");
  } else door.href = addressOfStep(step, key);
  item.toggleAttribute("data-next", step.next);
  const { word, tone } = step.stands ?? step.state; // a plan that an older sandmix kept has no word for how a step stands
  fill(item, { label: step.label, state: word, ...(step.past ? {} : saidOf(step, clock)) });
  one(item, "[data-slot=state]").dataset.tone = tone;
  return item;
}

/**
 * The main figure of a step, and its likely range, what its clocks wait for or what is missing.
 * @param {SheetStep} step
 * @param {string} clock
 */
function saidOf(step, clock) {
  return {
    figure: step.lead && !step.locked ? `${step.lead.label} ${step.lead.text}` : "",
    line: step.locked || clock || (step.lead && !isAdvice(step) ? step.lead.then : step.line),
  };
}

/**
 * Whether a step says to take care with what can be left out, such as a riser too tall for the cope: its line says the way out.
 * @param {SheetStep} step
 */
function isAdvice({ job, state }) {
  return ["feed", "gate"].includes(job) && state.tone === "care";
}

/**
 * @param {SheetStep} step
 * @param {string} key
 */
function addressOfStep({ job }, key) {
  return `${job}/#casting=${key}`;
}

/** @param {Kept} kept */
function otherRow({ key, casting }) {
  const item = fresh("casting-row");
  item.dataset.key = key;
  fill(item, { words: casting.name || "A casting", about: aboutText(casting) });
  for (const each of all(item, "[data-casting-deed]")) {
    show(each, each.dataset.castingDeed !== "again" || Boolean(casting.finished));
  }
  return item;
}
