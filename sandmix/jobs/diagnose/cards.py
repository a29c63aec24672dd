"""How *diagnose* shows what leads: what to do first, and a card for each leading cause."""

from __future__ import annotations

from sandmix.asking.job import Card, Computed, DoFirst, Point
from sandmix.defects.causes import CAUSES
from sandmix.defects.findings import TRIALS
from sandmix.diagnosis import ranking
from sandmix.diagnosis.ranking import Evidence
from sandmix.jobs.diagnose.afterwards import trial_key
from sandmix.jobs.diagnose.form import DiagnoseForm


def first(computed: Computed[DiagnoseForm]) -> DoFirst | None:
    """Return the next test, and what to leave alone until it is made; nothing where no test is left that would tell."""
    key, left = trial_key(computed), computed.figures["what_not_to_do"]
    assert isinstance(left, list)
    return DoFirst(text=f"{TRIALS[key].label}.", not_before=tuple(map(str, left))) if key else None


def card(cause: str, clues: list[Evidence], weight: float, *, likely: bool) -> Card:
    """Return what one cause weighs, what speaks for and against it, and what to do about it."""
    spoken = [clue for clue in clues if clue.family != "absent"]
    pro = tuple(clue.words for clue in spoken if ranking.speaks(clue, cause) > 0)
    con = tuple(clue.words for clue in spoken if ranking.speaks(clue, cause) < 0)
    sides = (
        Point(name="For it", texts=pro or ("nothing that you gave: it is only common",)),
        Point(name="Against it", texts=con or ("nothing that you gave",)),
        Point(name="If so", texts=(CAUSES[cause].remedy,)),
    )
    word = "likely" if likely else "may be"
    return Card(
        title=CAUSES[cause].label.capitalize(),
        share_pct=100 * weight,
        text=f"{100 * weight:.0f} of 100: {word}",
        points=sides,
    )
