"""The fineness number for the sieves that a person has: any openings, and not the full series.

The grain on a sieve is between two openings: its own and that of the next coarser sieve in the stack. Its true sizes can be anywhere
between the two, so the number lies in an exact band. At the lower end all grain is just finer than the upper opening, at the higher end it
just stays on the lower one. The best guess spreads the grain evenly over the logarithm of size between the two openings, like
a straight line on a chart with a log scale of size.

A grading is keyed by the number of a sieve of the series, by any other opening as ``"0.8 mm"``, or ``"pan"``. Source: afs_gfn, own.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sandmix.materials.fineness import PAN, PAN_MM, SIEVES, gfn, total

EMPTY, ABSENT = "empty", "absent"
SAME_SIEVE = 0.015
"""How much an opening may differ from one of the series and still be that sieve, as a share of it: older lists differ by as much (own choice)."""
OPENINGS_MM = (0.02, 25.0)
"""The least and the largest opening that a sieve may have."""

_COARSEST_GRAIN = 2.0
_SUFFIX = " mm"

OTHER_NUMBERS = {
    "4": 4.75, "5": 4.00, "7": 2.80, "8": 2.36, "10": 2.00, "14": 1.40, "16": 1.18, "18": 1.00, "25": 0.710, "35": 0.500,
    "45": 0.355, "60": 0.250, "80": 0.180, "120": 0.125, "170": 0.090, "230": 0.063, "325": 0.045, "400": 0.038,
}  # fmt: skip
"""Openings in mm of the numbered sieves that have no multiplier in the fineness number. Source: sieve_numbers."""

Grading = Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fraction:
    """The grain between two openings in mm, the lower one included; ``to_mm`` is infinite above the coarsest sieve, ``from_mm`` 0 in the pan."""

    held: float
    from_mm: float
    to_mm: float

    @property
    def multipliers(self) -> tuple[float, float]:
        """The least and the greatest multiplier that its grain can have."""
        coarsest = next(sieve for sieve in SIEVES.values() if sieve.opening_mm < self.to_mm)
        finest = next(sieve for sieve in SIEVES.values() if sieve.opening_mm <= self.from_mm)
        return coarsest.multiplier, finest.multiplier

    def share_above(self, opening_mm: float) -> float:
        """Return the share of it that is coarser than *opening_mm*, if it is spread evenly over the logarithm of size."""
        low = self.from_mm or min(PAN_MM, self.to_mm / 2)
        high = self.to_mm if math.isfinite(self.to_mm) else max(low, PAN_MM) * _COARSEST_GRAIN
        if opening_mm <= low:
            return 1.0
        return max(0.0, math.log(high / opening_mm) / math.log(high / low))


def opening_mm(name: str) -> float:
    """Return the opening of a sieve, in mm, from its key in a grading; the pan has 0.

    >>> opening_mm("50"), opening_mm("0.8 mm")
    (0.3, 0.8)
    """
    return SIEVES[name].opening_mm if name in SIEVES else float(name.removesuffix(_SUFFIX))


def name_of(opening_mm: float) -> str:
    """Return the key of the sieve with *opening_mm*: its number where it is one of the series, within 1.5 %.

    >>> name_of(0.297), name_of(0.8)
    ('50', '0.8 mm')
    """
    for number, sieve in SIEVES.items():
        if number != PAN and abs(opening_mm - sieve.opening_mm) <= SAME_SIEVE * sieve.opening_mm:
            return number
    return f"{opening_mm:.4g}{_SUFFIX}"


def is_of_the_series(retained: Grading) -> bool:
    """Return whether all sieves belong to the series, so that each has a multiplier."""
    return all(name in SIEVES for name in retained)


def fractions(retained: Grading, unnamed: str | None = None) -> list[Fraction]:
    """Return what lies between each two neighbouring openings of the stack, from the coarsest.

    *unnamed* says where the sieves of the series are that are not named. EMPTY: in the stack. ABSENT: not in the stack. None: absent
    between and below the named ones; empty above them if all named ones belong to the series.
    """
    openings = {opening_mm(name): held for name, held in retained.items()}
    coarsest = max((opening for opening in openings if opening), default=math.inf)
    for sieve in SIEVES.values():
        above = unnamed is None and sieve.opening_mm > coarsest and is_of_the_series(retained)
        if sieve.opening_mm and (unnamed == EMPTY or above):
            openings.setdefault(sieve.opening_mm, 0.0)
    ranked = sorted(openings, reverse=True)
    return [
        Fraction(held=openings[lower], from_mm=lower, to_mm=upper)
        for upper, lower in itertools.pairwise([math.inf, *ranked])
    ]


def band(retained: Grading, unnamed: str | None = None) -> tuple[float, float]:
    """Return the least and the highest fineness number that any grading with these readings can have.

    >>> [round(end, 6) for end in band({"50": 50, "100": 50})]
    [45.0, 55.0]
    """
    return _band(fractions(retained, unnamed))


def on_series(retained: Grading, unnamed: str | None = None) -> dict[str, float]:
    """Return the best guess of what each sieve of the full series would hold, in the unit of *retained*, from the coarsest.

    >>> {name: round(held, 3) for name, held in on_series({"50": 1.0, "100": 1.0}).items()}
    {'50': 1.0, '70': 0.501, '100': 0.499}
    """
    guessed = dict.fromkeys(SIEVES, 0.0)
    for part in fractions(retained, unnamed):
        above = 0.0
        for number, sieve in SIEVES.items():
            coarser = part.share_above(sieve.opening_mm) if part.held else 0.0
            guessed[number] += part.held * (coarser - above)
            above = coarser
    return {number: held for number, held in guessed.items() if held > 0}


def estimate(retained: Grading, unnamed: str | None = None) -> float:
    """Return the best guess of the fineness number; it lies within the band."""
    return gfn(on_series(retained, unnamed))


def number(retained: Grading, unnamed: str | None = None) -> float:
    """Return the fineness number as it is shown: from the named sieves if all belong to the series, else the best guess."""
    return gfn(series_of(retained, unnamed))


def series_of(retained: Grading, unnamed: str | None = None) -> Grading:
    """Return the grading on sieves of the series: as given if all belong to it, else the best guess."""
    return retained if is_of_the_series(retained) else on_series(retained, unnamed)


def passing_pct(retained: Grading) -> dict[str, float]:
    """Return what passes each sieve of the stack, in percent of the grain, from the coarsest.

    >>> passing_pct({"0.8 mm": 1.0, "50": 1.0, "pan": 2.0})
    {'0.8 mm': 75.0, '50': 50.0}
    """
    names = sorted((name for name in retained if name != PAN), key=opening_mm, reverse=True)
    sums = itertools.accumulate(retained[name] for name in names)
    return {name: 100 * max(0.0, 1 - held / total(retained)) for name, held in zip(names, sums, strict=True)}


def next_sieve(retained: Grading, unnamed: str | None = None) -> tuple[str, float] | None:
    """Return the sieve of the series that would narrow the band most, by the best guess, and the width that would be left.

    None if no sieve would narrow it.
    """
    parts = fractions(retained, unnamed)
    low, high = _band(parts)
    found = [
        (upper - lower, -sieve.opening_mm, number)
        for number, sieve in SIEVES.items()
        if sieve.opening_mm
        for lower, upper in [_band(_split(parts, sieve.opening_mm))]
        if upper - lower < high - low - 1e-9
    ]
    if not found:
        return None
    width, _, best = min(found)
    return best, width


def _split(parts: Iterable[Fraction], at_mm: float) -> list[Fraction]:
    """Return the fractions, with the one around *at_mm* split there."""
    split = []
    for part in parts:
        if part.from_mm < at_mm < part.to_mm:
            above = part.held * part.share_above(at_mm)
            split.append(Fraction(held=above, from_mm=at_mm, to_mm=part.to_mm))
            split.append(Fraction(held=part.held - above, from_mm=part.from_mm, to_mm=at_mm))
        else:
            split.append(part)
    return split


def _band(parts: list[Fraction]) -> tuple[float, float]:
    whole = sum(part.held for part in parts)
    ends = [part.multipliers for part in parts]
    low, high = (sum(part.held * end[side] for part, end in zip(parts, ends, strict=True)) / whole for side in (0, 1))
    return low, max(low, high)
