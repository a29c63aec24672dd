// @ts-check
/** Where the focus goes when what held it is taken away, hidden or switched off: to what was around it, and never to the whole page. */

const PLACES =
  "form, section, article, fieldset, li, details, dialog, [role=group], [data-record-row], [data-job], [data-book], [data-today], main";

/**
 * Put the focus on a part of the page that is no control, such as a title or a sentence.
 * @param {HTMLElement} place
 */
export function focusOn(place) {
  if (!place.hasAttribute("tabindex")) place.tabIndex = -1;
  place.focus();
}

/** Watch the page from now on. A module that knows a better place for the focus puts it there itself. */
export function keepFocus() {
  /** @type {{held: HTMLElement, around: HTMLElement[]} | undefined} */
  let last;
  let isDue = false;
  document.addEventListener("focusin", ({ target }) => {
    if (target instanceof HTMLElement) last = { held: target, around: placesAround(target) };
  });
  document.addEventListener("pointerdown", ({ target }) => {
    if (last && target instanceof Node && !last.held.contains(target)) last = undefined;
  });
  const check = () => {
    isDue = false;
    if (!last || canHold(last.held) || !isLost(last.held)) return;
    const place = last.around.find(isShown);
    last = undefined;
    if (place) focusOn(place);
  };
  new MutationObserver(() => {
    if (!last || isDue) return;
    isDue = true;
    requestAnimationFrame(check);
  }).observe(document.body, {
    subtree: true,
    childList: true,
    attributeFilter: ["hidden", "disabled", "inert", "open"],
  });
}

/** @param {Element} element */
function placesAround(element) {
  const around = [];
  for (let at = element.parentElement?.closest(PLACES); at; at = at.parentElement?.closest(PLACES)) around.push(at);
  return /** @type {HTMLElement[]} */ (around);
}

/**
 * Whether the focus is nowhere, or still on the element that cannot hold it.
 * @param {Element} held
 */
function isLost(held) {
  const { activeElement: now } = document;
  return !now || now === document.body || now === held;
}

/** @param {HTMLElement} element */
function canHold(element) {
  return isShown(element) && !element.matches(":disabled");
}

/** @param {HTMLElement} element */
function isShown(element) {
  return element.isConnected && element.checkVisibility({ visibilityProperty: true }) && !element.closest("[inert]");
}
