"""The gating ratio: the areas of sprue base, runner and gates to each other, and which ratio is usual for a metal.

*Unpressurised*: the sprue's base is the narrowest place. The metal slows down in runner and gates, which suits metals whose skin must not be
broken. *Pressurised*: the gates are the narrowest place. All channels run full and hold back slag, but the metal jets into the mould.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from sandmix.materials.metals import ALUMINIUM, COPPER

_PARTS = 3
_LARGEST = 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Ratio:
    """The areas of sprue base, runner and gates, to each other; those of all runners and of all gates together."""

    sprue: float
    runner: float
    gates: float

    @property
    def choke(self) -> float:
        """The narrowest of the three."""
        return min(self.sprue, self.runner, self.gates)

    @property
    def is_pressurised(self) -> bool:
        """Whether the gates are narrower than the sprue's base."""
        return self.gates < self.sprue

    @property
    def text(self) -> str:
        """The ratio as a person writes it."""
        return f"{self.sprue:g}:{self.runner:g}:{self.gates:g}"


ONE = Ratio(sprue=1.0, runner=1.0, gates=1.0)
"""All as wide as the gates: what counts where no ratio is given."""


def read(text: str) -> Ratio | None:
    """Return the ratio that a text such as 1:4:4 means; None where it is no ratio of three numbers above 0, each at most 100.

    >>> read("1 : 4 : 4").text, read("1:2"), read("1:0:4")
    ('1:4:4', None, None)
    """
    parts = text.replace(",", ".").split(":")
    try:
        numbers = [float(part) for part in parts]
    except ValueError:
        return None
    if len(numbers) != _PARTS or not all(
        math.isfinite(number) and 1 / _LARGEST <= number <= _LARGEST for number in numbers
    ):
        return None
    return Ratio(sprue=numbers[0], runner=numbers[1], gates=numbers[2])


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """The usual ratio of a kind of metal, why, and the source."""

    ratio: Ratio
    why: str
    source: str


_SLOW = "its skin of oxide must not be broken and folded in, so runner and gates are wide and slow the metal down"
_LIGHT = Usual(ratio=Ratio(sprue=1.0, runner=4.0, gates=4.0), why=_SLOW, source="gating_ratio_lexicon")
_COPPER = Usual(ratio=Ratio(sprue=1.0, runner=2.0, gates=4.0), why=_SLOW, source="gating_ratio_lexicon")
_ZINC = Usual(
    ratio=Ratio(sprue=1.0, runner=4.0, gates=4.0),
    why="no ratio for zinc was found, and its aluminium gives it the same skin, so that of aluminium is taken",
    source="own",
)
_IRON = Usual(
    ratio=Ratio(sprue=3.0, runner=2.0, gates=1.0),
    why="its slag floats and stays behind in a runner that runs full, so the gates are the narrowest place",
    source="pressurised_lexicon",
)
USUAL = {
    **dict.fromkeys(ALUMINIUM, _LIGHT),
    **dict.fromkeys(COPPER, _COPPER),
    "zinc_al12": _ZINC,
    "grey_iron": _IRON,
}
"""The usual ratio by metal. Sources: gating_ratio_lexicon, pressurised_lexicon, own."""
