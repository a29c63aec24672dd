"""Amounts inside sentences, in the units that a question wishes for.

The figures of an answer are converted from their exact values (`shown_units`). What is left are amounts that a sentence has as fixed text
or writes by itself, such as “a cope of less than 80 mm”: they are converted from the digits that are printed.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from functools import lru_cache

from sandmix.language.shown_units import Wish, smaller
from sandmix.language.units import convert
from sandmix.language.wording import number_to

_DIGITS = r"\d+(?:\u2009\d{3})*(?:\.\d+)?"
_FIRST = rf"(?<![\w.,/−–-])[−+]?{_DIGITS}"
_LINK = r"(?: (?:to|and|or|or at|×|x|by|±) | ?[×–] ?)"
_NO_UNIT_AFTER = r"(?![\w/²³·°])(?!(?: of [a-z ]{1,24})? per \d*\s?\w)"
"""What shows that a unit goes on, as in kg/m³, or that it is one of two, as in “0.23 kg of sand per kg of casting”."""
_FIGURE = re.compile(_DIGITS)
_QUOTED = re.compile(r"(“[^”]*”)")
_LEAST_FIGURES, _MOST_FIGURES = 2, 5
_STAYS_AFTER = ("per ", "loses ", "write ")
"""What stands before an amount that stays: a basis such as “per 100 g”, a difference of temperatures, and what a box takes as text."""
_NO_SENTENCES = frozenset(
    {
        "result",
        "doubt",
        "sources",
        "working",
        "charts",
        "drawings",
        "inputs",
        "words",
        "carried",
        "kept",
        "word",
        "given",
    }
)
"""The parts of an answer that hold figures, inputs for other questions, formulas or drawings, and no sentences."""


def sentences_in(answer: Mapping[str, object], wish: Wish) -> dict[str, object]:
    """Return an answer with the amounts in all of its sentences in the units of *wish*; without one it stays as it is."""
    if not wish:
        return dict(answer)
    return {name: part if name in _NO_SENTENCES else _walk(part, wish, name) for name, part in answer.items()}


def _walk(part: object, wish: Wish, name: str = "") -> object:
    if isinstance(part, str):
        return in_wished_units(part, wish)
    if isinstance(part, Mapping):
        return sentences_in(part, wish)
    if isinstance(part, (list, tuple)):
        return type(part)(_figure_row(each, wish) if name == "shown" else _walk(each, wish) for each in part)
    return part


def _figure_row(row: object, wish: Wish) -> object:
    """A figure as it is shown: a temperature may be a difference, so it keeps its °C where its word does."""
    assert isinstance(row, Mapping)
    plain = {own: unit for own, unit in wish.items() if own != "°C"}
    return sentences_in(row, wish) | {part: in_wished_units(str(row[part]), plain) for part in ("text", "range")}


def in_wished_units(text: str, wish: Wish) -> str:
    """Return a sentence with its amounts in the units of *wish*, to about as many figures as they had, at least two and at most five.

    What stands in quotation marks is a name or was typed, so it stays.

    >>> in_wished_units("A cope of less than 80 mm, 10 to 15 kg.", {"mm": "in", "kg": "lb"})
    'A cope of less than 3.1 in, 22 to 33 lb.'
    """
    if not wish:
        return text
    amounts = _amounts(tuple(wish))
    parts = _QUOTED.split(text)
    return "".join(
        part if part.startswith("“") else amounts.sub(lambda found: _converted(found, wish), part) for part in parts
    )


@lru_cache(maxsize=16)
def _amounts(units: tuple[str, ...]) -> re.Pattern[str]:
    """The pattern of one or several figures with one of these units behind them."""
    names = "|".join(sorted(map(re.escape, units), key=len, reverse=True))
    return re.compile(rf"(?P<figures>{_FIRST}(?:{_LINK}[−+]?{_DIGITS})*)[ \u00a0](?P<unit>{names}){_NO_UNIT_AFTER}")


def _converted(found: re.Match[str], wish: Wish) -> str:
    if found.string[: found.start()].endswith(_STAYS_AFTER):
        return found.group()
    own, figures = found["unit"], found["figures"]
    numbers = [_value(each) for each in _FIGURE.findall(figures)]
    finest = min(10.0 ** -len(each.partition(".")[2]) for each in _FIGURE.findall(figures))
    unit = smaller(wish[own], convert(max(numbers), own, wish[own]))
    zero = convert(0.0, own, unit)
    scale = convert(1.0, own, unit) - zero
    texts = _texts(figures, scale, zero, round(-math.log10(finest * scale)))
    return f"{''.join(texts)} {unit}"


def _texts(figures: str, scale: float, zero: float, decimals: int) -> Iterator[str]:
    """The figures with what stands between them; a ± is a width, so it has no zero point."""
    at = 0
    for each in _FIGURE.finditer(figures):
        between = figures[at : each.start()]
        value = _value(each.group())
        is_below_zero = between.endswith("−")
        shown = (-value if is_below_zero else value) * scale + (0.0 if "±" in between else zero)
        sign = between.removesuffix("−") if is_below_zero else between
        yield sign + number_to(
            shown, min(max(decimals, _decimals(shown, _LEAST_FIGURES)), _decimals(shown, _MOST_FIGURES))
        )
        at = each.end()


def _decimals(value: float, figures: int) -> int:
    """How many decimals a value has with so many figures, negative for tens and hundreds."""
    return figures - 1 - math.floor(math.log10(abs(value))) if value else 0


def _value(text: str) -> float:
    return float(text.replace("\u2009", ""))
