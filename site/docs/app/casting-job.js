// @ts-check
/** What a job's page has of the casting in use: its figures for the form, and the form's figures for the casting. */

import { books } from "./books.js";
import {
  addCasting,
  boxValue,
  castingInUse,
  castingOf,
  castings,
  freshName,
  keepCasting,
  newCasting,
  ownFigures,
  sheetOf,
  useCasting,
  withFigure,
} from "./castings.js";
import { clocksIn, ticksIn } from "./casting-day.js";
import { nextOf } from "./casting-next.js";
import { planOf } from "./casting-plan.js";
import { all, fill, one, show } from "./dom.js";
import { ownCarries } from "./settings.js";
import { isoOf, shortDateText } from "./time-text.js";

/** @import {CastingData} from "./answer-types.js" */
/** @import {Value} from "./amount-text.js" */
/** @import {Carry} from "./carried-rules.js" */
/** @import {Sheet, SheetStep} from "./castings.js" */
/** @import {Calculator} from "./engine.js" */
/** @import {Job} from "./job.js" */
/** @import {Form} from "./form.js" */

/** In an address: which casting the page is for, or that it is for none. */
const NAME = "casting";
const ALONE = "alone";
/** The origin of a figure that the person typed. */
const YOURS = "yours";
const FROM_CASTING = "from this casting";
const JOBS = [
  "plan",
  "fit",
  "feed",
  "gate",
  "mix",
  "shopping",
  "temper",
  "flask",
  "facing",
  "pour",
  "burnout",
  "rebond",
];
/** After this long without a change the whole plan is worked out again, so that it never delays an answer. */
const PLAN_AFTER_MS = 800;

/**
 * The casting that a job's page is for: the one in the address, else the one in use. An address with figures of its own is for
 * none.
 * @param {string} job
 * @param {string} hash
 * @returns {string} its key; empty for none
 */
