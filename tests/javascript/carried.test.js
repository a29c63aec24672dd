// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import {
  VISIT_MS,
  LAYERS,
  bestOf,
  carriesOf,
  fromWhen,
  givesWay,
  lineOf,
  standing,
  withLink,
  withPlan,
} from "../../site/docs/app/carried-rules.js";
import { heapCarries } from "../../site/docs/app/heap-figures.js";
import { entryWords } from "../../site/docs/app/job-entries.js";
import { writtenParts, writtenText } from "../../site/docs/app/record-tap.js";
import { carriedIn, leadingOn } from "../../site/docs/app/share.js";
import { DAY_MS } from "../../site/docs/app/time-text.js";

/** @import {Carry} from "../../site/docs/app/carried-rules.js" */

const NOW = Date.parse("2027-03-24T10:00:00Z");
const HOUR_MS = DAY_MS / 24;
/**
 * @param {string} value
 * @param {Partial<Carry>} [more]
 * @returns {Carry}
 */
const carry = (value, more) => ({ word: "moisture_pct_wet", value, from: "from the heap", ...more });
const EMPTY = { text: "", unit: "%" };

test("an own figure goes before a newer measurement, that before a carried figure, and that before the default", () => {
  const [plain, measured] = [carry("3.0"), carry("2.5", { measured: true, at: NOW })];
  assert.deepEqual(standing(true, [plain, measured]), { whose: "own", carry: measured });
  assert.deepEqual(standing(false, [plain, measured]), { whose: "carried", carry: measured });
  assert.deepEqual(standing(false, [plain]), { whose: "carried", carry: plain });
  assert.deepEqual(standing(false, []), { whose: "default" });
});

test("what a person always uses stands where the default would, and gives way to everything else that is known", () => {
  const settings = carry("10", { from: "from your settings" });
  const known = {
    settings,
    shared: carry("8"),
    heap: carry("7", { measured: true, at: NOW }),
    casting: carry("6"),
    link: carry("5"),
  };
  const layered = (/** @type {string[]} */ layers) =>
    carriesOf((layer) => (layers.includes(layer) ? [known[layer]] : []), "moisture_pct_wet");
  assert.deepEqual(standing(false, layered(["settings"])), { whose: "carried", carry: settings });
  for (const layer of LAYERS.filter((each) => each !== "settings")) {
    assert.equal(bestOf(layered([layer, "settings"])), known[layer]);
  }
  assert.deepEqual(standing(true, layered(["settings"])), { whose: "own", carry: settings });
  assert.deepEqual(layered([]), []);
});

test("of two measurements the newer one counts, wherever it is from", () => {
  const old = carry("2.3", { measured: true, at: NOW - DAY_MS, link: true });
  const fresh = carry("2.5", { measured: true, at: NOW });
  assert.equal(bestOf([old, fresh]), fresh);
  assert.equal(bestOf([fresh, old]), fresh);
  assert.equal(bestOf([]), undefined);
});

test("a plan's figure stands for the heap's until the heap has a newer one", () => {
  const planned = carry("3.5 %", { at: NOW - HOUR_MS });
  const [old, fresh] = [NOW - DAY_MS, NOW].map((at) => carry("2.5 %", { measured: true, at }));
  assert.deepEqual(withPlan([planned], [planned, old]), [planned]);
  assert.deepEqual(withPlan([planned], [planned, fresh]), [planned, fresh]);
  assert.deepEqual(withPlan([carry("3.5 %")], [planned, fresh]), [carry("3.5 %")]);
  assert.deepEqual(withPlan([], [old]), [old]);
});

test("a link that hands on the heap's own figure leaves the box to the heap, which has the ± too", () => {
  const heap = carry("42.83 ± 0.43 kg", { measured: true, at: NOW - DAY_MS });
  const [same, other] = ["42.83 kg", "42 kg"].map((value) => carry(value, { measured: true, at: NOW, link: true }));
  assert.equal(bestOf([same, heap]), heap);
  assert.equal(bestOf([other, heap]), other);
});

test("of two figures that nobody measured the first counts", () => {
  const [first, second] = [carry("3.0", { at: NOW - DAY_MS }), carry("2.0", { at: NOW })];
  assert.equal(bestOf([first, second]), first);
});

test("a link's figure takes the place of one typed in an earlier visit, and of none typed in this one", () => {
  assert.equal(givesWay(NOW - VISIT_MS - 1, NOW), true);
  assert.equal(givesWay(NOW - VISIT_MS, NOW), false);
  assert.equal(givesWay(NOW + HOUR_MS, NOW), false);
});

