"""Uncertainty propagation: the likely range of an answer (95 %), from those of its inputs. Knows no job.

Each input is moved to both ends of its likely range, one at a time, and the answer is computed again. The changes of the answer, upwards and
downwards, are added as a root of squares. Inputs are taken as independent. Holds for: answers that bend little over a band (the tests compare
it with random draws). Where an answer bends sharply, as at a mass that cannot be negative, each side keeps its own width.
Source: the usual law of propagation, with the two sides kept apart.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

Band = tuple[float, float]
Ends = tuple[float, float] | tuple[str, str]
Part = tuple[str, int, str]
"""One word of a row in a table: the word that holds the rows, the row's index, and the row's word."""
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
    """Return the likely range of each number in *answer*.

    *ask* gives the figures with some words moved to the values passed to it. *bands* holds the band of each uncertain word, or of a word of a
    row, or the two choices that bound it. *answer* holds the figures when nothing is moved. Only plain numbers that are not whole have a band.

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
    """Return the *bands* of a *rough* answer, moved to the *fine* one: scaled in proportion, or shifted where one of the two is 0.

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
