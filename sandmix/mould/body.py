"""Plain bodies by their sizes: what they measure, the layer of sand around them, and the part above the parting.

`measures` measures a casting of one of `BODIES`, which stands upright and may be elliptic. What lies in a flask is a `Body` of one of `SHAPES`,
which may lie on its side; what is round has the mean of its sizes as its diameter.

Length and width are seen from above, height is upright. A cylinder stands on its end or lies along its length.
A convex body of volume V, area A and integral mean curvature M, together with all that is within t of it, has the volume
V + A t + M t² + 4/3 π t³. Holds for convex bodies; in a hollow the sand is counted twice, so the layer errs high there. Source: steiner.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

SHAPES = {
    "box": "a box, or anything flat-sided",
    "upright": "a cylinder standing on its end",
    "lying": "a cylinder lying along its length",
    "ball": "a ball",
}
BODIES = {
    "block": "a block: length, width, height",
    "cylinder": "a cylinder that stands: width both ways, height",
    "ring": "a ring or tube that stands: outside both ways, height, and its bore",
    "ball": "a ball or egg: width three ways",
}
ROUND_UNDERNEATH = ("lying", "ball")


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """One body by its shape (a key of `SHAPES`) and its three sizes in mm."""

    shape: str
    length_mm: float
    width_mm: float
    height_mm: float

    @property
    def across_mm(self) -> float:
        """The diameter of what is round: the mean of the sizes that should be equal. Of a box its width."""
        return sum(self._diameters_mm) / len(self._diameters_mm)

    @property
    def is_out_of_round(self) -> bool:
        """Whether a size that should be the diameter differs from it by more than 2 %."""
        return any(abs(size - self.across_mm) > self.across_mm / 50 for size in self._diameters_mm)

    @property
    def _diameters_mm(self) -> tuple[float, ...]:
        return {
            "upright": (self.length_mm, self.width_mm),
            "lying": (self.width_mm, self.height_mm),
            "ball": (self.length_mm, self.width_mm, self.height_mm),
        }.get(self.shape, (self.width_mm,))

    @property
    def _radius_mm(self) -> float:
        return self.across_mm / 2

    @property
    def _along_mm(self) -> float:
        """The length of the cylinder along its axis."""
        return self.height_mm if self.shape == "upright" else self.length_mm

    @property
    def volume_cm3(self) -> float:
        """Its volume, in cm³.

        >>> round(Body(shape="ball", length_mm=100, width_mm=100, height_mm=100).volume_cm3, 1)
        523.6
        """
        if self.shape == "box":
            return self.length_mm * self.width_mm * self.height_mm / 1000
        if self.shape == "ball":
            return 4 / 3 * math.pi * self._radius_mm**3 / 1000
        return math.pi * self._radius_mm**2 * self._along_mm / 1000

    @property
    def area_mm2(self) -> float:
        """Its whole surface, in mm²."""
        if self.shape == "box":
            a, b, c = self.length_mm, self.width_mm, self.height_mm
            return 2 * (a * b + b * c + c * a)
        if self.shape == "ball":
            return 4 * math.pi * self._radius_mm**2
        return 2 * math.pi * self._radius_mm * (self._radius_mm + self._along_mm)

    @property
    def curvature_mm(self) -> float:
        """M, its integral mean curvature, in mm: π times the sum of a box's sides, π (h + π r) of a cylinder, 4 π r of a ball."""
        if self.shape == "box":
            return math.pi * (self.length_mm + self.width_mm + self.height_mm)
        if self.shape == "ball":
            return 4 * math.pi * self._radius_mm
        return math.pi * (self._along_mm + math.pi * self._radius_mm)

    def layer_cm3(self, thick_mm: float) -> float:
        """Return the volume of a layer *thick_mm* all around it, in cm³: A t + M t² + 4/3 π t³. Source: steiner.

        >>> round(Body(shape="ball", length_mm=100, width_mm=100, height_mm=100).layer_cm3(20), 1)
        913.2
        """
        t = thick_mm
        return (self.area_mm2 * t + self.curvature_mm * t**2 + 4 / 3 * math.pi * t**3) / 1000

    @property
    def is_round_underneath(self) -> bool:
        """Whether it can be drawn only where it is parted at its middle."""
        return self.shape in ROUND_UNDERNEATH

    def undercut_cm2(self, parting_mm: float) -> float:
        """Return the projected area that holds it in the sand when it is parted *parting_mm* above its underside, in cm².

        0 for what has upright sides, and for what is round if it is parted at its middle.
        """
        if not self.is_round_underneath:
            return 0.0
        at_mm = self.across_mm * min(max(parting_mm / self.height_mm, 0.0), 1.0)
        held = self.projected_mm2 - self._section_mm2(at_mm)
        return held / 100 if held > self.projected_mm2 * 1e-9 else 0.0

    @property
    def projected_mm2(self) -> float:
        """Its projected area from above, in mm²."""
        if self.shape in ("upright", "ball"):
            return math.pi * self._radius_mm**2
        return self.length_mm * (self.width_mm if self.shape == "box" else self.across_mm)

    def _section_mm2(self, at_mm: float) -> float:
        """The level section through a round body, *at_mm* above its underside."""
        half_chord = math.sqrt(max(0.0, at_mm * (self.across_mm - at_mm)))
        return math.pi * half_chord**2 if self.shape == "ball" else 2 * half_chord * self.length_mm

    def above(self, parting_mm: float) -> tuple[float, float]:
        """Return projected area (mm²) and volume (mm³) of the part above a parting *parting_mm* over its underside.

        The volume of a ball parted at its middle is 2/3 π r³.
        """
        high = min(max(self.height_mm - parting_mm, 0.0), self.height_mm)
        if high <= 0:
            return self.projected_mm2, 0.0
        if not self.is_round_underneath:
            return self.projected_mm2, self.projected_mm2 * high
        r, cap = self._radius_mm, high / self.height_mm * self.across_mm
        area = self.projected_mm2 if cap >= r else self._section_mm2(self.across_mm - cap)
        if self.shape == "ball":
            return area, math.pi * cap**2 * (3 * r - cap) / 3
        angle = 2 * math.acos(min(1.0, max(-1.0, 1 - cap / r)))
        return area, self.length_mm * r**2 * (angle - math.sin(angle)) / 2

    def turned(self, up: str) -> Body:
        """Return the same body with another side upright: its ``height``, ``width`` or ``length``."""
        a, b, c = self.length_mm, self.width_mm, self.height_mm
        lying = {"height": (a, b, c), "width": (a, c, b), "length": (b, c, a)}[up]
        axis = {"box": "", "upright": "height", "lying": "length", "ball": ""}[self.shape]
        shape = self.shape
        if axis:
            shape = "upright" if axis == up else "lying"
            if shape == "lying" and axis == "height":
                lying = (c, *((b, a) if up == "length" else (a, b)))
        return Body(shape=shape, length_mm=lying[0], width_mm=lying[1], height_mm=lying[2])


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """What a body measures: volume, surface, projected area from above, and the space above it up to the level of its top."""

    volume_cm3: float
    area_cm2: float
    projected_cm2: float
    space_above_cm3: float


