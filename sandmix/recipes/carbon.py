"""Carbon in moulding sand, for iron and copper alloys: what gives the level, what a cast takes of it, and the carbon monoxide that it can give.

A level is counted by one of three gauges that are never mixed: seacoal (or as much of a substitute as has the same volatiles), volatiles, or loss on
ignition. With k the same measure of the additive itself, x kg of it bring 1 kg of dry sand from n to t by n + k x = t (1 + x).
Source: mass_balance; the figures of the additives have their own.
"""

from __future__ import annotations

from dataclasses import dataclass

SEACOAL, GILSONITE, ASPHALT, CELLULOSE = "seacoal", "gilsonite", "asphalt", "cellulose"
BY_SEACOAL, BY_VOLATILES, BY_LOSS = "seacoal", "volatiles", "loss_on_ignition"
VOLATILES_C = 482.0
"""The temperature of the usual test of volatiles. Source: carbon_substitutes."""
NEEDED_FOR = ("grey_iron", "tin_bronze", "yellow_brass", "silicon_brass")
"""The metals whose sand may need carbon; aluminium and zinc need none. Source: carbon_metals."""
IRON = "grey_iron"
MOLAR_C, MOLAR_CO, LITRES_PER_MOL = 12.011, 28.010, 24.06
"""g/mol of carbon and of carbon monoxide, and the volume of a gas at 20 °C and 1 atm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Additive:
    """An additive, dry: its volatiles and its loss on ignition as fractions, each with its band, and its moisture as bought.

    ``sources`` are keys of where they come from.
    """

    key: str
    label: str
    volatiles: float
    volatiles_band: tuple[float, float]
    loss: float
    loss_band: tuple[float, float]
    moisture: float
    sources: tuple[str, ...]


ADDITIVES = {
    row.key: row
    for row in (
        Additive(
            key=SEACOAL, label="seacoal (ground coal)", volatiles=0.24, volatiles_band=(0.15, 0.27), loss=0.89, loss_band=(0.80, 0.90),
            moisture=0.05, sources=("coal_data", "coal_at_482"),
        ),
        Additive(
            key=GILSONITE, label="gilsonite", volatiles=0.72, volatiles_band=(0.45, 0.81), loss=0.99, loss_band=(0.97, 1.0),
            moisture=0.0, sources=("carbon_substitutes", "additive_losses"),
        ),
        Additive(
            key=ASPHALT, label="ground asphalt", volatiles=0.72, volatiles_band=(0.45, 0.81), loss=0.98, loss_band=(0.95, 1.0),
            moisture=0.0, sources=("carbon_substitutes", "additive_losses"),
        ),
        Additive(
            key=CELLULOSE, label="cellulose (wood flour and the like)", volatiles=0.75, volatiles_band=(0.6, 0.9), loss=0.98, loss_band=(0.95, 1.0),
            moisture=0.08, sources=("additive_losses",),
        ),
    )
}  # fmt: skip


def strength(additive: Additive, gauge: str, volatiles: float, loss: float) -> float:
    """Return the measure of the dry *additive* itself by *gauge*, with its *volatiles* and its *loss* on ignition as fractions.

    >>> round(strength(ADDITIVES["gilsonite"], "seacoal", 0.72, 0.99), 9), strength(ADDITIVES["seacoal"], "loss_on_ignition", 0.24, 0.89)
    (3.0, 0.89)
    """
    if gauge == BY_SEACOAL:
        return 1.0 if additive.key == SEACOAL else volatiles / ADDITIVES[SEACOAL].volatiles
    return volatiles if gauge == BY_VOLATILES else loss


def dose(now: float, target: float, strong: float) -> float:
    """Return the dry additive, in kg per kg of dry sand, that brings the level from *now* to *target*; 0 where it is there, all as fractions.

    Holds for: a *target* below *strong*, the measure of the additive itself.

    >>> round(dose(0.01, 0.04, 1.0), 6)
    0.03125
    """
    return max(0.0, target - now) / (strong - target)


def burnt_kg(metal_kg: float, wear: float, level: float) -> float:
    """Return what a cast takes of something of which the sand holds the fraction *level*, in kg: that of *wear* kg of sand per kg of metal.

    Source: wear_factor for clay, carbon_wear for carbon carriers, both for iron.

    >>> round(burnt_kg(1000 / 3, 0.4, 0.08), 2)
    10.67
    """
    return metal_kg * wear * level


def carbon_monoxide_g(carbon_g: float) -> float:
    """Return the most carbon monoxide, in g, that *carbon_g* of carbon can give: 28.01/12.011 g each.

    >>> round(carbon_monoxide_g(1.0), 2)
    2.33
    """
    return carbon_g * MOLAR_CO / MOLAR_C


def carbon_monoxide_l(carbon_g: float) -> float:
    """Return the same in litres at 20 °C: 24.06/12.011 L for each gram of carbon.

    >>> round(carbon_monoxide_l(1.0), 1)
    2.0
    """
    return carbon_g * LITRES_PER_MOL / MOLAR_C
