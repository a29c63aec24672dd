// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { withBook } from "../../site/docs/app/book-inputs.js";

test("a job that reads no book asks the calculator as it is", () => {
  const engine = { ask: () => Promise.reject(new Error("not asked")), state: "ready", trouble: "" };
  const root = /** @type {HTMLElement} */ (/** @type {unknown} */ ({ dataset: { job: "mix" } }));
  assert.equal(withBook(root, engine), engine);
});

test("a question about another job goes on without the book", async () => {
  /** @type {unknown[]} */
  const asked = [];
  const engine = /** @type {import("../../site/docs/app/engine.js").Calculator} */ (
    /** @type {unknown} */ ({
      ask: async (/** @type {unknown} */ request) => asked.push(request),
      state: "ready",
      trouble: "",
    })
  );
  const root = /** @type {HTMLElement} */ (
    /** @type {unknown} */ ({ dataset: { job: "tin", bookWords: '["book", "now"]' } })
  );
  const other = { job: "temper", inputs: { heap_kg: "45 kg" } };
  await withBook(root, engine).ask(other);
  assert.deepEqual(asked, [other]);
});
