"""The loss that was weighed for a cast, as a share of the sand in its mould, also in books that stored it as a share of the heap."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sandmix.book.events import typed
from sandmix.recipes import sand_loss


def weighed_loss(outcome: Mapping[str, Any], words: Mapping[str, Any], heap_kg: float) -> float | None:
    """Return the loss that was weighed for a cast with *words*, as a share of the sand in its mould; None without a weighing.

    A book before version 3 has it as a share of the heap, which held *heap_kg* before the cast.
    """
    if "mould_loss_share" in outcome:
        return float(outcome["mould_loss_share"])
    metal, flask = typed("metal_kg", words), typed("flask_sand_kg", words)
    if "loss_share" not in outcome or metal is None:
        return None
    mould_kg = sand_loss.sand_in_mould(metal[0], heap_kg, flask and flask[0]).kg
    return min(1.0, outcome["loss_share"] * heap_kg / mould_kg) if mould_kg > 0 else None
