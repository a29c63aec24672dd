// @ts-check
/**
 * Bundles the modules and the styles of the site with esbuild:
 *
 *     node bundle.mjs PACKAGES SOURCES OUT ENTRY...
 *
 * PACKAGES is npm's folder, which holds esbuild and what the modules import. Each ENTRY is a file of SOURCES and keeps its
 * name in OUT; the other files there are named by their content. It prints what went into each file, as JSON.
 */
import { createRequire } from "node:module";
import { readFile } from "node:fs/promises";
import { join, resolve } from "node:path";

const [packages, sources, out] = process.argv.slice(2, 5).map((folder) => resolve(folder));
const entries = process.argv.slice(5);
const { build } = createRequire(join(packages, "package.json"))("esbuild");

/** The oldest browsers that run the calculator's WebAssembly with its exceptions, and modules in workers. */
const BROWSERS = ["chrome111", "firefox115", "safari16.4"];

/** D3 could parse text as elements; here it sets it as text. */
const textOnly = {
  name: "text only",
  setup(/** @type {any} */ { onLoad }) {
    onLoad({ filter: /d3-selection\.mjs$/ }, async (/** @type {{path: string}} */ { path }) => ({
      contents: (await readFile(path, "utf8")).replaceAll("innerHTML", "textContent"),
    }));
  },
};

const { metafile } = await build({
  entryPoints: entries.map((name) => join(sources, name)),
  outdir: out,
  absWorkingDir: sources,
  nodePaths: [packages],
  preserveSymlinks: true,
  plugins: [textOnly],
  bundle: true,
  splitting: true,
  format: "esm",
  target: BROWSERS,
  minify: true,
  legalComments: "none",
  chunkNames: "[name]-[hash]",
  metafile: true,
  logLevel: "warning",
});
console.log(JSON.stringify(metafile.outputs));
