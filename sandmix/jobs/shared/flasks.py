"""Remarks that *fit* and *flask* share: on the sand, on the cope and on the load to lift."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.form import R
from sandmix.asking.job import Computed, WayOut
from sandmix.mould import walls
from sandmix.mould.flask import Flask
from sandmix.vocabulary import WORDS

ONE_LIFTS_KG, STRONG_LIFTS_KG = 16.0, 25.0
"""Guideline figures at waist height and close to the body (hse_lifting)."""
FROM_FLOOR_KG = (7.0, 10.0)
"""The same from the floor (lifting_from_floor)."""
LIFTING_SOURCES = ("hse_lifting_filter", "lifting_from_floor")
"""What the remarks on the load rest on, besides the source of the caution."""
CLOSE, SHORT = "close", "short"
"""The words of a heap whose likely range holds both enough and too little, and of one that is too small."""
SHALLOW_COPE_MM = 40.0
FILLER = f"at least {walls.FILLER_FROM_CAVITY_MM:g} mm from the cavity"
BARS = f"at least {walls.BAR_FROM_PATTERN_MM:g} mm from the pattern"


def of_the_spare(computed: Computed[R], heap_kg: float) -> Iterable[str]:
    """Say so where the heap is short, but covers what is rammed in."""
    if heap_kg >= computed.number("rammed_kg"):
        yield WayOut(
            f"The heap covers the {computed.text('rammed_kg')} that are rammed in, but leaves nothing in reserve for "
            "spills."
        )


def of_the_cope(inside: Flask) -> Iterable[str]:
    """Say what an open top means, and warn of a shallow cope."""
    if inside.cope_depth_mm == 0:
        yield "An open-top mould has no cope and no weights, and the top of the casting stays rough."
    elif inside.cope_depth_mm < SHALLOW_COPE_MM:
        yield f"A cope of less than {SHALLOW_COPE_MM:g} mm is shallow: metal can break out above the casting."


def of_the_load(computed: Computed[R], *, wood: bool) -> Iterable[str]:
    """Say when the halves, or the cope alone, are more than a guideline figure, and whether *wood* is counted in both."""
    both, cope = computed.number("both_kg"), computed.number("cope_kg")
    if both > ONE_LIFTS_KG:
        above = (
            f"both guideline figures, about {ONE_LIFTS_KG:g} and {STRONG_LIFTS_KG:g} kg at waist height and close to the body"
            if both > STRONG_LIFTS_KG
            else f"the lower guideline figure, about {ONE_LIFTS_KG:g} kg at waist height and close to the body"
        )
        without = "" if wood else ", sand alone without the empty flask"
        yield (
            f"Both halves weigh {computed.text('both_kg')}{without}. That is above {above}. Turn them over with two people, or "
            "ram the mould where it will be poured."
        )
    elif not wood:
        yield (
            "The load of both halves is sand only. Weigh the empty flask and enter it as "
            f"“{WORDS['frame_kg'].label}” to have it counted."
        )
    if cope > ONE_LIFTS_KG:
        yield (
            f"The cope alone holds {computed.text('cope_kg')} of sand, and you lift it at arm's length: lift it with two "
            "people."
        )
    if FROM_FLOOR_KG[0] < both <= ONE_LIFTS_KG:
        yield (
            f"Ram it on a bench: from the floor the guideline figures are only about {FROM_FLOOR_KG[0]:g} and {FROM_FLOOR_KG[1]:g} kg (from memory), "
            f"and both halves weigh {computed.text('both_kg')}."
        )
