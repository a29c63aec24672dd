"""How far an answer may be off, from how far its words may be off. Knows no job.

Each word is moved to the two ends of its 95 % band, one at a time, and the answer asked again; what the answer moves by, up and down,
is added as a root of squares. Words are taken as independent. Holds for: answers that bend little over a band (tested against
random draws); where an answer bends sharply, as at a mass that can't be negative, each side keeps its own width.
Source: the usual law of propagation, with the two sides kept apart.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

Band = tuple[float, float]
Ends = tuple[float, float] | tuple[str, str]
Part = tuple[str, int, str]
"""One word of a row: the word that holds the rows, which row, and the word of the row."""
Key = str | Part
Figures = Mapping[str, object]


def half_width(ends: Ends) -> float:
    """Return half the width of a band of numbers."""
    low, high = _numbers(ends)
    return (high - low) / 2


def wider_side(ends: Ends, value: float) -> float:
    """Return how far the farther end of a band of numbers is from *value*, a number inside it."""
    low, high = _numbers(ends)
    return max(high - value, value - low)


def _numbers(ends: Ends) -> Band:
    low, high = ends
    assert isinstance(low, (int, float)) and isinstance(high, (int, float)), "a band of choices has no width"
    return low, high


def propagate(
    ask: Callable[[Mapping[Key, float | str]], Figures], bands: Mapping[Key, Ends], answer: Figures
) -> dict[str, Band]:
    """Return the 95 % band of each number in *answer*.

    *ask* gives the figures when some words are moved to the values handed to it; *bands* holds the band of each doubtful word, or word of a row, or
    two choices that bound it; *answer* is what *ask* gives when nothing is moved. Figures that are no plain numbers, and whole numbers, have no band.

    >>> propagate(lambda moved: {"y": 2 * moved.get("x", 1.0)}, {"x": (0.9, 1.3)}, {"y": 2.0})
    {'y': (1.8, 2.6)}
    """
    numbers = {name: value for name, value in answer.items() if isinstance(value, float)}
    below = dict.fromkeys(numbers, 0.0)
    above = dict.fromkeys(numbers, 0.0)
    for word, ends in bands.items():
        lowest, highest = dict(numbers), dict(numbers)
        for end in ends:
            moved = ask({word: end})
            for name in numbers:
                value = moved.get(name)
                if isinstance(value, float):
                    lowest[name] = min(lowest[name], value)
                    highest[name] = max(highest[name], value)
        for name, value in numbers.items():
            below[name] = math.hypot(below[name], value - lowest[name])
            above[name] = math.hypot(above[name], highest[name] - value)
    return {name: (value - below[name], value + above[name]) for name, value in numbers.items()}


def rescaled(bands: Mapping[str, Band], rough: Figures, fine: Figures) -> dict[str, Band]:
    """Return the *bands* of a *rough* answer about the *fine* one: as wide by proportion, or as wide where one of them is 0.

    >>> rescaled({"y": (1.5, 3.0)}, {"y": 2.0}, {"y": 4.0})
    {'y': (3.0, 6.0)}
    """
    moved = {}
    for name, (low, high) in bands.items():
        here, there = fine.get(name), rough.get(name)
        if not isinstance(here, float) or not isinstance(there, float):
            continue
        if here and there:
            moved[name] = (low * here / there, high * here / there)
        else:
            moved[name] = (here + low - there, here + high - there)
    return moved
