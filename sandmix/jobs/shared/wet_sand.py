"""What every job says where sand or its target is too wet to pour on: the sentences, the state and the caution."""

from __future__ import annotations

import math
from collections.abc import Iterable

from sandmix.asking.cautions import DRYING, DUST, HOT_SAND, UNKNOWN_WETNESS, WET_MOULD, Caution
from sandmix.asking.job import Figures, ToDo, WayOut
from sandmix.language.wording import number_to, plain
from sandmix.materials.choosing import OWN_FIGURES
from sandmix.maths.statistics import is_above
from sandmix.maths.uncertainty import wider_side
from sandmix.recipes.too_wet import CARE, GO, LABELS_OF, NATURAL_WORKS_PCT, STOP, STRICTEST, Wetness

DIGITS = 2
DOSES = ("water_kg", "first_water_kg", "water_most_kg", "batch_water_kg")
"""The figures that a target above the limit does not get."""


def without_dose(wetness: Wetness) -> Figures:
    """Return the doses of water as left out, where the target is too wet to pour on."""
    return dict.fromkeys(DOSES) if wetness.target == STOP else {}


def state(wetness: Wetness, word: str, tone: str) -> tuple[str, str]:
    """Return the state of an answer: *stop* where something is too wet, else its *word*, with *care* at least where something is wet."""
    if wetness.tone == STOP:
        return STOP, STOP
    return word, CARE if wetness.tone == CARE and tone != STOP else tone


def headline(wetness: Wetness, otherwise: str) -> str:
    """Return the headline of an answer, which begins with the stop where there is one."""
    if wetness.tone != STOP:
        return otherwise
    what = "sand" if wetness.sand == STOP else "target"
    return f"Stop: the {what} is too wet to pour on. {otherwise}"


def remarks(wetness: Wetness) -> Iterable[str]:
    """Say how wet sand and target are against their limits, where one of them is too wet or wet."""
    if not wetness.has_limits:
        yield WayOut(OWN_FIGURES[LABELS_OF[wetness.sand_kind]])
        if wetness.sand_kind == "natural" and is_above(wetness.sand_pct_wet or 0.0, NATURAL_WORKS_PCT[1]):
            low, high = NATURAL_WORKS_PCT
            yield WayOut(
                f"Moisture {measured(wetness)} is above {low:g} to {high:g} %, at which natural sand usually works (from memory): dry it."
            )
        return
    if wetness.sand != GO:
        yield WayOut(_on_the_sand(wetness))
    if wetness.target == STOP:
        yield WayOut(
            f"The target of {_pct(wetness.target_pct_wet)} is above the {_limit(wetness)}. No dose of water is given for it: choose a "
            "lower target."
        )
    elif wetness.target == CARE and (wetness.sand != CARE or wetness.may_be_above):
        yield WayOut(
            f"The target of {_pct(wetness.target_pct_wet)} is above {wetness.limits.amber_moisture_pct_wet:g} % of the wet mass (from "
            "memory): such a mould gives off much steam. Choose a lower target if the sand bonds with less water."
        )


def to_do(wetness: Wetness, to_lose: str = "", then: Iterable[ToDo] = ()) -> Iterable[ToDo]:
    """Say what to do where sand or target is too wet to pour on.

    *to_lose* is the water to lose, as text, where it is known; *then* comes between drying the sand and testing it.
    """
    if wetness.sand == STOP:
        yield ToDo(
            text="Do not pour on this sand. Dry it: water to lose" if to_lose else "Do not pour on this sand. Dry it",
            amount=to_lose,
        )
        yield from then
        yield ToDo(text="Test its moisture again before you mould")
    if wetness.target == STOP:
        usual = f"; {wetness.metal.target_moisture_pct_wet:g} % of the wet mass is usual" if wetness.metal else ""
        yield ToDo(text=f"Enter a lower target for the moisture{usual}")


def cautions(wetness: Wetness) -> Iterable[Caution]:
    """Caution against steam where sand or target is too wet or wet, and wherever no limit is known."""
    if not wetness.has_limits:
        yield UNKNOWN_WETNESS
    elif wetness.tone != GO:
        yield WET_MOULD


def cautions_of_a_test(wetness: Wetness, *, dries: bool, doses: bool) -> Iterable[Caution]:
    """Caution as a test of the moisture calls for: steam, heat where sand is dried, hot sand where water is added, and dust."""
    yield from cautions(wetness)
    if dries or wetness.sand == STOP:
        yield DRYING
    if doses:
        yield HOT_SAND
    yield DUST


def measured(wetness: Wetness) -> str:
    """Return the moisture of the sand with its ±.

    >>> measured(Wetness(sand_pct_wet=5.95, sand_band=(5.6, 6.3)))
    '5.95 ± 0.35'
    """
    value, band = wetness.sand_pct_wet or 0.0, wetness.sand_band
    side = wider_side(band, value) if band else 0.0
    if side <= 0:
        return plain(round(value, DIGITS))
    digits = min(DIGITS, 1 - math.floor(math.log10(side)))
    return f"{number_to(value, digits)} ± {number_to(side, digits)}"


def _on_the_sand(wetness: Wetness) -> str:
    against = f"Moisture {measured(wetness)} against the {_limit(wetness)}"
    if wetness.sand == STOP:
        return f"{against}: too wet to pour on. Dry the sand, and test it again before you pour."
    if wetness.may_be_above:
        return f"{against}: the sand may be too wet to pour on. Test it again before you pour."
    return (
        f"Moisture {measured(wetness)} is above {wetness.limits.amber_moisture_pct_wet:g} % of the wet mass (from memory): a mould of "
        f"this sand gives off much steam. The stop limit is {wetness.limits.red_moisture_pct_wet:g} %."
    )


def _limit(wetness: Wetness) -> str:
    limit = f"limit of {wetness.limits.red_moisture_pct_wet:g} % of the wet mass for"
    if wetness.metal:
        return f"{limit} {wetness.metal.label} (from memory)"
    return f"{limit} aluminium and zinc (from memory; {STRICTEST.red_moisture_pct_wet:g} % for copper alloys and iron)"


def _pct(value: float | None) -> str:
    return f"{plain(round(value or 0.0, DIGITS))} %"
