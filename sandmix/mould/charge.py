"""The charge as several lots of scrap: what is lost of them together, how much of each to weigh, and what is left over.

The same share of each lot is melted, so that the mixture does not depend on how much is needed. Source: mass balance.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """A lot of scrap: its mass in kg, and the share of it that is lost on melting."""

    kg: float
    loss: float


def loss_of(lots: Sequence[Lot]) -> float:
    """Return the share that is lost of all lots together, weighted by mass; there must be at least one lot.

    >>> round(loss_of([Lot(kg=3.0, loss=0.02), Lot(kg=1.0, loss=0.1)]), 3)
    0.04
    """
    return sum(lot.kg * lot.loss for lot in lots) / on_hand_kg(lots)


def on_hand_kg(lots: Sequence[Lot]) -> float:
    """Return the mass of all lots together, in kg."""
    return sum(lot.kg for lot in lots)


def to_weigh_kg(lots: Sequence[Lot], charge_kg: float) -> list[float]:
    """Return how much of each lot goes into a charge, in kg: the same share of each, at most all of it.

    >>> to_weigh_kg([Lot(kg=3.0, loss=0.02), Lot(kg=1.0, loss=0.1)], 2.0)
    [1.5, 0.5]
    """
    share = min(1.0, charge_kg / on_hand_kg(lots))
    return [share * lot.kg for lot in lots]


def left_over_kg(charge_kg: float, loss: float, poured_kg: float) -> float:
    """Return the metal that is left in the crucible once the mould is full, in kg, never below zero; *loss* is a share of the charge.

    >>> round(left_over_kg(2.5, 0.04, 2.0), 3)
    0.4
    """
    return max(0.0, charge_kg * (1 - loss) - poured_kg)
