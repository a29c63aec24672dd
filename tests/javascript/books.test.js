// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import * as format from "../../site/docs/app/book-format.js";
import { Books } from "../../site/docs/app/books.js";
import { newCasting } from "../../site/docs/app/castings.js";
import { csvText } from "../../site/docs/app/csv.js";
import { correctedEvent, eventLike, linesOf, newEvent, shortly, wordsIn } from "../../site/docs/app/event-words.js";
import { memoryDatabase } from "../../site/docs/app/memory-database.js";
import { DAY_MS } from "../../site/docs/app/time-text.js";

const NOW = Date.parse("2027-03-24T10:00:00Z");
const MIXED = { id: "e1", kind: "mixed", at: "2027-03-06", make_kg: { value: "45", unit: "kg" } };
const POURED = {
  id: "e2",
  kind: "poured",
  at: "2027-03-13",
  metal_kg: "1.5 kg",
  pattern: "hooks",
  note: "rain",
  outcome: {},
};

/**
 * Books in memory that no other page hears of.
 * @param {import("node:test").TestContext} t
 */
function booksFor(t) {
  const books = new Books(memoryDatabase());
  t.after(() => books.channel?.close());
  return books;
}

/**
 * A library that completes an event with an id.
 * @param {() => unknown} [meanwhile] what happens while it thinks
 */
const recorder = (meanwhile = () => {}) => {
  const ask = async (/** @type {any} */ { inputs }) => {
    const count = inputs.book.events.length;
    await meanwhile();
    return { ok: true, job: "record", headline: "", remarks: [], event: { ...inputs.event, id: `e${count + 1}` } };
  };
  return /** @type {import("../../site/docs/app/answer-types.js").Ask} */ (/** @type {unknown} */ (ask));
};

test("a new book is in use and empty", async (t) => {
  const books = booksFor(t);
  const book = await books.begin("The hall");
  assert.deepEqual(await books.inUse(), book);
  assert.deepEqual(await books.whole(book), { format: "sandmix book", version: 4, name: "The hall", events: [] });
});

test("an event that another page wrote in between is not lost, and the library sees it", async (t) => {
  const books = booksFor(t);
  const book = await books.begin("The hall");
  let calls = 0;
  const ask = recorder(async () => {
    calls += 1;
    if (calls === 1) await books.append(book.key, 0, { id: "other" });
  });
  const answer = await books.record(book, { kind: "poured" }, ask);
  assert.ok(answer.ok);
  assert.equal(calls, 2);
  assert.deepEqual(
    (await books.events(book.key)).map(({ id }) => id),
    ["other", "e2"],
  );
});

test("pages that never stop writing are named as the reason, and nothing is written twice", async (t) => {
  const books = booksFor(t);
  const book = await books.begin("The hall");
  const ask = recorder(async () => books.append(book.key, (await books.events(book.key)).length, { id: "other" }));
  await assert.rejects(books.record(book, { kind: "poured" }, ask), /other pages keep writing/);
  assert.ok((await books.events(book.key)).every(({ id }) => id === "other"));
});

test("a refused event is not written", async (t) => {
  const books = booksFor(t);
  const book = await books.begin("The hall");
  const refusal = { ok: false, problems: [{ word: "metal_kg", given: "", allowed: "", message: "No." }] };
  const ask = /** @type {any} */ (async () => refusal);
  assert.deepEqual(await books.record(book, { kind: "poured" }, ask), refusal);
  assert.deepEqual(await books.events(book.key), []);
});

test("an event for a book that is gone does not count as written", async (t) => {
  assert.equal(await booksFor(t).append("gone", 0, MIXED), false);
});

test("writes wait for each other, in the order in which they were asked for", async (t) => {
  const books = booksFor(t);
  const book = await books.begin("The hall");
  /** @type {string[]} */
  const steps = [];
  const slow = recorder(async () => {
    steps.push("slow begins");
    await new Promise((resolve) => setTimeout(resolve, 20));
    steps.push("slow ends");
  });
  const quick = recorder(() => steps.push("quick"));
  const answers = await Promise.all([
    books.record(book, { kind: "tempered" }, slow),
    books.record(book, { kind: "poured" }, quick),
  ]);
  assert.ok(answers.every(({ ok }) => ok));
  assert.deepEqual(steps, ["slow begins", "slow ends", "quick"]);
  assert.deepEqual(
    (await books.events(book.key)).map(({ kind }) => kind),
    ["tempered", "poured"],
  );
});

