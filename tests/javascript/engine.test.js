// @ts-check
import assert from "node:assert/strict";
import { afterEach, beforeEach, mock, test } from "node:test";
import { ANSWER_MS, Engine, SNAPSHOT_MS, START_MS } from "../../site/docs/app/engine.js";

/** A worker whose messages the test writes. */
class FakeWorker extends EventTarget {
  /** @type {FakeWorker[]} */
  static made = [];
  /** @type {any[]} */
  asked = [];
  terminated = false;
  named;

  /**
   * @param {string} _address
   * @param {WorkerOptions} options
   */
  constructor(_address, options) {
    super();
    this.named = options.name;
    FakeWorker.made.push(this);
  }

  /** @param {any} message */
  postMessage(message) {
    this.asked.push(message);
  }

  terminate() {
    this.terminated = true;
  }

  /** @param {object} data */
  says(data) {
    this.dispatchEvent(Object.assign(new Event("message"), { data }));
  }

  /** @param {string} message */
  breaks(message) {
    this.dispatchEvent(Object.assign(new Event("error", { cancelable: true }), { message }));
  }
}

const REQUEST = { job: "temper", inputs: { heap_kg: { value: "25", unit: "kg" } } };
const FILE = /** @type {File} */ (/** @type {unknown} */ ({ name: "hook.stl", size: 8 }));
const plainWorker = globalThis.Worker;
const last = () => /** @type {FakeWorker} */ (FakeWorker.made.at(-1));

beforeEach(() => {
  FakeWorker.made = [];
  globalThis.Worker = /** @type {any} */ (FakeWorker);
  mock.timers.enable({ apis: ["setTimeout"] });
});
afterEach(() => {
  mock.timers.reset();
  globalThis.Worker = plainWorker;
});

function readyEngine() {
  const engine = new Engine("worker.js");
  engine.start();
  last().says({ ready: true });
  return engine;
}

/** @param {boolean} works */
function startedEarly(works) {
  const early = { address: "worker.js", worker: new FakeWorker("worker.js", {}), said: [{ ready: true }], works };
  Object.assign(globalThis, { earlyWorker: early });
  return early.worker;
}

test("a worker that the page has started already is taken over once, with what it said", async () => {
  const early = startedEarly(true);
  const engine = new Engine("worker.js");
  engine.start();
  assert.equal(engine.state, "ready");
  assert.equal(FakeWorker.made.length, 1);
  const answer = engine.ask(REQUEST);
  early.says({ id: early.asked[0].id, text: '{"ok":true}' });
  assert.deepEqual(await answer, { ok: true });
  engine.restart();
  assert.equal(FakeWorker.made.length, 2);
});

test("a worker of the page that could not be loaded is replaced", () => {
  const early = startedEarly(false);
  const engine = new Engine("worker.js");
  engine.start();
  assert.equal(early.terminated, true);
  assert.equal(engine.state, "loading");
  assert.notEqual(last(), early);
});

test("a question that comes before the start is answered once the engine runs", async () => {
  const engine = new Engine("worker.js");
  const answer = engine.ask(REQUEST);
  assert.equal(engine.state, "loading");
  const [{ id, text }] = last().asked;
  assert.deepEqual(JSON.parse(text), REQUEST);
  last().says({ ready: true });
  last().says({ id, text: '{"ok":true}' });
  assert.deepEqual(await answer, { ok: true });
  assert.equal(FakeWorker.made.length, 1);
});

test("answers reach their own questions, whatever order they come in", async () => {
  const engine = readyEngine();
  const answers = [engine.ask(REQUEST), engine.ask({ job: "mix", inputs: {} })];
  const [one, two] = last().asked;
  last().says({ id: two.id, text: '{"ok":true,"job":"mix"}' });
  last().says({ id: one.id, text: '{"ok":true,"job":"temper"}' });
  assert.deepEqual(
    (await Promise.all(answers)).map((answer) => answer.ok && answer.job),
    ["temper", "mix"],
  );
});

test("a question whose worker breaks is asked again of a new worker", async () => {
  const engine = readyEngine();
  const answer = engine.ask(REQUEST);
  const first = last();
  first.breaks("out of memory");
  assert.equal(first.terminated, true);
  assert.notEqual(last(), first);
  last().says({ ready: true });
  last().says({ id: last().asked[0].id, text: '{"ok":true}' });
  assert.deepEqual(await answer, { ok: true });
});

test("a question that breaks two workers is refused in words, and the engine goes on", async () => {
  const engine = readyEngine();
  const answer = engine.ask(REQUEST);
  last().breaks("out of memory");
  last().says({ ready: true });
  last().breaks("out of memory");
  await assert.rejects(answer, /stopped twice on this question: out of memory/);
  last().says({ ready: true });
  assert.equal(engine.state, "ready");
});

test("an engine without an answer for too long counts as dead", async () => {
  const engine = readyEngine();
  const answer = engine.ask(REQUEST);
  const first = last();
  mock.timers.tick(ANSWER_MS - 1);
  assert.equal(first.terminated, false);
  mock.timers.tick(1);
  assert.equal(first.terminated, true);
  last().says({ ready: true });
  last().says({ id: last().asked[0].id, text: "{}" });
  await answer;
});

test("a question with a file may take longer, and so may those behind it", () => {
  const engine = readyEngine();
  engine.ask(REQUEST, { files: { "hook.stl": FILE } });
  engine.ask(REQUEST);
  mock.timers.tick(5 * ANSWER_MS);
  assert.equal(last().terminated, false);
  assert.equal(FakeWorker.made.length, 1);
});

