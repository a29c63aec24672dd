// @ts-check
/**
 * The engine's worker: it starts Python, then takes text and gives text, with an id for each message. It keeps nothing and
 * decides nothing, so that it may be killed at any time.
 *
 * In: `{id, text, files}`, files by name if there are any. Out: `{begins: "snapshot"}` if one is kept and this worker's name is
 * not FROM_FILES; `{progress: {loaded, total}}` in bytes, with a total of 0 if it is not known yet; `{ready: true}`;
 * `{id, read: {read, of}}` in bytes of the files; `{id, text}`; `{id, unread}` if a file could not be read; `{id, trouble}` if
 * Python broke on that question; `{trouble}` if it did not start.
 *
 * @typedef {(message: object) => void} Tell
 */
import { startFromFiles, startFromSnapshot } from "./interpreter.js";
import { dropSnapshots, findSnapshot, FROM_FILES, QUESTION } from "./snapshot.js";

/** Files are read in pieces of this many bytes, so that no file is in memory twice. */
const PIECE = 4_000_000;
const NO_ROOM = "it needs more memory than this browser gives. Save the shape with fewer facets.";
const NO_FILE = "it can't be read any more: it was moved, changed or deleted. Choose it again.";

/** @type {Tell} */
const tell = (message) => self.postMessage(message);

const engine = start();
engine.then(
  () => tell({ ready: true }),
  (error) => tell({ trouble: reason(error) }),
);
self.addEventListener("message", (event) => answer(/** @type {MessageEvent} */ (event).data));

/** @param {{id: number, text: string, files?: Record<string, File>}} question */
async function answer({ id, text, files }) {
  const { python, call } = await engine;
  /** @type {Map<string, any>} */
  const buffers = new Map();
  const free = () => buffers.forEach((bytes) => bytes.destroy());
  try {
    if (files) await readInto(buffers, python, files, (read) => tell({ id, read }));
  } catch (error) {
    free();
    return tell({ id, unread: String(error).includes("MemoryError") ? NO_ROOM : NO_FILE });
  }
  try {
    const uploads = python.toPy(buffers);
    const said = call(text, uploads);
    uploads.destroy();
    free();
    tell({ id, text: said });
  } catch (error) {
    tell({ id, trouble: reason(error) });
  }
}

/**
 * Read files piece by piece into Python's own memory. Python's memory may move between two pieces, so each asks
 * where to go.
 * @param {Map<string, any>} buffers each file as Python bytes, by name; the caller frees them
 * @param {any} python
 * @param {Record<string, File>} files
 * @param {(read: {read: number, of: number}) => void} onRead
 */
async function readInto(buffers, python, files, onRead) {
  const { bytearray } = python.pyimport("builtins");
  const of = Object.values(files).reduce((sum, { size }) => sum + size, 0);
  let read = 0;
  onRead({ read, of });
  for (const [name, file] of Object.entries(files)) {
    const bytes = bytearray(file.size);
    buffers.set(name, bytes);
    for (let at = 0; at < file.size; at += PIECE) {
      const piece = new Uint8Array(await file.slice(at, at + PIECE).arrayBuffer());
      const place = bytes.getBuffer("u8");
      place.data.set(piece, at);
      place.release();
      read += piece.length;
      onRead({ read, of });
    }
  }
}

/** The interpreter, from a snapshot if there is one: a start in a fraction of the time. */
async function start() {
  const kept = self.name === FROM_FILES ? void (await dropSnapshots()) : await findSnapshot();
  if (!kept) return startFromFiles((progress) => tell({ progress }));
  tell({ begins: "snapshot" });
  const interpreter = await startFromSnapshot(kept.bytes);
  const checks = [kept.whole, kept.answers(interpreter.call(QUESTION))];
  if (!(await Promise.all(checks)).every(Boolean)) throw new Error("What this browser kept of it is damaged.");
  return interpreter;
}

/**
 * The last line of an error, where Python says what happened.
 * @param {unknown} error
 */
function reason(error) {
  const lines = String(error instanceof Error ? error.message : error)
    .trim()
    .split("\n");
  return lines[lines.length - 1].replace(/\.?$/, ".");
}
