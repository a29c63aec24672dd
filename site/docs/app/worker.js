// @ts-check
/**
 * The engine's worker: it starts Python, then takes text and gives text, with an id for each message. It keeps
 * nothing and
 * decides nothing, so that it may be killed at any time.
 *
 * In: `{id, text, files}`, files by name if there are any. Out: `{progress: {loaded, total}}` in bytes, with a
 * total of 0 if
 * it is not known yet; `{ready: true}`; `{id, read: {read, of}}` in bytes of the files; `{id, text}`; `{id,
 * unread}` if a
 * file could not be read; `{id, trouble}` if Python broke on that question; `{trouble}` if it did not start.
 *
 * @typedef {{loaded: number, total: number}} Count
 * @typedef {(message: object) => void} Tell
 */

/** Files are read in pieces of this many bytes, so that no file is in memory twice. */
const PIECE = 4_000_000;
const RUNTIME = new URL("../py/", import.meta.url).href;
const NO_ROOM = "it needs more memory than this browser gives. Save the shape with fewer facets.";
const NO_FILE = "it can't be read any more: it was moved, changed or deleted. Choose it again.";

/** @type {Tell} */
const tell = (message) => self.postMessage(message);
const fetchPlain = self.fetch.bind(self);

/** @type {Count[]} */
const counts = [];

/**
 * The files that Pyodide asks for by `fetch`, and gets unpacked. They are on their way already.
 * @type {Record<string, Promise<{response: Response, arrived: Promise<void>}>>}
 */
const unpacked = {
  "pyodide.asm.wasm": unpack("interpreter.bin", "application/wasm"),
  "python_stdlib.zip": unpack("library.bin", "application/zip"),
};
self.fetch = async (input, init) => (await unpacked[fileName(input)])?.response ?? fetchPlain(input, init);

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

/**
 * The one door of the Python package, or the first thing that went wrong. Pyodide alone would wait for ever for a
 * file that
 * breaks off.
 * @returns {Promise<{python: any, call: (text: string, uploads?: any) => string}>}
 */
async function start() {
  const arrivals = Object.values(unpacked).map(async (file) => (await file).arrived);
  const [python] = await Promise.all([loadPython(), ...arrivals]);
  return { python, call: python.pyimport("sandmix.facade").call };
}

async function loadPython() {
  const scripts = ["pyodide.mjs", "pyodide.asm.mjs"].map((name) => import(RUNTIME + name));
  const [{ loadPyodide }, { default: createPyodideModule }] = await Promise.all(scripts);
  return loadPyodide({ indexURL: RUNTIME, createPyodideModule });
}

/**
 * A gzipped file as the response that its plain bytes would be, and a promise that it arrived complete.
 * @param {string} name
 * @param {string} type
 */
async function unpack(name, type) {
  const count = { loaded: 0, total: 0 };
  counts.push(count);
  const { ok, status, headers, body } = await fetchPlain(RUNTIME + name);
  if (!ok || !body) throw new Error(`${name} could not be loaded (${status}).`);
  count.total = headers.has("Content-Encoding") ? 0 : Number(headers.get("Content-Length"));
  const gunzip = new DecompressionStream("gzip");
  const arrived = body.pipeThrough(counting(count)).pipeTo(gunzip.writable);
  return { response: new Response(gunzip.readable, { headers: { "Content-Type": type } }), arrived };
}

/**
 * Pass bytes on, and tell the page how many have come.
 * @param {Count} count
 */
function counting(count) {
  return new TransformStream({
    transform(/** @type {Uint8Array} */ bytes, controller) {
      count.loaded += bytes.length;
      const sum = (/** @type {keyof Count} */ part) => counts.reduce((total, each) => total + each[part], 0);
      tell({ progress: { loaded: sum("loaded"), total: counts.every(({ total }) => total) ? sum("total") : 0 } });
      controller.enqueue(bytes);
    },
  });
}

/** @param {RequestInfo | URL} input */
function fileName(input) {
  const address = input instanceof Request ? input.url : String(input);
  return address.slice(address.lastIndexOf("/") + 1);
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
