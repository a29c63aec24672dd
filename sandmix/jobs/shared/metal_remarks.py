"""What the jobs with molten metal say about figures of the metal that are not known, or are from memory."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.materials.metals import LIQUID_DENSITY_SHARE, METALS, thermal


def borrowed_figures(metal: str, figures: tuple[str, ...] = ()) -> Iterable[str]:
    """Yield which heat figures of *metal* are not known and from which metal they are taken; only those named, where any are."""
    taken: dict[str, list[str]] = {}
    for figure, similar in thermal(metal).borrowed:
        if not figures or figure in figures:
            taken.setdefault(similar, []).append(figure)
    for similar, names in taken.items():
        yield f"Not known for {METALS[metal].label}, so taken from {METALS[similar].label}: {', '.join(names)}."


def unsourced_figures(metal: str) -> Iterable[str]:
    """Yield which heat figures of *metal* are from memory."""
    if METALS[metal].from_memory:
        yield f"Heat figures of {METALS[metal].label} from memory, unsourced: {', '.join(METALS[metal].from_memory)}."


def liquid_density(metal: str) -> str:
    """Return what the density of the liquid *metal* is taken as, and how sure that is."""
    density = thermal(metal).liquid_kg_m3
    return (
        f"Density of the liquid metal: {density:g} kg/m³ ± {100 * LIQUID_DENSITY_SHARE:g} %, from memory, unsourced. The range "
        "is our own choice."
    )
