"""The places of a shape where its casting freezes last: separate thick sections, each with its largest ball and its modulus.

A grid shows the peaks of the distance to the surface, and the ball of each peak is then found on the mesh itself. Two peaks belong to one section
if the ridge between them is almost as thick as the lower one. Sources: ray_casting; distance_transform; local_modulus.
"""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.mesh import rays, solid
from sandmix.mesh.facets import Facets
from sandmix.mesh.rays import Rays
from sandmix.mesh.solid import Solid
from sandmix.thickness.field import Field, Peak, inside
from sandmix.thickness.inscribed import TOLERANCE, Ball, climb
from sandmix.thickness.local_modulus import modulus
from sandmix.thickness.surface import Point, Surface
from sandmix.thickness.walls import thinnest

MOST_PLACES = 6
MOST_TRIED = 12
ONE_SECTION = 0.9
"""Two peaks are one section where the ridge between them is at least this share of the lower peak (own choice)."""
STANDS_OUT, OF_A_STEP = 0.08, 0.25
"""A peak of the grid is tried if it stands out from the ridge by this share of itself, and by this share of a step of the grid."""
AGREES = 1.5
"""Where a ball on the mesh is smaller than the grid's by more steps than this, and a face inside the metal stops it, the grid counts."""
_ONE_FACE, _OPPOSITE = 1e-6, 0.99
CLEARLY = 1.03
"""The middle of a section is named, unless the peak itself is thicker than there by more than this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HotPlace:
    """A thick section, in the unit and the axes of the file: the centre of its largest ball, the radius and its ±; its modulus.

    The modulus lies between a third of the radius, as in a ball, and the radius, as in a plate.
    """

    centre: Point
    radius: float
    radius_error: float
    modulus: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Thickness:
    """The hot places, the one that freezes last first; the thinnest wall, if it is known; and the step of the grid, which may miss thinner places.

    Along a section the ball may be up to 3 % larger than at the place that is named. ``by_the_grid`` says that the balls are known to a step of
    the grid only, because pieces overlap.
    """

    places: tuple[HotPlace, ...]
    thinnest: float | None
    step: float
    by_the_grid: bool


def thickness_of(shape: Solid) -> Thickness | None:
    """Return where the casting of a measured *shape* is thickest; None for a shape without a volume."""
    facets = shape.topology.facets
    if shape.volume is None or not shape.volume > 0:
        return None
    up = direction(facets.box)
    found = rays.cast(facets, shape.topology.shell_of, up, shape.area)
    if found is None:
        return None
    return _Searching(shape, facets, up, found).thickness()


def direction(box: tuple[float, float, float]) -> str:
    """Return the direction for the rays in which the *box* looks most like a square, so that no side is narrower than the rays are apart.

    >>> direction((200.0, 150.0, 6.0)), direction((900.0, 2.0, 2.0))
    ('+z', '+x')
    """
    x, y, z = box
    across = {"+z": (x, y), "+x": (y, z), "+y": (z, x)}
    return max(across, key=lambda up: min(across[up]) / max(across[up]) if max(across[up]) > 0 else 0.0)


class _Searching:
    """A shape with its rays, its grid and its surface."""

    def __init__(self, shape: Solid, facets: Facets, up: str, found: Rays) -> None:
        self.shape, self.up, self.rays = shape, up, found
        self.surface = Surface(facets, up)
        left, front, _ = self.surface.low
        tall = facets.box["xyz".index(up[1])]
        self.field = Field(found, left, front, tall, shape.volume or 0.0)
        self.step = max(self.field.side, self.field.rise)
        self.origin = facets.origin

    def thickness(self) -> Thickness | None:
        by_the_grid = self.shape.trust == solid.OVERLAPS
        places = [self._place(ball, coarse) for ball, coarse in self._balls(by_the_grid)]
        places.sort(key=lambda place: (-place.modulus, -place.radius))
        wall = None if by_the_grid else self._thinnest()
        if not places:
            return None
        if wall is not None:
            wall = min(wall, 2 * max(place.radius for place in places))
        return Thickness(places=tuple(places[:MOST_PLACES]), thinnest=wall, step=self.step, by_the_grid=by_the_grid)

    def _thinnest(self) -> float | None:
        """The thinnest wall; None where some shells face inwards and some outwards by mistake."""
        if self.shape.flipped not in (0, self.shape.shells):
            return None
        return thinnest(self.surface, -1 if self.shape.flipped else 1)

    def _balls(self, by_the_grid: bool) -> list[tuple[Ball, bool]]:
        """The largest ball of each separate section, and whether it is known from the grid only."""
        field = self.field
        peaks = field.peaks()
        tried = [at for at, peak in enumerate(peaks) if peak.parent < 0 or self._stands_out(peak)]
        kept: dict[int, tuple[Ball, bool]] = {}
        for at in tried[:MOST_TRIED]:
            peak = peaks[at]
            ball, coarse = self._ball(peak, by_the_grid)
            if peak.parent >= 0 and self._ridge(peak, coarse) >= ONE_SECTION * ball.radius:
                continue
            kept[at] = ball, coarse
        return list(kept.values())

    def _stands_out(self, peak: Peak) -> bool:
        return peak.value - peak.lowest > max(STANDS_OUT * peak.value, OF_A_STEP * self.step)

    def _ball(self, peak: Peak, by_the_grid: bool) -> tuple[Ball, bool]:
        """The largest ball of a peak, from the middle of its section, and whether it is known from the grid only."""
        field = self.field
        middle = field.middle_of(peak.place)
        if by_the_grid:
            return Ball(centre=field.place(middle), radius=field.values[middle]), True
        ball = climb(self.surface, field.place(middle), field.values[middle], self.step)
        if middle != peak.place:
            other = climb(self.surface, field.place(peak.place), peak.value, self.step)
            ball = other if other.radius > CLEARLY * ball.radius else ball
        if ball.radius < peak.value - AGREES * self.step and self._meets_a_face_inside(ball):
            return Ball(centre=field.place(peak.place), radius=peak.value), True
        return ball, False

    def _meets_a_face_inside(self, ball: Ball) -> bool:
        """Whether the facet that stops a ball lies on one that faces the other way, so that there is metal on both sides of it."""
        surface, facet = self.surface, ball.facet
        _, dx, dy, dz = surface.touching(facet, *ball.centre)
        x, y, z = ball.centre
        touch, close = (x + dx, y + dy, z + dz), _ONE_FACE * surface.size
        nx, ny, nz = surface.normal(facet)
        for other in (other for held in surface.within(*touch, close) for other in held):
            ox, oy, oz = surface.normal(other)
            if nx * ox + ny * oy + nz * oz < -_OPPOSITE and surface.touching(other, *touch)[0] <= close * close:
                return True
        return False

    def _ridge(self, peak: Peak, coarse: bool) -> float:
        """The radius of the ridge from a peak to a higher one, at its lowest."""
        if coarse:
            return peak.lowest
        return climb(self.surface, self.field.place(peak.saddle), peak.lowest, self.step, self.step).radius

    def _place(self, ball: Ball, coarse: bool) -> HotPlace:
        error = self.step if coarse else TOLERANCE * ball.radius + self.surface.error
        own = ball.radius / 2 if coarse else modulus(self.surface, ball, self._is_inside)
        return HotPlace(centre=self._in_the_file(ball.centre), radius=ball.radius, radius_error=error, modulus=own)

    def _is_inside(self, point: Point) -> bool:
        """Whether a point lies inside, by the nearest ray."""
        x, y, z = point
        field, found = self.field, self.rays
        column, row = int((x - field.left) // field.narrow), int((y - field.front) // field.narrow)
        if not (0 <= column < found.across and 0 <= row < len(found.crossings) // found.across):
            return False
        depth = (z - field.low) / found.step
        return any(low <= depth <= high for low, high in inside(found.crossings[row * found.across + column]))

    def _in_the_file(self, centre: Point) -> Point:
        """The point in the axes of the file."""
        right, ahead, high = centre
        own = {"z": (right, ahead, high), "x": (high, right, ahead), "y": (ahead, high, right)}[self.up[1]]
        x, y, z = (value + start for value, start in zip(own, self.origin, strict=True))
        return x, y, z
