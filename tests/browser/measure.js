// @ts-check
/** What the tests of the look measure in a page: evaluated there, it gives two functions. */
(() => {
  const HELD =
    "button, input[type=text], select, summary, .chip, .tile, .flag, .door, .head-button, .head-name, [data-open-answer]";
  const SKIPPED = ".unseen, script, style, title, desc, .md-search";
  const paint = /** @type {CanvasRenderingContext2D} */ (
    document.createElement("canvas").getContext("2d", { willReadFrequently: true })
  );
  /** Colours read before: reading one back from the canvas is slow. @type {Map<string, number[]>} */
  const colours = new Map();

  /** Every control that a glove could miss: its class, its words, width and height. */
  function smallTargets() {
    return Array.from(document.querySelectorAll(HELD))
      .filter((part) => part.checkVisibility({ visibilityProperty: true }))
      .map((part) => ({ part, box: part.getBoundingClientRect() }))
      .filter(({ box }) => box.height < 47.99 || box.width < 44)
      .map(({ part, box }) => [
        part.className || part.tagName,
        part.id || (part.textContent ?? "").trim(),
        box.width,
        box.height,
      ]);
  }

  /**
   * Every text whose ink stands out from what lies under it by less than the ratio: the ratio, its class, its words.
   * @param {number} least
   */
  function faintTexts(least) {
    const found = [];
    seeAll();
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
      const part = /** @type {Element} */ (walk.currentNode.parentElement);
      const words = (walk.currentNode.textContent ?? "").trim();
      if (
        !words ||
        part.closest(SKIPPED) ||
        !part.checkVisibility({ visibilityProperty: true, opacityProperty: true })
      ) {
        continue;
      }
      const inside = part.closest("svg");
      const ink = colour(inside ? getComputedStyle(part).fill : getComputedStyle(part).color);
      for (const ground of inside ? fillsUnder(part) : [groundOf(part)]) {
        const ratio = contrast(over(ink, ground), ground);
        if (ratio < least) {
          found.push([Math.round(ratio * 100) / 100, part.getAttribute("class") ?? "", words.slice(0, 40)]);
        }
      }
    }
    return found;
  }

  /** Without this, what a browser leaves out while it is off the screen keeps the colours of the look before. */
  function seeAll() {
    for (const entry of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll(".entry"))) {
      entry.style.contentVisibility = "visible";
    }
  }

  /**
   * Red, green, blue from 0 to 255 and opacity from 0 to 1, whatever way the colour was written.
   * @param {string} written
   */
  function colour(written) {
    const seen = colours.get(written);
    if (seen) return seen;
    paint.clearRect(0, 0, 1, 1);
    paint.fillStyle = written;
    paint.fillRect(0, 0, 1, 1);
    const [red, green, blue, opacity] = paint.getImageData(0, 0, 1, 1).data;
    const read = [red, green, blue, opacity / 255];
    colours.set(written, read);
    return read;
  }

  /** @param {number[]} top @param {number[]} under */
  function over(top, under) {
    return [0, 1, 2].map((at) => top[at] * top[3] + under[at] * (1 - top[3]));
  }

  /** @param {Element | null} part */
  function groundOf(part) {
    /** @type {number[][]} */
    const layers = [];
    for (let at = part; at && layers.at(-1)?.[3] !== 1; at = at.parentElement) {
      layers.push(colour(getComputedStyle(at).backgroundColor));
    }
    return layers.reverse().reduce((under, top) => over(top, under), [255, 255, 255]);
  }

  /**
   * The fills of all shapes that a text of a drawing lies on, or else the ground of the drawing.
   * @param {Element} text
   */
  function fillsUnder(text) {
    const box = text.getBoundingClientRect();
    const drawing = /** @type {Element} */ (text.closest("svg"));
    const shapes = Array.from(drawing.querySelectorAll("rect")).filter((shape) => {
      const at = shape.getBoundingClientRect();
      const fill = getComputedStyle(shape).fill;
      const meets =
        at.left < box.right - 1 && at.right > box.left + 1 && at.top < box.bottom - 1 && at.bottom > box.top + 1;
      return meets && fill !== "none" && !fill.startsWith("url");
    });
    return shapes.length
      ? shapes.map((shape) => colour(getComputedStyle(shape).fill))
      : [groundOf(drawing.parentElement)];
  }

  /** The contrast ratio of WCAG 2.2, from 1 to 21. @param {number[]} one @param {number[]} two */
  function contrast(one, two) {
    const [dark, light] = [luminance(one), luminance(two)].sort((a, b) => a - b);
    return (light + 0.05) / (dark + 0.05);
  }

  /** @param {number[]} colour */
  function luminance([red, green, blue]) {
    const [r, g, b] = [red, green, blue]
      .map((part) => part / 255)
      .map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  }

  return { smallTargets, faintTexts };
})();
