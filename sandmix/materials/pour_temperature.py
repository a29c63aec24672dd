"""The pour temperature, as every form that asks for it takes it: what is refused, what is odd, and what is taken where none is given."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from sandmix.language.errors import Problem
from sandmix.materials.metals import METALS

ASSUMED_C = 25.0


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


def too_cold(form: OfMetal) -> Iterable[Problem]:
    """Yield what is wrong with a pour temperature at which the metal is not all liquid."""
    metal = METALS[form.metal]
    if form.pour_temp_c is not None and form.pour_temp_c < metal.liquidus_c:
        yield form.wrong(
            "pour_temp_c",
            f"above {metal.liquidus_c:g} °C",
            (
                f"{form.pour_temp_c:g} °C is below {metal.liquidus_c:g} °C, where {metal.label} is all liquid. "
                f"It is poured at {metal.pour_c[0]:g} to {metal.pour_c[1]:g} °C. Look at the metal and the unit."
            ),
        )


def assumed(form: OfMetal) -> tuple[float, tuple[float, float]] | None:
    """Return the usual pour temperature of the form's metal and its band, in °C, where none is given."""
    if form.pour_temp_c is not None:
        return None
    metal = METALS[form.metal]
    return metal.pour_temp_c, (max(metal.liquidus_c, metal.pour_temp_c - ASSUMED_C), metal.pour_temp_c + ASSUMED_C)


def odd(form: OfMetal) -> Iterable[str]:
    """Yield a remark on a pour temperature outside what is usual for the metal."""
    metal = METALS[form.metal]
    if form.pour_temp_c is not None and not metal.pour_c[0] <= form.pour_temp_c <= metal.pour_c[1]:
        yield (
            f"Pouring temperature: {form.pour_temp_c:g} °C is outside the usual {metal.pour_c[0]:g} to {metal.pour_c[1]:g} "
            f"°C for {metal.label}."
        )
