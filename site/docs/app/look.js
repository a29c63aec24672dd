// @ts-check
/**
 * Which of the three looks a page wears, set before the first paint. A plain script, so that nothing flashes.
 */
(() => {
  const LOOKS = ["paper", "night", "contrast"];
  const GROUND = { paper: "#f3ead6", night: "#15110c", contrast: "#ffffff" };

  /** @returns {string | null} */
  function chosen() {
    try {
      return localStorage.getItem("sandmix.look");
    } catch {
      return null;
    }
  }

  function wished() {
    if (matchMedia("(prefers-contrast: more)").matches) return "contrast";
    return matchMedia("(prefers-color-scheme: dark)").matches ? "night" : "paper";
  }

  /** @param {string} look */
  function wear(look) {
    document.documentElement.dataset.look = look;
    const ground = document.querySelector("meta[name=theme-color]");
    if (ground) ground.setAttribute("content", GROUND[/** @type {keyof typeof GROUND} */ (look)]);
  }

  function current() {
    const kept = chosen();
    return kept && LOOKS.includes(kept) ? kept : wished();
  }

  wear(current());
  for (const media of ["(prefers-contrast: more)", "(prefers-color-scheme: dark)"]) {
    matchMedia(media).addEventListener("change", () => wear(current()));
  }
  document.addEventListener("click", (event) => {
    const button = event.target instanceof Element && event.target.closest("[data-look-switch]");
    if (!button) return;
    const next = LOOKS[(LOOKS.indexOf(document.documentElement.dataset.look || "paper") + 1) % LOOKS.length];
    wear(next);
    button.setAttribute("aria-label", `Look: ${next}. Change it`);
    try {
      localStorage.setItem("sandmix.look", next);
    } catch {
      return;
    }
  });
})();
