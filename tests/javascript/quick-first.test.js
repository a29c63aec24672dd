// @ts-check
import assert from "node:assert/strict";
import { mock, test } from "node:test";
import { QuickFirst } from "../../site/docs/app/quick-first.js";

const REQUEST = { job: "burnout", inputs: {} };
const answer = (/** @type {boolean} */ ok) => /** @type {any} */ ({ ok });

/**
 * A calculator that takes so long, and the requests that it got.
 * @param {number} ms
 * @param {boolean} [ok]
 */
function calculator(ms, ok = true) {
  let now = 0;
  mock.method(performance, "now", () => now);
  /** @type {any[]} */
  const asked = [];
  const ask = async (/** @type {any} */ request) => {
    asked.push(request);
    now += ms;
    return answer(ok);
  };
  return { asked, ask };
}

test("after an answer that took long, the next comes without ranges first", async () => {
  const { asked, ask } = calculator(700);
  const [first, shown] = [new QuickFirst(), /** @type {any[]} */ ([])];
  for (let time = 0; time < 2; time += 1) await first.ask(REQUEST, ask, (quick) => shown.push(quick));
  assert.deepEqual(asked, [REQUEST, { ...REQUEST, doubt: false }, REQUEST]);
  assert.equal(shown.length, 1);
});

test("quick answers are asked once", async () => {
  const { asked, ask } = calculator(20);
  const first = new QuickFirst();
  for (let time = 0; time < 3; time += 1) await first.ask(REQUEST, ask, () => assert.fail());
  assert.deepEqual(asked, [REQUEST, REQUEST, REQUEST]);
});

test("a refusal is the same without ranges, so it is not asked again", async () => {
  const slow = calculator(700);
  const first = new QuickFirst();
  await first.ask(REQUEST, slow.ask, () => assert.fail());
  const { asked, ask } = calculator(1, false);
  assert.deepEqual(await first.ask(REQUEST, ask, () => assert.fail()), { ok: false });
  assert.deepEqual(asked, [{ ...REQUEST, doubt: false }]);
});
