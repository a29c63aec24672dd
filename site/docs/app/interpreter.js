// @ts-check
/**
 * Python in a worker: started from the site's files, or from a snapshot of the memory of one that was started so.
 *
 * @typedef {{loaded: number, total: number}} Count in bytes
 * @typedef {{python: any, call: (text: string, uploads?: any) => string}} Interpreter
 */
import { RUNTIME } from "./built.js";

const fetchPlain = self.fetch.bind(self);
/** @type {Count[]} */
const counts = [];
/** @type {(count: Count) => void} */
let onBytes = () => {};

/** Both ways to start need these, so they are on their way before it is known which way it will be. */
const wasm = unpack("interpreter.bin", "application/wasm");
const compiled = wasm.then(({ response }) => WebAssembly.compileStreaming(response));
const scripts = Promise.all(["pyodide.mjs", "pyodide.asm.mjs"].map((name) => import(RUNTIME + name)));
/** Whoever starts Python hears of it when these fail. */
for (const each of [wasm, compiled, scripts]) each.catch(() => {});

/**
 * Start Python from the site's files, or say the first thing that went wrong. Pyodide alone would wait for ever for a
 * file that breaks off.
 * @param {(count: Count) => void} onProgress told how many bytes have come; the total is 0 if it is not known yet
 * @param {object} [more] more words for Pyodide
 * @returns {Promise<Interpreter>}
 */
export function startFromFiles(onProgress, more = {}) {
  onBytes = onProgress;
  return start(unpack("library.bin", "application/zip"), more);
}

/**
 * Start Python from the bytes of a snapshot. All modules are in its memory, so the library is not needed.
 * @param {Uint8Array} snapshot
 * @returns {Promise<Interpreter>}
 */
export function startFromSnapshot(snapshot) {
  const noLibrary = Promise.resolve({ response: new Response(), arrived: Promise.resolve() });
  return start(noLibrary, { _loadSnapshot: snapshot }, snapshot.length);
}

/**
 * @param {ReturnType<typeof unpack>} library
 * @param {object} more
 * @param {number} [room] the bytes of memory that are needed from the start
 * @returns {Promise<Interpreter>}
 */
async function start(library, more, room = 0) {
  handOut(library);
  const arrivals = [wasm, library].map(async (file) => (await file).arrived);
  const load = async () => {
    const [{ loadPyodide }, { default: createModule }] = await scripts;
    const createPyodideModule = async (/** @type {any} */ settings) => withRoom(await createModule(settings), room);
    return loadPyodide({ indexURL: RUNTIME, createPyodideModule, ...more });
  };
  const [python] = await Promise.all([load(), compiled, ...arrivals]);
  return { python, call: python.pyimport("sandmix.facade").call };
}

/**
 * Pyodide puts a snapshot into memory as it is, and does not make room for it.
 * @param {any} module
 * @param {number} room
 */
function withRoom(module, room) {
  if (module.HEAP8.length < room && !module._emscripten_resize_heap(room)) {
    throw new Error("there is not enough memory.");
  }
  return module;
}

/**
 * Give Pyodide the unpacked library where it fetches its own, and the WebAssembly that has been compiling since its first byte
 * where it would begin to compile.
 * @param {ReturnType<typeof unpack>} library
 */
function handOut(library) {
  self.fetch = async (input, init) => {
    const name = fileName(input);
    if (name === "pyodide.asm.wasm") return new Response();
    return name === "python_stdlib.zip" ? (await library).response : fetchPlain(input, init);
  };
  WebAssembly.instantiateStreaming = async (_response, imports) => {
    const module = await compiled;
    return { module, instance: await WebAssembly.instantiate(module, imports) };
  };
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
 * Pass bytes on, and tell how many have come of all files.
 * @param {Count} count
 */
function counting(count) {
  return new TransformStream({
    transform(/** @type {Uint8Array} */ bytes, controller) {
      count.loaded += bytes.length;
      const sum = (/** @type {keyof Count} */ part) => counts.reduce((total, each) => total + each[part], 0);
      onBytes({ loaded: sum("loaded"), total: counts.every(({ total }) => total) ? sum("total") : 0 });
      controller.enqueue(bytes);
    },
  });
}

/** @param {RequestInfo | URL} input */
function fileName(input) {
  const address = input instanceof Request ? input.url : String(input);
  return address.slice(address.lastIndexOf("/") + 1);
}
