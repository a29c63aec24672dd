// @ts-check
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import * as time from "../../site/docs/app/time-text.js";

const MINUTE_MS = 60_000;
const HOUR_MS = 60 * MINUTE_MS;
const zone = process.env.TZ;

before(() => {
  process.env.TZ = "Europe/Berlin";
});
after(() => {
  if (zone === undefined) delete process.env.TZ;
  else process.env.TZ = zone;
});

test("a moment has the zone of this clock, in summer and in winter", () => {
  assert.equal(time.isoOf(new Date("2027-07-01T10:00:00Z")), "2027-07-01T12:00:00+02:00");
  assert.equal(time.isoOf(new Date("2027-01-01T10:00:00Z")), "2027-01-01T11:00:00+01:00");
});

test("a zone west of Greenwich, and one of half an hour, are written with their sign and minutes", () => {
  process.env.TZ = "America/St_Johns";
  assert.equal(time.isoOf(new Date("2027-01-01T10:00:00Z")), "2027-01-01T06:30:00-03:30");
  process.env.TZ = "Europe/Berlin";
});

test("the day of a file's name is the day of this clock", () => {
  assert.equal(time.isoDay(new Date("2027-03-06T23:30:00Z")), "2027-03-07");
});

test("a date is written in full, and today is called today", () => {
  const now = Date.parse("2027-03-06T12:00:00Z");
  assert.equal(time.dateText("2027-03-06T10:00:00Z"), "6 March 2027");
  assert.equal(time.dateOrToday("2027-03-06T01:00:00Z", now), "today");
  assert.equal(time.dateOrToday("2027-03-05T22:00:00Z", now), "5 March 2027");
});

test("an entry has its date and time, and a text that is no moment stays", () => {
  assert.equal(time.momentText("2027-03-06T09:05:00Z"), "6 Mar 2027, 10:05");
  assert.equal(time.momentText("2027-03-06"), "6 Mar 2027");
  assert.equal(time.momentText("soon"), "soon");
});

test("a clock time names the weekday only if it is another day", () => {
  const now = Date.parse("2027-03-06T20:00:00Z");
  assert.equal(time.clockTime(now + HOUR_MS, now), "at 22:00");
  assert.equal(time.clockTime(now + 4 * HOUR_MS, now), "at 01:00 on Sunday");
});

test("seconds are shown only below ten minutes", () => {
  assert.equal(time.spanText(59_999), "59 s");
  assert.equal(time.spanText(9 * MINUTE_MS + 5_000), "9 min 05 s");
  assert.equal(time.spanText(9 * MINUTE_MS), "9 min");
  assert.equal(time.spanText(10 * MINUTE_MS + 5_000), "10 min");
});

test("a long span is in hours and minutes, without parts that are zero", () => {
  assert.equal(time.spanText(2 * HOUR_MS + 3 * MINUTE_MS), "2 h 3 min");
  assert.equal(time.spanText(2 * HOUR_MS), "2 h");
});

test("a rough span is in whole minutes, and a short one in seconds", () => {
  assert.equal(time.roughSpanText(709.79), "12 min");
  assert.equal(time.roughSpanText(20), "20 s");
});

test("days are counted in full days", () => {
  const now = Date.parse("2027-03-06T12:00:00Z");
  assert.equal(time.daysAgo(now - 23 * HOUR_MS, now), "today");
  assert.equal(time.daysAgo(now - 25 * HOUR_MS, now), "yesterday");
  assert.equal(time.daysAgo(now - 30 * time.DAY_MS, now), "30 days ago");
});

test("a heap without a test says so, and a new test is within the hour", () => {
  const now = Date.parse("2027-03-06T12:00:00Z");
  assert.equal(time.testedText(undefined, now), "not tested on this phone");
  assert.equal(time.testedText(now - 59 * MINUTE_MS, now), "tested within the hour");
  assert.equal(time.testedText(now - 61 * MINUTE_MS, now), "tested today");
  assert.equal(time.testedText(now - 30 * time.DAY_MS, now), "tested 30 days ago");
});

test("a moment that this clock has not reached is never counted as recent", () => {
  const now = Date.parse("2027-03-06T12:00:00Z");
  const ahead = now + 366 * time.DAY_MS;
  assert.equal(time.sinceMs(ahead, now), Infinity);
  assert.equal(time.sinceMs(now + MINUTE_MS, now), 0);
  assert.equal(time.daysAgo(ahead, now), "at a time that this clock has not reached");
  assert.equal(time.testedText(ahead, now), "tested at a time that this clock has not reached");
});
