// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import { typedOf } from "../../site/docs/app/own-typed.js";
import { unitKept } from "../../site/docs/app/typed-units.js";
import { withWish, wishNow } from "../../site/docs/app/unit-wishes.js";

/** @type {Record<string, string>[]} */
const MASS = [{}, { kg: "lb", g: "oz" }];
/** @type {Record<string, string>[]} */
const LENGTH = [{}, { mm: "cm" }, { mm: "in", cm: "in" }];
const INCH = { kg: "lb", g: "oz", mm: "in", cm: "in" };

test("a choice of one kind takes the place of that kind's units and of no other", () => {
  assert.deepEqual(withWish(INCH, LENGTH, { mm: "cm" }), { kg: "lb", g: "oz", mm: "cm" });
  assert.deepEqual(withWish(INCH, MASS, {}), { mm: "in", cm: "in" });
  assert.deepEqual(withWish({}, MASS, { kg: "lb", g: "oz" }), { kg: "lb", g: "oz" });
});

test("the chosen wish of a kind is the one whose units are all chosen, and no others of that kind", () => {
  assert.equal(wishNow(INCH, MASS, false), 1);
  assert.equal(wishNow(INCH, LENGTH, false), 2);
  assert.equal(wishNow({ mm: "cm" }, LENGTH, false), 1);
  assert.equal(wishNow({}, LENGTH, false), 0);
  assert.equal(wishNow({ kg: "lb" }, MASS, false), -1);
});

test("a choice for everything is marked only while nothing else is chosen", () => {
  const systems = [{}, INCH];
  assert.equal(wishNow(INCH, systems, true), 1);
  assert.equal(wishNow({ ...INCH, "°C": "°F" }, systems, true), -1);
  assert.equal(wishNow({ kg: "lb", g: "oz" }, systems, true), -1);
  assert.equal(wishNow({}, systems, true), 0);
});

/** @param {Partial<import("../../site/docs/app/form.js").Typed>} typed */
const form = (typed) => ({ texts: {}, units: {}, ways: {}, more: false, ...typed });

test("a typed figure keeps its unit, and an empty box only a unit that a person chose", () => {
  const typed = form({ texts: { heap_kg: "45" }, units: { heap_kg: "kg", make_kg: "kg", melt_kg: "g" } });
  assert.equal(unitKept({ ...typed, chosen: ["melt_kg"] }, "heap_kg", "kg"), "kg");
  assert.equal(unitKept({ ...typed, chosen: ["melt_kg"] }, "make_kg", "kg"), undefined);
  assert.equal(unitKept({ ...typed, chosen: ["melt_kg"] }, "melt_kg", "kg"), "g");
  assert.equal(unitKept({ ...typed, chosen: ["make_kg"] }, "make_kg", "kg"), "kg");
});

test("an older form kept the unit of every box: that of an empty box counts if it is not the word's own", () => {
  const older = form({ units: { heap_kg: "kg", make_kg: "lb" } });
  assert.equal(unitKept(older, "heap_kg", "kg"), undefined);
  assert.equal(unitKept(older, "make_kg", "kg"), "lb");
});

test("an own figure whose unit its box does not offer keeps that unit in its text", () => {
  const bare = { texts: {}, units: { bin_kg: "lb", bucket_l: "L" }, ways: {}, more: false };
  const own = { bin_kg: { text: "3", unit: "parsec" }, bucket_l: { text: "3", unit: "US gal" } };
  const { texts, units } = typedOf(bare, own, (word) => (word === "bin_kg" ? ["kg", "lb"] : ["L", "US gal"]));
  assert.deepEqual(texts, { bin_kg: "3 parsec", bucket_l: "3" });
  assert.deepEqual(units, { bin_kg: "kg", bucket_l: "US gal" });
});
