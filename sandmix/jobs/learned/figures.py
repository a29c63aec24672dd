"""The figures of *learned*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.job import Figures
from sandmix.jobs.learned.form import ResolvedLearned
from sandmix.maths.uncertainty import Band


def run(form: ResolvedLearned) -> Figures:
    """Return each figure as it is now, and the number of own readings."""
    figures: Figures = {figure.word: figure.now for figure in form.book}
    return {"own_readings": sum(figure.readings for figure in form.book)} | figures


def known(form: ResolvedLearned) -> Mapping[str, Band]:
    """Return the likely range of each figure."""
    return {figure.word: figure.band for figure in form.book}