test("what gives way to a link is kept to be brought back, and everything else stays as it was typed", () => {
  const typed = {
    texts: { moisture_pct_wet: "3.0", heap_kg: "40", metal: "tin_bronze" },
    units: { moisture_pct_wet: "%", heap_kg: "kg" },
    ways: {},
    more: false,
    at: { moisture_pct_wet: NOW - 7 * DAY_MS, heap_kg: NOW - HOUR_MS, cope_kg: 0 },
    links: [carry("1.9", { at: 5 }), { ...carry("90"), word: "head_mm" }],
  };
  const figures = [
    carry("2.3", { at: NOW, link: true }),
    { ...carry("25"), word: "heap_kg", at: NOW },
    { ...carry("8"), word: "cope_kg", at: NOW },
  ];
  assert.deepEqual(withLink(typed, figures), {
    texts: { heap_kg: "40", metal: "tin_bronze" },
    units: typed.units,
    ways: {},
    more: false,
    at: { heap_kg: NOW - HOUR_MS },
    before: { moisture_pct_wet: { text: "3.0", unit: "%", at: NOW } },
    links: [...figures, { ...carry("90"), word: "head_mm" }],
  });
  assert.equal(typed.texts.moisture_pct_wet, "3.0", "the form itself stays as it is");
});

test("a choice that decides what else is asked gives way to the link that a person tapped, even of this visit", () => {
  const typed = { texts: { test: "swell" }, units: {}, ways: {}, more: false, at: { test: NOW - HOUR_MS } };
  const wash = { word: "test", value: "wash", from: "from What went wrong", at: NOW, link: true };
  const led = withLink(typed, [wash], ["test"]);
  assert.deepEqual([led.texts, led.before], [{}, { test: { text: "swell", unit: "", at: NOW } }]);
  assert.deepEqual(withLink(typed, [wash]).texts, typed.texts);
  assert.deepEqual(withLink(typed, [{ ...wash, value: "swell" }], ["test"]).texts, typed.texts);
});

test("the line under a box names the origin of what stands in it", () => {
  const state = standing(false, [carry("2.5 %", { from: "from the heap, tested yesterday" })]);
  assert.deepEqual(lineOf(state, { text: "2.5", unit: "%" }, NOW), {
    words: "From the heap, tested yesterday",
    act: "",
  });
});

test("the line under an own figure offers the other one", () => {
  const heap = standing(true, [carry("2.5 %")]);
  assert.deepEqual(lineOf(heap, { text: "3.0", unit: "%" }, NOW), {
    words: "Yours. From the heap: 2.5 %",
    act: "Put back",
  });
  const link = standing(true, [carry("2.3 %", { from: "from Test and temper", link: true })]);
  assert.deepEqual(lineOf(link, { text: "3.0", unit: "%" }, NOW), {
    words: "Yours. From Test and temper: 2.3 %",
    act: "Use it",
  });
  assert.deepEqual(lineOf(heap, EMPTY, NOW), { words: "Left empty. From the heap: 2.5 %", act: "Put back" });
});

test("an own figure that is the same as the carried one needs no button", () => {
  const state = standing(true, [carry("2.5 %")]);
  assert.deepEqual(lineOf(state, { text: "2.5", unit: "%" }, NOW), {
    words: "Yours, and the same from the heap",
    act: "",
  });
});

test("what gave way stays on offer for this visit, even if nothing is carried any more", () => {
  const before = { text: "3.0", unit: "%", at: NOW };
  const state = standing(false, [carry("2.3 %", { from: "from Test and temper" })], before);
  const act = "Bring it back";
  assert.deepEqual(lineOf(state, { text: "2.3", unit: "%" }, NOW), {
    words: "From Test and temper. You had 3.0 %",
    act,
  });
  assert.deepEqual(lineOf(standing(false, [], before), EMPTY, NOW), { words: "You had 3.0 %", act });
  const later = NOW + VISIT_MS + 1;
  assert.deepEqual(lineOf(standing(false, [], before), EMPTY, later), { words: "", act: "" });
});

test("a box without anything carried has no line", () => {
  assert.deepEqual(lineOf(standing(true, []), { text: "3.0", unit: "%" }, NOW), { words: "", act: "" });
  assert.deepEqual(lineOf(standing(false, []), EMPTY, NOW), { words: "", act: "" });
});

test("an origin says its age only if it is not of today", () => {
  assert.equal(fromWhen("from Pour", NOW - HOUR_MS, NOW), "from Pour");
  assert.equal(fromWhen("from Pour", NOW - 3 * DAY_MS, NOW), "from Pour, 3 days ago");
  assert.equal(fromWhen("from Pour", undefined, NOW), "from Pour");
});

