"""How long the mould fills, from the top, from below, or at the parting; and the area that fills it in a given time.

The narrowest area A of the gating sets the flow, and a pouring cup that is kept full sets the head h. Metal that enters from above always has
the whole head. Metal that enters from below has less and less of it as it rises over the gate.
Source: torricelli; the time from below is Bernoulli's equation, integrated over the height: see the method page.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from sandmix.gating.torricelli import DISCHARGE
from sandmix.language.units import GRAVITY_M_S2

TOP, BOTTOM, PARTING = "top", "bottom", "parting"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cavity:
    """What is filled: its volume, where the metal enters (top, bottom or parting), its height, and how much of that is above the parting.

    The height counts for *bottom*; the height above the parting counts for *parting*, where 0 is a cavity that lies wholly in the drag.
    """

    volume_cm3: float
    place: str
    height_mm: float = 0.0
    above_mm: float = 0.0

    @property
    def rising_mm(self) -> float:
        """How far the metal rises above the gate."""
        return {TOP: 0.0, BOTTOM: self.height_mm, PARTING: self.above_mm}[self.place]

    @property
    def rising_share(self) -> float:
        """The share of the volume that fills from below: all, none, or at the parting that of the height above it."""
        if self.place == PARTING:
            return self.above_mm / self.height_mm if self.above_mm else 0.0
        return 1.0 if self.place == BOTTOM else 0.0


def mean_head_mm(head_mm: float, rising_mm: float) -> float:
    """Return the constant head, in mm, that takes as long as one that falls from h to h − h_m: ((√h + √(h − h_m))/2)².

    Holds for 0 ≤ h_m ≤ h and walls that stand upright. Source: derived, see the method page.

    >>> mean_head_mm(100.0, 0.0), mean_head_mm(100.0, 100.0)
    (100.0, 25.0)
    """
    left = max(0.0, head_mm - rising_mm)
    return ((math.sqrt(head_mm) + math.sqrt(left)) / 2) ** 2


def trade_mean_head_mm(head_mm: float, rising_mm: float) -> float:
    """Return the mean head of the trade, h − h_m/2, in mm; it is always too large, and so its time is too short. Source: memory.

    >>> trade_mean_head_mm(100.0, 100.0)
    50.0
    """
    return head_mm - rising_mm / 2


def fill_s(
    cavity: Cavity,
    area_cm2: float,
    head_mm: float,
    discharge: float = DISCHARGE,
    gravity_m_s2: float = GRAVITY_M_S2,
) -> float:
    """Return how long the cavity fills through *area_cm2* under *head_mm*, in s.

    Top: V/(c A √(2 g h)). Bottom: (A_m/(c A)) (2/√(2 g)) (√h − √(h − h_m)) with A_m = V/h_m. Parting: the part below as top, the part above as
    bottom, each with its share of the height. The bottom is the top at the exact mean head.
    Holds for metal that rises no higher than the pouring cup; float noise counts as level. Source: torricelli.

    >>> box = Cavity(volume_cm3=18750.0, place="bottom", height_mm=150.0)
    >>> round(fill_s(box, 5.0, 150.0, 1.0, 9.81), 2)
    43.72
    """
    full = _straight_s(cavity.volume_cm3, area_cm2, head_mm, discharge, gravity_m_s2)
    share = cavity.rising_share
    if not share:
        return full
    slower = math.sqrt(head_mm / mean_head_mm(head_mm, cavity.rising_mm))
    return full * (1 - share + share * slower)


def area_cm2(
    cavity: Cavity,
    time_s: float,
    head_mm: float,
    discharge: float = DISCHARGE,
    gravity_m_s2: float = GRAVITY_M_S2,
) -> float:
    """Return the narrowest area that fills the cavity in *time_s*, in cm²: the inverse of `fill_s`. Source: torricelli.

    >>> round(area_cm2(Cavity(volume_cm3=18750.0, place="top"), 21.863, 150.0, 1.0), 3)
    5.0
    """
    return fill_s(cavity, 1.0, head_mm, discharge, gravity_m_s2) / time_s


def _straight_s(volume_cm3: float, area_cm2: float, head_mm: float, discharge: float, gravity_m_s2: float) -> float:
    """The time at a constant head: V/(c A √(2 g h)), in s."""
    return volume_cm3 / (discharge * area_cm2 * 100 * math.sqrt(2 * gravity_m_s2 * head_mm / 1000))