export function castingFor(job, hash) {
  if (!JOBS.includes(job)) return "";
  const key = new URLSearchParams(hash.replace(/^#/, "")).get(NAME);
  if (key && castingOf(key)) {
    if (castingInUse()?.key !== key) useCasting(key);
    return key;
  }
  return hash.includes("=") || hash === `#${ALONE}` ? "" : (castingInUse()?.key ?? "");
}

/** The figures of one casting for one job: read when the page opens, and written at each change. */
export class CastingFigures {
  /**
   * @param {string} key
   * @param {string} job
   */
  constructor(key, job) {
    this.key = key;
    this.job = job;
  }

  get step() {
    return sheetOf(this.key)?.steps.find(({ job }) => job === this.job);
  }

  /**
   * What the person typed for this job.
   * @returns {[string, Value][]}
   */
  own() {
    const kept = castingOf(this.key);
    if (!kept) return [];
    return Object.entries(ownFigures(kept.casting, this.job, this.step?.takes ?? [])).map(([word, value]) => [
      word,
      boxValue(value),
    ]);
  }

  /**
   * What is known without what the person typed: from the plan's steps, the pattern and the heap.
   * @returns {Carry[]}
   */
  carried() {
    const pattern = castingOf(this.key)?.casting.pattern;
    if (this.job === "plan" && pattern) return patternCarries(pattern);
    const always = ownCarries().map(({ word }) => word);
    const figures = castingOf(this.key)?.casting.figures ?? {};
    const isOfSettings = (/** @type {Carry} */ { word, from }) =>
      from === FROM_CASTING && always.includes(word) && !(word in figures);
    return carriesOf(this.step, sheetOf(this.key)?.at).filter((carry) => !isOfSettings(carry));
  }

  /**
   * Show what the plan said of this step.
   * @param {Job["answer"]} answer
   * @returns {boolean} whether it said anything
   */
  preview(answer) {
    const { step } = this;
    if (step?.lead) answer.preview(step);
    return Boolean(step?.lead);
  }

  /**
   * Cast a kept pattern: its figures count wherever the person has none of their own.
   * @param {string} name
   * @param {Record<string, unknown>} figures
   * @param {Form} form
   */
  takePattern(name, figures, form) {
    const kept = castingOf(this.key);
    if (!kept) return;
    keepCasting(this.key, { ...kept.casting, pattern: { name, figures } });
    form.carried.show(this.carried(), "casting");
  }

  /** @param {Form} form */
  keep(form) {
    const kept = castingOf(this.key);
    if (!kept) return;
    const { texts, units, at = {} } = form.typed();
    const takes = this.step?.takes ?? [];
    let { casting } = kept;
    for (const word of form.wordsAsked) {
      const own = texts[word] !== form.bare.texts[word] || word in at;
      const text = own ? texts[word] : undefined;
      const value = text && units[word] ? { value: text, unit: units[word] } : text;
      casting = withFigure(casting, this.job, word, value, takes);
    }
    if (JSON.stringify(casting) !== JSON.stringify(kept.casting)) keepCasting(this.key, casting);
  }
}

/**
 * @param {HTMLElement} root
 * @param {Job} job
 * @param {Calculator} engine
 */
export function startCastingJob(root, job, engine) {
  const { casting } = job;
  if (!casting) return offerCasting(root, job);
  const place = one(root, "[data-for-casting]");
  const [link, leave] = [one(place, "a"), one(place, "[data-leave-casting]", HTMLAnchorElement)];
  fill(link, { name: castingOf(casting.key)?.casting.name || "This casting" });
  leave.href = `#${ALONE}`;
  leave.addEventListener("click", () => setTimeout(() => location.reload()));
  show(place, true);
  job.answer.checklist.keepIn(ticksIn(casting.key, job.name));
  job.answer.clocks.keepIn(clocksIn(casting.key, job.name));
  if (casting.step?.lead) foldForm(root, job, engine);
  const goOn = all(root, "[data-casting-on]", HTMLAnchorElement);
  /** @param {Sheet | undefined | null} sheet */
  const showSheet = (sheet) => {
    const kept = castingOf(casting.key);
    const next = kept && sheet ? nextOf(kept, sheet, Date.now()) : undefined;
    const elsewhere = next && next.job !== job.name;
    for (const door of goOn) {
      door.href = elsewhere ? `../${next.address}` : "../";
      const words = elsewhere ? `Next: ${next.label}` : "Back to the casting";
      fill(door, { step: words });
      door.setAttribute("aria-label", words);
      show(door, true);
    }
  };
  const toCasting = () => {
    const steps = sheetOf(casting.key)?.steps.map((step) => step.job) ?? [];
    for (const door of all(root, "[data-next]", HTMLAnchorElement)) {
      if (steps.includes(door.dataset.next ?? "")) door.href = `../${door.dataset.next}/#${NAME}=${casting.key}`;
    }
  };
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let pause;
  const planAgain = async () => {
    const sheet = await planOf(casting.key, engine.ask).catch(() => undefined);
    if (!sheet || !("steps" in sheet)) return false;
    showSheet(sheet);
    return true;
  };
  const refresh = async () => {
    if (await planAgain()) job.form.carried.show(casting.carried(), "casting");
  };
  job.form.addEventListener("changed", () => {
    clearTimeout(pause);
    pause = setTimeout(refresh, PLAN_AFTER_MS);
  });
  job.answer.addEventListener("shown", toCasting);
  castings.addEventListener("changed", () => showSheet(sheetOf(casting.key)));
  // an entry of the book leads on to the next step, and leaves in the form what was just worked by
  books().then((shelf) => shelf.addEventListener("changed", planAgain));
  toCasting();
  showSheet(sheetOf(casting.key));
  refresh();
}

/**
 * Where the casting fills in the whole form, fold it on a narrow screen until a person wants it, or something in it is wrong.
 * @param {HTMLElement} root
 * @param {Job} job
 * @param {Calculator} engine
 */
function foldForm(root, job, engine) {
  const [change] = all(root, "[data-unfold]");
  if (!change) return;
  const fold = (/** @type {boolean} */ folded) => {
    root.toggleAttribute("data-form-folded", folded);
    show(change, folded);
  };
  fold(true);
  change.addEventListener("click", () => {
    fold(false);
    job.form.root.focus();
  });
  job.answer.addEventListener("shown", () => {
    if (!job.answer.shown && engine.state === "ready") fold(false);
  });
}

/**
 * On the page of the plan: keep what is planned as a casting.
 * @param {HTMLElement} root
 * @param {Job} job
 */
function offerCasting(root, job) {
  if (job.name !== "plan") return;
  const keep = one(root, "[data-keep-casting]");
  const offer = () => show(keep, Boolean(job.answer.shown));
  keep.addEventListener("click", () => {
    const now = new Date();
    addCasting(newCasting(freshName(`Casting, ${shortDateText(now)}`), isoOf(now), job.form.inputs()));
    location.href = "../";
  });
  job.answer.addEventListener("shown", offer);
  offer();
}

/**
 * @param {SheetStep | undefined} step
 * @param {number | undefined} at when the plan was made
 * @returns {Carry[]}
 */
function carriesOf(step, at) {
  const known = Object.entries(step?.carried ?? {});
  const others = known.filter(([word, { origin }]) => origin !== YOURS || !step?.takes.includes(word));
  return others.map(([word, { text, origin }]) => ({
    word,
    value: text,
    from: origin === YOURS ? FROM_CASTING : origin,
    at,
  }));
}

/**
 * @param {CastingData["pattern"]} pattern
 * @returns {Carry[]}
 */
function patternCarries({ name, figures }) {
  const from = `from the pattern “${name}”`;
  return Object.entries(figures).map(([word, value]) => ({ word, value: boxValue(value), from }));
}
