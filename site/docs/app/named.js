// @ts-check
/** A part of a page that an address names: if it is folded, it opens. */

/** Open it now, and each time the address names another. */
export function openNamed() {
  open();
  addEventListener("hashchange", open);
}

function open() {
  document.getElementById(location.hash.slice(1))?.closest("details")?.setAttribute("open", "");
}
