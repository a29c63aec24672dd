"""The figures of *choose*."""

from __future__ import annotations

from sandmix.asking.job import Figures, Needs
from sandmix.jobs.choose.form import WEIGHED, ChooseForm, judged
from sandmix.language.sources import SOURCES
from sandmix.materials import choosing

NOTHING_PCT = 0.01
"""A yield up to this counts as nothing."""


def run(form: ChooseForm) -> Figures:
    """Return the verdict or the test that is needed for one, the reasons, and the yield with what follows from it."""
    judgement = judged(form)
    figures: Figures = {
        "usability": judgement.usability or None,
        "test_first": judgement.next_test or None,
        "reasons": [
            {"why": reason.why, "usability": reason.usability, "origin": SOURCES[reason.source].citation}
            for reason in judgement.reasons
        ],
    }
    if form.ground_kg is None or form.passed_kg is None:
        return figures
    left = choosing.yield_pct(form.ground_kg, form.passed_kg)
    figures["yield_pct"] = left
    if form.bought_kg is not None:
        figures["usable_kg"] = form.bought_kg * left / 100
    if form.wanted_kg is not None and left > NOTHING_PCT:
        figures["buy_kg"] = form.wanted_kg / (left / 100)
    if _may_bind(form, judgement) and form.clay_activity_pct is not None:
        dry = form.passed_kg * (1 - form.clay_moisture_pct_wet / 100)
        figures["live_clay_kg"] = dry * form.clay_activity_pct / 100
    return figures


def _may_bind(form: ChooseForm, judgement: choosing.Judgement) -> bool:
    """Whether it is a clay that is known to bond."""
    return bool(form.kind.clay) and judgement.usability in (choosing.USABLE, choosing.CARE)


def needs(form: ChooseForm, figures: Figures) -> Needs:
    """The yield needs two weighings; it is only asked for where one of the masses is given."""
    if all(getattr(form, word) is None for word in WEIGHED):
        return {}
    both = ("ground_kg", "passed_kg")
    asked: dict[str, tuple[str, ...]] = {"yield_pct": both}
    if form.bought_kg is not None:
        asked["usable_kg"] = both
    if form.wanted_kg is not None:
        asked["buy_kg"] = both
    return asked
