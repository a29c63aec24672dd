// @ts-check
import assert from "node:assert/strict";
import { test } from "node:test";
import {
  axisNumber,
  chartNumber,
  figureWithRange,
  numberWithRange,
  sizeText,
} from "../../site/docs/app/figure-text.js";
import { niceStep, stepped } from "../../site/docs/app/stepping.js";

test("a figure goes on with its margin to two figures", () => {
  assert.equal(numberWithRange(43.613, [43.1, 44.2]), "43.61 ± 0.59");
  assert.equal(numberWithRange(712.4, [650, 800]), "712 ± 88");
  assert.equal(numberWithRange(3.5123, [3.5123, 3.5123]), "3.512");
  assert.equal(numberWithRange(3.5123, undefined), "3.512");
});

test("the wider side of an uneven range is the margin", () => {
  assert.equal(numberWithRange(5, [4.9, 7]), "5.0 ± 2.0");
  assert.equal(numberWithRange(5, [3, 5.1]), "5.0 ± 2.0");
});

test("only a number of the answer is a figure", () => {
  const answer = { result: { heap_kg: 43.6, verdict: "go", bad: NaN }, doubt: {} };
  assert.equal(figureWithRange(answer, "heap_kg", "kg"), "43.6 kg");
  assert.equal(figureWithRange({ result: { gfn: 60 } }, "gfn", ""), "60");
  for (const word of ["verdict", "bad", "missing"]) assert.equal(figureWithRange(answer, word, "kg"), undefined, word);
});

test("a number of a chart has three figures, thin spaces and a true minus sign", () => {
  assert.equal(chartNumber(1234567), "1\u2009230\u2009000");
  assert.equal(chartNumber(-0.012345), "\u22120.0123");
  assert.equal(chartNumber(undefined), "");
});

test("the size of a file is in kB, and in MB from one million bytes", () => {
  assert.equal(sizeText(1), "1 kB");
  assert.equal(sizeText(999_000), "999 kB");
  assert.equal(sizeText(256e6), "256.0 MB");
});

test("a step goes to the next whole step, up and down", () => {
  assert.equal(stepped(2.3, 0.5, 1), "2.5");
  assert.equal(stepped(2.3, 0.5, -1), "2");
  assert.equal(stepped(2.5, 0.5, 1), "3");
  assert.equal(stepped(0.3, 0.1, 1), "0.4");
  assert.equal(stepped(0.1 + 0.2, 0.1, 1), "0.4");
});

test("no step goes below zero", () => {
  assert.equal(stepped(0.2, 0.5, -1), "0");
  assert.equal(stepped(0, 0.5, -1), "0");
});

test("small steps keep their decimals", () => {
  assert.equal(stepped(0.03, 0.005, 1), "0.035");
  assert.equal(stepped(0.25, 0.25, 1), "0.5");
});

test("the step of another unit is about a tenth of the number", () => {
  assert.equal(niceStep(55), 1);
  assert.equal(niceStep(0.3), 0.01);
  assert.equal(niceStep(1200), 100);
  assert.equal(niceStep(0), 1);
});

test("numbers along an axis have as many figures as tell them apart", () => {
  const ticks = [47.75, 47.8, 47.85, 47.9];
  assert.deepEqual(ticks.map(axisNumber(ticks)), ["47.75", "47.8", "47.85", "47.9"]);
  assert.deepEqual([0, 0.1, 0.2].map(axisNumber([0, 0.1, 0.2])), ["0", "0.1", "0.2"]);
  assert.deepEqual([7, 7].map(axisNumber([7, 7])), ["7", "7"]);
});
