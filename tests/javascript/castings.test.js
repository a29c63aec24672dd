// @ts-check
/** Where a figure goes that a person types in a job of a casting, and what a person typed for a job. */

import assert from "node:assert/strict";
import { test } from "node:test";

/** What the browser has and Node.js lacks. */
Object.assign(globalThis, { localStorage: { getItem: () => null, setItem() {}, removeItem() {} } });
const { boxValue, newCasting, numbered, ownFigures, withFigure } = await import("../../site/docs/app/castings.js");

const casting = newCasting("Strap", "2027-03-10", { metal: "aluminium", heap_kg: "45 kg" });

test("a figure that the plan hands on belongs to the plan, so that every step gets it", () => {
  const changed = withFigure(casting, "temper", "heap_kg", "44 kg", ["heap_kg"]);
  assert.deepEqual(changed.figures, { metal: "aluminium", heap_kg: "44 kg" });
  assert.deepEqual(changed.own, {});
});

test("any other figure belongs to its job alone", () => {
  const changed = withFigure(casting, "flask", "spare_pct", "30 %", ["heap_kg"]);
  assert.deepEqual(changed.own, { flask: { spare_pct: "30 %" } });
  assert.deepEqual(changed.figures, casting.figures);
});

test("an empty figure is taken out, and with the last one the job", () => {
  const changed = withFigure(casting, "flask", "spare_pct", "30 %", []);
  assert.deepEqual(withFigure(changed, "flask", "spare_pct", "", []).own, {});
  assert.deepEqual(withFigure(casting, "plan", "heap_kg", undefined, []).figures, { metal: "aluminium" });
});

test("a casting is never changed in place", () => {
  const before = JSON.stringify(casting);
  withFigure(casting, "flask", "spare_pct", "30 %", []);
  withFigure(casting, "plan", "heap_kg", "1 kg", []);
  assert.equal(JSON.stringify(casting), before);
});

test("a job shows its own figures and those of the plan that it takes", () => {
  const changed = withFigure(casting, "temper", "sample_wet_g", "100 g", []);
  assert.deepEqual(ownFigures(changed, "temper", ["heap_kg"]), { heap_kg: "45 kg", sample_wet_g: "100 g" });
  assert.deepEqual(ownFigures(changed, "plan", []), casting.figures);
  assert.deepEqual(ownFigures(changed, "flask", []), {});
});

test("a figure goes into its box as it was typed, and rows as their text", () => {
  assert.equal(boxValue("45 kg"), "45 kg");
  assert.equal(boxValue(45), "45");
  assert.deepEqual(boxValue({ value: 45, unit: "kg" }), { value: "45", unit: "kg" });
  assert.equal(boxValue([{ name: "small" }]), '[{"name":"small"}]');
});

test("a casting that is done once more has the next free number, and a name that is not too long", () => {
  assert.equal(numbered("Strap", ["Strap"]), "Strap (2)");
  assert.equal(numbered("Strap (2)", ["Strap", "Strap (2)"]), "Strap (3)");
  assert.equal(numbered("Strap".repeat(12), []).length, 58);
});
