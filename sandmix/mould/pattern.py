"""From what was measured to the casting: the mass of a pattern, shrink, and machining stock.

Symbols: V volume, A surface, s the patternmaker's shrink as a fraction: a pattern is 1 + s times as long as its casting.
Stock of t on every face adds about A t; sharp outer corners add a little more, and inner ones less. Source: geometry.
"""

from __future__ import annotations

from dataclasses import dataclass

SHRINK_PCT = {
    "aluminium": (1.4, 1.8),
    "al_si7mg": (1.1, 1.5),
    "al_si12": (1.1, 1.5),
    "al_6061": (1.3, 1.8),
    "tin_bronze": (1.3, 1.6),
    "yellow_brass": (1.5, 1.8),
    "silicon_brass": (1.3, 1.8),
    "zinc_al12": (1.1, 1.5),
    "grey_iron": (0.8, 1.0),
}
"""The patternmaker's shrink of each metal, % of length, as a band around the figures of *dooley* (iron 0.78, bronze 1.30, yellow brass and
aluminium 1.82), as far as the trade's other figures reach, and for other alloys like similar metals (shrink_bands, from memory). The band of
zinc lies around the figure of *alloy_za12* (1.3)."""

WALLS_SHARE = (0.1, 0.5)
"""Share of the space between the infill that the walls, floors and roofs of a small print fill (own choice)."""

MEASURED = {
    "casting": "the casting, as it comes out of the sand",
    "part": "the finished part, machined",
    "pattern": "the pattern, with shrink and stock",
}
DIRECTIONS = {
    "+z": "z, as most shapes are drawn",
    "-z": "z, upside down",
    "+x": "x",
    "-x": "x, upside down",
    "+y": "y",
    "-y": "y, upside down",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternMaterial:
    """What a pattern is made of: the range of its density, in g/cm³, and whether it is printed and so hollow."""

    key: str
    label: str
    density_g_cm3: tuple[float, float]
    printed: bool = False


_ROWS = (
    ("pla", "PLA, printed", (1.22, 1.26), True),
    ("petg", "PETG, printed", (1.25, 1.29), True),
    ("abs", "ABS, printed", (1.02, 1.06), True),
    ("pine", "pine, dry", (0.40, 0.60), False),
    ("hardwood", "hardwood, dry", (0.60, 0.80), False),
    ("mdf", "MDF", (0.68, 0.82), False),
    ("wax", "wax", (0.90, 0.97), False),
    ("plaster", "plaster, dry", (0.95, 1.25), False),
    ("aluminium", "aluminium", (2.65, 2.75), False),
    ("brass", "brass", (8.3, 8.6), False),
)
MATERIALS = {
    key: PatternMaterial(key=key, label=label, density_g_cm3=band, printed=hollow) for key, label, band, hollow in _ROWS
}
"""Every pattern material by its key. Source: print_densities for PLA and PETG, pattern_densities for the others."""


def solid_share(infill: float, walls: float) -> float:
    """Return the share of a print that is plastic, from its *infill* and the share of the rest that its *walls* fill; all are fractions.

    >>> round(solid_share(0.2, 0.3), 2)
    0.44
    """
    return infill + (1 - infill) * walls


def with_stock(
    volume_cm3: float, area_cm2: float, box_mm: tuple[float, float, float], stock_mm: float
) -> tuple[float, float]:
    """Return volume and surface of a body with *stock_mm* more on every face, in cm³ and cm²; negative stock is taken off.

    The volume is exact for a thin layer. The surface grows as that of a block of this box or of a ball of this modulus, whichever grows less.
    """
    grown = volume_cm3 + area_cm2 * stock_mm / 10
    as_block = 8 * stock_mm / 10 * sum(box_mm) / 10
    as_ball = 2 * stock_mm / 10 * area_cm2**2 / (3 * volume_cm3)
    more = min(as_block, as_ball, key=abs)
    return grown, max(0.0, area_cm2 + more)
