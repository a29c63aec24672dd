"""Liquid metals as they flow: surface tension, viscosity, and how brightly their surface radiates."""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.materials.metals import ALUMINIUM, COPPER


@dataclass(frozen=True, slots=True, kw_only=True)
class Liquid:
    """A liquid metal: surface tension in N/m, viscosity in mPa·s, emissivity of its usual surface and its range from clean to skinned over.

    The sources are keys: *tension_source*, *viscosity_source* and *emissivity_source*.
    """

    tension_n_m: float
    viscosity_mpa_s: float
    emissivity: float
    emissivities: tuple[float, float]
    tension_source: str
    viscosity_source: str
    emissivity_source: str


TENSION_SHARE = 0.3
"""How far a surface tension may be off, as a share of it (own choice): that of the pure metal is taken, and alloys have less."""

# fmt: off
_ROWS = (
    # metals, surface tension N/m, viscosity mPa·s, emissivity, its range, source of the emissivity
    (ALUMINIUM, 0.914, 1.1, 0.3, (0.1, 0.6), "emissivity_memory"),
    (COPPER, 1.30, 3.5, 0.4, (0.13, 0.7), "emissivity_tables"),
    (("zinc_al12",), 0.782, 3.5, 0.3, (0.1, 0.6), "emissivity_memory"),
    (("grey_iron",), 1.87, 4.96, 0.5, (0.2, 0.85), "emissivity_tables"),
)
# fmt: on
LIQUIDS = {
    metal: Liquid(
        tension_n_m=tension,
        viscosity_mpa_s=viscosity,
        emissivity=emissivity,
        emissivities=emissivities,
        tension_source="surface_tension_memory",
        viscosity_source="ghosh_mallik_gating" if metal == "grey_iron" else "viscosity_memory",
        emissivity_source=source,
    )
    for metals, tension, viscosity, emissivity, emissivities, source in _ROWS
    for metal in metals
}
"""The liquid metals by key. The low ends of copper alloys and iron are of molten metal, read; all upper ends are of a skin, from memory."""