test("a write that failed does not stop the next one", async (t) => {
  const books = booksFor(t);
  const book = await books.begin("The hall");
  const broken = /** @type {any} */ (async () => Promise.reject(new Error("no calculator")));
  const first = books.record(book, { kind: "tempered" }, broken);
  const second = books.record(book, { kind: "poured" }, recorder());
  await assert.rejects(first, /no calculator/);
  assert.ok((await second).ok);
  assert.equal((await books.events(book.key)).length, 1);
});

test("a write with an identity happens once, also when two pages try it at the same time", async (t) => {
  const database = memoryDatabase();
  const pages = [0, 1].map(() => new Books(database));
  t.after(() => pages.forEach((page) => page.channel?.close()));
  const [one, two] = pages;
  const book = await one.begin("The hall");
  const event = { kind: "poured" };
  const both = await Promise.all(pages.map((page) => page.record(book, event, recorder(), "w1")));
  const later = await two.record(book, event, recorder(), "w1");
  assert.ok([...both, later].every(({ ok }) => ok));
  assert.equal((await one.events(book.key)).length, 1);
  assert.equal(await one.isWritten("w1"), true);
  assert.equal(await one.isWritten("w2"), false);
  await one.record(book, event, recorder(), "w2");
  assert.equal((await one.events(book.key)).length, 2);
});

test("what a file replaced is kept, can be brought back, and then what stood in its place is kept", async (t) => {
  const books = booksFor(t);
  const book = await books.begin("The hall");
  await books.append(book.key, 0, MIXED);
  await books.put([{ ...book, events: [POURED] }]);
  const [kept] = await books.replaced();
  assert.deepEqual([kept.book, kept.events], [book, [MIXED]]);
  await books.append(book.key, 1, MIXED);
  await books.bringBack(kept.id);
  assert.deepEqual(await books.events(book.key), [MIXED]);
  const [instead, ...more] = await books.replaced();
  assert.deepEqual([instead.events, more], [[POURED, MIXED], []]);
  await books.bringBack("no such");
  await books.dropReplaced(instead.id);
  assert.deepEqual(await books.replaced(), []);
  assert.deepEqual(await books.events(book.key), [MIXED]);
});

test("an answer to a book does not stand for the one that replaced it, even with as many entries", async (t) => {
  const books = booksFor(t);
  const book = await books.begin("The hall");
  await books.append(book.key, 0, MIXED);
  await books.keepAnswer(book, 1, /** @type {any} */ ({ ok: true }));
  await books.put([{ ...book, events: [POURED] }]);
  assert.equal(await books.lastAnswer(book), null);
});

test("a new name keeps the events of a book", async (t) => {
  const books = booksFor(t);
  const book = await books.begin("The hall");
  await books.append(book.key, 0, MIXED);
  await books.rename(book, "Old sand");
  assert.equal((await books.inUse())?.name, "Old sand");
  assert.deepEqual(await books.events(book.key), [MIXED]);
});

/** What the pages show of an answer to a book. */
const ANSWER = {
  state: { word: "ready", tone: "go" },
  lead: { sentence: "" },
  result: {},
  shown: [],
  kept: [],
  timeline: [],
};

test("a damaged answer to a book counts as none", async (t) => {
  const books = booksFor(t);
  const book = await books.begin("The hall");
  for (const part of Object.keys(ANSWER)) {
    await books.keepAnswer(book, 0, /** @type {any} */ ({ ...ANSWER, [part]: null }));
    assert.equal(await books.lastAnswer(book), null);
  }
});

test("a kept answer counts only for the events that it was given to", async (t) => {
  const books = booksFor(t);
  const book = await books.begin("The hall");
  const answer = /** @type {any} */ (ANSWER);
  await books.keepAnswer(book, 0, answer);
  assert.deepEqual((await books.lastAnswer(book))?.answer, answer);
  await books.append(book.key, 0, MIXED);
  assert.equal(await books.lastAnswer(book), null);
});

test("a file of books comes back as the same books", () => {
  const whole = { format: format.FORMAT, version: format.VERSION, name: "The hall", events: [MIXED] };
  const casting = newCasting("Strap", "2027-03-10", {});
  const text = format.fileText([whole], [casting], "2027-03-24T10:00:00+00:00");
  assert.deepEqual(format.wholesIn(JSON.parse(text)), { books: [whole], castings: [casting], problem: "" });
  assert.deepEqual(format.wholesIn(whole), { books: [whole], castings: [], problem: "" });
});

