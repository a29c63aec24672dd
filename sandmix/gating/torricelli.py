"""The speed and the flow of a liquid that falls from a height, after Torricelli, and the same with Bernoulli's losses."""

from __future__ import annotations

import math

from sandmix.language.units import GRAVITY_M_S2

DISCHARGE = 0.8
"""The share of the ideal flow that a gating lets through, where nothing is given. Source: discharge_memory."""
_BLASIUS = 0.0791
_LAMINAR = 16.0
_MOST_PASSES = 100
_SETTLED = 1e-12


def speed_m_s(head_mm: float, discharge: float = 1.0, gravity_m_s2: float = GRAVITY_M_S2) -> float:
    """Return the speed at a depth of *head_mm* below the metal's surface, in m/s: c √(2 g h).

    Holds for a surface that is kept at its level. Source: torricelli.

    >>> round(speed_m_s(150.0), 3)
    1.715
    """
    return discharge * math.sqrt(2 * gravity_m_s2 * head_mm / 1000)


def head_mm(speed: float, gravity_m_s2: float = GRAVITY_M_S2) -> float:
    """Return the fall, in mm, that gives a speed in m/s: v² / (2 g). Source: torricelli.

    >>> round(head_mm(0.495), 1)
    12.5
    """
    return 1000 * speed**2 / (2 * gravity_m_s2)


def flow_cm3_s(area_cm2: float, speed: float) -> float:
    """Return the flow through an area in cm² at a speed in m/s, in cm³/s. Source: torricelli."""
    return 100 * area_cm2 * speed


def fanning_friction(reynolds: float) -> float:
    """Return the friction factor of a smooth round channel: 0.0791 Re^(−1/4), and 16/Re where that is larger, at small Re.

    Source: ghosh_mallik_gating for the first, derived for the second.

    >>> round(fanning_friction(68069.0), 5)
    0.0049
    """
    return max(float(_BLASIUS * reynolds**-0.25), _LAMINAR / reynolds if reynolds < 1200 else 0.0)


def discharge(
    ideal_reynolds: float, entry_loss: float, lengths: float, bends: float = 0.0, *, passes: int = _MOST_PASSES
) -> float:
    """Return the discharge coefficient of a channel with friction: c = 1/√(1 + k + 4 f (L/d + bends)).

    *ideal_reynolds* is the Reynolds number at the ideal speed, *entry_loss* is k, *lengths* is L/d, *bends* is the length of all bends in
    diameters (25 for one of 90°). The friction depends on the speed, so that the result is repeated until it no longer changes, or *passes*
    times. Holds for a smooth channel of one width. Source: ghosh_mallik_gating, sample problem 2.2.

    >>> round(discharge(68069.0, 0.45, 120 / 25.23, 25.0), 2)
    0.69
    """
    c = 1.0
    for _ in range(passes):
        before, c = c, 1 / math.sqrt(1 + entry_loss + 4 * fanning_friction(c * ideal_reynolds) * (lengths + bends))
        if abs(c - before) < _SETTLED:
            break
    return c
