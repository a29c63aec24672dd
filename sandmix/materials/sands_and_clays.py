"""Sands and clays as frozen records, each with the key of its source.

Published tables stand as rows in their own units. A blank means unknown; the code that meets one says what it used instead.
"""

from __future__ import annotations

from dataclasses import dataclass

QUARTZ_KG_M3 = 2650.0
"""Density of solid quartz. Source: quartz_density."""
DRY_SAND_LOOSE_KG_M3 = 1442.0
"""Source: bulk_density_table."""
BENTONITE_LOOSE_KG_M3 = 800.0
"""Source: bentonite_data_sheets."""
GRANULES_LOOSE_KG_M3 = 1000.0
"""Middle of 900 to 1100. Source: granules_data_sheet."""
RAMMED_KG_L = 1.55
"""Moulding sand as it lies. Source: bcira_specimen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Clay:
    """A clay as it is bought.

    ``activity_band_pct`` is the band of the live share of the dry product, in equivalents of sound foundry bentonite; its high end is
    what a mix starts from. ``tested_only`` marks a clay whose live share only a test can show. ``limit_c`` is the temperature at which it
    loses its bond.
    """

    key: str
    label: str
    loose_kg_m3: float
    activity_band_pct: tuple[float, float]
    tested_only: bool
    limit_c: float | None
    source: str


CLAYS = {
    clay.key: clay
    for clay in (
        Clay(
            key="sodium_bentonite",
            label="sodium bentonite powder",
            loose_kg_m3=BENTONITE_LOOSE_KG_M3,
            activity_band_pct=(95.0, 100.0),
            tested_only=False,
            limit_c=638.0,
            source="vingas_zrimsek_1964",
        ),
        Clay(
            key="calcium_bentonite",
            label="calcium bentonite powder",
            loose_kg_m3=BENTONITE_LOOSE_KG_M3,
            activity_band_pct=(95.0, 100.0),
            tested_only=False,
            limit_c=316.0,
            source="vingas_zrimsek_1964",
        ),
        Clay(
            key="clay_granules",
            label="ground clay granules",
            loose_kg_m3=GRANULES_LOOSE_KG_M3,
            activity_band_pct=(50.0, 85.0),
            tested_only=True,
            limit_c=None,
            source="granules_data_sheet",
        ),
    )
}


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatSand:
    """The heat properties of dry rammed sand: density, specific heat, conductivity."""

    key: str
    label: str
    density_kg_m3: float
    heat_j_kgk: float
    conductivity_w_mk: float
    source: str


HEAT_START_C = 20.0
SANDS_FOR_HEAT = {
    sand.key: sand
    for sand in (
        HeatSand(
            key="a",
            label="sand A: 1500 kg/m³, 0.61 W/mK",
            density_kg_m3=1500.0,
            heat_j_kgk=1130.0,
            conductivity_w_mk=0.61,
            source="flemings",
        ),
        HeatSand(
            key="b",
            label="sand B: 1600 kg/m³, 0.87 W/mK",
            density_kg_m3=1600.0,
            heat_j_kgk=1170.0,
            conductivity_w_mk=0.8655,
            source="ghosh_mallik",
        ),
        HeatSand(
            key="c",
            label="sand C: 1600 kg/m³, 0.60 W/mK",
            density_kg_m3=1600.0,
            heat_j_kgk=1050.0,
            conductivity_w_mk=0.60,
            source="memory",
        ),
    )
}


def bulk_kg_m3(grain_kg_m3: float, void_ratio: float) -> float:
    """Return the bulk density, in kg/m³, of grains with *void_ratio* of empty volume per volume of grain.

    >>> round(bulk_kg_m3(2650, 0.91)), round(bulk_kg_m3(2650, 0.54))
    (1387, 1721)
    """
    return grain_kg_m3 / (1 + void_ratio)
