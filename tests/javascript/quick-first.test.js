// @ts-check
import assert from "node:assert/strict";
import { mock, test } from "node:test";
import { QuickFirst } from "../../site/docs/app/quick-first.js";

const REQUEST = { job: "burnout", inputs: {} };
const answer = (/** @type {boolean} */ ok) => /** @type {any} */ ({ ok });

/** A calculator that takes so long, and the requests that it got. */
function calculator({ ms = 700, ok = true, state = "ready" }) {
  let now = 0;
  mock.method(performance, "now", () => now);
  /** @type {any[]} */
  const asked = [];
  const ask = async (/** @type {any} */ request) => {
    asked.push(request);
    now += ms;
    return answer(ok);
  };
  /** @type {any} */
  const engine = { ask, state };
  return { asked, engine };
}

test("after an answer that took long, the next comes without ranges first", async () => {
  const { asked, engine } = calculator({});
  const [first, shown] = [new QuickFirst(engine), /** @type {any[]} */ ([])];
  for (let time = 0; time < 2; time += 1) await first.ask(REQUEST, (quick) => shown.push(quick));
  assert.deepEqual(asked, [REQUEST, { ...REQUEST, doubt: false }, REQUEST]);
  assert.equal(shown.length, 1);
});

for (const [why, given] of /** @type {[string, object][]} */ ([
  ["quick answers are asked once", { ms: 20 }],
  ["the start of the calculator is not the answer's time", { state: "loading" }],
])) {
  test(why, async () => {
    const { asked, engine } = calculator(given);
    const first = new QuickFirst(engine);
    for (let time = 0; time < 3; time += 1) await first.ask(REQUEST, () => assert.fail());
    assert.deepEqual(asked, [REQUEST, REQUEST, REQUEST]);
  });
}

test("a refusal is the same without ranges, so it is not asked again", async () => {
  const { engine } = calculator({});
  const first = new QuickFirst(engine);
  await first.ask(REQUEST, () => assert.fail());
  const { asked, engine: refusing } = calculator({ ok: false });
  engine.ask = refusing.ask;
  assert.deepEqual(await first.ask(REQUEST, () => assert.fail()), { ok: false });
  assert.deepEqual(asked, [{ ...REQUEST, doubt: false }]);
});
