// @ts-check
/**
 * Sets one of the three looks before the first paint, and says whether a casting is open and whether nothing was ever kept here, so that
 * the page neither flashes nor jumps. It is a plain script.
 */
(() => {
  const LOOKS = ["paper", "night", "contrast"];
  const BACKGROUND = { paper: "#f3ead6", night: "#15110c", contrast: "#ffffff" };

  /**
   * @param {string} name
   * @returns {string | null}
   */
  function kept(name) {
    try {
      return localStorage.getItem(`sandmix.${name}`);
    } catch {
      return null;
    }
  }

  function preferred() {
    if (matchMedia("(prefers-contrast: more)").matches) return "contrast";
    return matchMedia("(prefers-color-scheme: dark)").matches ? "night" : "paper";
  }

  /** @param {string} look */
  function use(look) {
    document.documentElement.dataset.look = look;
    const themeColour = document.querySelector("meta[name=theme-color]");
    if (themeColour) themeColour.setAttribute("content", BACKGROUND[/** @type {keyof typeof BACKGROUND} */ (look)]);
  }

  function current() {
    const look = kept("look");
    return look && LOOKS.includes(look) ? look : preferred();
  }

  use(current());
  document.documentElement.toggleAttribute("data-casting-open", !["", '""', null].includes(kept("casting-in-use")));
  document.documentElement.toggleAttribute("data-new-here", kept("tried") === null);
  for (const media of ["(prefers-contrast: more)", "(prefers-color-scheme: dark)"]) {
    matchMedia(media).addEventListener("change", () => use(current()));
  }
  document.addEventListener("click", (event) => {
    const button = event.target instanceof Element && event.target.closest("[data-look-switch]");
    if (!button) return;
    const now = LOOKS.indexOf(document.documentElement.dataset.look || "paper");
    const next = LOOKS[(now + 1) % LOOKS.length];
    use(next);
    button.setAttribute("aria-label", `Look: ${next}. Change it`);
    try {
      localStorage.setItem("sandmix.look", next);
    } catch {
      // The browser keeps nothing: the look holds for this page.
    }
  });
})();
