// @ts-check
// What most browser tests start instead of the calculator: it says what worker.js says, but its answers come from the
// library beside the test, by the test's server. It starts at once.

const asked = new URL("asked", import.meta.url);

self.postMessage({ ready: true });

/** A question as one body: a line of JSON with the text and the size of each file, then the files themselves. */
self.addEventListener("message", async (said) => {
  /** @type {{id: number, text: string, files?: Record<string, File>}} */
  const { id, text, files = {} } = /** @type {MessageEvent} */ (said).data;
  const sizes = Object.entries(files).map(([name, { size }]) => [name, size]);
  const body = new Blob([JSON.stringify({ text, sizes }), "\n", ...Object.values(files)]);
  const response = await fetch(asked, { method: "POST", body });
  self.postMessage({ id, text: await response.text() });
});
