"""Which figure counts where several are known for one word, and where it is from.

The order is: own figure, then newer measurement, then carried figure, then default. The layers are given in this order.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

YOURS, ASSUMED = "yours", "assumed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """Figures of one origin, by word. The origin is a short text such as “from the heap, tested 2 days ago”."""

    origin: str
    figures: Mapping[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """The figure that counts for one word, and its origin."""

    given: object
    origin: str


def merged(layers: Iterable[Layer]) -> dict[str, Known]:
    """Return the figure of each word from the first layer that has it; an empty text or None is no figure.

    >>> merged([Layer(origin=YOURS, figures={"heap_kg": "25 kg"}), Layer(origin="from the heap", figures={"heap_kg": "30 kg"})])
    {'heap_kg': Known(given='25 kg', origin='yours')}
    """
    found: dict[str, Known] = {}
    for layer in layers:
        for word, given in layer.figures.items():
            if word not in found and not is_empty(given):
                found[word] = Known(given=given, origin=layer.origin)
    return found


def is_empty(given: object) -> bool:
    """Return whether a box holds no figure: nothing, an empty text, or a unit without a number."""
    if isinstance(given, Mapping) and "value" in given:
        given = given["value"]
    return given is None or (isinstance(given, str) and not given.strip())
