"""Which words have a picture for each of their choices, and the pictures themselves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import draw_apparatus
import draw_lines
import draw_symptoms
from draw_tag import Markup

DRAWERS = {"test": draw_apparatus.DRAWN, "symptoms": draw_symptoms.DRAWN}
CHECKED = {
    "The sand": ("clean_squeeze", "mulled_better", "mulled_same", "sand_warm", "sand_cool"),
    "The mould": (
        "no_vents", "vented", "soft_mould", "firm_mould", "hard_mould", "poor_pattern", "good_pattern", "cope_loose", "cope_held",
        "closed_hard", "closed_clean", "pins_loose", "pins_tight", "opened_soon", "opened_cold",
    ),
    "The metal": (
        "sample_pores", "sample_sound", "charge_dirty", "charge_clean", "melted_long", "melted_short", "not_skimmed", "skimmed",
    ),
    "The casting": (
        "not_fed", "fed", "cut_rough", "cut_round", "cut_sound", "too_light", "weight_right", "too_heavy", "gate_washed", "gate_sharp",
        "break_films", "break_coarse", "break_pores", "break_even", "tear_dark", "tear_bright", "corners_sharp", "corners_round",
        "joint_true", "wall_unclear", "hole_elsewhere",
    ),
}  # fmt: skip
"""The results of checks, by what is looked at."""
PLACES = {"symptoms": draw_symptoms.PLACES, "found": CHECKED}


class NotDrawn(Exception):
    """A choice has no picture, or belongs to no group: the build stops."""


def has(word: str) -> bool:
    """Whether the choices of a word are shown as tiles with pictures."""
    return word in DRAWERS


def keys(word: str) -> list[str]:
    """The choices that have a picture."""
    return list(DRAWERS[word])


def of(word: str, key: str, title: str = "") -> Markup:
    """The picture of one choice; with a title if no words next to it say what it is."""
    try:
        return draw_lines.picture(DRAWERS[word][key], title=title)
    except KeyError:
        raise NotDrawn(f"{word}: {key} has no picture") from None


def groups(word: Mapping[str, Any]) -> list[tuple[str, list[Mapping[str, Any]]]]:
    """The choices of a word, grouped by where each is seen; a single group without a name for other words."""
    places = PLACES.get(word["name"])
    if not places:
        return [("", list(word["choices"]))]
    choices = {choice["value"]: choice for choice in word["choices"]}
    placed = [key for keys in places.values() for key in keys]
    if sorted(placed) != sorted(choices):
        raise NotDrawn(f"{word['name']}: the groups hold {sorted(placed)}, but the choices are {sorted(choices)}")
    return [(place, [choices[key] for key in keys]) for place, keys in places.items()]
