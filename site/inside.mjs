// @ts-check
/**
 * Runs one Python file inside Pyodide under Node:
 *
 *     node inside.mjs CORE [--library=ZIP] SCRIPT [WORD...]
 *
 * CORE is the folder of the npm package. The file must define `main(words)`, which returns
 * the exit status. The whole disk of this machine stands at `/host` in there; with
 * `--library` the interpreter boots from that archive instead of its own standard library.
 */
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { resolve } from "node:path";

const [coreFolder, ...rest] = process.argv.slice(2);
const library = rest[0]?.startsWith("--library=") ? rest.shift()?.slice("--library=".length) : undefined;
const [script, ...words] = rest;
if (!coreFolder || !script) throw new Error("Say where Pyodide lies and which Python file to run.");

/** @returns {Promise<number>} the exit status of the file's `main` */
async function run() {
  const core = resolve(coreFolder);
  const { loadPyodide } = await import(pathToFileURL(`${core}/pyodide.mjs`).href);
  const pyodide = await loadPyodide({
    indexURL: core,
    env: { PYTHONHASHSEED: "0", PYTHONDONTWRITEBYTECODE: "1" },
    ...(library ? { stdLibURL: resolve(library) } : {}),
  });
  pyodide.mountNodeFS("/host", "/");
  pyodide.runPython(readFileSync(script, "utf8"), { filename: `/host${resolve(script)}` });
  return pyodide.globals.get("main")(words);
}

try {
  process.exitCode = await run();
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
