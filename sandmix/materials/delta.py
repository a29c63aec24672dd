"""A change of a sand: signed masses, and signed variances of what is uncertain in it. The book of a heap adds them up."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from sandmix.materials.sand import PARTS, Masses

DRY = "dry_kg"
UNCERTAIN = (DRY, "water_kg", "live_clay_kg", "dead_clay_kg", "other_fines_kg")
"""What a change has variances of: the dry mass, the water, and how much of the dry mass is clay and fines; taken as independent."""
LARGEST = 1e9
"""Above this a stored figure is no mass of a heap."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Delta(Masses):
    """Masses in kg and variances in kg² by part, each above or below zero; the sum of several changes is one too.

    >>> Delta(water_kg=0.5).plus(Delta(water_kg=-0.2, variances={"water_kg": 0.01})).to_dict()
    {'change': {'water_kg': 0.3}, 'variance': {'water_kg': 0.01}}
    """

    variances: Mapping[str, float] = field(default_factory=dict)

    @classmethod
    def of(cls, parts: Mapping[str, float], variances: Mapping[str, float] | None = None) -> Delta:
        """Return the change of these masses and variances by part."""
        return cls(variances=variances or {}, **parts)

    def variance(self, part: str) -> float:
        """Return the variance of *part*, in kg²; 0 where none is known."""
        return self.variances.get(part, 0.0)

    def plus(self, other: Delta) -> Delta:
        """Return both changes together."""
        return Delta.of(
            added(self.by_part(), other.by_part(), PARTS), added(self.variances, other.variances, UNCERTAIN)
        )

    def reversed(self) -> Delta:
        """Return the change that takes this one back."""
        return Delta.of(
            {part: -kg for part, kg in self.by_part().items()},
            {part: -square for part, square in self.variances.items()},
        )

    def to_dict(self) -> dict[str, Any]:
        """Return the change as an event stores it, without what is zero."""
        return {"change": not_zero(self.by_part()), "variance": not_zero(self.variances)}

    @classmethod
    def from_dict(cls, stored: Mapping[str, Any]) -> Delta:
        """Return the change that an event stores; raises KeyError, TypeError, ValueError or OverflowError where it is none."""
        return cls.of(figures_of(stored.get("change", {}), PARTS), figures_of(stored.get("variance", {}), UNCERTAIN))


def added(one: Mapping[str, float], other: Mapping[str, float], names: Iterable[str]) -> dict[str, float]:
    """Return the sum of two sets of figures by the *names* of both."""
    return {name: one.get(name, 0.0) + other.get(name, 0.0) for name in names}


def not_zero(figures: Mapping[str, float]) -> dict[str, float]:
    """Return the figures that are not zero."""
    return {name: figure for name, figure in figures.items() if figure}


def figures_of(stored: Mapping[str, Any], names: Collection[str]) -> dict[str, float]:
    """Return stored figures as numbers; raises KeyError for a name that is not one of *names*, ValueError for what is not a number."""
    figures = {}
    for name, figure in stored.items():
        if name not in names:
            raise KeyError(name)
        if isinstance(figure, bool) or not isinstance(figure, (int, float)) or not abs(figure) <= LARGEST:
            raise ValueError(name)
        figures[name] = float(figure)
    return figures
