"""How much a metal shrinks until it is solid, and over how wide a range it freezes.

Only what the liquid and the freezing take counts: a riser cannot make good what the solid shrinks.
"""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.materials.metals import METALS


@dataclass(frozen=True, slots=True, kw_only=True)
class Shrinkage:
    """Liquid and freezing shrinkage of a metal, in % of the casting's volume, its likely range, what it is the figure of, and its source."""

    pct: float
    low_pct: float
    high_pct: float
    figure_of: str
    source: str


EXPANDS_PCT = {"grey_iron": 2.5}
"""What a metal expands by as it freezes, in %. Source: shrinkage_table."""
LIQUID_PCT_100C = 1.5
"""What liquid iron shrinks for every 100 °C above its liquidus, in %. Source: shrinkage_memory."""
_ROWS = (
    # the range of a read figure is our own choice: about a point either way for other alloys of the kind and for the liquid's own shrinkage
    (
        "aluminium",
        7.1,
        4.0,
        7.6,
        "pure aluminium; scrap with silicon shrinks less, so it can be anywhere in that range",
        "shrinkage_table",
    ),
    ("al_si7mg", 5.0, 4.5, 5.5, "aluminium with 7 % silicon", "shrinkage_memory"),
    ("al_si12", 3.8, 3.3, 4.8, "aluminium with 12 % silicon", "shrinkage_table"),
    ("al_6061", 6.5, 5.5, 7.5, "between pure aluminium and aluminium with 4.5 % copper", "shrinkage_memory"),
    ("tin_bronze", 5.0, 4.5, 5.5, "tin bronze", "shrinkage_memory"),
    ("yellow_brass", 4.5, 4.0, 5.5, "brass with 30 % zinc", "shrinkage_table"),
    ("silicon_brass", 4.5, 3.5, 5.5, "brass with 30 % zinc, the nearest that was found", "shrinkage_memory"),
    ("zinc_al12", 6.5, 4.5, 7.0, "pure zinc, the nearest that was found", "shrinkage_table"),
    ("grey_iron", 0.0, 0.0, 1.5, "its freezing expands it by about as much as the liquid shrinks", "shrinkage_memory"),
)
SHRINKAGES = {
    key: Shrinkage(pct=pct, low_pct=low, high_pct=high, figure_of=figure_of, source=source)
    for key, pct, low, high, figure_of, source in _ROWS
}
SHORT, MIDDLE, LONG = "short", "middle", "long"
_SHORT_K, _LONG_K = 50.0, 110.0
"""Freezing ranges below and above these count as short and as long, in K. Source: freezing_ranges."""


def freezing_range_k(metal: str) -> float:
    """Return liquidus less solidus of the metal, in K."""
    return METALS[metal].liquidus_c - METALS[metal].solidus_c


def freezes_over(metal: str) -> str:
    """Return whether the freezing range of a metal is short, middle or long. Source: freezing_ranges.

    >>> [freezes_over(metal) for metal in ("aluminium", "al_si7mg", "tin_bronze")]
    ['short', 'middle', 'long']
    """
    range_k = freezing_range_k(metal)
    return SHORT if range_k < _SHORT_K else LONG if range_k > _LONG_K else MIDDLE


def superheat_shrinks_pct(metal: str, pour_temp_c: float) -> float:
    """Return what liquid iron shrinks on its way to the liquidus, in %; never below 0. Holds for iron only. Source: shrinkage_memory.

    >>> round(superheat_shrinks_pct("grey_iron", 1380.0), 2)
    2.7
    """
    return LIQUID_PCT_100C * max(0.0, pour_temp_c - METALS[metal].liquidus_c) / 100
