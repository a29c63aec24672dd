// @ts-check
import { all, drawing, fill, fresh, line, list, one, say, show } from "./dom.js";
import { showCards, showFirst } from "./cards.js";
import { Charts } from "./charts.js";
import { addressOf } from "./share.js";
import { Checklist } from "./checklist.js";
import { Clocks } from "./timers.js";

/** What the library says of a mass that is nothing: such a row stands back. */
export const NOTHING = "none";
/** A text longer than this many characters is read as a sentence, under its label and not beside it. */
const WORDY = 28;
const ANNOUNCE_AFTER_MS = 1200;

/** The bar at the foot and the whole answer below the form; both show the same answer. */
export class Answer extends EventTarget {
  /** @type {any} */
  shown = null;
  #read = false;
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  #pause;

  /** @param {HTMLElement} job */
  constructor(job) {
    super();
    this.bar = one(job, "[data-bar]");
    this.whole = one(job, "[data-answer]");
    this.announcer = one(job, "[data-announce]");
    this.charts = new Charts(one(this.whole, "[data-charts]"));
    this.checklist = new Checklist(this.whole, job.dataset.job || "");
    this.clocks = new Clocks(this.whole, job.dataset.job || "");
    one(this.whole, "[data-read]").addEventListener("click", () => {
      this.#read = true;
      this.#cover();
      this.whole.focus();
    });
  }

  /** @param {any} answer @param {[string, string][]} given label and text of each input */
  show(answer, given) {
    this.shown = answer;
    this.#whose("mine");
    this.#tone(answer.state);
    if (answer.state.tone !== "stop") this.#read = false;
    this.#lead(answer.lead);
    this.#rows(answer, given);
    this.#cover();
    this.#say(sentenceOf(answer));
    this.dispatchEvent(new Event("shown"));
  }

  /** Nothing to show yet, and why. @param {string} label @param {string} sentence */
  wait(label, sentence) {
    this.shown = null;
    this.#whose("waiting");
    this.#tone({ word: "waiting", tone: "plain" });
    fill(this.bar, { label, text: "", then: "", sentence });
    this.#cover();
    this.#say(`${label}. ${sentence}`);
    this.dispatchEvent(new Event("shown"));
  }

  /** @param {boolean} busy */
  busy(busy) {
    this.bar.toggleAttribute("data-busy", busy);
  }

  /** @param {"mine" | "waiting"} whose */
  #whose(whose) {
    this.whole.dataset.whose = whose;
    this.bar.dataset.whose = whose;
    say(one(this.whole, "[data-slot=kind]"), whose === "mine" ? "Your answer" : "No answer yet");
    show(one(this.whole, "[data-example]"), false);
    show(one(this.bar, "[data-kind-shown]"), false);
  }

  /** @param {{word: string, tone: string}} state */
  #tone(state) {
    this.bar.dataset.tone = state.tone;
    this.whole.dataset.tone = state.tone;
    fill(this.bar, { state: state.word });
    for (const sign of all(this.bar, "[data-sign]")) show(sign, sign.dataset.sign === state.tone);
  }

  /** @param {any} lead */
  #lead(lead) {
    fill(this.bar, { label: lead.label, text: lead.text, then: lead.then || "", sentence: lead.sentence || "" });
  }

  /** @param {any} answer @param {[string, string][]} given */
  #rows(answer, given) {
    list(this.whole, "given", given.map(givenRow));
    list(this.whole, "cautions", answer.cautions.map(caution));
    list(this.whole, "shown", answer.shown.map(row));
    for (const name of ["remarks", "working"]) list(this.whole, name, answer[name].map(line));
    list(this.whole, "sources", Object.values(answer.sources).map(line));
    showCards(this.whole, answer.cards || []);
    const after = showFirst(this.whole, answer.first || null, answer.next || []);
    list(this.whole, "next", after.map(nextDoor));
    show(one(this.whole, "[data-next-box]"), after.length > 0);
    list(this.whole, "drawings", Object.values(answer.drawings || {}).map(strip));
    this.charts.show(answer.charts || []);
    this.checklist.show(answer.checklist || []);
    this.clocks.show(answer.timers || []);
  }

  /** A stop stands in front of its answer until it has been read. */
  #cover() {
    const answer = this.shown;
    const covered = Boolean(answer) && answer.state.tone === "stop" && !this.#read;
    show(one(this.whole, "[data-cover]"), covered);
    show(one(this.whole, "[data-body]"), Boolean(answer) && !covered);
    this.bar.toggleAttribute("data-covered", covered);
    fill(this.bar, { way: covered ? "Read this first" : "All of it" });
    if (!covered) return;
    say(one(this.whole, "[data-cover-words]"), answer.headline || answer.lead.sentence || "");
    list(this.whole, "cover", answer.cautions.map(caution));
  }

  /** Tell a listener after a pause, not at every key. @param {string} words */
  #say(words) {
    clearTimeout(this.#pause);
    this.#pause = setTimeout(() => say(this.announcer, words), ANNOUNCE_AFTER_MS);
  }
}

/** @param {any} answer */
export function sentenceOf(answer) {
  const { state, lead } = answer;
  return [`${state.word}. ${lead.label} ${lead.text}`, lead.then, lead.sentence].filter(Boolean).join(". ");
}

/** @param {string} words */
export function caution(words) {
  const [name, ...rest] = words.split(":");
  const item = fresh("caution", name.trim().toLowerCase() === "stop" ? 1 : 0);
  fill(item, { name, words: rest.join(":").trim() });
  return item;
}

/** @param {any} shown */
export function row(shown) {
  const item = fresh("row");
  fill(item, { label: shown.label, basis: shown.basis || "", text: shown.text, range: shown.range || "" });
  item.classList.toggle("nothing", shown.text === NOTHING);
  item.classList.toggle("wordy", shown.text.length > WORDY);
  return item;
}

/** @param {[string, string]} pair */
function givenRow([label, text]) {
  const item = fresh("given");
  say(one(item, "dt"), label);
  say(one(item, "dd"), text);
  return item;
}

/** @param {any} step */
function nextDoor(step) {
  const item = fresh("next");
  const link = /** @type {HTMLAnchorElement} */ (one(item, "[data-next]"));
  link.dataset.next = step.job;
  link.href = addressOf(`../${step.job}/`, Object.entries(step.inputs || {}));
  fill(item, { label: step.label });
  return item;
}

/** @param {unknown} svg */
export function strip(svg) {
  const figure = fresh("strip");
  const drawn = drawing(String(svg));
  if (!drawn) return figure;
  fill(figure, { title: drawn.querySelector("title")?.textContent || "" });
  figure.append(drawn);
  return figure;
}
