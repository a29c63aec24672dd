"""Uncertainty propagation: the likely range of an answer (95 %), from those of its inputs. Knows no job.

Each input is moved to both ends of its likely range, one at a time, and the answer is computed again. The changes of the answer, upwards and
downwards, are added as a root of squares. Inputs are taken as independent. Holds for: answers that bend little over a band (the tests compare
it with random draws). Where an answer bends sharply, as at a mass that cannot be negative, each side keeps its own width.
Source: the usual law of propagation, with the two sides kept apart.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field

from sandmix.language.errors import SandmixError
from sandmix.maths.statistics import without_noise

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Propagated:
    """The 95 % bands of an answer, what each uncertain input alone moves each figure by (down, up), and which ends are open.

    ``open_ends`` names, for a figure, the inputs at whose far end there is no answer: its band goes as far as there is one.
    """

    bands: Mapping[str, Band] = field(default_factory=dict)
    effects: Mapping[str, Mapping[Key, Band]] = field(default_factory=dict)
    open_ends: Mapping[str, Mapping[Key, float]] = field(default_factory=dict)

    def shares(self, name: str) -> list[tuple[Key, float, Band]]:
        """Return the inputs that make the figure *name* uncertain, each with its share of the variance and its effect, largest first.

        The variance of an uneven effect is the mean of both sides squared. The shares add up to 1.

        >>> moved = propagate(lambda x: {"y": x.get("a", 1.0) + x.get("b", 1.0)}, {"a": (0.7, 1.3), "b": (0.6, 1.4)}, {"y": 2.0})
        >>> [(key, round(share, 2)) for key, share, _ in moved.shares("y")]
        [('b', 0.64), ('a', 0.36)]
        """
        effects = self.effects.get(name, {})
        sizes = {key: math.hypot(*effect) for key, effect in effects.items() if any(effect)}
        whole = math.hypot(*sizes.values())
        return [(key, (sizes[key] / whole) ** 2, effects[key]) for key in sorted(sizes, key=lambda key: -sizes[key])]


def propagate(
    ask: Callable[[Mapping[Key, float | str]], Figures],
    bands: Mapping[Key, Ends],
    answer: Figures,
    given: Mapping[Key, float] | None = None,
    turns: Mapping[Key, float] | None = None,
    by_factor: Collection[str] = (),
) -> Propagated:
    """Return the likely range of each number in *answer*, and what each input alone moves it by.

    *ask* gives the figures with some words moved to the values passed to it; it may raise ArithmeticError or SandmixError where there are none.
    *bands* holds the band of each uncertain word, or of a word of a row, or the two choices that bound it. *answer* holds the figures when
    nothing is moved, at the values *given*. Only plain numbers that are not whole have a band. Where a figure has no value at an end, the band
    goes to the farthest point that has one, found by bisection between the value given and the end. *turns* are values of a word at which
    figures turn around, as at a target: one inside a band is looked at like its ends, so that a wider band never gives a narrower range.
    *by_factor* names figures above 0 whose changes multiply, such as a time that is known to a factor: their logarithms add as a root of squares.

    >>> propagate(lambda moved: {"y": 2 * moved.get("x", 1.0)}, {"x": (0.9, 1.3)}, {"y": 2.0}).bands
    {'y': (1.8, 2.6)}
    >>> propagate(lambda moved: {"y": 2 * moved.get("x", 1.0)}, {"x": (0.5, 2.0)}, {"y": 2.0}, by_factor={"y"}).bands
    {'y': (1.0, 4.0)}
    """
    numbers = {name: value for name, value in answer.items() if isinstance(value, float)}
    effects: dict[str, dict[Key, Band]] = {name: {} for name in numbers}
    open_ends: dict[str, dict[Key, float]] = {}
    for word, ends in bands.items():
        lowest, highest = dict(numbers), dict(numbers)
        for end in (*ends, *_inside(ends, (turns or {}).get(word))):
            moved = _asked(ask, word, end)
            missing = [name for name in numbers if not isinstance(moved.get(name), float)]
            inner = (given or {}).get(word)
            if missing and inner is not None and isinstance(end, (int, float)):
                farthest, there = _farthest(ask, word, inner, end, missing)
                moved |= {name: there[name] for name in missing if name in there}
                for name in missing if abs(farthest - inner) > abs(end - inner) * LEAST_WAY else ():
                    open_ends.setdefault(name, {})[word] = farthest
            for name in numbers:
                value = moved.get(name)
                if not isinstance(value, float):
                    continue
                if value < lowest[name]:
                    lowest[name] = value
                elif value > highest[name]:
                    highest[name] = value
        for name, value in numbers.items():
            effects[name][word] = (
                without_noise(value - lowest[name], value), without_noise(highest[name] - value, value),
            )  # fmt: skip
    return Propagated(
        bands={
            name: (_multiplied if name in by_factor else _added)(value, tuple(effects[name].values()))
            for name, value in numbers.items()
        },
        effects=effects,
        open_ends=open_ends,
    )


def _added(value: float, effects: Sequence[Band]) -> Band:
    """The band of a value whose changes, down and up, add up."""
    below, above = (math.hypot(*side) for side in zip(*effects, strict=True)) if effects else (0.0, 0.0)
    return value - below, value + above


def _multiplied(value: float, effects: Sequence[Band]) -> Band:
    """The band of a value whose changes multiply; they add up where one of them leaves nothing."""
    if any(below >= value for below, _ in effects):
        return _added(value, effects)
    less = math.hypot(*(math.log(value / (value - below)) for below, _ in effects))
    more = math.hypot(*(math.log((value + above) / value) for _, above in effects))
    return value * math.exp(-less), value * math.exp(more)


def _inside(ends: Ends, turn: float | None) -> tuple[float, ...]:
    """The turn, if it is inside a band of numbers."""
    if turn is None or isinstance(ends[0], str) or isinstance(ends[1], str):
        return ()
    return (turn,) if ends[0] < turn < ends[1] else ()


LEAST_WAY = 1e-6
"""A figure that is there at the value given alone has no open range: it answers one case only."""
HALVINGS = 50
"""So many that the open end no longer depends on how wide the band is."""


def _asked(ask: Callable[[Mapping[Key, float | str]], Figures], word: Key, value: float | str) -> dict[str, object]:
    """The figures with one word moved; none where the arithmetic has no answer there."""
    try:
        return dict(ask({word: value}))
    except (ArithmeticError, SandmixError):
        return {}


def _farthest(
    ask: Callable[[Mapping[Key, float | str]], Figures], word: Key, inner: float, outer: float, names: Sequence[str]
) -> tuple[float, dict[str, object]]:
    """How far the word can be moved from *inner* towards *outer* with all *names* answered, and the figures there."""
    farthest: tuple[float, dict[str, object]] = (inner, {})
    for _ in range(HALVINGS):
        middle = (inner + outer) / 2
        figures = _asked(ask, word, middle)
        if all(isinstance(figures.get(name), float) for name in names):
            inner, farthest = middle, (middle, figures)
        else:
            outer = middle
    return farthest


def rescaled(rough: Propagated, about: Figures, fine: Figures) -> Propagated:
    """Return what was propagated about a *rough* answer, moved to the *fine* one: scaled in proportion, or shifted where one of the two is 0.

    >>> rescaled(Propagated(bands={"y": (1.5, 3.0)}), {"y": 2.0}, {"y": 4.0}).bands
    {'y': (3.0, 6.0)}
    """
    bands, effects = {}, {}
    for name, (low, high) in rough.bands.items():
        here, there = fine.get(name), about.get(name)
        if not isinstance(here, float) or not isinstance(there, float):
            continue
        scale = here / there if here and there else 1.0
        bands[name] = (low * scale, high * scale) if here and there else (here + low - there, here + high - there)
        effects[name] = {
            key: (below * scale, above * scale) for key, (below, above) in rough.effects.get(name, {}).items()
        }
    return Propagated(bands=bands, effects=effects, open_ends=rough.open_ends)
