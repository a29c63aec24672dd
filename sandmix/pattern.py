"""From what was measured to the casting: plain bodies by their sizes, the mass of a pattern, shrink, and machining stock.

Symbols: V volume, A surface, s the patternmaker's shrink as a fraction: a pattern is 1 + s times as long as the casting that comes of it.
Stock of t all over adds about A t; sharp outer corners add a little more, and inner ones less. Source: geometry.
"""

from __future__ import annotations

import math
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
"""The patternmaker's shrink of each metal, % of length, as a band: iron, bronze, yellow brass and the upper end of aluminium as read
in *dooley* (0.78, 1.30, 1.82, 1.82), widened by what the trade says from memory; other alloys like their kin."""

WALLS_SHARE = (0.1, 0.5)
"""How much of what the infill leaves open the walls, floors and roofs of a small print take (own choice)."""

BODIES = {
    "block": "a block: length, width, height",
    "cylinder": "a cylinder that stands: width both ways, height",
    "ring": "a ring or tube that stands: outside both ways, height, and its bore",
    "ball": "a ball or egg: width three ways",
}
MEASURED = {
    "casting": "the casting, as it comes out of the sand",
    "part": "the finished part, machined",
    "pattern": "the pattern, shrink and stock on it",
}
DIRECTIONS = {
    "+z": "z, as most are drawn",
    "-z": "z, upside down",
    "+x": "x",
    "-x": "x, upside down",
    "+y": "y",
    "-y": "y, upside down",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """What a pattern is made of: a band of its density, in g/cm³, and whether it is printed and so hollow."""

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
    key: Material(key=key, label=label, density_g_cm3=band, printed=hollow) for key, label, band, hollow in _ROWS
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A plain body: volume, surface, outline from above, and the space over it up to the level of its top."""

    volume_cm3: float
    area_cm2: float
    outline_cm2: float
    column_cm3: float


def body(kind: str, length_mm: float, width_mm: float, height_mm: float, bore_mm: float = 0.0) -> Body:
    """Return a plain body by its sizes; the third of them stands up.

    A round that is wider one way is taken as an ellipse, its girth by Ramanujan's second formula and an egg's surface by Thomsen's, within 1.1 %.

    >>> round(body("ball", 90, 90, 90).volume_cm3, 2), body("block", 10, 20, 30).area_cm2
    (381.7, 22.0)
    """
    a, b, c = length_mm / 10, width_mm / 10, height_mm / 10
    if kind == "block":
        return Body(volume_cm3=a * b * c, area_cm2=2 * (a * b + b * c + c * a), outline_cm2=a * b, column_cm3=0.0)
    outline = math.pi * a * b / 4
    if kind == "ball":
        volume = outline * c * 2 / 3
        return Body(
            volume_cm3=volume, area_cm2=_egg_cm2(a, b, c), outline_cm2=outline, column_cm3=(outline * c - volume) / 2
        )
    hole = math.pi * (bore_mm / 10) ** 2 / 4 if kind == "ring" else 0.0
    around = _girth_cm(a, b) + (math.pi * bore_mm / 10 if hole else 0.0)
    return Body(
        volume_cm3=(outline - hole) * c,
        area_cm2=2 * (outline - hole) + around * c,
        outline_cm2=outline - hole,
        column_cm3=0.0,
    )


def _girth_cm(a: float, b: float) -> float:
    h = ((a - b) / (a + b)) ** 2
    return math.pi * (a + b) / 2 * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))


def _egg_cm2(a: float, b: float, c: float) -> float:
    p = 1.6075
    mean = ((a * b / 4) ** p + (a * c / 4) ** p + (b * c / 4) ** p) / 3
    return 4 * math.pi * math.pow(mean, 1 / p)


def solid_share(infill: float, walls: float) -> float:
    """Return the share of a print that is plastic, of its *infill* and the share that its *walls* take of the rest, fractions.

    >>> round(solid_share(0.2, 0.3), 2)
    0.44
    """
    return infill + (1 - infill) * walls


def with_stock(volume_cm3: float, area_cm2: float, box_mm: tuple[float, float, float], stock_mm: float) -> Body:
    """Return volume and surface of a body with *stock_mm* more all over, in cm³ and cm²; below 0 it is taken off.

    The volume by its surface, exact for a thin skin. The surface as a block's of that box or a ball's of that modulus, whichever grows less.
    """
    grown = volume_cm3 + area_cm2 * stock_mm / 10
    as_block = 8 * stock_mm / 10 * sum(box_mm) / 10
    as_ball = 2 * stock_mm / 10 * area_cm2**2 / (3 * volume_cm3)
    more = min(as_block, as_ball, key=abs)
    return Body(volume_cm3=grown, area_cm2=max(0.0, area_cm2 + more), outline_cm2=0.0, column_cm3=0.0)
