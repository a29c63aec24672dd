// @ts-check
/**
 * Says at the form that a script of the page is missing or broken. It is a plain script, because a module that does not arrive
 * cannot say so itself. Where this script is missing too, the style sheet shows the words of the page after a while.
 */
(() => {
  const LOST = "A part of this page did not arrive, so something here does not work. What you typed is kept.";
  /** How browsers say that a module that was asked for later did not arrive. */
  const NO_MODULE = /dynamically imported module|module script/i;
  const MEND_MS = 20_000;
  let words = "";

  function place() {
    return /** @type {HTMLElement | null} */ (document.querySelector("[data-not-started]"));
  }

  /** Whether the form does not listen yet. */
  function waits() {
    return document.readyState === "loading" || place()?.dataset.waits !== undefined;
  }

  /** @param {string} said */
  function report(said) {
    words ||= said;
    const [shown, line] = [place(), document.querySelector("[data-not-started] p")];
    if (!shown || !line) return;
    line.textContent = words;
    shown.dataset.shown = "";
  }

  /** Have the service worker fetch what is damaged here, if there is one. */
  function mend() {
    const worker = navigator.serviceWorker?.controller;
    if (!worker) return Promise.resolve();
    const { port1, port2 } = new MessageChannel();
    return new Promise((resolve) => {
      port1.onmessage = resolve;
      setTimeout(resolve, MEND_MS);
      worker.postMessage("mend", [port2]);
    });
  }

  addEventListener(
    "error",
    ({ target, message }) => {
      if (target instanceof HTMLScriptElement) report(LOST);
      else if (message && waits()) report(`The script of this page broke: ${message}. What you typed is kept.`);
    },
    true,
  );
  addEventListener("unhandledrejection", ({ reason }) => {
    const said = String(reason?.message ?? reason);
    if (reason instanceof SyntaxError || NO_MODULE.test(said)) report(LOST);
    else if (waits()) report(`The script of this page broke: ${said}. What you typed is kept.`);
  });
  document.addEventListener("DOMContentLoaded", () => words && report(words));
  document.addEventListener("click", async (event) => {
    const again = event.target instanceof Element && event.target.closest("[data-load-again]");
    if (!again) return;
    event.preventDefault();
    again.textContent = "Loading…";
    await mend();
    location.reload();
  });
})();
