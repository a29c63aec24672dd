"""What the browser tests measure in a page, mostly as scripts that are evaluated there."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Page

LOOKS = ("paper", "night", "contrast")
WEAR = """look => { document.documentElement.dataset.look = look;
    for (const change of document.getAnimations()) change.finish(); }"""
TOO_WIDE = """() => [Math.max(document.documentElement.scrollWidth, document.body.scrollWidth), innerWidth]"""
_MEASURE = (Path(__file__).parent / "browser" / "measure.js").read_text("utf-8").rstrip().rstrip(";")
SMALL_TARGETS = f"{_MEASURE}.smallTargets()"
FAINT_TEXTS = f"{_MEASURE}.faintTexts(7)"
FINDINGS = """async ([only, isLong]) => {
    const rules = { "label-content-name-mismatch": { enabled: true }, "color-contrast": { enabled: isLong } };
    const asked = only.length ? { runOnly: only } : { rules };
    const { violations } = await axe.run(document, { preload: false, resultTypes: ["violations"], ...asked });
    return violations.flatMap(({ id, nodes }) => nodes.map(({ target, html }) => [id, target.join(" "), html.slice(0, 160)]));
}"""
"""What axe-core finds, by the rules asked for; none named means all."""


def text_size(page: Page, percent: int) -> None:
    """Set the browser's own text size, as a person does: the base of 1 rem, 16 px by default."""
    session = page.context.new_cdp_session(page)
    size = 16 * percent // 100
    session.send("Page.enable")
    session.send("Page.setFontSizes", {"fontSizes": {"standard": size, "fixed": size}})
