"""How numbers, lists and given values are written in a sentence."""

from __future__ import annotations

import math
from collections.abc import Sequence

from sandmix.language.errors import printable


def places(digits: int, half_width: float) -> int:
    """Return how many decimals of a number mean something, at most *digits*; negative for tens and hundreds.

    The last place is that of the first figure of *half_width*, or one finer where that figure is 1.

    >>> places(2, 0.087), places(2, 0.14), places(2, 3.0), places(0, 42.0), places(2, 0.0)
    (2, 2, 0, -1, 2)
    """
    if not half_width > 0 or not math.isfinite(half_width):
        return max(digits, 0)
    power = math.floor(math.log10(half_width))
    return min(max(digits, 0), -power + (half_width < 2 * 10.0**power))


def not_to_nothing(value: float, digits: int) -> int:
    """Return *digits*, or more where rounding to tens or hundreds would turn *value* into 0."""
    while digits < 0 and value and round(value, digits) == 0:
        digits += 1
    return digits


def shown_given(given: object) -> str:
    """Return what was given as text, short enough for a message."""
    text = (
        given
        if isinstance(given, str)
        else plain(given)
        if isinstance(given, float) and math.isfinite(given)
        else _safe_repr(given)
    )
    shown = printable(text[:200])
    return shown if len(shown) <= 40 else shown[:39] + "…"


def _safe_repr(given: object) -> str:
    try:
        return (
            {True: "yes", False: "no", None: "nothing"}[given]
            if given is None or isinstance(given, bool)
            else repr(given)[:200]
        )
    except (ValueError, RecursionError):
        return "a very large value"


def plain(value: float) -> str:
    """Return a number as a person writes it: at most six figures, without an exponent below ten million."""
    if value == 0 or 1e-4 <= abs(value) < 1e7:
        return true_minus(f"{value:.6g}" if abs(value) < 1e6 else f"{value:.0f}")
    return true_minus(f"{value:.3g}")


def true_minus(number: str) -> str:
    """Return a number with − in place of a leading hyphen."""
    return f"−{number[1:]}" if number.startswith("-") else number


def to_figures(value: float, figures: int) -> str:
    """Return a number to that many figures as a person writes it, never with an exponent.

    >>> to_figures(183.4, 2), to_figures(0.02393, 2), to_figures(0.0, 2)
    ('180', '0.024', '0')
    """
    return true_minus(f"{float(f'{value:.{figures}g}'):.10f}".rstrip("0").rstrip("."))


def short(value: float) -> float:
    """Return the value itself if it has at most five figures, else rounded to four: a conversion can give endless figures."""
    return value if value == float(f"{value:.5g}") else float(f"{value:.4g}")


def amount_of(value: float, unit: str) -> str:
    """Return a number and its unit as a person writes them."""
    return with_unit(plain(value), unit)


def number_to(value: float, digits: int) -> str:
    """Return a number to that many decimals, negative for tens and hundreds; never a zero with a minus sign."""
    rounded = round(value, digits) + 0.0
    return true_minus(f"{rounded:.{max(digits, 0)}f}")


def up_to(value: float, digits: int) -> float:
    """Return *value*, or the next number above it that has that many decimals; float noise is no reason to go up.

    >>> up_to(54.7, -1), up_to(13.2, 0), up_to(14.0 + 1e-12, 0)
    (60.0, 14.0, 14.0)
    """
    scale = 10.0**digits
    return math.ceil(value * scale - 1e-6) / scale


def with_unit(number: str, unit: str) -> str:
    """Return a number and its unit, or the number alone where there is none."""
    return f"{number} {unit}" if unit else number


def with_half_width(value: float, half_width: float) -> str:
    """Return a number with its ± as a person types them: the ± to two figures, and the number to the last place of it.

    >>> with_half_width(99.208, 1.102), with_half_width(1292.0, 18.0), with_half_width(0.45, 0.00234)
    ('99.2 ± 1.1', '1292 ± 18', '0.4500 ± 0.0023')
    """
    return f"{number_to(value, max(0, 1 - math.floor(math.log10(half_width))))} ± {to_figures(half_width, 2)}"


def in_unit(unit: str) -> str:
    """Return the unit as the end of a sentence, or nothing."""
    return f" in {unit}" if unit else ""


def sides_typed(sizes_mm: Sequence[float], figures: int = 6) -> str:
    """Return sizes as a person types them.

    >>> sides_typed([160.0, 90.0, 12.5])
    '160 x 90 x 12.5 mm'
    """
    return f"{' x '.join(f'{size:.{figures}g}' for size in sizes_mm)} mm"


def list_of(names: Sequence[str], last: str = "or") -> str:
    """Return the names as a list in a sentence, with the word *last* before the last one.

    >>> list_of(["dry", "wet"]), list_of(["sand", "clay", "water"], "and")
    ('dry or wet', 'sand, clay and water')
    """
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {last} {names[-1]}"


def noun(one: str, count: float) -> str:
    """A noun as it follows a number: ``cast`` after 1, ``casts`` after any other.

    >>> noun("cast", 1), noun("cast", 12)
    ('cast', 'casts')
    """
    return one if count == 1 else f"{one}s"


def lowered(text: str) -> str:
    """Return a sentence or label for use inside another sentence."""
    return text[:1].lower() + text[1:]


def raised(text: str) -> str:
    """Return a text for use at the beginning of a sentence."""
    return text[:1].upper() + text[1:]
