// @ts-check
/**
 * A worker that starts Python from the site's files, brings every module into its memory, takes a snapshot of that, and is then of
 * no more use. It answers nobody, so that nothing that a person typed is in the snapshot.
 *
 * Out: `{bytes, answer}`, the snapshot and its answer to QUESTION, or `{trouble}` in words.
 */
import { startFromFiles } from "./interpreter.js";
import { QUESTION } from "./snapshot.js";

const LOAD_ALL = `
import gc, importlib, zipfile
for place in zipfile.ZipFile("/lib/python314.zip").namelist():
    if place.endswith(".pyc"):
        importlib.import_module(place.removesuffix(".pyc").removesuffix("/__init__").replace("/", "."))
gc.collect()`;

make().then(
  (made) => self.postMessage(made, { transfer: [made.bytes.buffer] }),
  (error) => self.postMessage({ trouble: String(error) }),
);

async function make() {
  const { python, call } = await startFromFiles(() => {}, { _makeSnapshot: true });
  python.runPython(LOAD_ALL);
  const answer = call(QUESTION);
  /** @type {any} */ (call).destroy();
  /** @type {Uint8Array} */
  const bytes = python.makeMemorySnapshot();
  return { bytes, answer };
}
