// @ts-check
import { all, drawing, fill, fresh, line, list, one, say, show, showState } from "./dom.js";
import { doorOf, showCards, showFirst } from "./cards.js";
import { Charts } from "./charts.js";
import { Checklist } from "./checklist.js";
import { sentenceOf } from "./share.js";
import { openCaution, showToDo } from "./to-do.js";
import { Clocks } from "./timers.js";

/** @import {DayStep, NextStep, Shown} from "./answer-types.js" */
/** @import {Origin} from "./share.js" */
/** @typedef {import("./answer-types.js").Answer} AnswerData */
/** @typedef {import("./answer-types.js").Contribution} Contribution */

/** The library's word for a mass of zero. Such a row is shown paler. */
export const NOTHING = "none";
/** A text with more characters than this is shown under its label, not beside it. */
const WORDY = 28;
/** What is folded on the screen and stands open on paper. */
const PRINTED = "[data-folded=figures], [data-folded=remarks], .caution details, .weighed-why, [data-example-fold]";
const ANNOUNCE_AFTER_MS = 1200;

/** The bar at the foot and the whole answer below the form. Both show the same answer. */
export class Answer extends EventTarget {
  /** @type {AnswerData | null} */
  shown = null;
  #read = false;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #pause;

  /** @param {HTMLElement} job */
  constructor(job) {
    super();
    /** @type {Origin} where the figures of links that lead on are from */
    this.origin = { from: job.dataset.job ?? "", at: 0 };
    this.bar = one(job, "[data-bar]");
    this.whole = one(job, "[data-answer]");
    /** What an empty form needs first, as the build drew it. */
    this.first = { label: this.#said("label"), text: this.#said("text"), sentence: this.#said("sentence") };
    this.announcer = one(job, "[data-announce]");
    this.charts = new Charts(one(this.whole, "[data-charts]"));
    this.checklist = new Checklist(this.whole, job.dataset.job ?? "");
    this.clocks = new Clocks(this.whole, job.dataset.job ?? "");
    this.fold = one(this.whole, "[data-example-fold]", HTMLDetailsElement);
    openOnPaper(this.whole);
    one(this.whole, "[data-read]").addEventListener("click", () => {
      this.#read = true;
      this.#cover();
      this.whole.focus();
    });
  }

  /**
   * @param {AnswerData} answer
   * @param {[string, string][]} given label and text of each input
   */
  show(answer, given) {
    this.shown = answer;
    const { label, text, then, sentence } = answer.lead;
    if (answer.state.tone !== "stop") this.#read = false;
    this.#setWhose("mine");
    this.#setState(answer.state);
    fill(this.bar, { label, text, then, sentence });
    this.#rows(answer, given);
    this.#cover();
    this.#announce(sentenceOf(answer));
    this.dispatchEvent(new Event("shown"));
  }

  /** Show what stood here before the first answer. */
  clear() {
    const { label, text, sentence } = this.first;
    this.wait(label, sentence, text);
  }

  measuring() {
    this.wait("Measuring", "Large files take a while. The file's field shows how far it is, and a way to stop it.");
  }

  /** @param {string} next what to do now */
  stop(next) {
    this.wait("Stopped", `Nothing you typed is lost. ${next}`);
  }

  /**
   * Go to the answer from a link to it.
   * @param {Event} event
   */
  open(event) {
    event.preventDefault();
    this.start.scrollIntoView({ block: "start" });
    this.start.focus({ preventScroll: true });
  }

  /**
   * Show that there is no answer yet, and why.
   * @param {string} label
   * @param {string} sentence
   * @param {string} [text] what to enter next
   */
  wait(label, sentence, text = "") {
    this.shown = null;
    this.#setWhose("waiting");
    this.#setState({ word: "waiting", tone: "plain" });
    fill(this.bar, { label, text, then: "", sentence });
    this.#cover();
    this.#announce([[label, text].filter(Boolean).join(": "), sentence].filter(Boolean).join(". "));
    this.dispatchEvent(new Event("shown"));
  }

  /**
   * Show in the bar what the plan of the day said of this step, until the calculator answers.
   * @param {Pick<DayStep, "state" | "lead" | "headline">} step
   */
  preview({ state, lead, headline }) {
    if (!lead) return;
    this.wait(lead.label, headline, lead.text);
    this.#setState(state);
    fill(this.bar, { then: lead.then });
  }

  /** @param {string} slot of the bar */
  #said(slot) {
    return one(this.bar, `[data-slot=${slot}]`).textContent ?? "";
  }

  /** Where the answer begins: what to do; without one, the whole of it. Of an example, the example opened. */
  get start() {
    if (this.whole.dataset.whose === "example") this.fold.open = true;
    const title = one(this.whole, "#todo-title");
    return title.checkVisibility() ? title : this.whole;
  }

  /** @param {boolean} busy */
  busy(busy) {
    this.bar.toggleAttribute("data-busy", busy);
  }

