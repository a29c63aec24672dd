"""The blend of the sands on hand that comes nearest to a target fineness; if several do, the one spread widest over the sieves.

Symbols, for lot i: y kg taken, as it lies; k kg on hand; r its dry grain per kg; G its fineness number; s_ij the share of its grain on
sieve j. The number of the blend is the quotient Σ r y G / Σ r y, so everything is counted per kilogram of grain: with z = y/Σ r y and
t = 1/Σ r y it becomes the linear programme Σ r z = 1, and, for a given mass M, Σ z = M t and z <= k t. It minimises first how far
Σ r G z is outside the target number and its leeway, and then the largest Σ r s_j z, the share on the fullest sieve (or in the pan). Exact.
Source: mass_balance.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sandmix.materials import fineness
from sandmix.maths.linear_programme import EXACTLY, Row, solve

NEAR = 1e-6
NOISE = 1e-9
TIE = 1e-12
"""Sieves that hold the same to this share of it hold as much as each other."""
COARSER, FINER, STOCK = "coarser", "finer", "not enough"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """A sand on hand: kg as it lies, its dry grain per kg, and its grading on the series."""

    kg: float
    grain: float
    retained: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class NearestBlend:
    """What to take of each lot, in kg as it lies, the blend's grading, how far its number is from the target, and why it is no nearer.

    ``short`` are the positions of the lots of which there is too little, if that is why.
    """

    kg: tuple[float, ...]
    retained: Mapping[str, float]
    gfn: float
    off: float
    fullest: str
    """The sieve that holds the most; the coarsest of those that hold as much, which the best blend often has."""
    why: str
    short: tuple[int, ...]


def nearest_blend(
    lots: Sequence[Lot], wanted_gfn: float, *, leeway: float = 0.0, make_kg: float | None = None
) -> NearestBlend:
    """Return the blend of *lots* nearest to *wanted_gfn* (within *leeway* all are equally near), and of these the one spread widest.

    With *make_kg*, as it lies, no more of a lot is taken than there is; without it, the blend is as large as the lots allow. Every lot must
    have grain, and *make_kg* must not exceed the mass of all lots.

    >>> coarse, fine = ({"50": 1.0}, {"100": 1.0})
    >>> found = nearest_blend([Lot(kg=10, grain=1, retained=coarse), Lot(kg=2, grain=1, retained=fine)], 50)
    >>> [round(kg, 9) for kg in found.kg], round(found.gfn, 9)
    ([4.0, 2.0], 50.0)
    """
    numbers = [fineness.gfn(lot.retained) for lot in lots]
    parts = _solved(lots, numbers, wanted_gfn, leeway, make_kg)
    size = (
        min(lot.kg / part for lot, part in zip(lots, parts, strict=True) if part > 0)
        if make_kg is None
        else make_kg / sum(parts)
    )
    number = sum(lot.grain * part * own for lot, part, own in zip(lots, parts, numbers, strict=True))
    retained = fineness.blended((lot.retained, lot.grain * part) for lot, part in zip(lots, parts, strict=True))
    off = abs(number - wanted_gfn)
    why, short = _why(numbers, number, wanted_gfn, leeway)
    return NearestBlend(
        kg=tuple(part * size for part in parts),
        retained=retained,
        gfn=number,
        off=off if off > NOISE * wanted_gfn else 0.0,
        fullest=_fullest(retained),
        why=why,
        short=short,
    )


def _fullest(retained: Mapping[str, float]) -> str:
    """The first sieve that holds as much as any."""
    most = max(retained.values()) * (1 - TIE)
    return next(sieve for sieve, share in retained.items() if share >= most)


def _solved(
    lots: Sequence[Lot], numbers: Sequence[float], wanted: float, leeway: float, make_kg: float | None
) -> list[float]:
    """Return what is taken of each lot per kilogram of grain; the unknowns are z, t times make_kg, the distance, and the fullest sieve."""
    blank = [0.0] * len(lots)
    rows = [Row(name="grain", coefficients=[*(lot.grain for lot in lots), 0, 0, 0], bound=1.0, kind=EXACTLY)]
    fine = [lot.grain * number for lot, number in zip(lots, numbers, strict=True)]
    rows.append(Row(name="finer", coefficients=[*fine, 0, -1, 0], bound=wanted + leeway))
    rows.append(Row(name="coarser", coefficients=[*(-part for part in fine), 0, -1, 0], bound=leeway - wanted))
    gradings = [fineness.shares(lot.retained) for lot in lots]
    for sieve in fineness.SIEVES:
        held = [lot.grain * shares[sieve] for lot, shares in zip(lots, gradings, strict=True)]
        if any(held):
            rows.append(Row(name=sieve, coefficients=[*held, 0, 0, -1], bound=0.0))
    if make_kg is not None:
        rows.append(Row(name="mass", coefficients=[*([1.0] * len(lots)), -1, 0, 0], bound=0.0, kind=EXACTLY))
        for at, lot in enumerate(lots):
            if lot.kg < make_kg:
                own = [*blank[:at], 1.0, *blank[at + 1 :]]
                rows.append(Row(name=f"lot {at}", coefficients=[*own, -lot.kg / make_kg, 0, 0], bound=0.0))
    found = solve(rows, [[*blank, 0, 1, 0], [*blank, 0, 0, 1]]).unknowns[: len(lots)]
    most = max(found)
    return [part if part > NEAR * NEAR * most else 0.0 for part in found]


def _why(numbers: Sequence[float], number: float, wanted: float, leeway: float) -> tuple[str, tuple[int, ...]]:
    """Return why the blend is no nearer, and which lots there is too little of; nothing where it is as near as was asked.

    If stock is the reason, all lots on the target's side of the number are used up: any of them left would bring it nearer.
    """
    if abs(number - wanted) <= leeway + NEAR * wanted:
        return "", ()
    if number < wanted:
        finer = tuple(at for at, own in enumerate(numbers) if own > number)
        return (COARSER, ()) if max(numbers) < wanted - leeway else (STOCK, finer)
    coarser = tuple(at for at, own in enumerate(numbers) if own < number)
    return (FINER, ()) if min(numbers) > wanted + leeway else (STOCK, coarser)
