"""Sands, clays and metals: frozen records, each figure with the key of its source.

Published tables stand as rows in their own units. A blank is not known, and whoever uses it says what was taken instead.
"""

from __future__ import annotations

from dataclasses import dataclass

QUARTZ_KG_M3 = 2650.0
DRY_SAND_LOOSE_KG_M3 = 1442.0
BENTONITE_LOOSE_KG_M3 = 800.0
GRANULES_LOOSE_KG_M3 = 1000.0
RAMMED_KG_L = 1.55


@dataclass(frozen=True, slots=True, kw_only=True)
class Clay:
    """A clay as it is bought.

    ``activity_band_pct`` is the band of the live share of the dry product, in equivalents of sound foundry bentonite; its high end is
    what a mix starts from. ``tested_only`` marks a clay of which only a test can tell. ``limit_c`` is the temperature at which its
    bond is lost.
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
class Metal:
    """A casting metal, and how wet the sand may be under it (all three moistures as a share of wet mass, from memory)."""

    key: str
    label: str
    solid_kg_m3: float
    target_moisture_pct_wet: float
    amber_moisture_pct_wet: float
    red_moisture_pct_wet: float
    source: str


_LIGHT = (3.5, 4.5, 6.0)
_HEAVY = (3.1, 4.0, 5.25)
_METAL_ROWS = (
    ("aluminium", "aluminium, pure or scrap", 2700.0, _LIGHT, "memory"),
    ("al_si7mg", "aluminium Al-Si7Mg", 2680.0, _LIGHT, "alloy_data_sheets"),
    ("al_si12", "aluminium Al-Si12", 2650.0, _LIGHT, "alloy_data_sheets"),
    ("al_6061", "aluminium 6061 scrap", 2700.0, _LIGHT, "memory"),
    ("tin_bronze", "tin bronze", 8700.0, _HEAVY, "memory"),
    ("yellow_brass", "yellow brass", 8450.0, _HEAVY, "memory"),
    ("silicon_brass", "silicon brass", 8150.0, _HEAVY, "memory"),
    ("zinc_al12", "zinc alloy with 12 % aluminium", 6000.0, _LIGHT, "alloy_data_sheets"),
    ("grey_iron", "grey iron", 7200.0, _HEAVY, "memory"),
)
METALS = {
    key: Metal(
        key=key,
        label=label,
        solid_kg_m3=solid,
        target_moisture_pct_wet=moistures[0],
        amber_moisture_pct_wet=moistures[1],
        red_moisture_pct_wet=moistures[2],
        source=source,
    )
    for key, label, solid, moistures, source in _METAL_ROWS
}


def bulk_kg_m3(grain_kg_m3: float, void_ratio: float) -> float:
    """Return the bulk density of grains that leave *void_ratio* of empty volume per volume of grain.

    >>> round(bulk_kg_m3(2650, 0.91)), round(bulk_kg_m3(2650, 0.54))
    (1387, 1721)
    """
    return grain_kg_m3 / (1 + void_ratio)