test("what only a newer sandmix reads in a file is named", () => {
  const device = { version: 1, look: "", entries: { settings: { hand: "left", glow: "x" } }, patterns: [], later: {} };
  const file = {
    format: "sandmix books",
    version: 4,
    books: [{ events: [], more: 1 }],
    castings: [],
    device,
    extra: 2,
  };
  assert.deepEqual(format.unknownIn(file), ["extra", "more", "later", "glow"]);
  assert.deepEqual(format.unknownIn([MIXED]), []);
});

test("a file that holds no book is refused with the reason", () => {
  const casting = newCasting("Strap", "2027-03-10", {});
  assert.deepEqual(format.wholesIn(casting), { books: [], castings: [casting], problem: "" });
  assert.deepEqual(format.newCastings([casting, { ...casting, name: "Ring" }], [casting]), [
    { ...casting, name: "Ring" },
  ]);
  assert.match(format.wholesIn(null).problem, /empty/);
  assert.match(format.wholesIn(undefined).problem, /not JSON/);
  assert.match(format.wholesIn({ format: "sandmix books", version: 1, books: [] }).problem, /no book/);
  assert.match(format.wholesIn({ format: "sandmix books", version: 2, books: "x" }).problem, /no book/);
  for (const version of [0, 5, "x", undefined, { toString: 1, valueOf: 1 }]) {
    assert.match(format.wholesIn({ format: "sandmix books", version, books: [{}] }).problem, /versions 1 to 4/);
  }
});

test("a book that is here with the same events is not new, and one with other events has a namesake", () => {
  const whole = { format: format.FORMAT, version: 3, name: "The hall", events: [MIXED] };
  const book = { key: "a", name: "The hall" };
  assert.deepEqual(format.newBooks([whole], [{ book, events: [MIXED] }]), []);
  assert.deepEqual(format.newBooks([whole], [{ book, events: [] }]), [{ whole, same: book, here: [] }]);
  assert.deepEqual(format.newBooks([whole], []), [{ whole }]);
  const empty = { ...whole, events: [] };
  assert.deepEqual(format.newBooks([empty], [{ book, events: [MIXED] }]), [], "an empty book replaces nothing");
  assert.deepEqual(format.newBooks([empty], []), [{ whole: empty }]);
});

test("a file without any entry is no book", () => {
  const book = { format: format.FORMAT, version: 2, name: "The hall", events: [] };
  assert.match(format.emptyProblem([book, book]), /no entry/);
  assert.equal(format.emptyProblem([book, { ...book, events: [MIXED] }]), "");
});

test("of two books it is said how many entries each has, how new it is, and which is newer", () => {
  assert.equal(format.extentText([]), "0 entries");
  const [older, newer] = ["2027-03-06T10:00", "2027-03-13T09:30"].map((at) => ({ ...MIXED, at }));
  assert.equal(format.extentText([older]), "1 entry, the newest from 6 Mar 2027, 10:00");
  assert.equal(format.extentText([newer, older]), "2 entries, the newest from 13 Mar 2027, 09:30");
  assert.equal(format.newerText([MIXED], [POURED]), "The one in the file is newer.");
  assert.equal(format.newerText([POURED], [MIXED]), "The one here is newer.");
  assert.equal(format.newerText([POURED], [POURED, MIXED]), "Their newest entries have the same time.");
  assert.equal(format.newerText([], [MIXED]), "");
});

test("a book replaces its namesake only if that is wished, and else gets a free name", () => {
  const whole = { format: format.FORMAT, version: 3, name: "The hall", events: [] };
  const found = [{ whole, same: { key: "a", name: "The hall" } }, { whole }]; // prettier-ignore
  const names = ["The hall", "The hall (2)"];
  assert.deepEqual(format.booksToWrite(found, [true, false], names), [
    { key: "a", name: "The hall", events: [] },
    { name: "The hall (3)", events: [] },
  ]);
  assert.deepEqual(
    format.booksToWrite(found, [], names).map(({ name }) => name),
    ["The hall (3)", "The hall (4)"],
  );
});

