// @ts-check
/**
 * Sets before the first paint what a person chose for all pages: one of three looks, the size of the text and the hand that holds the
 * phone. It also says whether a casting is open and whether nothing was ever kept here, so that the page neither flashes nor jumps. It
 * is a plain script.
 */
(() => {
  const LOOKS = ["paper", "night", "contrast"];
  const BACKGROUND = { paper: "#f3ead6", night: "#15110c", contrast: "#ffffff" };

  /** How much larger the text is than usual, by the names of the sizes (settings.css). */
  const TEXT_SIZES = { large: 1.15, larger: 1.3, largest: 1.5 };
  /** The widths in a style sheet that follow the size of the text; the theme's own, above them, do not. */
  const WIDTH = /(?<=(?:min|max)-width:\s*)([\d.]+)(?=r?em)/;
  const WIDEST = 70;
  /** @type {Map<MediaList, string>} what was written in each media query */
  const written = new Map();

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

  /** @returns {{text?: string, hand?: string}} */
  function settings() {
    try {
      return JSON.parse(kept("settings") ?? "{}") ?? {};
    } catch {
      return {};
    }
  }

  /**
   * Apply the size of the text and the hand that holds the phone.
   * @param {{text?: string, hand?: string}} chosen
   */
  function fit({ text = "", hand = "" }) {
    const { dataset } = document.documentElement;
    const isLarger = Object.keys(TEXT_SIZES).includes(text);
    if (isLarger) dataset.text = text;
    else delete dataset.text;
    if (hand === "left") dataset.hand = hand;
    else delete dataset.hand;
    const size = isLarger ? TEXT_SIZES[/** @type {keyof typeof TEXT_SIZES} */ (text)] : 1;
    if (size !== 1 || written.size) for (const sheet of document.styleSheets) widen(sheet, size);
  }

  /**
   * Let the layout of a narrow screen begin where larger text needs it: a media query only knows the browser's own size of text.
   * @param {CSSStyleSheet} sheet
   * @param {number} size
   */
  function widen(sheet, size) {
    for (const rule of sheet.cssRules) {
      if (!(rule instanceof CSSMediaRule)) continue;
      const words = written.get(rule.media) ?? rule.media.mediaText;
      written.set(rule.media, words);
      const fitted = words.replace(WIDTH, (width) => String(Number(width) < WIDEST ? Number(width) * size : width));
      if (rule.media.mediaText !== fitted) rule.media.mediaText = fitted;
    }
  }

  function wear() {
    use(current());
    fit(settings());
  }

  wear();
  document.addEventListener("load", ({ target }) => target instanceof HTMLLinkElement && fit(settings()), true);
  addEventListener("storage", wear);
  addEventListener("wear", (event) => {
    const { look, chosen } = /** @type {CustomEvent} */ (event).detail;
    use(LOOKS.includes(look) ? look : preferred());
    fit(chosen);
  });
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
