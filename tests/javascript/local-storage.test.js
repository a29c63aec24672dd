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
  (await over(storage)).keep("job.temper", { text: "25,5" });
  assert.deepEqual((await over(storage)).recall("job.temper"), { text: "25,5" });
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
