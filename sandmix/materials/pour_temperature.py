"""The pouring temperature in every form that has one: what is refused, what is remarked, and what is taken where none is given."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from sandmix.language.errors import Problem
from sandmix.materials.metals import METALS

ASSUMED_C = 25.0
"""Half the width of the band where no temperature is given (own choice)."""


class OfMetal(Protocol):
    """A form with a metal and its pour temperature."""

    @property
    def metal(self) -> str:
        """The metal's key."""

    @property
    def pour_temp_c(self) -> float | None:
        """Its pour temperature, in °C."""

    def wrong(self, name: str, allowed: str, what_to_do: str) -> Problem:
        """The problem of a word."""


def too_cold(form: OfMetal, spare_c: float = 0.0) -> Iterable[Problem]:
    """Yield the problem of a pour temperature more than *spare_c* below that at which the metal is fully liquid."""
    metal = METALS[form.metal]
    if form.pour_temp_c is not None and form.pour_temp_c < metal.liquidus_c - spare_c:
        yield form.wrong(
            "pour_temp_c",
            f"above {metal.liquidus_c - spare_c:g} °C",
            (
                f"{form.pour_temp_c:g} °C is {'far ' if spare_c else ''}below {metal.liquidus_c:g} °C, where {metal.label} is fully liquid. It is "
                f"usually poured at {metal.pour_c[0]:g} to {metal.pour_c[1]:g} °C. Check the metal and the unit."
            ),
        )


def usual(metal: str) -> tuple[float, tuple[float, float]]:
    """Return the usual pour temperature of *metal* and its band, in °C. Source: pour_temperatures."""
    row = METALS[metal]
    return row.pour_temp_c, (max(row.liquidus_c, row.pour_temp_c - ASSUMED_C), row.pour_temp_c + ASSUMED_C)


def odd(form: OfMetal) -> Iterable[str]:
    """Yield a remark on a pour temperature outside what is usual for the metal."""
    metal = METALS[form.metal]
    if form.pour_temp_c is not None and not metal.pour_c[0] <= form.pour_temp_c <= metal.pour_c[1]:
        yield (
            f"Pouring temperature: {form.pour_temp_c:g} °C is outside the usual {metal.pour_c[0]:g} to {metal.pour_c[1]:g} "
            f"°C for {metal.label}."
        )
