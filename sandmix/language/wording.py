"""How numbers, lists and what was given are written in a sentence."""

from __future__ import annotations

import math
from collections.abc import Sequence


def places(digits: int, half_width: float) -> int:
    """Return how many decimals a number deserves: *digits*, less what its doubt drowns; negative for tens and hundreds.

    The last place is that of the doubt's first figure, or one finer where that figure is 1.

    >>> places(2, 0.087), places(2, 0.14), places(2, 3.0), places(0, 42.0), places(2, 0.0)
    (2, 2, 0, -1, 2)
    """
    if not half_width > 0 or not math.isfinite(half_width):
        return max(digits, 0)
    power = math.floor(math.log10(half_width))
    return min(max(digits, 0), -power + (half_width < 2 * 10.0**power))


def not_to_nothing(value: float, digits: int) -> int:
    """Return the decimals, with tens and hundreds kept where rounding them off would leave nothing of *value*."""
    while digits < 0 and value and round(value, digits) == 0:
        digits += 1
    return digits


def shown_given(given: object) -> str:
    """Return what was given, as text, shortened to what a message can hold."""
    text = (
        given
        if isinstance(given, str)
        else plain(given)
        if isinstance(given, float) and math.isfinite(given)
        else _safe_repr(given)
    )
    printable = text.encode("utf-8", "replace").decode("utf-8")
    return printable if len(printable) <= 40 else printable[:39] + "…"


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
    """Return a number as a person writes it: at most six figures, no exponent below ten million."""
    if value == 0 or 1e-4 <= abs(value) < 1e7:
        return f"{value:.6g}" if abs(value) < 1e6 else f"{value:.0f}"
    return f"{value:.3g}"


def to_figures(value: float, figures: int) -> str:
    """Return a number to that many figures as a person writes it, never with an exponent.

    >>> to_figures(183.4, 2), to_figures(0.02393, 2), to_figures(0.0, 2)
    ('180', '0.024', '0')
    """
    return f"{float(f'{value:.{figures}g}'):.10f}".rstrip("0").rstrip(".")


def short(value: float) -> float:
    """Return the value itself where a person would write it so, else to four figures: what came out of a conversion has no end."""
    return value if value == float(f"{value:.5g}") else float(f"{value:.4g}")


def amount_of(value: float, unit: str) -> str:
    """Return a number and its unit as a person writes them."""
    return with_unit(plain(value), unit)


def number_to(value: float, digits: int) -> str:
    """Return a number to so many decimals, negative for tens and hundreds; never a nought with a sign."""
    rounded = round(value, digits) + 0.0
    return f"{rounded:.{max(digits, 0)}f}"


def with_unit(number: str, unit: str) -> str:
    """Return a number and its unit, or the number alone where there is none."""
    return f"{number} {unit}" if unit else number


def in_unit(unit: str) -> str:
    """Return the unit as what stands behind a sentence, or nothing."""
    return f" in {unit}" if unit else ""


def list_of(names: Sequence[str], last: str = "or") -> str:
    """Return the names as a sentence lists what may be chosen, or with another word before the *last* of them.

    >>> list_of(["dry", "wet"]), list_of(["sand", "clay", "water"], "and")
    ('dry or wet', 'sand, clay and water')
    """
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {last} {names[-1]}"


def lowered(text: str) -> str:
    """Return a sentence or a label as it stands inside another sentence."""
    return text[:1].lower() + text[1:]


def raised(text: str) -> str:
    """Return words as the beginning of a sentence."""
    return text[:1].upper() + text[1:]
