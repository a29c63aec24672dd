// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import {
  DEVICE_VERSION,
  addedStill,
  changesIn,
  isExported,
  problemsOf,
  replacedBy,
} from "../../site/docs/app/device-file.js";

/** @import {Device} from "../../site/docs/app/device-file.js" */

const TYPED = { texts: { heap_kg: "45" }, units: { heap_kg: "kg" }, ways: {}, more: false };
const JOB = { typed: TYPED, since: 1 };
const hook = (/** @type {number} */ at) => ({ name: "coat hooks", at, said: "380 cm³", figures: {}, hands: {} });
/**
 * @param {Partial<Device>} parts
 * @returns {Device}
 */
const device = (parts) => ({ version: DEVICE_VERSION, look: "", entries: {}, patterns: [], ...parts });
const EMPTY = device({});

test("a file without this part, as older ones are, has nothing wrong with it", () => {
  assert.deepEqual(problemsOf(undefined), []);
  assert.deepEqual(
    problemsOf(device({ entries: { "job.temper": JOB, settings: { text: "large" } }, patterns: [hook(1)] })),
    [],
  );
});

test("all that is damaged in a file is named at once", () => {
  const entries = { "job.temper": { typed: 3 }, settings: { shown_in: { kg: 1 } }, "casting.x": {} };
  const said = problemsOf(device({ entries, patterns: /** @type {any} */ ([{ name: 3 }]) }));
  assert.equal(said.length, 4);
  assert.match(said[0], /typed on the page of a job/);
  assert.match(said[1], /your settings/);
  assert.match(said[2], /casting\.x/);
  assert.match(said[3], /pattern/);
  for (const bad of [
    null,
    [],
    "x",
    { ...EMPTY, look: "neon" },
    { ...EMPTY, entries: [] },
    { ...EMPTY, patterns: {} },
  ]) {
    assert.equal(problemsOf(bad).length, 1);
  }
  assert.match(problemsOf({ ...EMPTY, version: 2 })[0], /version 2/);
});

test("what is here already changes nothing, and what is new clashes with nothing", () => {
  const file = device({
    look: "night",
    entries: { settings: { hand: "left" }, "job.temper": JOB },
    patterns: [hook(1)],
  });
  assert.deepEqual(changesIn(file, file), []);
  const changes = changesIn(file, EMPTY);
  assert.deepEqual(
    changes.map(({ kind, names, clashes }) => ({ kind, names, clashes })),
    [
      { kind: "settings", names: ["settings", "look"], clashes: false },
      { kind: "forms", names: ["job.temper"], clashes: false },
      { kind: "patterns", names: ["coat hooks"], clashes: false },
    ],
  );
  assert.deepEqual(changes[1].part, { version: DEVICE_VERSION, entries: { "job.temper": JOB }, patterns: [] });
});

test("something else of the same name clashes, and only the parts that differ are taken", () => {
  const here = device({ entries: { "job.temper": JOB, words: {} }, patterns: [hook(1)] });
  const file = device({ entries: { "job.temper": { ...JOB, since: 2 }, words: {} }, patterns: [hook(2)] });
  const changes = changesIn(file, here);
  assert.deepEqual(
    changes.map(({ kind, names, clashes }) => [kind, names, clashes]),
    [
      ["forms", ["job.temper"], true],
      ["patterns", ["coat hooks"], true],
    ],
  );
});

test("settings and forms go into a file; castings have their own place, and drafts and clocks stay", () => {
  for (const name of ["settings", "job.temper", "words", "heap", "start"]) assert.ok(isExported(name), name);
  for (const name of ["casting.a", "draft.x", "clock.y", "last.temper", "look", "tried"]) {
    assert.ok(!isExported(name), name);
  }
});

test("what an import replaces is kept, and nothing else, so that bringing it back leaves alone what was typed since", () => {
  const here = device({
    look: "paper",
    entries: { "job.temper": JOB, "job.mix": JOB, settings: { hand: "left" } },
    patterns: [hook(1), { ...hook(1), name: "ring" }],
  });
  const file = device({
    look: "paper",
    entries: { "job.temper": { ...JOB, since: 2 }, "job.fit": JOB, settings: { hand: "left" } },
    patterns: [hook(2)],
  });
  assert.deepEqual(replacedBy(changesIn(file, here), here), {
    version: DEVICE_VERSION,
    entries: { "job.temper": JOB },
    patterns: [hook(1)],
  });
  const [added, changed] = ["ring", "bar"].map((name) => ({ ...hook(1), name }));
  const before = { device: replacedBy(changesIn(file, here), here), patterns: [hook(2), added, changed] };
  assert.deepEqual(addedStill(before, [hook(2), added, { ...changed, at: 9 }]), [added]);
  const night = replacedBy(changesIn({ ...file, look: "night" }, here), here);
  assert.equal(night.look, "paper");
});

test("a file whose forms would fill the browser's storage is refused before anything is written", () => {
  const full = { typed: { ...TYPED, texts: { heap_kg: "4".repeat(1_000_000) } }, since: 1 };
  const [said, ...more] = problemsOf(device({ entries: { "job.temper": full } }));
  assert.match(said, /At most 1000000 are read/);
  assert.deepEqual(more, []);
});
