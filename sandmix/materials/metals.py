"""Metals: the moisture limits of the sand, heat figures, and melting losses.

A heat figure that is not known is taken from a similar metal, and every answer that uses it says so.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from sandmix.materials.sands_and_clays import HEAT_START_C


@dataclass(frozen=True, slots=True, kw_only=True)
class Thermal:
    """The complete heat figures of a metal; ``borrowed`` names those taken from another metal (figure → that metal)."""

    key: str
    solid_kg_m3: float
    liquid_kg_m3: float
    solid_j_kgk: float
    liquid_j_kgk: float
    latent_j_kg: float
    solidus_c: float
    liquidus_c: float
    conductivity_w_mk: float
    borrowed: tuple[tuple[str, str], ...] = ()

    @property
    def to_solidus_j_kg(self) -> float:
        """Heat of the solid at its solidus, above 20 °C, in J/kg."""
        return self.solid_j_kgk * (self.solidus_c - HEAT_START_C)

    @property
    def to_liquidus_j_kg(self) -> float:
        """Heat of the liquid at its liquidus, above 20 °C, in J/kg; between solidus and liquidus: latent heat and the mean specific heat."""
        mean_j_kgk = (self.solid_j_kgk + self.liquid_j_kgk) / 2
        return self.to_solidus_j_kg + self.latent_j_kg + mean_j_kgk * (self.liquidus_c - self.solidus_c)

    def poured_j_kg(self, pour_temp_c: float) -> float:
        """Return the heat of the liquid at *pour_temp_c*, above 20 °C, in J/kg; holds above the liquidus.

        >>> round(thermal("aluminium").poured_j_kg(720.0) / 1000)
        1140
        """
        return self.to_liquidus_j_kg + self.liquid_j_kgk * (pour_temp_c - self.liquidus_c)


@dataclass(frozen=True, slots=True, kw_only=True)
class Metal:
    """A casting metal: the moisture limits of its sand (as a share of wet mass, from memory), and its heat figures.

    A heat figure that is None is not known: ``like`` names the metal it is taken from. ``pour_c`` is the usual range of pour temperatures
    and ``pour_temp_c`` the default (pour_temperatures; raji_2005 for the harm of hotter aluminium). ``source`` is that of the heat figures;
    ``from_memory`` names those for which no data sheet was read.
    """

    key: str
    label: str
    solid_kg_m3: float
    target_moisture_pct_wet: float
    amber_moisture_pct_wet: float
    red_moisture_pct_wet: float
    source: str
    liquid_kg_m3: float | None
    solid_j_kgk: float | None
    liquid_j_kgk: float | None
    latent_kj_kg: float | None
    solidus_c: float
    liquidus_c: float
    conductivity_w_mk: float | None
    pour_c: tuple[float, float]
    pour_temp_c: float
    like: str
    from_memory: tuple[str, ...]


_LIGHT = (3.5, 4.5, 6.0)
_HEAVY = (3.1, 4.0, 5.25)
_ALL = ("all of them",)
_METAL_ROWS = (
    ("aluminium", "aluminium, pure or scrap", _LIGHT, "memory", (680.0, 750.0), 720.0),
    ("al_si7mg", "aluminium Al-Si7Mg", _LIGHT, "alloy_356", (680.0, 750.0), 720.0),
    ("al_si12", "aluminium Al-Si12", _LIGHT, "alloy_lm6", (660.0, 740.0), 700.0),
    ("al_6061", "aluminium 6061 scrap", _LIGHT, "memory", (700.0, 760.0), 730.0),
    ("tin_bronze", "tin bronze", _HEAVY, "memory", (1100.0, 1200.0), 1150.0),
    ("yellow_brass", "yellow brass", _HEAVY, "memory", (1040.0, 1100.0), 1070.0),
    ("silicon_brass", "silicon brass", _HEAVY, "memory", (1000.0, 1100.0), 1040.0),
    ("zinc_al12", "zinc alloy with 12 % aluminium", _LIGHT, "alloy_za12", (480.0, 580.0), 530.0),
    ("grey_iron", "grey iron", _HEAVY, "memory", (1320.0, 1440.0), 1380.0),
)
# density kg/m³ solid, liquid; specific heat J/kgK solid, liquid; latent heat kJ/kg; solidus, liquidus °C; conductivity W/mK;
# the metal that unknown figures are taken from; the figures from memory
_HEAT_ROWS = {
    "aluminium": (2700.0, 2370.0, 1050.0, 1180.0, 397.0, 660.0, 660.0, 200.0, "", _ALL),
    "al_si7mg": (2680.0, 2430.0, 963.0, None, 389.0, 557.0, 613.0, 167.0, "aluminium", ("liquid density",)),
    "al_si12": (2650.0, None, None, None, None, 565.0, 575.0, None, "al_si7mg", ()),
    "al_6061": (2700.0, None, 896.0, None, 390.0, 582.0, 652.0, None, "al_si7mg", _ALL),
    "tin_bronze": (8700.0, 7950.0, 430.0, 480.0, 190.0, 880.0, 1000.0, 60.0, "", _ALL),
    "yellow_brass": (8450.0, 7700.0, 390.0, None, 165.0, 885.0, 900.0, None, "tin_bronze", _ALL),
    "silicon_brass": (
        8150.0,
        None,
        None,
        None,
        None,
        821.0,
        871.0,
        None,
        "yellow_brass",
        ("density", "freezing range"),
    ),
    "zinc_al12": (
        6000.0,
        5600.0,
        450.0,
        510.0,
        120.0,
        380.0,
        430.0,
        115.0,
        "",
        ("liquid density and heat", "conductivity"),
    ),
    "grey_iron": (7200.0, 6950.0, 750.0, 850.0, 230.0, 1150.0, 1200.0, 35.0, "", _ALL),
}
METALS = {
    key: Metal(
        key=key,
        label=label,
        solid_kg_m3=heat[0],
        target_moisture_pct_wet=moistures[0],
        amber_moisture_pct_wet=moistures[1],
        red_moisture_pct_wet=moistures[2],
        source=source,
        liquid_kg_m3=heat[1],
        solid_j_kgk=heat[2],
        liquid_j_kgk=heat[3],
        latent_kj_kg=heat[4],
        solidus_c=heat[5],
        liquidus_c=heat[6],
        conductivity_w_mk=heat[7],
        pour_c=pour_c,
        pour_temp_c=pour_temp_c,
        like=heat[8],
        from_memory=heat[9],
    )
    for key, label, moistures, source, pour_c, pour_temp_c in _METAL_ROWS
    for heat in (_HEAT_ROWS[key],)
}
HEAT_ENDS = {key: {"latent_j_kg": (389e3, 500e3), "liquid_j_kgk": (963.0, 1180.0)} for key in ("al_si7mg", "al_si12")}
"""The figures of heat on which sources disagree, in J/kg and J/kgK. Source: alloy_356 for the low ends, alloy_heat_ends for the high ones."""
_BORROWABLE = {
    "liquid_kg_m3": "liquid density",
    "solid_j_kgk": "solid specific heat",
    "liquid_j_kgk": "liquid specific heat",
    "latent_kj_kg": "latent heat",
    "conductivity_w_mk": "conductivity",
}


@cache
def thermal(key: str) -> Thermal:
    """Return the heat figures of the metal *key*, each blank filled from a similar metal, which is named.

    >>> thermal("al_si12").latent_j_kg, thermal("al_si12").borrowed[-2]
    (389000.0, ('latent heat', 'al_si7mg'))
    """
    metal = METALS[key]
    known: dict[str, float] = {}
    borrowed = []
    for name, figure in _BORROWABLE.items():
        similar = metal
        while getattr(similar, name) is None:
            similar = METALS[similar.like]
        known[name] = getattr(similar, name)
        if similar is not metal:
            borrowed.append((figure, similar.key))
    return Thermal(
        key=key,
        solid_kg_m3=metal.solid_kg_m3,
        liquid_kg_m3=known["liquid_kg_m3"],
        solid_j_kgk=known["solid_j_kgk"],
        liquid_j_kgk=known["liquid_j_kgk"],
        latent_j_kg=1000 * known["latent_kj_kg"],
        solidus_c=metal.solidus_c,
        liquidus_c=metal.liquidus_c,
        conductivity_w_mk=known["conductivity_w_mk"],
        borrowed=tuple(borrowed),
    )


LIQUID_DENSITY_SHARE = 0.03
"""How far a liquid density from memory may be off, as a share of it (own choice). None of them was read in a source."""


def liquid_density_ends(key: str) -> tuple[float, float]:
    """Return the lowest and the highest density that the liquid metal *key* may have, in kg/m³.

    >>> liquid_density_ends("aluminium")
    (2298.9, 2441.1)
    """
    density = thermal(key).liquid_kg_m3
    return density * (1 - LIQUID_DENSITY_SHARE), density * (1 + LIQUID_DENSITY_SHARE)


ALUMINIUM = ("aluminium", "al_si7mg", "al_si12", "al_6061")
COPPER = ("tin_bronze", "yellow_brass", "silicon_brass")
"""The alloys of aluminium and of copper."""
ZINC_FUMING = ("yellow_brass", "silicon_brass", "zinc_al12")
"""Metals that give off zinc fume. Source: practice."""
_FAMILIES = {
    "an aluminium alloy": ALUMINIUM,
    "a copper alloy": COPPER,
    "a zinc alloy": ("zinc_al12",),
    "iron": ("grey_iron",),
}


def family(key: str) -> str:
    """Return what the metal *key* is, in words: metals of one family can be melted together. Source: practice.

    >>> family("al_6061")
    'an aluminium alloy'
    """
    return next(name for name, keys in _FAMILIES.items() if key in keys)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scrap:
    """A kind of scrap, and its range of melting losses, in % of the charge (from memory)."""

    key: str
    label: str
    loss_pct: tuple[float, float]


SCRAPS = {
    key: Scrap(key=key, label=label, loss_pct=loss_pct)
    for key, label, loss_pct in (
        ("ingot", "ingots and old castings", (1.0, 2.0)),
        ("offcuts", "offcuts and bar ends", (2.0, 4.0)),
        ("turnings", "turnings and swarf", (8.0, 15.0)),
        ("cans", "cans and foil", (15.0, 30.0)),
    )
}
