"""How a tin is rammed, for every job that takes its reading: whether its blows are those of the standard, and the fall that would match."""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.bench import measurements
from sandmix.language.wording import to_figures


@dataclass(frozen=True, slots=True, kw_only=True)
class Tin:
    """A rammer, its fall, and the tin that it rams."""

    rammer_kg: float
    rammer_fall_mm: float
    tin_diameter_mm: float

    @property
    def is_standard(self) -> bool:
        """Whether three blows give about the energy per area of the standard."""
        return measurements.rams_like_the_standard(self.rammer_kg, self.rammer_fall_mm, self.tin_diameter_mm)

    def is_like(self, other: Tin) -> bool:
        """Whether both give the same energy per area, as far as that counts."""
        energies = [
            measurements.ram_energy_kj_m2(tin.rammer_kg, tin.rammer_fall_mm, tin.tin_diameter_mm)
            for tin in (self, other)
        ]
        return abs(energies[0] / energies[1] - 1) <= measurements.LIKE_STANDARD + 1e-9

    @property
    def sentences(self) -> str:
        """The energy of the blows against the standard, and the fall that would match."""
        energy = measurements.ram_energy_kj_m2(self.rammer_kg, self.rammer_fall_mm, self.tin_diameter_mm)
        fall = measurements.matching_fall_mm(self.rammer_kg, self.tin_diameter_mm)
        return (
            f"Your three blows give {energy:.2f} kJ/m², and those of the standard rammer {measurements.STANDARD_RAM_KJ_M2:.2f} kJ/m². "
            f"A fall of {to_figures(fall, 3)} mm would match them."
        )


def tin_of(rammer_kg: float | None, rammer_fall_mm: float | None, tin_diameter_mm: float | None) -> Tin | None:
    """Return the tin, or None where one of its three figures is missing."""
    if rammer_kg is None or rammer_fall_mm is None or tin_diameter_mm is None:
        return None
    return Tin(rammer_kg=rammer_kg, rammer_fall_mm=rammer_fall_mm, tin_diameter_mm=tin_diameter_mm)