test("an export is due after ten entries, or after thirty days with a new one", () => {
  const at = NOW - 30 * DAY_MS;
  const due = (/** @type {number} */ events, /** @type {number | null} */ last, since = NOW) =>
    format.exportReminder({ events, last: { at: last, events: 5 }, since }, NOW).due;
  assert.equal(due(15, NOW), true);
  assert.equal(due(14, NOW), false);
  assert.equal(due(6, at), true);
  assert.equal(due(6, at + DAY_MS), false);
  assert.equal(due(5, at), false);
  assert.equal(due(6, null, at), true);
});

test("the reminder says when the last export was, and what came since", () => {
  const words = (/** @type {number | null} */ at, /** @type {number} */ events) =>
    format.exportReminder({ events, last: { at, events: 5 }, since: null }, NOW).words;
  assert.equal(words(null, 5), "Not exported yet.");
  assert.equal(words(NOW, 5), "Last exported today; nothing new since.");
  assert.equal(words(NOW - DAY_MS, 6), "Last exported yesterday; 1 entry since.");
  assert.equal(words(NOW - 3 * DAY_MS, 8), "Last exported 3 days ago; 3 entries since.");
});

test("a correction changes the words of an event, and a correction of another event does not", () => {
  const corrected = { kind: "corrected", of: "e2", id: "e3", at: "2027-03-14", metal_kg: { value: "1.4", unit: "kg" } };
  const other = { kind: "corrected", of: "e1", id: "e4", at: "2027-03-14", pattern: "none" };
  assert.deepEqual(correctedEvent([MIXED, POURED, corrected, other], "e2"), {
    ...POURED,
    metal_kg: corrected.metal_kg,
  });
  assert.equal(correctedEvent([MIXED], "e9"), undefined);
});

test("the words of an event are what a person gave", () => {
  assert.deepEqual(wordsIn(POURED), { metal_kg: "1.5 kg", pattern: "hooks" });
  assert.deepEqual(eventLike(POURED, ["pattern", "metal"]), { kind: "poured", pattern: "hooks" });
});

test("another pour like the last is shown word by word, as it is written, and without what was weighed or timed at the last", () => {
  const alike = ["metal", "metal_kg", "pattern", "flask_sand_kg"];
  const last = { ...POURED, metal: "tin_bronze", flask_sand_kg: { value: "20", unit: "kg" }, sand_lost_kg: "2.5 kg" };
  const again = eventLike(last, alike);
  const labels = { metal: "Metal", metal_kg: "Metal poured", pattern: "Pattern" };
  assert.deepEqual(linesOf(again, labels, { "metal tin_bronze": "tin bronze" }), [
    "Metal poured: 1.5 kg",
    "Pattern: hooks",
    "Metal: tin bronze",
    "flask_sand_kg: 20 kg",
  ]);
  assert.equal(shortly(again), "hooks, 1.5 kg tin bronze");
  assert.equal(shortly({ kind: "poured" }), "a cast like the last");
});

test("a correction empties every word that was there", () => {
  assert.deepEqual(newEvent("poured", { of: "e2", words: ["metal_kg", "pattern"] }), {
    kind: "corrected",
    of: "e2",
    metal_kg: "",
    pattern: "",
  });
  assert.deepEqual(newEvent("poured"), { kind: "poured" });
});

test("a spreadsheet gets each amount as one text, and what lies deeper under its path", () => {
  const text = csvText(
    [{ book: "The hall", ...MIXED, outcome: { change: { water_kg: 1.5 } } }, { book: "Two" }],
    ["book", "note"],
  );
  assert.deepEqual(text.split("\r\n"), [
    "\ufeffbook,note,id,kind,at,make_kg,outcome.change.water_kg",
    "The hall,,e1,mixed,2027-03-06,45 kg,1.5",
    "Two,,,,,,",
    "",
  ]);
});

test("a cell with a comma, a quote or a line break is quoted, and none becomes a formula", () => {
  const cells = (/** @type {unknown} */ value) =>
    csvText([{ a: value }], ["a"])
      .split("\r\n")
      .slice(1)
      .join("|");
  assert.equal(cells("1,5 kg"), '"1,5 kg"|');
  assert.equal(cells('a "hook"'), '"a ""hook"""|');
  assert.equal(cells("=1+1"), "'=1+1|");
  assert.equal(cells("@x"), "'@x|");
  assert.equal(cells(-3), "-3|");
  assert.equal(cells(["a", "b"]), '"[""a"",""b""]"|');
});
