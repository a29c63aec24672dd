// @ts-check
/**
 * The engine's worker: starts Python, then text in, text out, an id a message. It keeps nothing and decides nothing,
 * so that it may be killed at any time.
 *
 * In: `{id, text, files}`, files by name where there are any. Out: `{progress: {loaded, total}}` in bytes, 0 for a total not yet known;
 * `{ready: true}`; `{id, read: {read, of}}` in bytes of the files; `{id, text}`; `{id, unread}` where a file could not be read;
 * `{id, trouble}` where Python broke on that question; `{trouble}` where it did not start, in words.
 */

/** Files are read in pieces of this many bytes, so that no file is held twice. */
const PIECE = 4_000_000;

const RUNTIME = new URL("../py/", import.meta.url).href;
const fetchPlain = self.fetch.bind(self);

/** @type {{loaded: number, total: number}[]} */
const counts = [];

/** What Pyodide asks for by `fetch`, and is given unpacked, from files that are already on their way.
 * @type {Record<string, Promise<{response: Response, arrived: Promise<void>}>>} */
const unpacked = {
  "pyodide.asm.wasm": unpack("interpreter.bin", "application/wasm"),
  "python_stdlib.zip": unpack("library.bin", "application/zip"),
};
self.fetch = async (input, init) => (await unpacked[fileName(input)])?.response ?? fetchPlain(input, init);

const engine = start();
engine.then(
  () => self.postMessage({ ready: true }),
  (error) => self.postMessage({ trouble: wordsOf(error) }),
);

self.addEventListener("message", async ({ data: { id, text, files } }) => {
  const { python, call } = await engine;
  /** @type {Map<string, any>} */
  const held = new Map();
  try {
    if (files) await readInto(held, python, files, (read) => self.postMessage({ id, read }));
  } catch (error) {
    for (const bytes of held.values()) bytes.destroy();
    self.postMessage({ id, unread: unreadWords(error) });
    return;
  }
  try {
    const uploads = python.toPy(held);
    const answer = call(text, uploads);
    uploads.destroy();
    for (const bytes of held.values()) bytes.destroy();
    self.postMessage({ id, text: answer });
  } catch (error) {
    self.postMessage({ id, trouble: wordsOf(error) });
  }
});

/**
 * The files' bytes in Python's own memory, piece by piece. A piece may come after Python moved, so that each asks anew where to.
 * @param {Map<string, any>} held each file as Python bytes, by name; the caller frees them
 * @param {any} python
 * @param {Record<string, File>} files
 * @param {(read: {read: number, of: number}) => void} tell
 */
async function readInto(held, python, files, tell) {
  const { bytearray } = python.pyimport("builtins");
  const of = Object.values(files).reduce((sum, { size }) => sum + size, 0);
  let read = 0;
  tell({ read, of });
  for (const [name, file] of Object.entries(files)) {
    const bytes = bytearray(file.size);
    held.set(name, bytes);
    for (let at = 0; at < file.size; at += PIECE) {
      const piece = new Uint8Array(await file.slice(at, at + PIECE).arrayBuffer());
      const place = bytes.getBuffer("u8");
      place.data.set(piece, at);
      place.release();
      read += piece.length;
      tell({ read, of });
    }
  }
}

/** @param {unknown} error */
function unreadWords(error) {
  const lacksRoom = String(error).includes("MemoryError");
  return lacksRoom
    ? "it needs more memory than this browser gives. Save the shape with fewer facets."
    : "it can't be read any more: it was moved, changed or deleted. Choose it again.";
}

/**
 * The one door of the Python package, or the first thing that went wrong: Pyodide waits for ever where a file breaks off.
 * @returns {Promise<{python: any, call: (text: string, uploads?: any) => string}>}
 */
async function start() {
  const arrivals = Object.values(unpacked).map(async (file) => (await file).arrived);
  const [pyodide] = await Promise.all([loadPython(), ...arrivals]);
  return { python: pyodide, call: pyodide.pyimport("sandmix.facade").call };
}

async function loadPython() {
  const scripts = ["pyodide.mjs", "pyodide.asm.mjs"].map((name) => import(RUNTIME + name));
  const [{ loadPyodide }, { default: createPyodideModule }] = await Promise.all(scripts);
  return loadPyodide({ indexURL: RUNTIME, createPyodideModule });
}

/**
 * A gzipped file as the response that its plain bytes would be, and the news that it came whole.
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
 * Passes bytes on and tells the page how many of all have come.
 * @param {{loaded: number, total: number}} count
 */
function counting(count) {
  return new TransformStream({
    transform(/** @type {Uint8Array} */ bytes, controller) {
      count.loaded += bytes.length;
      const loaded = counts.reduce((sum, each) => sum + each.loaded, 0);
      const total = counts.every((each) => each.total) ? counts.reduce((sum, each) => sum + each.total, 0) : 0;
      self.postMessage({ progress: { loaded, total } });
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
 * The last line of an error: Python puts what happened there, below the way it came.
 * @param {unknown} error
 */
function wordsOf(error) {
  const lines = String(error instanceof Error ? error.message : error)
    .trim()
    .split("\n");
  return lines[lines.length - 1].replace(/\.?$/, ".");
}
