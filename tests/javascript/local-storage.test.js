// @ts-check
import assert from "node:assert/strict";
import { afterEach, test } from "node:test";

let copies = 0;

/**
 * A fresh copy of the module over a storage of the test.
 * @param {Partial<Storage>} storage
 * @returns {Promise<typeof import("../../site/docs/app/local-storage.js")>}
 */
async function over(storage) {
  Object.defineProperty(globalThis, "localStorage", { value: storage, configurable: true });
  copies += 1;
  return import(`../../site/docs/app/local-storage.js?copy=${copies}`);
}

afterEach(() => Reflect.deleteProperty(globalThis, "localStorage"));

function working() {
  /** @type {Map<string, string>} */
  const values = new Map();
  return {
    values,
    getItem: (/** @type {string} */ name) => values.get(name) ?? null,
    setItem: (/** @type {string} */ name, /** @type {string} */ text) => void values.set(name, text),
    removeItem: (/** @type {string} */ name) => void values.delete(name),
  };
}

const refuse = () => {
  throw new Error("refused");
};

test("a value is there again when the page opens again", async () => {
  const storage = working();
  (await over(storage)).keep("a", { text: "25,5" });
  assert.deepEqual((await over(storage)).recall("a"), { text: "25,5" });
});

test("a value that was forgotten is gone, here and after a reload", async () => {
  const storage = working();
  const store = await over(storage);
  store.keep("a", 1);
  store.forget("a");
  assert.equal(store.recall("a"), null);
  assert.equal((await over(storage)).recall("a"), null);
});

test("a damaged value counts as none", async () => {
  const storage = working();
  storage.values.set("sandmix.a", "{broken");
  assert.equal((await over(storage)).recall("a"), null);
  assert.equal(storage.values.has("sandmix.a"), false);
});

test("if the browser refuses, values last as long as the page, and the page is told once", async () => {
  const store = await over({ getItem: refuse, setItem: refuse, removeItem: refuse });
  let told = 0;
  store.store.addEventListener("refused", () => (told += 1));
  assert.equal(store.tryStore(), false);
  store.keep("a", 1);
  assert.equal(store.recall("a"), 1);
  store.forget("a");
  assert.equal(store.recall("a"), null);
  assert.equal(told, 1);
});

test("the names that begin alike are found, in the storage or in memory", async () => {
  const { setItem, ...more } = working();
  const storage = /** @type {any} */ ({ ...more });
  Object.defineProperty(storage, "setItem", {
    value: (/** @type {string} */ name, /** @type {string} */ text) => {
      storage[name] = text;
      setItem(name, text);
    },
  });
  const kept = await over(storage);
  for (const name of ["draft.a", "draft.b", "job.temper"]) kept.keep(name, 1);
  assert.deepEqual(kept.namesOf("draft."), ["draft.a", "draft.b"]);
  const refused = await over({ getItem: refuse, setItem: refuse, removeItem: refuse });
  refused.keep("draft.c", 1);
  assert.deepEqual(refused.namesOf("draft."), ["draft.c"]);
});

test("a value that lacks what the page needs is set aside, told once by what it is, and the next visit starts without it", async () => {
  /** @type {[string, unknown, string][]} */
  const damaged = [
    ["job.temper", { typed: 5 }, "what was typed on the page of a job"],
    ["job.mix", { typed: { texts: { make_kg: 5 }, units: {}, ways: {} } }, "what was typed on the page of a job"],
    ["job.fit", { typed: { texts: {}, units: {}, ways: {}, links: [null] } }, "what was typed on the page of a job"],
    ["words", { heap_kg: "5" }, "the figures that the pages share"],
    ["heap", [], "the last figures of the heap"],
    ["heap", { figures: { heap_kg: null } }, "the last figures of the heap"],
    ["clock.temper", { start: "x", timers: {} }, "running clocks"],
    ["draft.a", { write: "a" }, "an entry that was not recorded yet"],
    ["start", 7, "the questions that begin a casting"],
    ["casting.k1", { format: "sandmix casting" }, "a casting"],
    ["casting-in-use", {}, "which casting is in use"],
    ["before-import", { device: {}, names: [] }, "what an import replaced"],
    ["before-import", { device: { entries: {}, patterns: [5] }, names: [] }, "what an import replaced"],
  ];
  for (const [name, value, called] of damaged) {
    const storage = working();
    const text = JSON.stringify(value);
    storage.values.set(`sandmix.${name}`, text);
    const { recall, store } = await over(storage);
    /** @type {string[]} */
    const told = [];
    store.addEventListener("damaged", (event) => told.push(/** @type {CustomEvent} */ (event).detail));
    assert.equal(recall(name), null, name);
    assert.deepEqual(told, [called]);
    storage.values.set(`sandmix.${name}`, "{");
    assert.equal(recall(name), null, name);
    const aside = [`sandmix.damaged.${name}`, `sandmix.damaged.${name}.2`];
    assert.deepEqual(
      [...storage.values],
      [
        [aside[0], text],
        [aside[1], "{"],
      ],
    );
  }
});

test("a damaged copy of an answer goes without a word, since it is made again", async () => {
  for (const name of ["last.temper", "answer.temper", "sheet.k1"]) {
    const storage = working();
    storage.values.set(`sandmix.${name}`, '{"state":3}');
    const { recall, store } = await over(storage);
    store.addEventListener("damaged", () => assert.fail());
    assert.equal(recall(name), null);
    assert.equal(storage.values.has(`sandmix.${name}`), false);
  }
});

test("what older versions kept is still read", async () => {
  const storage = working();
  const older = {
    "job.temper": { typed: { texts: { heap_kg: "25" }, units: { heap_kg: "kg" }, ways: {}, more: false } },
    words: { heap_kg: { text: "25", unit: "kg" } },
    heap: { figures: { heap_kg: { text: "25 kg", range: "" } } },
    "ticks.temper": ["Vents pricked."],
    event: { kind: "poured", typed: {} },
    tried: 1,
  };
  for (const [name, value] of Object.entries(older)) storage.values.set(`sandmix.${name}`, JSON.stringify(value));
  const { recall } = await over(storage);
  for (const [name, value] of Object.entries(older)) assert.deepEqual(recall(name), value, name);
});
