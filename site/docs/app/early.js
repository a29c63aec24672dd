// @ts-check
/**
 * Starts the calculator's worker before the page's styles and modules are here. `engine.js` takes it over, with what it has said
 * until then. It is a plain script, so that it waits for nothing.
 */
(() => {
  const { src } = /** @type {HTMLScriptElement} */ (document.currentScript);
  const address = new URL("worker.js", src).href;
  try {
    const worker = new Worker(address, { type: "module" });
    /** @type {import("./engine.js").Early} */
    const early = { address, worker, said: [], works: true };
    worker.onmessage = ({ data }) => early.said.push(data);
    worker.onerror = (event) => {
      event.preventDefault();
      early.works = false;
    };
    Object.assign(globalThis, { earlyWorker: early });
  } catch {
    // The engine starts its own, and says what is wrong with that.
  }
})();
