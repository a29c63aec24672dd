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

/** Let the keys and a screen reader reach what the search finds: the theme's list has no names and no place in the order of the focus. */
export function startSearch() {
  const search = one(document, ".md-search");
  search.ariaLabel = "Search";
  one(search, ".md-search-result__meta").role = "status";
  one(search, ".md-search__scrollwrap").removeAttribute("tabindex");
  const found = one(search, ".md-search-result__list");
  new MutationObserver(() => {
    for (const link of all(found, "a[tabindex]")) {
      link.removeAttribute("tabindex");
      link.ariaLabel = one(link, "h1, h2").textContent;
    }
  }).observe(found, { childList: true, subtree: true });
  // at these keys the theme closes the search, or goes back to its box
  search.addEventListener("keydown", (event) => {
    if (event.key === "Tab" || event.key === "Shift") event.stopPropagation();
  });
  search.addEventListener("focusout", ({ relatedTarget }) => {
    const box = one(document, "#__search", HTMLInputElement);
    if (box.checked && relatedTarget instanceof Node && !search.contains(relatedTarget)) box.click();
  });
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
