// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { drafts, dropDraft, keepDraft, noteOnScreen, onScreen } from "../../site/docs/app/drafts.js";
import { keep, recall } from "../../site/docs/app/local-storage.js";

const TYPED = { texts: { clay_kg: "1,5" }, units: {}, ways: {}, more: false };

test("entries that are not recorded yet are kept one by one, the oldest first", () => {
  const [early, late] = [1, 2].map((at) => ({ write: `w${3 - at}`, kind: "added", at, words: "", typed: TYPED }));
  keepDraft(late);
  keepDraft(early);
  assert.deepEqual(drafts(), [early, late]);
  const changed = { ...early, at: 3 };
  keepDraft(changed);
  assert.deepEqual(drafts(), [late, changed]);
  dropDraft(late.write);
  assert.deepEqual(drafts(), [changed]);
  dropDraft(changed.write);
  assert.deepEqual(drafts(), []);
});

test("the draft on the screen is known by the identity of its write", () => {
  noteOnScreen("w1");
  assert.equal(onScreen(), "w1");
  noteOnScreen("");
  assert.equal(onScreen(), "");
});

test("the one draft of an older page is taken over, with an identity, and stays on the screen", () => {
  const old = { kind: "added", typed: TYPED, by: ["", "rain"] };
  keep("event", old);
  const [draft, ...more] = drafts();
  assert.deepEqual([draft.kind, draft.typed, draft.by, more], [old.kind, TYPED, old.by, []]);
  assert.equal(draft.write, onScreen());
  assert.notEqual(draft.write, "");
  assert.equal(recall("event"), null);
});