test("a worker lost over a file is not asked again: the file is too much for it", async () => {
  const engine = readyEngine();
  const answer = engine.ask(REQUEST, { files: { "hook.stl": FILE } });
  last().breaks("out of memory");
  await assert.rejects(answer, { name: "UnreadFile", message: /fewer facets/ });
  assert.deepEqual(last().asked, []);
});

test("a file that cannot be read is told with the worker's words", async () => {
  const engine = readyEngine();
  const answer = engine.ask(REQUEST, { files: { "hook.stl": FILE } });
  last().says({ id: last().asked[0].id, unread: "it was moved." });
  await assert.rejects(answer, { name: "UnreadFile", message: "it was moved." });
});

test("the page hears how much of a file has been read", () => {
  const engine = readyEngine();
  /** @type {unknown[]} */
  const heard = [];
  engine.ask(REQUEST, { files: { "hook.stl": FILE }, onRead: (read) => heard.push(read) });
  last().says({ id: last().asked[0].id, read: { read: 4, of: 8 } });
  assert.deepEqual(heard, [{ read: 4, of: 8 }]);
});

test("a question that is given up is rejected, and the others get a new worker", async () => {
  const engine = readyEngine();
  const control = new AbortController();
  const givenUp = engine.ask(REQUEST, { files: { "hook.stl": FILE }, signal: control.signal });
  const other = engine.ask({ job: "mix", inputs: {} });
  const first = last();
  control.abort();
  await assert.rejects(givenUp, { name: "AbortError" });
  assert.equal(first.terminated, true);
  assert.equal(last().asked.length, 1);
  last().says({ ready: true });
  last().says({ id: last().asked[0].id, text: '{"ok":true}' });
  assert.deepEqual(await other, { ok: true });
});

test("an engine that does not start refuses at once, with the reason, until it is started again", async () => {
  const engine = new Engine("worker.js");
  const answer = engine.ask(REQUEST);
  last().says({ trouble: "no memory." });
  await assert.rejects(answer, /did not start: no memory\./);
  assert.equal(engine.state, "failed");
  assert.equal(engine.trouble, "no memory.");
  await assert.rejects(engine.ask(REQUEST), /did not start: no memory\./);
  engine.start();
  assert.equal(engine.state, "loading");
});

test("a start without a byte for too long fails, and every byte gives it more time", async () => {
  const engine = new Engine("worker.js");
  engine.start();
  mock.timers.tick(START_MS - 1);
  last().says({ progress: { loaded: 1, total: 2 } });
  mock.timers.tick(START_MS - 1);
  assert.equal(engine.state, "loading");
  mock.timers.tick(1);
  assert.equal(engine.state, "failed");
});

test("a worker that was replaced is not listened to any more", async () => {
  const engine = readyEngine();
  const first = last();
  engine.restart();
  first.says({ ready: true });
  assert.equal(engine.state, "loading");
});

test("a start from a snapshot that fails is followed by one from the files, and the question is asked of that", async () => {
  const engine = new Engine("worker.js");
  const answer = engine.ask(REQUEST, { files: { "hook.stl": FILE } });
  const first = last();
  assert.equal(first.named, "");
  first.says({ begins: "snapshot" });
  assert.equal(engine.fromSnapshot, true);
  first.says({ trouble: "What this browser kept of it is damaged." });
  assert.equal(first.terminated, true);
  assert.equal(engine.state, "loading");
  assert.equal(engine.fromSnapshot, false);
  assert.equal(last().named, "from files");
  last().says({ ready: true });
  last().says({ id: last().asked[0].id, text: '{"ok":true}' });
  assert.deepEqual(await answer, { ok: true });
});

test("a start from a snapshot that never ends is given up soon, and followed by one from the files", () => {
  const engine = new Engine("worker.js");
  engine.start();
  last().says({ begins: "snapshot" });
  mock.timers.tick(SNAPSHOT_MS);
  assert.equal(last().named, "from files");
  mock.timers.tick(START_MS);
  assert.equal(engine.state, "failed");
});

test("a worker from a snapshot that breaks on a question is not trusted again; the next has two tries as usual", async () => {
  const engine = new Engine("worker.js");
  const answer = engine.ask(REQUEST);
  last().says({ begins: "snapshot" });
  last().says({ ready: true });
  last().breaks("memory access out of bounds");
  assert.equal(last().named, "from files");
  last().says({ ready: true });
  last().says({ id: last().asked[0].id, text: '{"ok":true}' });
  assert.deepEqual(await answer, { ok: true });
});

test("a question that a person gave up says nothing against the snapshot", async () => {
  const engine = new Engine("worker.js");
  const control = new AbortController();
  const answer = engine.ask(REQUEST, { signal: control.signal });
  last().says({ begins: "snapshot" });
  last().says({ ready: true });
  control.abort();
  await assert.rejects(answer, { name: "AbortError" });
  assert.equal(last().named, "");
});

test("the engine is busy as long as a question waits", async () => {
  const engine = readyEngine();
  assert.equal(engine.busy, false);
  const answer = engine.ask(REQUEST);
  assert.equal(engine.busy, true);
  last().says({ id: last().asked[0].id, text: "{}" });
  await answer;
  assert.equal(engine.busy, false);
});
