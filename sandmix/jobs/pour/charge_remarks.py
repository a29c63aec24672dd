"""What *pour* says of the scrap that is melted, and of the metal that is left over."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, cast

from sandmix.asking.job import Computed, ToDo, WayOut
from sandmix.jobs.pour.figures import name_of
from sandmix.jobs.pour.form import ResolvedPour
from sandmix.language.wording import list_of
from sandmix.materials.metals import METALS

_OFTEN = 2
"""Scrap that was melted so often before brings more oxide and gas than it is worth without fresh metal (own choice)."""


def to_do(computed: Computed[ResolvedPour]) -> Iterable[ToDo]:
    """How much of each lot to weigh, what is missing, and where the rest of the metal goes."""
    if computed.has("scrap_take"):
        take = cast("Sequence[Mapping[str, Any]]", computed.figures["scrap_take"])
        yield from (ToDo(text=f"Weigh: {row['name']}", amount=f"{row['kg']:.2f} kg") for row in take)
        if computed.is_above_zero("scrap_short_kg"):
            yield ToDo(text="Find more scrap of the same kind", amount=computed.text("scrap_short_kg"))


def ingot_mould(computed: Computed[ResolvedPour]) -> str:
    """Return what must be ready for the metal that is left over."""
    if not computed.is_above_zero("ingot_cm3"):
        return "A warm, dry ingot mould is ready for the metal that is left over."
    return f"A warm, dry ingot mould is ready for the metal that is left over: at least {computed.text('ingot_cm3')}."


def remarks(computed: Computed[ResolvedPour]) -> Iterable[str]:
    """Say which scrap is missing, which does not belong in this metal, and which was melted too often."""
    form = computed.form
    lots = form.scrap_lots or ()
    if computed.is_above_zero("scrap_short_kg"):
        yield WayOut(
            f"The scrap on hand is not enough: {computed.text('scrap_short_kg')} is missing. Find more, or pour fewer castings."
        )
    if lots:
        yield from _on_alloys(form.metal, lots)
        yield from _on_remelts(lots)


def _on_alloys(metal: str, lots: Sequence[Mapping[str, object]]) -> Iterable[str]:
    """Alloys that change the melt. The form refuses other metals."""
    others = sorted({METALS[alloy].label for row in lots if (alloy := str(row.get("alloy") or metal)) != metal})
    if others:
        yield (
            f"The charge also holds {list_of(others, 'and')}, so the melt is a mixture of alloys: its freezing range, shrinkage and strength lie "
            "somewhere between. The figures here are those of the chosen metal."
        )


def _on_remelts(lots: Sequence[Mapping[str, object]]) -> Iterable[str]:
    """Each melting adds oxide and gas."""
    often = [
        name_of(row) for row in lots if isinstance(times := row.get("remelts_count"), (int, float)) and times >= _OFTEN
    ]
    if often:
        yield (
            f"{list_of([f'“{name}”' for name in often], 'and')} was melted before, {_OFTEN} times or more. Each melting brings more oxide skins and, "
            "where anything is damp, more hydrogen (common practice, no source). Mix it with fresh metal and skim well."
        )
