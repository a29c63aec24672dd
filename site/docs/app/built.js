// @ts-check
/** What the build says of itself. */

/** The folder of Python, named by its content, so that two builds never share one. The bundler fills in the name. */
export const RUNTIME = new URL(`../py/${/** @type {any} */ (globalThis).PYTHON_FOLDER}/`, import.meta.url).href;
