"""How a person makes an input surer: what to do about it, and how much of its ± is then left. And the causes that are no word.

A quantity that was taken for granted needs no row: measuring it is the step, and its two measuring errors say what that brings.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

GOOD_SAMPLE_G = 500.0
BETWEEN_HANDFULS = "between_handfuls"

CAUSES = {
    BETWEEN_HANDFULS: "Scatter between handfuls",
    "deviation": "Scatter of the test itself",
    "liquid_kg_m3": "Density of the liquid metal",
    "latent_j_kg": "Latent heat of the alloy",
    "liquid_j_kgk": "Specific heat of the liquid alloy",
    "tension_n_m": "Surface tension of the liquid metal",
    "rule_share": "The rule of thumb for the time",
    "gap_m2k_w": "Contact between metal and sand",
    "solid_share": "How solid the metal is when it stops",
    "wall_share": "Heat lost through the crucible's wall",
}
"""The causes that are no word, by name."""

Values = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """What to do about some inputs: from the form's values, the sentence and the share of their ± that is left, or None where it is done already."""

    inputs: tuple[str, ...]
    offered: Callable[[Values], tuple[str, float] | None]


def _larger_sample(values: Values) -> tuple[str, float] | None:
    sample = values.get("sample_wet_g")
    if not sample or sample >= GOOD_SAMPLE_G:
        return None
    return f"Dry {GOOD_SAMPLE_G:g} g instead of {sample:g} g.", sample / GOOD_SAMPLE_G


def _two_tests(_: Values) -> tuple[str, float]:
    return "Mix handfuls from five places, test twice and take the mean.", 1 / math.sqrt(2)


def _oven_test(values: Values) -> tuple[str, float] | None:
    """An oven test instead of a word: ± 0.35 points where a word that is borne out has about ± 0.7."""
    return (f"Dry {GOOD_SAMPLE_G:g} g of the same sand.", 0.5) if values.get("feel") else None


STEPS = (
    Step(inputs=("feel",), offered=_oven_test),
    Step(inputs=("sample_wet_g", "sample_dry_g"), offered=_larger_sample),
    Step(inputs=(BETWEEN_HANDFULS,), offered=_two_tests),
)