def measures(kind: str, length_mm: float, width_mm: float, height_mm: float, bore_mm: float = 0.0) -> Measures:
    """Return what a plain body measures; its third size is upright.

    What is wider one way is taken as an ellipse: its perimeter by Ramanujan's second formula, the surface of an egg by Thomsen's, within 1.1 %.

    >>> round(measures("ball", 90, 90, 90).volume_cm3, 2), measures("block", 10, 20, 30).area_cm2
    (381.7, 22.0)
    """
    a, b, c = length_mm / 10, width_mm / 10, height_mm / 10
    if kind == "block":
        return Measures(
            volume_cm3=a * b * c, area_cm2=2 * (a * b + b * c + c * a), projected_cm2=a * b, space_above_cm3=0.0
        )
    ellipse = math.pi * a * b / 4
    if kind == "ball":
        volume = ellipse * c * 2 / 3
        return Measures(
            volume_cm3=volume,
            area_cm2=_ellipsoid_cm2(a, b, c),
            projected_cm2=ellipse,
            space_above_cm3=(ellipse * c - volume) / 2,
        )
    hole = math.pi * (bore_mm / 10) ** 2 / 4 if kind == "ring" else 0.0
    perimeter = _perimeter_cm(a, b) + (math.pi * bore_mm / 10 if hole else 0.0)
    return Measures(
        volume_cm3=(ellipse - hole) * c,
        area_cm2=2 * (ellipse - hole) + perimeter * c,
        projected_cm2=ellipse - hole,
        space_above_cm3=0.0,
    )


def _perimeter_cm(a: float, b: float) -> float:
    h = ((a - b) / (a + b)) ** 2
    return math.pi * (a + b) / 2 * (1 + 3 * h / (10 + math.sqrt(4 - 3 * h)))


def _ellipsoid_cm2(a: float, b: float, c: float) -> float:
    p = 1.6075
    mean = ((a * b / 4) ** p + (a * c / 4) ** p + (b * c / 4) ** p) / 3
    return 4 * math.pi * math.pow(mean, 1 / p)
