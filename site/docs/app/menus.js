// @ts-check
/** The two parts of the header that open: the menu of all pages, and the search. The theme's hidden boxes say whether they are open. */

import { all, one } from "./dom.js";

/** Let the buttons open and close what they name, say whether it is open, and give the focus back when it closes. */
export function startMenus() {
  for (const button of all(document, "[data-opens]")) {
    const name = button.dataset.opens ?? "";
    const box = one(document, `#__${name}`, HTMLInputElement);
    box.tabIndex = -1;
    button.addEventListener("click", () => box.click());
    box.addEventListener("change", () => {
      button.setAttribute("aria-expanded", String(box.checked));
      if (box.checked) (name === "drawer" ? firstLink() : one(document, ".md-search__input")).focus();
      else if (isOutOfSight()) button.focus();
    });
    document.addEventListener("keydown", ({ key }) => {
      if (key !== "Escape" || !box.checked) return;
      box.click();
      button.focus();
    });
  }
}

/** The link to the page that is open, or else the first of the menu. */
function firstLink() {
  const menu = one(document, "#all-pages");
  return menu.querySelector("a[aria-current]") instanceof HTMLElement ? one(menu, "a[aria-current]") : one(menu, "a");
}

/** Whether the focus stands on nothing, or on what has just been hidden. */
function isOutOfSight() {
  const { activeElement: held } = document;
  return !held || held === document.body || !held.checkVisibility({ visibilityProperty: true });
}
