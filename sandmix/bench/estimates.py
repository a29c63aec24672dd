"""Several tests combined: live clay from each of them, their weighted mean, and what strength shows about the mulling.

The equations of Heine and Green are in icri_610, with compactability C in percent, moisture M in percent of wet mass, clay in percent by
methylene blue, and green strength S in psi. They were fitted to new bentonite in silica sand and to production sands.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sandmix.maths.statistics import TWO_SIGMA, WeightedMean, weighted_mean

BREAK_PCT = 47.5
"""The compactability at which the equilibrium changes from one line to the other."""
CLAY_HOLDS_PCT = (7.0, 11.0)
"""The methylene blue clay for which the equilibrium was published."""
BOND_HOLDS_PCT = (30.0, 60.0)
"""The compactability within which the bond equations are used here; the source prints no range (own choice)."""
ASH_SCATTER = 2.0
"""Error of the wash less ash as live clay, in points, because burnt clay counts in it (own choice, 95 %)."""
BY_HAND_PCT, WELL_MULLED_PCT = 40.0, 65.0
"""Mulling efficiency of sand mulled by hand, and of a well run production muller (both from memory)."""
LEAST_HALF_WIDTH = 0.05


def clay_per_moisture(compactability_pct: float) -> float:
    """Return the percent of clay for each percent of moisture at equilibrium: 3.213 - 0.02525 C above 47.5, else 2.583 - 0.01185 C."""
    at_none, falls = line_at(compactability_pct)
    return at_none - falls * compactability_pct


def line_at(compactability_pct: float) -> tuple[float, float]:
    """Return the published line that holds there: clay for each percent of moisture at a compactability of 0, and its fall per point."""
    return (3.213, 0.02525) if compactability_pct > BREAK_PCT else (2.583, 0.01185)


def equilibrium_moisture_pct_wet(clay_pct_dry: float, compactability_pct: float) -> float:
    """Return the moisture of fully mulled sand at that compactability, in percent of wet mass. Holds for: 7 to 11 % clay. Source: icri_610, p. 16.

    >>> round(equilibrium_moisture_pct_wet(8, 40), 3)
    3.793
    """
    return clay_pct_dry / clay_per_moisture(compactability_pct)


def mulled_clay_pct_dry(moisture_pct_wet: float, compactability_pct: float) -> float:
    """Return the clay of fully mulled sand, in percent, from its moisture and compactability.

    Holds for: results of 7 to 11 %; badly mulled sand reads too high. Source: icri_610, p. 16, solved for the clay.

    >>> round(mulled_clay_pct_dry(3.793, 40), 2)
    8.0
    """
    return moisture_pct_wet * clay_per_moisture(compactability_pct)


def mulled_clay_low_pct_dry(clay_pct_dry: float) -> float:
    """Return the clay, in percent, of sand mulled by hand that reads *clay_pct_dry* as if it were fully mulled.

    The error has one side: water that is not worked into the clay yet makes the sand read as if it had more clay. The clay is taken to be
    less in the proportion of the two mulling efficiencies. Source: own.

    >>> round(mulled_clay_low_pct_dry(9.0), 2)
    5.54
    """
    return clay_pct_dry * BY_HAND_PCT / WELL_MULLED_PCT


def available_bond_pct(strength_psi: float, moisture_pct_wet: float) -> float:
    """Return the clay that could bond, in percent of the sand: 0.105 S + 1.316 M. Source: icri_610, p. 16.

    >>> round(available_bond_pct(28, 3.2), 3)
    7.151
    """
    return 0.105 * strength_psi + 1.316 * moisture_pct_wet


def working_bond_pct(strength_psi: float, compactability_pct: float) -> float:
    """Return the clay that does bond, in percent of the sand: 15.29 S/(132.1 - C). Source: icri_610, p. 16.

    >>> round(working_bond_pct(28, 40), 3)
    4.648
    """
    return 15.29 * strength_psi / (132.1 - compactability_pct)


def bond_holds(compactability_pct: float) -> bool:
    """Return whether the bond equations are used at that compactability."""
    return BOND_HOLDS_PCT[0] <= compactability_pct <= BOND_HOLDS_PCT[1]


def clay_holds(clay_pct_dry: float) -> bool:
    """Return whether the equilibrium was published for that much clay."""
    return CLAY_HOLDS_PCT[0] <= clay_pct_dry <= CLAY_HOLDS_PCT[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """A figure from one test: its word, its value, and its 95 % half-width."""

    key: str
    value: float
    half_width: float

    @property
    def weight(self) -> float:
        """Its weight in the mean: the inverse of its variance."""
        return (TWO_SIGMA / max(self.half_width, LEAST_HALF_WIDTH)) ** 2


def combine(estimates: Sequence[Estimate]) -> WeightedMean:
    """Return the weighted mean of *estimates*; none counts as more exact than ± 0.05 points.

    >>> both = combine([Estimate(key="a", value=7.0, half_width=0.6), Estimate(key="b", value=7.4, half_width=0.8)])
    >>> round(both.value, 2), round(both.half_width, 2), both.agrees
    (7.14, 0.48, True)
    """
    return weighted_mean([(each.value, max(each.half_width, LEAST_HALF_WIDTH)) for each in estimates])
