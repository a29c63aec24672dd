"""Grain fineness: the fineness number, mean size, screens, gaps and surface of a sieved sand.

A grading is what each sieve of the series holds, by the number of the sieve, in any one unit: only the proportions count. Clay that was
washed out before sieving does not count. A sieve that is not named holds nothing. Source: afs_gfn, iso_3310_1.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sandmix.materials.sands_and_clays import QUARTZ_KG_M3

PAN = "pan"
SCREEN_PCT = 10.0
"""The least that a sieve must hold, in percent of the grain, to count as a screen."""
MEAN_UM_PER_GFN = 13600.0
"""Mean grain size in µm times grain fineness number, within about 5 % (from memory)."""

LEAST = 1e-6
"""The least that all sieves together must hold, in the unit they are given in; less counts as nothing."""

_ABOVE_THE_COARSEST_MM = 4.75
PAN_MM = 0.0265


@dataclass(frozen=True, slots=True, kw_only=True)
class Sieve:
    """One sieve of the series, or the pan below it: its number, its opening in mm, and its multiplier in the fineness number."""

    number: str
    opening_mm: float
    multiplier: float


SIEVES = {
    number: Sieve(number=number, opening_mm=opening_mm, multiplier=multiplier)
    for number, opening_mm, multiplier in (
        ("6", 3.35, 3.0),
        ("12", 1.70, 5.0),
        ("20", 0.850, 10.0),
        ("30", 0.600, 20.0),
        ("40", 0.425, 30.0),
        ("50", 0.300, 40.0),
        ("70", 0.212, 50.0),
        ("100", 0.150, 70.0),
        ("140", 0.106, 100.0),
        ("200", 0.075, 140.0),
        ("270", 0.053, 200.0),
        (PAN, 0.0, 300.0),
    )
}

Grading = Mapping[str, float]


def total(retained: Grading) -> float:
    """Return what all sieves and the pan hold together, in the unit of the grading."""
    return sum(retained.values())


def shares(retained: Grading) -> dict[str, float]:
    """Return what each sieve holds as a share of the whole, from the coarsest; sieves that hold nothing are included.

    >>> shares({"50": 1.0, "pan": 3.0})["pan"]
    0.75
    """
    whole = total(retained)
    return {number: retained.get(number, 0.0) / whole for number in SIEVES}


def gfn(retained: Grading) -> float:
    """Return the grain fineness number: the sum of retained × multiplier over the sum retained, clay excluded. Source: afs_gfn.

    >>> gfn({"50": 50, "70": 50})
    45.0
    """
    return sum(share * SIEVES[number].multiplier for number, share in shares(retained).items())


def mean_um(fineness_number: float) -> float:
    """Return the mean grain size, in µm, for a grain fineness number, within about 5 %."""
    return MEAN_UM_PER_GFN / fineness_number


def screens(retained: Grading) -> list[str]:
    """Return the sieves that hold at least a tenth of the grain, from the coarsest; the pan never counts as a screen."""
    least = SCREEN_PCT / 100 - 1e-9
    return [number for number, share in shares(retained).items() if share >= least and number != PAN]


def gaps(retained: Grading) -> list[str]:
    """Return the sieves between the coarsest and the finest screen that are not screens themselves."""
    found, series = screens(retained), list(SIEVES)
    if not found:
        return []
    between = series[series.index(found[0]) : series.index(found[-1])]
    return [number for number in between if number not in found]


def passing_pct(retained: Grading) -> dict[str, float]:
    """Return what passes each sieve, in percent of the grain, from the coarsest to the finest sieve that is named.

    >>> passing_pct({"40": 1, "50": 2, "pan": 1})
    {'40': 75.0, '50': 25.0}
    """
    series = [number for number in SIEVES if number != PAN]
    named = [at for at, number in enumerate(series) if number in retained]
    part, passed = shares(retained), {}
    for number in series[named[0] : named[-1] + 1] if named else []:
        finer = list(SIEVES)[list(SIEVES).index(number) + 1 :]
        passed[number] = 100 * sum(part[other] for other in finer)
    return passed


def missing(retained: Grading) -> list[str]:
    """Return the sieves that are not named between the coarsest and the finest that are."""
    return [number for number in passing_pct(retained) if number not in retained]


def sphere_surface_cm2_g(diameter_mm: float, density_kg_m3: float = QUARTZ_KG_M3) -> float:
    """Return the surface of smooth spheres of one size, in cm²/g: S = 6/(ρ d). Source: geometry.

    >>> round(sphere_surface_cm2_g(0.20), 1)
    113.2
    """
    return 6e4 / (density_kg_m3 * diameter_mm)


def middle_mm(number: str) -> float:
    """Return the middle size of the grain on a sieve, in mm: halfway between its opening and that of the next coarser sieve.

    Above the coarsest sieve of the series that is the sieve of 4.75 mm. The pan has a fixed size.
    """
    if number == PAN:
        return PAN_MM
    series = list(SIEVES)
    at = series.index(number)
    above_mm = SIEVES[series[at - 1]].opening_mm if at else _ABOVE_THE_COARSEST_MM
    return (above_mm + SIEVES[number].opening_mm) / 2


def surface_cm2_g(retained: Grading) -> float:
    """Return the surface of the grain, in cm²/g, counted as smooth quartz spheres of the middle size of each sieve."""
    return sum(
        share * sphere_surface_cm2_g(middle_mm(number)) for number, share in shares(retained).items() if share > 0
    )


def blended(parts: Iterable[tuple[Grading, float]]) -> dict[str, float]:
    """Return the grading of a blend, in percent by sieve: the mean of its sands, each weighted by its dry grain in kg.

    A grading comes from a sample, so it is turned into shares first. Sieves that hold nothing are left out.

    >>> blended([({"50": 30.0}, 1.0), ({"70": 5.0}, 3.0)])
    {'50': 25.0, '70': 75.0}
    """
    listed = [(shares(grading), grain_kg) for grading, grain_kg in parts if grain_kg > 0]
    whole_kg = sum(grain_kg for _, grain_kg in listed)
    summed = {number: sum(part[number] * grain_kg for part, grain_kg in listed) for number in SIEVES}
    return {number: 100 * held / whole_kg for number, held in summed.items() if held > 0}
