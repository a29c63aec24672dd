"""How *diagnose* shows the leading causes: what to do first, and a card for each."""

from __future__ import annotations

from sandmix.asking.job import Card, Computed, DoFirst, Point
from sandmix.defects.causes import CAUSES
from sandmix.defects.findings import TRIALS
from sandmix.diagnosis import ranking
from sandmix.diagnosis.ranking import Evidence
from sandmix.jobs.diagnose.afterwards import trial_key
from sandmix.jobs.diagnose.form import DiagnoseForm


def points(share: float) -> str:
    """Return a share of all causes in words, as points out of 100."""
    return f"{100 * share:.0f} points out of 100"


def first(computed: Computed[DiagnoseForm], leading: list[str], *, likely: bool) -> DoFirst | None:
    """Return what to do first, and what not to do before it: the next test, or the remedy of a likely cause that was checked, else None."""
    key, left = trial_key(computed), computed.figures["what_not_to_do"]
    assert isinstance(left, list)
    if key:
        return DoFirst(text=f"{TRIALS[key].label}.", not_before=tuple(map(str, left)))
    return DoFirst(text=CAUSES[leading[0]].remedy, not_before=tuple(map(str, left))) if likely else None


def card(cause: str, clues: list[Evidence], share: float, *, likely: bool) -> Card:
    """Return the points of one cause, the clues for and against it, and what to do about it."""
    given = [clue for clue in clues if clue.family != "absent"]
    pro = tuple(clue.text for clue in given if ranking.support(clue, cause) > 0)
    con = tuple(clue.text for clue in given if ranking.support(clue, cause) < 0)
    sides = (
        Point(name="For it", texts=pro or ("nothing that you gave; it is only common",)),
        Point(name="Against it", texts=con or ("nothing that you gave",)),
        Point(name="What to do", texts=(CAUSES[cause].remedy,)),
    )
    return Card(
        title=CAUSES[cause].label.capitalize(),
        share_pct=100 * share,
        text=f"{points(share)}: {'likely' if likely else 'possible'}",
        points=sides,
    )
