// @ts-check
/**
 * What a device holds besides books and castings, as a part of the exported file: the settings, what stands in the forms, and kept
 * patterns. A draft of an entry, a running clock and copies of answers stay on their device.
 */

import { damageIn, isPattern } from "./kept-shapes.js";

/** @import {Pattern} from "./database.js" */
/**
 * @typedef {object} Device
 * @property {number} version
 * @property {string} [look] empty for that of the device; nothing where it is not part of a change
 * @property {Record<string, unknown>} entries
 * @property {Pattern[]} patterns
 *
 * @typedef {"settings" | "forms" | "patterns"} Kind
 *
 * @typedef {object} Change what a file has of one kind and this device has not
 * @property {Kind} kind
 * @property {string[]} names what is new or other: of jobs or of patterns
 * @property {boolean} clashes whether something else stands here in its place
 * @property {Device} part
 */

export const DEVICE_VERSION = 1;
/** A browser keeps about five million characters for a site: a file must leave room for what a person types next. */
const MOST_CHARACTERS = 1_000_000;
const FORMS = ["job.", "words", "heap", "start"];
const SETTINGS = "settings";
export const LOOKS = ["", "paper", "night", "contrast"];
export const LOOK = "look";

/** @param {string} name */
export function isExported(name) {
  return name === SETTINGS || FORMS.some((start) => (start.endsWith(".") ? name.startsWith(start) : name === start));
}

/**
 * What is wrong with this part of a file, in words; none if there is no such part.
 * @param {any} device
 * @returns {string[]}
 */
export function problemsOf(device) {
  if (device === undefined) return [];
  if (!isObject(device)) return ["The file's settings, forms and patterns are damaged."];
  if (device.version !== DEVICE_VERSION) {
    return [
      `The settings, forms and patterns in the file have version ${JSON.stringify(device.version)}, and this page reads version ${DEVICE_VERSION}. Open the file with the sandmix that wrote it, or a newer one.`,
    ];
  }
  const { look, entries, patterns } = device;
  if (!LOOKS.includes(look) || !isObject(entries) || !Array.isArray(patterns)) {
    return ["The file's settings, forms and patterns are damaged."];
  }
  const { length } = JSON.stringify(entries);
  if (length > MOST_CHARACTERS) {
    return [
      `The settings and forms in the file have ${length} characters. At most ${MOST_CHARACTERS} are read. Choose a file that was exported here.`,
    ];
  }
  const wrong = Object.entries(entries).flatMap(([name, value]) => {
    if (!isExported(name)) return [`It holds “${name}”, which no sandmix exports.`];
    const damage = damageIn(name, value ?? undefined);
    return damage ? [`It holds ${damage.called} in a damaged form.`] : [];
  });
  return patterns.every((each) => isPattern(each)) ? wrong : [...wrong, "It holds a damaged pattern."];
}

/**
 * What a file would change here, kind by kind.
 * @param {Device} file
 * @param {Device} here
 * @returns {Change[]}
 */
export function changesIn(file, here) {
  const parts = /** @type {const} */ (["settings", "forms", "patterns"]).map((kind) => changeOf(kind, file, here));
  return parts.filter((each) => each.names.length > 0);
}

/**
 * @param {Kind} kind
 * @param {Device} file
 * @param {Device} here
 * @returns {Change}
 */
function changeOf(kind, file, here) {
  const patterns = kind === "patterns" ? file.patterns.filter((each) => !isSame(each, named(here, each.name))) : [];
  const mine = Object.entries(file.entries).filter(
    ([name, value]) => kind === (name === SETTINGS ? "settings" : "forms") && !isSame(value, here.entries[name]),
  );
  const look = kind === "settings" && file.look !== undefined && file.look !== here.look;
  const names = [...mine.map(([name]) => name), ...(look ? [LOOK] : []), ...patterns.map(({ name }) => name)];
  const clashes =
    mine.some(([name]) => name in here.entries) ||
    (look && here.look !== "") ||
    patterns.some(({ name }) => named(here, name));
  const part = {
    version: DEVICE_VERSION,
    ...(look ? { look: file.look } : {}),
    entries: Object.fromEntries(mine),
    patterns,
  };
  return { kind, names, clashes: Boolean(clashes), part };
}

/**
 * What changes take the place of, and nothing else, so that bringing it back leaves alone what was typed since.
 * @param {Change[]} changes
 * @param {Device} here
 * @returns {Device}
 */
export function replacedBy(changes, here) {
  const parts = changes.map(({ part }) => part);
  const isReplaced = (/** @type {string} */ name) => parts.some(({ entries }) => Object.hasOwn(entries, name));
  return {
    version: DEVICE_VERSION,
    ...(parts.some(({ look }) => look !== undefined) ? { look: here.look } : {}),
    entries: Object.fromEntries(Object.entries(here.entries).filter(([name]) => isReplaced(name))),
    patterns: here.patterns.filter(({ name }) => parts.some((part) => named(part, name))),
  };
}

/**
 * The patterns that an import added and nobody changed since: they go when it is taken back.
 * @param {{device: Device, patterns?: Pattern[]}} before what stood here, and what the import brought
 * @param {Pattern[]} here
 */
export function addedStill({ device, patterns = [] }, here) {
  const added = patterns.filter(({ name }) => !named(device, name));
  return added.filter((each) => here.some((other) => isSame(each, other)));
}

/**
 * @param {Device} device
 * @param {string} name
 */
function named({ patterns }, name) {
  return patterns.find((each) => each.name === name);
}

/**
 * @param {unknown} one
 * @param {unknown} other
 */
function isSame(one, other) {
  return JSON.stringify(one) === JSON.stringify(other);
}

/** @param {unknown} value */
function isObject(value) {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