  /** @param {"mine" | "waiting"} whose */
  #setWhose(whose) {
    this.whole.dataset.whose = whose;
    this.bar.dataset.whose = whose;
    fill(this.whole, { kind: whose === "mine" ? "Your answer" : "No answer yet" });
    this.fold.open = true;
  }

  /** @param {{word: string, tone: string}} state */
  #setState(state) {
    showState(this.bar, state);
    showState(one(this.whole, "[data-told]"), state);
    this.whole.dataset.tone = state.tone;
  }

  /**
   * @param {AnswerData} answer
   * @param {[string, string][]} given
   */
  #rows(answer, given) {
    const { whole } = this;
    list(whole, "given", given.map(givenRow));
    showToDo(whole, answer);
    list(whole, "shown", answer.shown.map(figureRow));
    const { word } = answer.lead;
    list(whole, "uncertain", (answer.uncertainty?.[word] ?? []).map(contributionRow));
    fill(whole, { surer: answer.surer?.[word]?.sentence ?? "" });
    list(whole, "working", answer.working.map(line));
    list(whole, "sources", Object.values(answer.sources).map(line));
    showCards(whole, answer);
    this.#day(answer);
    const others = showFirst(whole, answer.first, answer.next, this.origin);
    const after = answer.steps.length ? [] : others;
    const links = after.map((step) => nextRow(step, this.origin));
    list(whole, "next", links);
    show(one(whole, "[data-next-box]"), after.length > 0);
    list(whole, "drawings", Object.values(answer.drawings).map(drawingRow));
    this.charts.show(answer.charts);
    show(one(whole, "[data-folded=charts]"), answer.charts.length > 0);
    this.checklist.show(answer.checklist);
    this.clocks.show(answer.timers);
  }

  /**
   * The steps of a casting day, each with the link that has its inputs.
   * @param {AnswerData} answer
   */
  #day({ steps, next }) {
    list(
      this.whole,
      "day",
      steps.map((step, at) => dayRow(step, next[at], this.origin)),
    );
    show(one(this.whole, "[data-day]"), steps.length > 0);
  }

  /** Hide a stop answer behind its reason until that has been read. */
  #cover() {
    const answer = this.shown;
    const covered = answer?.state.tone === "stop" && !this.#read;
    show(one(this.whole, "[data-cover]"), covered);
    show(one(this.whole, "[data-body]"), Boolean(answer) && !covered);
    this.bar.toggleAttribute("data-covered", covered);
    fill(this.bar, { way: covered ? "Read this first" : "Full answer" });
    if (!answer || !covered) return;
    say(one(this.whole, "[data-cover-words]"), answer.headline || answer.lead.sentence);
    list(this.whole, "cover", answer.cautions.map(openCaution));
  }

  /**
   * Tell a screen reader after a pause, not at every key.
   * @param {string} words
   */
  #announce(words) {
    clearTimeout(this.#pause);
    this.#pause = setTimeout(() => say(this.announcer, words), ANNOUNCE_AFTER_MS);
  }
}

/**
 * Paper has nothing to tap: what a card needs is open while it is printed.
 * @param {HTMLElement} whole
 */
function openOnPaper(whole) {
  /** @type {HTMLDetailsElement[]} */
  let opened = [];
  matchMedia("print").addEventListener("change", ({ matches }) => {
    const closed = matches ? all(whole, PRINTED, HTMLDetailsElement).filter((each) => !each.open) : opened;
    for (const each of closed) each.open = matches;
    opened = matches ? closed : [];
  });
}

/** @param {Shown} shown */
export function figureRow({ label, basis, text, range }) {
  const item = fresh("row");
  fill(item, { label, basis, text, range });
  item.classList.toggle("nothing", text === NOTHING);
  item.classList.toggle("wordy", text.length > WORDY);
  return item;
}

/** @param {string} svg */
export function drawingRow(svg) {
  const figure = fresh("strip");
  const drawn = drawing(svg);
  if (!drawn) return figure;
  fill(figure, { title: drawn.querySelector("title")?.textContent ?? "" });
  figure.append(drawn);
  return figure;
}

/** @param {[string, string]} pair */
function givenRow([label, text]) {
  const item = fresh("given");
  say(one(item, "dt"), label);
  say(one(item, "dd"), text);
  return item;
}

/** @param {Contribution} part */
function contributionRow(part) {
  const row = fresh("contribution");
  fill(row, { label: part.label, text: part.text });
  one(row, "meter", HTMLMeterElement).value = part.share;
  return row;
}

/**
 * @param {NextStep} step
 * @param {Origin} origin
 */
function nextRow(step, origin) {
  const item = fresh("next");
  const link = one(item, "[data-next]", HTMLAnchorElement);
  link.dataset.next = step.job;
  link.href = doorOf(step, origin);
  fill(item, { label: step.label });
  return item;
}

/**
 * @param {DayStep} step
 * @param {NextStep} link
 * @param {Origin} origin
 */
function dayRow({ label, line: missing, lead, state }, link, origin) {
  const item = fresh("day-step");
  const words = lead ? [`${lead.label}: ${lead.text}`, lead.then].filter(Boolean).join(", ") : missing;
  one(item, "a", HTMLAnchorElement).href = doorOf(link, origin);
  fill(item, { label, line: words, state: state.word });
  one(item, "[data-slot=state]").dataset.tone = state.tone;
  return item;
}