test("a link that leads on carries its figures with their origin", () => {
  const address = leadingOn("../flask/", [["heap_kg", { value: "25", unit: "lb" }]], { from: "temper", at: NOW });
  const hash = new URL(address, "http://host/temper/").hash;
  assert.deepEqual(carriedIn(hash, ["heap_kg"], { temper: "Test and temper" }, NOW + HOUR_MS), [
    {
      word: "heap_kg",
      value: { value: "25", unit: "lb" },
      from: "from Test and temper",
      at: NOW,
      measured: true,
      link: true,
    },
  ]);
  assert.equal(leadingOn("../flask/", [], { from: "temper", at: NOW }), "../flask/");
});

test("a link without a known origin, or with words that the form does not have, carries nothing", () => {
  const shorts = { temper: "Test and temper" };
  assert.equal(carriedIn("#heap_kg=25", ["heap_kg"], shorts, NOW), undefined);
  assert.equal(carriedIn("#heap_kg=25&from=moon&since=1", ["heap_kg"], shorts, NOW), undefined);
  assert.equal(carriedIn("#heap_kg=25&from=temper&since=1&moon=1", ["heap_kg"], shorts, NOW), undefined);
});

test("a link from the future counts as one of now", () => {
  const [figure] = carriedIn(`#heap_kg=25&from=temper&since=${NOW + DAY_MS}`, ["heap_kg"], { temper: "T" }, NOW) ?? [];
  assert.equal(figure.at, NOW);
});

const TIMELINE = /** @type {any[]} */ ([{ at: "2027-03-22T10:00:00Z" }, { at: "2027-03-20T10:00:00Z" }]);

test("the heap's figures come with their ±, their unit, the age of the last test and the time of the last entry", () => {
  const answer = {
    result: { heap_kg: 43.87, last_test_age_days: 2 },
    doubt: { heap_kg: /** @type {[number, number]} */ ([43.44, 44.3]) },
    kept: [],
    timeline: TIMELINE,
  };
  const at = Date.parse("2027-03-22T10:00:00Z");
  const wanted = { heap_kg: "heap_kg", clay_pct_dry: "clay_pct_dry" };
  assert.deepEqual(heapCarries(answer, NOW, wanted, { heap_kg: "kg" }, NOW), [
    { word: "heap_kg", value: "43.87 ± 0.43 kg", from: "from the heap, tested 2 days ago", at, measured: true },
  ]);
});

test("a heap that was never tested says so, and a reading is of its own day", () => {
  const at = "2027-03-20T10:00:00Z";
  const answer = {
    result: { heap_kg: 40, gfn: 65 },
    doubt: {},
    kept: /** @type {any[]} */ ([{ word: "gfn", label: "Grain fineness", text: "65", at }]),
    timeline: [],
  };
  assert.deepEqual(heapCarries(answer, NOW, { heap_kg: "heap_kg", heap_gfn: "gfn" }, { heap_kg: "kg" }, NOW), [
    { word: "heap_kg", value: "40 kg", from: "from the heap, not tested yet", at: NOW, measured: true },
    { word: "heap_gfn", value: "65", from: "from the heap, 20 March 2027", at: Date.parse(at), measured: true },
  ]);
});

test("an entry takes a test with its ±, anything else as it is shown or as it was given, and leaves out what is none", () => {
  const answer = /** @type {any} */ ({
    result: { moisture_pct_wet: 2.4 },
    doubt: { moisture_pct_wet: [2.1, 2.7] },
    shown: [
      { word: "water_kg", text: "1.2 kg" },
      { word: "discard_kg", text: "none" },
    ],
  });
  const drawn = { kind: "", label: "", begins: "", not_with: [] };
  const units = { moisture_pct_wet: "%" };
  const tested = { ...drawn, words: { moisture_pct_wet: "moisture_pct_wet" }, units };
  assert.deepEqual(entryWords(tested, answer, new Map()), [["moisture_pct_wet", "2.40 ± 0.30 %"]]);
  const words = { water_kg: "water_kg", clay: "clay", discard_kg: "discard_kg", sand_kg: "sand_kg" };
  assert.deepEqual(entryWords({ ...drawn, words, units: null }, answer, new Map([["clay", "sodium_bentonite"]])), [
    ["water_kg", "1.2 kg"],
    ["clay", "sodium_bentonite"],
  ]);
});

test("what was written is said in the words of the library, and whether it lasts", () => {
  const answer = /** @type {any} */ ({ headline: "In the book.", remarks: ["one", "two"] });
  assert.equal(writtenText(answer, true), "Saved. In the book – one; two.");
  assert.deepEqual(writtenParts(answer, true), ["Saved. In the book.", "One; two."]);
  assert.equal(writtenText(answer, false), "Held until this page is closed. In the book – one; two.");
});
