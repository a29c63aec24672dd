"""Several tests put together: live clay by each way that tells it, their weighted mean, and what strength says of the mulling.

The equations of Heine and Green are those of icri_610, with compactability C in percent, moisture M in percent of wet mass, clay in
percent as methylene blue reads it, and green strength S in psi. They were drawn from new bentonite in silica sand and from production sands.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sandmix.maths.statistics import TWO_SIGMA, WeightedMean, weighted_mean

BREAK_PCT = 47.5
"""The compactability at which the equilibrium passes from one line to the other."""
CLAY_HOLDS_PCT = (7.0, 11.0)
"""The methylene blue clay for which the equilibrium was published."""
BOND_HOLDS_PCT = (30.0, 60.0)
"""The compactability within which the bond equations are used here; none is printed beside them (own choice)."""
ASH_SCATTER = 2.0
"""How far a wash less ash may be off as live clay, in points, since burnt clay counts in it (own choice, 95 %)."""
MULLED_SCATTER = 1.5
"""How far the equilibrium may be off for sand that a person mulled, in points of clay (own choice, 95 %)."""
LEAST_HALF_WIDTH = 0.05


def clay_per_moisture(compactability_pct: float) -> float:
    """Return the percent of clay that a percent of moisture answers to at equilibrium: 3.213 - 0.02525 C above 47.5, else 2.583 - 0.01185 C."""
    if compactability_pct > BREAK_PCT:
        return 3.213 - 0.02525 * compactability_pct
    return 2.583 - 0.01185 * compactability_pct


def equilibrium_moisture_pct_wet(clay_pct_dry: float, compactability_pct: float) -> float:
    """Return the moisture of fully mulled sand at that compactability, in percent of wet mass. Holds for: 7 to 11 % clay. Source: icri_610, p. 16.

    >>> round(equilibrium_moisture_pct_wet(8, 40), 3)
    3.793
    """
    return clay_pct_dry / clay_per_moisture(compactability_pct)


def mulled_clay_pct_dry(moisture_pct_wet: float, compactability_pct: float) -> float:
    """Return the clay of fully mulled sand, in percent, by its moisture and compactability.

    Holds for: results of 7 to 11 %; sand that is mulled badly reads too high. Source: icri_610, p. 16, turned round.

    >>> round(mulled_clay_pct_dry(3.793, 40), 2)
    8.0
    """
    return moisture_pct_wet * clay_per_moisture(compactability_pct)


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
    """One way of telling a figure: the word it goes by, its value, and its 95 % half-width."""

    key: str
    value: float
    half_width: float

    @property
    def weight(self) -> float:
        """Its weight in a mean: one over its variance."""
        return (TWO_SIGMA / max(self.half_width, LEAST_HALF_WIDTH)) ** 2


def union(estimates: Sequence[Estimate]) -> WeightedMean:
    """Return what several *estimates* come to as one, none of them surer than ± 0.05 points.

    >>> both = union([Estimate(key="a", value=7.0, half_width=0.6), Estimate(key="b", value=7.4, half_width=0.8)])
    >>> round(both.value, 2), round(both.half_width, 2), both.agrees
    (7.14, 0.48, True)
    """
    return weighted_mean([(each.value, max(each.half_width, LEAST_HALF_WIDTH)) for each in estimates])
