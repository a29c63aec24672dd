// @ts-check
/**
 * Bundles the modules and the styles of the site with esbuild:
 *
 *     node bundle.mjs PACKAGES SOURCES OUT PYTHON ENTRY...
 *
 * PACKAGES is npm's folder, which holds esbuild and what the modules import. PYTHON is the name of the
 * folder of Python. Each ENTRY is a file of SOURCES and keeps its name in OUT; the other files there are named by their content.
 * A worker is one file, so that it starts without waiting for a second. It prints what went into each file, as JSON.
 */
import { createRequire } from "node:module";
import { readFile } from "node:fs/promises";
import { join, resolve } from "node:path";

const [packages, sources, out] = process.argv.slice(2, 5).map((folder) => resolve(folder));
const [python, ...entries] = process.argv.slice(5);
const { build } = createRequire(join(packages, "package.json"))("esbuild");

/** The oldest browsers that run the calculator's WebAssembly with its exceptions, and modules in workers. */
const BROWSERS = ["chrome111", "firefox115", "safari16.4"];

/** The packages of npm, by what they export: esbuild's own list of folders does not look at that. */
const fromNpm = {
  name: "from npm",
  setup(/** @type {any} */ bundler) {
    const seen = "seen";
    bundler.onResolve({ filter: /^[a-z]/ }, (/** @type {any} */ { path, kind, pluginData }) =>
      pluginData === seen ? undefined : bundler.resolve(path, { kind, resolveDir: packages, pluginData: seen }),
    );
  },
};

/** D3 could parse text as elements; here it sets it as text. */
const textOnly = {
  name: "text only",
  setup(/** @type {any} */ { onLoad }) {
    onLoad({ filter: /d3-selection\.mjs$/ }, async (/** @type {{path: string}} */ { path }) => ({
      contents: (await readFile(path, "utf8")).replaceAll("innerHTML", "textContent"),
    }));
  },
};

/**
 * @param {string[]} names
 * @param {boolean} splitting
 * @returns {Promise<object>} what went into each file
 */
async function bundled(names, splitting) {
  const { metafile } = await build({
    entryPoints: names.map((name) => join(sources, name)),
    outdir: out,
    absWorkingDir: sources,
    preserveSymlinks: true,
    define: { "globalThis.PYTHON_FOLDER": JSON.stringify(python) },
    plugins: [fromNpm, textOnly],
    bundle: true,
    splitting,
    format: "esm",
    target: BROWSERS,
    minify: true,
    legalComments: "none",
    chunkNames: "[name]-[hash]",
    metafile: true,
    logLevel: "warning",
  });
  return metafile.outputs;
}

const isWorker = (/** @type {string} */ name) => name.endsWith("worker.js");
const pages = await bundled(
  entries.filter((name) => !isWorker(name)),
  true,
);
console.log(JSON.stringify({ ...pages, ...(await bundled(entries.filter(isWorker), false)) }));
